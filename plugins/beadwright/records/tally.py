"""What the tables count from answers, learner after learner, so that no answer has to be kept."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from copy import copy
from dataclasses import dataclass, field

from beadwright.records.merging import Person
from beadwright.records.naming import find_slip
from beadwright.records.outline import LessonOutline, Outline
from beadwright.records.plain import clean_line
from beadwright.records.schema import Attempt
from beadwright.records.standing import Pace, find_week, list_right
from beadwright.records.statistics import Scores


@dataclass(slots=True)
class Count:
    """How many, and how many of them are right."""

    all: int = 0
    right: int = 0

    def add(self, is_right: bool) -> None:
        """Count one more."""
        self.all += 1
        self.right += is_right

    @property
    def share(self) -> float | None:
        """The share that is right; None of nothing."""
        return None if self.all == 0 else self.right / self.all


@dataclass(slots=True)
class Week:
    """What was answered in a week."""

    learners: int = 0
    answers: int = 0
    first: Count = field(default_factory=Count)
    pace: Pace = field(default_factory=Pace)


@dataclass(slots=True)
class Slips:
    """How often a slip happened, and to how many learners."""

    answers: int = 0
    learners: int = 0


@dataclass(slots=True)
class Group:
    """What those of a group answered."""

    pace: Pace = field(default_factory=Pace)
    slips: Counter[str] = field(default_factory=Counter)

    def add_all(self, other: Group) -> None:
        """Count what another has counted."""
        self.pace.add_all(other.pace)
        self.slips.update(other.slips)


class Tally:
    """Counts over learners. Those by lesson and item are of this edition; only `answers` and `retired` know others."""

    def __init__(self, outline: Outline) -> None:
        self._outline = outline
        self.answers = 0
        self.items: dict[tuple[str, str], Count] = defaultdict(Count)
        """First tries by lesson and item."""
        self.latest: dict[str, Count] = defaultdict(Count)
        """Latest tries by lesson."""
        self.paces: dict[str, Pace] = defaultdict(Pace)
        """By lesson."""
        self.complete: dict[str, Scores] = defaultdict(Scores)
        """By lesson the first tries, as 1 and 0, of those who tried every item of it."""
        self.weeks: dict[str, Week] = defaultdict(Week)
        """By their Mondays."""
        self.slips: dict[tuple[str, str, str], Slips] = defaultdict(Slips)
        """By lesson, technique and slip as `find_slip` has it."""
        self.groups: dict[str, Group] = defaultdict(Group)
        """By what learners typed."""
        self.retired: dict[tuple[str, str, str], Count] = defaultdict(Count)
        """Answers to items that this edition does not have, by edition, lesson and item."""

    def first(self, lesson: LessonOutline) -> Count:
        """First tries in a lesson."""
        counts = [self.items[lesson.id, item.id] for item in lesson.items]
        return Count(sum(count.all for count in counts), sum(count.right for count in counts))

    def join_groups(self, some: AbstractSet[str], name: str) -> Tally:
        """The same counts with these groups as one, of this name."""
        joined = copy(self)
        joined.groups = {group: told for group, told in self.groups.items() if group not in some}
        joined.groups[name] = Group()
        for group in some:
            joined.groups[name].add_all(self.groups[group])
        return joined

    def add(self, person: Person) -> None:
        """Count one learner."""
        self.answers += len(person.attempts)
        self._add_tries(person)
        self._add_group(person)
        graded = [attempt for attempt in person.attempts if attempt.right is not None]
        known = [attempt for attempt in graded if (attempt.lesson, attempt.item) in self._outline.items]
        for attempt in known:
            self.paces[attempt.lesson].add(attempt)
        self._add_weeks(person, known)
        self._add_slips(attempt for attempt in known if attempt.right is False)
        if len(known) < len(graded):
            for attempt in graded:
                if (attempt.lesson, attempt.item) not in self._outline.items:
                    key = (clean_line(attempt.edition), clean_line(attempt.lesson), clean_line(attempt.item))
                    self.retired[key].add(attempt.right is True)

    def _add_tries(self, person: Person) -> None:
        for lesson, item, right in list_right(person.first, self._outline):
            self.items[lesson, item].add(right)
        for lesson, _, right in list_right(person.latest, self._outline):
            self.latest[lesson].add(right)
        for told in self._outline.lessons:
            tries = person.first.get(told.id, {})
            # Nobody has tried every item who has tried fewer.
            if len(tries) >= len(told.items) and told.item_ids <= tries.keys():
                self.complete[told.id].add([int(tries[item.id].right is True) for item in told.items])

    def _add_group(self, person: Person) -> None:
        """Here time counts for answers that nothing grades too."""
        group = self.groups[person.who.group]
        for attempt in person.attempts:
            if (attempt.lesson, attempt.item) in self._outline.items:
                group.pace.add(attempt)
                if attempt.right is False and (slip := find_slip(attempt.slip)) != "none":
                    group.slips[slip] += 1

    def _add_weeks(self, person: Person, known: Sequence[Attempt]) -> None:
        seen: set[str] = set()
        for attempt in known:
            day = find_week(attempt.at[:10])
            if day is None:
                continue
            week = self.weeks[day]
            week.learners += day not in seen
            seen.add(day)
            week.answers += 1
            if person.first[attempt.lesson][attempt.item] is attempt:
                week.first.add(attempt.right is True)
            week.pace.add(attempt)

    def _add_slips(self, wrong: Iterable[Attempt]) -> None:
        own = Counter(self._name_slips(wrong))
        for key, answers in own.items():
            self.slips[key].answers += answers
            self.slips[key].learners += 1

    def _name_slips(self, wrong: Iterable[Attempt]) -> Iterator[tuple[str, str, str]]:
        for attempt in wrong:
            technique = self._outline.items[attempt.lesson, attempt.item].technique or "none"
            yield attempt.lesson, technique, find_slip(attempt.slip)
