"""Tables of people: who stands where, who finished what, how sure beside how right, and groups."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from statistics import median

from beadwright.records.naming import name_group, name_role, name_slip
from beadwright.records.outline import Outline
from beadwright.records.standing import LessonStanding, Standing, find_mean
from beadwright.records.tables import Cell, Column, Note, Picture, Table, Word, columns
from beadwright.records.tally import Count, Group, Tally

Label = Callable[[Standing], str]
"""What a learner is called in tables: the name, or a code."""

LEAST_ANSWERED = 10
"""With fewer answered items nobody is called sure but wrong."""


def build_learners(standings: Sequence[Standing], label: Label) -> Table:
    """One row a learner."""
    heads = columns("learner role group", finished="whole", done="whole", minutes="whole", answered="whole")
    shares = columns(first_right="share", latest_right="share", rate="number", before="number", after="number")
    rows = tuple(
        (
            label(one),
            name_role(one.who.role),
            name_group(one.who.group),
            [lesson.finished for lesson in one.lessons].count(True),
            len(one.done),
            round(one.minutes),
            one.answered,
            one.first_right,
            one.latest_right,
            one.rate,
            *one.sure,
            float(one.credit),
            one.last,
        )
        for one in standings
    )
    notes: tuple[Note, ...] = (("first_latest", {}), ("days", {}))
    return Table("learners", (*heads, *shares, *columns(hours="number"), *columns("last")), rows, notes)


def build_finished(standings: Sequence[Standing], outline: Outline, label: Label) -> Table:
    """One row a learner, one column a lesson: the minutes and how far, as `done`, `finished`, `passed`, `begun`."""
    lessons = tuple(Column(f"lesson-{lesson.id}", "text", lesson.title) for lesson in outline.lessons)
    rows = tuple((label(one), *(_tell(lesson) for lesson in one.lessons)) for one in standings)
    return Table("finished", (Column("learner"), *lessons), rows, (("done_means", {}),))


def _tell(lesson: LessonStanding) -> Cell:
    """A standing in words; nothing when the lesson was not begun."""
    if not lesson.begun:
        return None
    state = "begun"
    if lesson.done:
        state = "done"
    elif lesson.finished:
        state = "finished"
    elif lesson.passed:
        state = "passed"
    return _tell_state(state, round(lesson.minutes))


@lru_cache(maxsize=4096)
def _tell_state(state: str, minutes: int) -> Word:
    """One word for all who stand alike."""
    return Word("report.state", state, minutes)


def build_lessons(standings: Sequence[Standing], tally: Tally, outline: Outline) -> Table:
    """One row a lesson."""
    heads = columns("lesson", begun="whole", finished="whole", passed="whole", done="whole")
    times = columns(planned="whole", minutes="whole", first_right="share", latest_right="share", rate="number")
    picture = Picture("bars", ("lesson",), ("begun", "done"), top=float(len(standings)))
    return Table("lessons", (*heads, *times), tuple(_list_lessons(standings, tally, outline)), (), picture)


def _list_lessons(standings: Sequence[Standing], tally: Tally, outline: Outline) -> Iterator[tuple[Cell, ...]]:
    for number, lesson in enumerate(outline.lessons):
        own = [one.lessons[number] for one in standings]
        minutes = [standing.minutes for standing in own if standing.minutes > 0]
        yield (
            lesson.title,
            [standing.begun for standing in own].count(True),
            [standing.finished for standing in own].count(True),
            [standing.passed for standing in own].count(True),
            [standing.done for standing in own].count(True),
            lesson.minutes,
            round(median(minutes)) if len(minutes) > 0 else None,
            tally.first(lesson).share,
            tally.latest[lesson.id].share,
            tally.paces[lesson.id].rate,
        )


def build_sureness(standings: Sequence[Standing], outline: Outline, label: Label) -> Table:
    """How sure beside how right, for learners who rated themselves and answered enough; those to talk to first."""
    top, middle = len(outline.points) - 1, (len(outline.points) + 1) / 2
    rows: list[tuple[Cell, ...]] = []
    for one in standings:
        before, after = one.sure
        sure = before if after is None else after
        if sure is None or one.latest_right is None or one.answered < LEAST_ANSWERED:
            continue
        kind = "between"
        if sure >= top and one.latest_right < outline.pass_mark:
            kind = "sure-wrong"
        elif sure <= middle and one.latest_right >= outline.pass_mark:
            kind = "right-unsure"
        rows.append(
            (
                label(one),
                name_group(one.who.group),
                sure,
                one.latest_right,
                one.answered,
                Word("report.sureness", kind),
            )
        )
    order = ("sure-wrong", "right-unsure", "between")
    rows.sort(key=lambda row: order.index(row[5].name) if isinstance(row[5], Word) else len(order))
    heads = (*columns("learner group", sure="number", latest_right="share", answered="whole"), Column("kind"))
    notes: tuple[Note, ...] = (("sureness", {"top": top, "middle": f"{middle:g}", "least": LEAST_ANSWERED}),)
    picture = Picture(
        "spots", ("learner",), ("latest_right", "sure"), "kind", len(outline.points), (outline.pass_mark, middle)
    )
    return Table("sureness", heads, tuple(rows), notes, picture if len(rows) > 0 else None)


def build_groups(standings: Sequence[Standing], tallies: Mapping[str, Group]) -> Table:
    """One row a group as the learners typed it; those who typed none share a row."""
    groups: dict[str, list[Standing]] = defaultdict(list)
    for one in standings:
        groups[one.who.group].append(one)
    heads = columns("group", learners="whole", done="number", hours="number", minutes="whole")
    rest = (
        *columns(first_right="share", latest_right="share", met="share", rate="number", rise="number"),
        Column("commonest"),
    )
    rows = tuple(_tell_group(group, groups[group], tallies[group]) for group in sorted(groups, key=str.casefold))
    return Table("groups", (*heads, *rest), rows, (("groups", {}),))


def _tell_group(group: str, members: Sequence[Standing], tally: Group) -> tuple[Cell, ...]:
    met = Count()
    for state in (state for one in members for lesson in one.lessons for state in lesson.objectives.values()):
        if state != "open":
            met.add(state == "met")
    sure = [one.sure for one in members]
    rises = [after - before for before, after in sure if before is not None and after is not None]
    return (
        name_group(group),
        len(members),
        find_mean([len(one.done) for one in members]),
        find_mean([float(one.credit) for one in members]),
        round(median(one.minutes for one in members)),
        find_mean([one.first_right for one in members if one.first_right is not None]),
        find_mean([one.latest_right for one in members if one.latest_right is not None]),
        met.share,
        tally.pace.rate,
        find_mean(rises),
        _find_commonest(tally.slips),
    )


def _find_commonest(counts: Mapping[str, int]) -> Cell:
    return None if len(counts) == 0 else name_slip(min(counts, key=lambda slip: (-counts[slip], slip)))
