"""How learners stand: what each has finished, shown, answered, how fast and how sure. All by the rules of the pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from statistics import fmean

from beadwright.records.merging import Person, Tries
from beadwright.records.outline import LessonOutline, Outline, find_need
from beadwright.records.schema import Attempt


@dataclass(frozen=True, slots=True)
class LessonStanding:
    """One learner and one lesson. `objectives` has `met`, `short` or `open` by objective, as the pages judge it."""

    lesson: LessonOutline
    begun: bool
    finished: str | None
    minutes: float
    objectives: dict[str, str]
    passed: bool

    @property
    def done(self) -> bool:
        """Whether it counts: marked as finished and, where it has items that show objectives, all of them shown."""
        return self.finished is not None and (self.passed or len(self.objectives) == 0)


def judge_lesson(person: Person, lesson: LessonOutline, pass_mark: float) -> LessonStanding:
    """How a learner stands in a lesson; what an older edition saw passed stays passed."""
    mark = person.marks.get(lesson.id)
    tries = person.latest.get(lesson.id, {})
    if mark is None and len(tries) == 0:
        return _leave_untouched(lesson)
    objectives = {objective: _judge_objective(tries, items, pass_mark) for objective, items in lesson.shown_by.items()}
    shown = len(objectives) > 0 and all(state == "met" for state in objectives.values())
    return LessonStanding(
        lesson=lesson,
        begun=mark is not None or not lesson.item_ids.isdisjoint(tries),
        finished=None if mark is None else mark.finished,
        minutes=0 if mark is None else mark.minutes,
        objectives=objectives,
        passed=shown or (mark is not None and mark.passed),
    )


@lru_cache(maxsize=256)
def _leave_untouched(lesson: LessonOutline) -> LessonStanding:
    """The standing of everybody who has not begun a lesson, one value for all: most learners are in a few lessons."""
    objectives = dict.fromkeys(lesson.shown_by, "open")
    return LessonStanding(lesson, begun=False, finished=None, minutes=0, objectives=objectives, passed=False)


def _judge_objective(tries: Mapping[str, Attempt], items: Sequence[str], pass_mark: float) -> str:
    """The rule of record-core.js: the share of an objective's items that are right at the latest try."""
    right = [tries[item].right for item in items if item in tries]
    if right.count(True) >= find_need(len(items), pass_mark):
        return "met"
    return "short" if len(right) > 0 else "open"


@dataclass(frozen=True, eq=False)
class Standing:
    """One learner and the whole course. Accuracies are shares of the answered items of this edition, None of none."""

    person: Person
    lessons: tuple[LessonStanding, ...]
    answered: int
    first_right: float | None
    latest_right: float | None
    rate: float | None
    before: float | None
    after: float | None

    @property
    def minutes(self) -> float:
        """Minutes of work in all lessons of this edition."""
        return sum(lesson.minutes for lesson in self.lessons)

    @property
    def done(self) -> tuple[LessonOutline, ...]:
        """Lessons that count."""
        return tuple(standing.lesson for standing in self.lessons if standing.done)

    @property
    def credit(self) -> Decimal:
        """Hours of credit of the lessons that count."""
        return sum((lesson.credit for lesson in self.done if lesson.credit is not None), Decimal(0))


def build_standing(person: Person, outline: Outline) -> Standing:
    """How one learner stands."""
    first = [right for _, right in list_right(person.first, outline)]
    latest = [right for _, right in list_right(person.latest, outline)]
    before, after = find_ratings(person, outline)
    both = [item for item in before if item in after]
    return Standing(
        person=person,
        lessons=tuple(judge_lesson(person, lesson, outline.pass_mark) for lesson in outline.lessons),
        answered=len(latest),
        first_right=find_mean(first),
        latest_right=find_mean(latest),
        rate=find_rate(attempt for attempt in person.attempts if (attempt.lesson, attempt.item) in outline.items),
        before=find_mean([before[item] for item in (both or before)]),
        after=find_mean([after[item] for item in (both or after)]),
    )


def list_right(tries: Tries, outline: Outline) -> Iterator[tuple[str, bool]]:
    """The lesson of each of these attempts at an item of this edition, and whether it is right."""
    for lesson, attempts in tries.items():
        known = outline.item_ids.get(lesson, frozenset())
        for item, attempt in attempts.items():
            if item in known:
                yield lesson, attempt.right is True


def find_ratings(person: Person, outline: Outline) -> tuple[dict[str, float], dict[str, float]]:
    """By confidence item the first rating before and the last after; ratings on another scale do not count."""
    before: dict[str, float] = {}
    after: dict[str, float] = {}
    for rating in person.ratings:
        if rating.item not in outline.rated or rating.of != len(outline.points) or not 1 <= rating.value <= rating.of:
            continue
        if rating.when == "before":
            before.setdefault(rating.item, rating.value)
        elif rating.when == "after":
            after[rating.item] = rating.value
    return before, after


def find_rate(attempts: Iterable[Attempt]) -> float | None:
    """Right digits a minute over all answers whose time was measured; None where none was."""
    timed = [attempt for attempt in attempts if attempt.timed and attempt.seconds > 0]
    seconds = sum(attempt.seconds for attempt in timed)
    return None if seconds == 0 else 60 * sum(attempt.digits_right for attempt in timed) / seconds


def find_mean(values: Sequence[float]) -> float | None:
    """The mean; None of nothing."""
    return fmean(values) if len(values) > 0 else None
