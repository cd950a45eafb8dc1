"""Tables of the work: objectives shown, answers week by week, slips to teach again, answers to items that are gone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from beadwright.records.naming import name_slip
from beadwright.records.outline import Outline
from beadwright.records.standing import Standing
from beadwright.records.tables import Cell, Picture, Table, Word, columns
from beadwright.records.tally import Tally, Week

PICTURED_SLIPS = 12


def build_objectives(standings: Sequence[Standing], outline: Outline) -> Table:
    """One row an objective: how many began it, how many have shown it."""
    rows: list[tuple[Cell, ...]] = []
    for number, lesson in enumerate(outline.lessons):
        for objective, text in lesson.objectives.items():
            if objective not in lesson.shown_by:
                rows.append((lesson.title, text, 0, None, None, None))
                continue
            states = [one.lessons[number].objectives[objective] for one in standings]
            met, begun = states.count("met"), len(states) - states.count("open")
            rows.append(
                (lesson.title, text, len(lesson.shown_by[objective]), begun, met, met / begun if begun else None)
            )
    heads = columns("lesson objective", items="whole", begun="whole", met="whole", rate_met="share")
    picture = Picture("bars", ("objective",), ("rate_met",), top=1.0)
    notes = (("objectives", {"mark": round(100 * outline.pass_mark)}),)
    return Table("objectives", heads, tuple(rows), notes, picture)


def build_weeks(tally: Tally) -> Table:
    """One row a week in which somebody answered: accuracy at first tries, right digits a minute where time ran."""
    rows = tuple(_tell_week(day, tally.weeks[day]) for day in sorted(tally.weeks))
    heads = columns("week", learners="whole", answers="whole", first_tries="whole", first_right="share")
    picture = Picture("lines", ("week",), ("first_right",), top=1.0) if len(rows) > 1 else None
    return Table(
        "weeks", (*heads, *columns(timed="whole", rate="number")), rows, (("weeks", {}), ("days", {})), picture
    )


def _tell_week(day: str, week: Week) -> tuple[Cell, ...]:
    counts = (week.learners, week.answers, week.first.all, week.first.share)
    return (day, *counts, week.pace.answers, week.pace.rate)


def build_slips(tally: Tally, outline: Outline) -> Table:
    """One row for each slip in each lesson and technique, the commonest first: what to teach again.

    `of_wrong` is the share of all wrong answers there; wrong answers that no usual slip explains have a row too.
    """
    found = tally.slips
    wrong: Counter[tuple[str, str]] = Counter()
    for (lesson, technique, _), slips in found.items():
        wrong[lesson, technique] += slips.answers
    order = sorted(found, key=lambda key: (key[2] == "none", -found[key].answers, key))
    rows = tuple(
        (
            outline.titles[lesson],
            Word("report.technique", technique),
            name_slip(slip),
            found[lesson, technique, slip].answers,
            found[lesson, technique, slip].learners,
            found[lesson, technique, slip].answers / wrong[lesson, technique],
        )
        for lesson, technique, slip in order
    )
    heads = columns("lesson technique slip", answers="whole", learners="whole", of_wrong="share")
    return Table(
        "slips", heads, rows, (("slips", {}),), Picture("bars", ("lesson", "slip"), ("answers",)) if rows else None
    )


def build_retired(tally: Tally) -> Table:
    """Answers to items that this edition does not have: counted here, and in no other table."""
    rows = tuple((*key, tally.retired[key].all, tally.retired[key].share) for key in sorted(tally.retired))
    return Table("retired", columns("edition lesson_id item", answers="whole", right="share"), rows)
