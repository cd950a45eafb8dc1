"""How learners stand: what each has finished, shown, answered, how fast and how sure. All by the rules of the pages."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal
from functools import lru_cache
from statistics import fmean

from beadwright.records.merging import Person, Tries, Who
from beadwright.records.outline import LessonOutline, Outline, find_need
from beadwright.records.plain import read_day
from beadwright.records.schema import Attempt


@dataclass(frozen=True, slots=True)
class LessonStanding:
    """One learner and one lesson. `objectives` has `met`, `short` or `open` by objective, as the pages judge it."""

    lesson: LessonOutline
    begun: bool
    finished: bool
    minutes: float
    objectives: Mapping[str, str]
    passed: bool

    @property
    def done(self) -> bool:
        """Whether it counts: marked as finished and, where it has items that show objectives, all of them shown."""
        return self.finished and (self.passed or len(self.objectives) == 0)


def judge_lesson(person: Person, lesson: LessonOutline, pass_mark: float) -> LessonStanding:
    """How a learner stands in a lesson; what an older edition saw passed stays passed."""
    mark = person.marks.get(lesson.id)
    tries = person.latest.get(lesson.id, {})
    if mark is None and len(tries) == 0:
        return _leave_untouched(lesson)
    states = tuple(_judge_objective(tries, items, pass_mark) for items in lesson.shown_by.values())
    shown = len(states) > 0 and all(state == "met" for state in states)
    return LessonStanding(
        lesson=lesson,
        begun=mark is not None or not lesson.item_ids.isdisjoint(tries),
        finished=mark is not None and mark.finished is not None,
        minutes=0 if mark is None else mark.minutes,
        objectives=_name_states(lesson, states),
        passed=shown or (mark is not None and mark.passed),
    )


@lru_cache(maxsize=4096)
def _name_states(lesson: LessonOutline, states: tuple[str, ...]) -> Mapping[str, str]:
    """States by objective, one value for all learners who stand alike."""
    return dict(zip(lesson.shown_by, states, strict=True))


@lru_cache(maxsize=256)
def _leave_untouched(lesson: LessonOutline) -> LessonStanding:
    """The standing of everybody who has not begun a lesson, one value for all: most learners are in a few lessons."""
    objectives = _name_states(lesson, ("open",) * len(lesson.shown_by))
    return LessonStanding(lesson, begun=False, finished=False, minutes=0, objectives=objectives, passed=False)


def _judge_objective(tries: Mapping[str, Attempt], items: Sequence[str], pass_mark: float) -> str:
    """The rule of record-core.js: the share of an objective's items that are right at the latest try."""
    right = [tries[item].right for item in items if item in tries]
    if right.count(True) >= find_need(len(items), pass_mark):
        return "met"
    return "short" if len(right) > 0 else "open"


Ratings = Mapping[str, float]
"""Points by confidence item."""


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """One learner and the whole course. Accuracies are shares of the answered items of this edition, None of none."""

    who: Who
    lessons: tuple[LessonStanding, ...]
    answered: int
    first_right: float | None
    latest_right: float | None
    rate: float | None
    rated: tuple[Ratings, Ratings]
    """By confidence item the first rating before and the last after."""
    last: str | None
    """The day of the last answer."""
    clashes: int

    @property
    def sure(self) -> tuple[float | None, float | None]:
        """Mean ratings before and after, of the items rated both times where there are any."""
        before, after = self.rated
        both = [item for item in before if item in after]
        return find_mean([before[item] for item in (both or before)]), find_mean(
            [after[item] for item in (both or after)]
        )

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
    first = [right for _, _, right in list_right(person.first, outline)]
    latest = [right for _, _, right in list_right(person.latest, outline)]
    pace = Pace()
    for attempt in person.attempts:
        if (attempt.lesson, attempt.item) in outline.items:
            pace.add(attempt)
    return Standing(
        who=person.who,
        lessons=tuple(judge_lesson(person, lesson, outline.pass_mark) for lesson in outline.lessons),
        answered=len(latest),
        first_right=find_mean(first),
        latest_right=find_mean(latest),
        rate=pace.rate,
        rated=find_ratings(person, outline),
        last=max((day for a in person.attempts if find_week(day := a.at[:10]) is not None), default=None),
        clashes=person.clashes,
    )


def list_right(tries: Tries, outline: Outline) -> Iterator[tuple[str, str, bool]]:
    """Lesson and item of each of these attempts at an item of this edition, and whether it is right."""
    for lesson, attempts in tries.items():
        known = outline.item_ids.get(lesson, frozenset())
        for item, attempt in attempts.items():
            if item in known:
                yield lesson, item, attempt.right is True


def find_ratings(person: Person, outline: Outline) -> tuple[Ratings, Ratings]:
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


_FINEST = 2**60


class Pace:
    """Right digits a minute over answers whose time was measured.

    Sums are whole numbers of small parts of a second, so the order in which answers are added changes nothing.
    """

    __slots__ = ("_digits", "_seconds", "answers")

    def __init__(self) -> None:
        self.answers = self._digits = self._seconds = 0

    def add(self, attempt: Attempt) -> None:
        """Count an answer if time ran."""
        if attempt.timed and attempt.seconds > 0:
            self.answers += 1
            self._digits += int(attempt.digits_right * _FINEST)
            self._seconds += int(attempt.seconds * _FINEST)

    def add_all(self, other: Pace) -> None:
        """Count what another has counted."""
        self.answers += other.answers
        self._digits += other._digits
        self._seconds += other._seconds

    @property
    def rate(self) -> float | None:
        """None where no time was measured."""
        return None if self._seconds == 0 else 60 * self._digits / self._seconds


@lru_cache(maxsize=4096)
def find_week(day: str) -> str | None:
    """The Monday of the week that a day such as 2026-11-25 lies in; None for what is no day."""
    found = read_day(day)
    try:
        return None if found is None else (found - timedelta(days=found.weekday())).isoformat()
    except OverflowError:  # the first days of the first year
        return None


def find_mean(values: Sequence[float]) -> float | None:
    """The mean; None of nothing."""
    return fmean(values) if len(values) > 0 else None
