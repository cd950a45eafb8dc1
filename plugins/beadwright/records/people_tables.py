"""Tables of people: who stands where, who finished what, how sure beside how right, and groups."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from statistics import median

from beadwright.records.naming import name_group, name_role, name_slip
from beadwright.records.outline import Outline
from beadwright.records.schema import Attempt
from beadwright.records.standing import LessonStanding, Standing, find_mean, find_rate, list_right
from beadwright.records.tables import Cell, Column, Note, Picture, Table, Word, columns
from beadwright.records.work_tables import find_week, list_attempts

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
            name_role(one.person.role),
            name_group(one.person.group),
            [lesson.finished is not None for lesson in one.lessons].count(True),
            len(one.done),
            round(one.minutes),
            one.answered,
            one.first_right,
            one.latest_right,
            one.rate,
            one.before,
            one.after,
            float(one.credit),
            max((day for a in one.person.attempts if find_week(day := a.at[:10]) is not None), default=None),
        )
        for one in standings
    )
    return Table(
        "learners", (*heads, *shares, *columns(hours="number"), *columns("last")), rows, (("first_latest", {}),)
    )


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
    elif lesson.finished is not None:
        state = "finished"
    elif lesson.passed:
        state = "passed"
    return Word("report.state", state, round(lesson.minutes))


def build_lessons(standings: Sequence[Standing], outline: Outline) -> Table:
    """One row a lesson."""
    heads = columns("lesson", begun="whole", finished="whole", passed="whole", done="whole")
    times = columns(planned="whole", minutes="whole", first_right="share", latest_right="share", rate="number")
    picture = Picture("bars", ("lesson",), ("begun", "done"), top=float(len(standings)))
    return Table("lessons", (*heads, *times), tuple(_list_lessons(standings, outline)), (), picture)


def _list_lessons(standings: Sequence[Standing], outline: Outline) -> Iterator[tuple[Cell, ...]]:
    people = [one.person for one in standings]
    timed: dict[str, list[Attempt]] = defaultdict(list)
    for _, attempt in list_attempts(people, outline):
        if attempt.timed:
            timed[attempt.lesson].append(attempt)
    first = _sort_by_lesson(list_right(person.first, outline) for person in people)
    latest = _sort_by_lesson(list_right(person.latest, outline) for person in people)
    for number, lesson in enumerate(outline.lessons):
        own = [one.lessons[number] for one in standings]
        minutes = [standing.minutes for standing in own if standing.minutes > 0]
        yield (
            lesson.title,
            [standing.begun for standing in own].count(True),
            [standing.finished is not None for standing in own].count(True),
            [standing.passed for standing in own].count(True),
            [standing.done for standing in own].count(True),
            lesson.minutes,
            round(median(minutes)) if len(minutes) > 0 else None,
            find_mean(first[lesson.id]),
            find_mean(latest[lesson.id]),
            find_rate(timed[lesson.id]),
        )


def _sort_by_lesson(told: Iterable[Iterable[tuple[str, bool]]]) -> Mapping[str, list[bool]]:
    found: dict[str, list[bool]] = defaultdict(list)
    for own in told:
        for lesson, right in own:
            found[lesson].append(right)
    return found


def build_sureness(standings: Sequence[Standing], outline: Outline, label: Label) -> Table:
    """How sure beside how right, for learners who rated themselves and answered enough; those to talk to first."""
    top, middle = len(outline.points) - 1, (len(outline.points) + 1) / 2
    rows: list[tuple[Cell, ...]] = []
    for one in standings:
        sure = one.before if one.after is None else one.after
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
                name_group(one.person.group),
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


def build_groups(standings: Sequence[Standing], outline: Outline) -> Table:
    """One row a group as the learners typed it; those who typed none share a row."""
    groups: dict[str, list[Standing]] = defaultdict(list)
    for one in standings:
        groups[one.person.group].append(one)
    heads = columns("group", learners="whole", done="number", hours="number", minutes="whole")
    rest = (
        *columns(first_right="share", latest_right="share", met="share", rate="number", rise="number"),
        Column("commonest"),
    )
    rows = tuple(_tell_group(group, groups[group], outline) for group in sorted(groups, key=str.casefold))
    return Table("groups", (*heads, *rest), rows, (("groups", {}),))


def _tell_group(group: str, members: Sequence[Standing], outline: Outline) -> tuple[Cell, ...]:
    states = [state for one in members for lesson in one.lessons for state in lesson.objectives.values()]
    begun = [state for state in states if state != "open"]
    rises = [one.after - one.before for one in members if one.before is not None and one.after is not None]
    attempts = [a for one in members for a in one.person.attempts if (a.lesson, a.item) in outline.items]
    return (
        name_group(group),
        len(members),
        find_mean([len(one.done) for one in members]),
        find_mean([float(one.credit) for one in members]),
        round(median(one.minutes for one in members)),
        find_mean([one.first_right for one in members if one.first_right is not None]),
        find_mean([one.latest_right for one in members if one.latest_right is not None]),
        find_mean([state == "met" for state in begun]),
        find_rate(attempts),
        find_mean(rises),
        _find_commonest(attempt.slip for attempt in attempts if attempt.right is False),
    )


def _find_commonest(slips: Iterable[str | None]) -> Cell:
    counts = Counter(slip for slip in slips if slip is not None)
    return None if len(counts) == 0 else name_slip(min(counts, key=lambda slip: (-counts[slip], slip)))
