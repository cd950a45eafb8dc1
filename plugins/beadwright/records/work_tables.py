"""Tables of the work: objectives shown, answers week by week, slips to teach again, answers to items that are gone."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import lru_cache

from beadwright.records.merging import Person
from beadwright.records.naming import name_slip
from beadwright.records.outline import Outline
from beadwright.records.plain import clean_line
from beadwright.records.schema import Attempt
from beadwright.records.standing import Standing, find_mean, find_rate
from beadwright.records.tables import Cell, Picture, Table, Word, columns

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


def list_attempts(people: Sequence[Person], outline: Outline) -> Iterator[tuple[Person, Attempt]]:
    """Every graded attempt at an item of this edition."""
    known = outline.item_ids
    for person in people:
        for attempt in person.attempts:
            if attempt.right is not None and attempt.item in known.get(attempt.lesson, ()):
                yield person, attempt


@lru_cache(maxsize=4096)
def find_week(day: str) -> str | None:
    """The Monday of the week that a day such as 2026-11-25 lies in; None for what is no day."""
    try:
        found = date.fromisoformat(day)
        return (found - timedelta(days=found.weekday())).isoformat()
    except (ValueError, OverflowError):
        return None


@dataclass
class _Week:
    """What was answered in a week."""

    learners: set[str] = field(default_factory=set)
    answers: int = 0
    first: list[bool] = field(default_factory=list)
    timed: list[Attempt] = field(default_factory=list)


def build_weeks(people: Sequence[Person], outline: Outline) -> Table:
    """One row a week in which somebody answered: accuracy at first tries, right digits a minute where time ran."""
    weeks: dict[str, _Week] = defaultdict(_Week)
    for person, attempt in list_attempts(people, outline):
        day = find_week(attempt.at[:10])
        if day is None:
            continue
        week = weeks[day]
        week.learners.add(person.id)
        week.answers += 1
        if person.first[attempt.lesson][attempt.item] is attempt:
            week.first.append(attempt.right is True)
        if attempt.timed and attempt.seconds > 0:
            week.timed.append(attempt)
    rows = tuple(_tell_week(day, weeks[day]) for day in sorted(weeks))
    heads = columns("week", learners="whole", answers="whole", first_tries="whole", first_right="share")
    picture = Picture("lines", ("week",), ("first_right",), top=1.0) if len(rows) > 1 else None
    return Table("weeks", (*heads, *columns(timed="whole", rate="number")), rows, (("weeks", {}),), picture)


def _tell_week(day: str, week: _Week) -> tuple[Cell, ...]:
    counts = (len(week.learners), week.answers, len(week.first), find_mean(week.first))
    return (day, *counts, len(week.timed), find_rate(week.timed))


def build_slips(people: Sequence[Person], outline: Outline) -> Table:
    """One row for each slip in each lesson and technique, the commonest first: what to teach again.

    `of_wrong` is the share of all wrong answers there; wrong answers that no usual slip explains have a row too.
    """
    found: Counter[tuple[str, str, str]] = Counter()
    wrong: Counter[tuple[str, str]] = Counter()
    who: dict[tuple[str, str, str], set[str]] = defaultdict(set)
    for person, attempt in list_attempts(people, outline):
        if attempt.right is False:
            technique = outline.items[attempt.lesson, attempt.item].technique or "none"
            key = (attempt.lesson, technique, attempt.slip or "none")
            found[key] += 1
            wrong[key[:2]] += 1
            who[key].add(person.id)
    order = sorted(found, key=lambda key: (key[2] == "none", -found[key], key))
    rows = tuple(
        (
            outline.titles[lesson],
            Word("report.technique", technique),
            name_slip(None if slip == "none" else slip),
            found[lesson, technique, slip],
            len(who[lesson, technique, slip]),
            found[lesson, technique, slip] / wrong[lesson, technique],
        )
        for lesson, technique, slip in order
    )
    heads = columns("lesson technique slip", answers="whole", learners="whole", of_wrong="share")
    return Table(
        "slips", heads, rows, (("slips", {}),), Picture("bars", ("lesson", "slip"), ("answers",)) if rows else None
    )


def build_retired(people: Sequence[Person], outline: Outline) -> Table:
    """Answers to items that this edition does not have: counted here, and in no other table."""
    counts: Counter[tuple[str, str, str]] = Counter()
    right: Counter[tuple[str, str, str]] = Counter()
    for person in people:
        for attempt in person.attempts:
            if attempt.right is not None and (attempt.lesson, attempt.item) not in outline.items:
                key = (clean_line(attempt.edition), clean_line(attempt.lesson), clean_line(attempt.item))
                counts[key] += 1
                right[key] += attempt.right
    rows = tuple((*key, counts[key], right[key] / counts[key]) for key in sorted(counts))
    return Table("retired", columns("edition lesson_id item", answers="whole", right="share"), rows)
