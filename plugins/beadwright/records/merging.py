"""Records -> learners: several files of one person become one, and two people never become one.

By the rule of the pages: records are joined by learner id, attempts by attempt id; a name that two ids carry is two
people, reported.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from beadwright.records.plain import clean_line
from beadwright.records.schema import Attempt, Mark, Rating, Record

Tries = Mapping[str, Mapping[str, Attempt]]
"""One attempt an item, by lesson and then by item."""


@dataclass(frozen=True, eq=False)
class Person:
    """One learner: everything from all files with this id, attempts and ratings in order of time."""

    id: str
    name: str
    role: str
    group: str
    attempts: tuple[Attempt, ...]
    marks: Mapping[str, Mark]
    ratings: tuple[Rating, ...]
    files: tuple[str, ...]
    clashes: int
    """Answers that stand in two of the files and differ; the one of the file saved first counts."""

    @cached_property
    def latest(self) -> Tries:
        """The latest graded attempt at each item."""
        return _pick_last(self.attempts)

    @cached_property
    def first(self) -> Tries:
        """The first graded attempt at each item."""
        return _pick_last(reversed(self.attempts))


@dataclass(frozen=True, slots=True)
class Cohort:
    """All learners in order of name, and what a trainer should look at before trusting the numbers."""

    people: tuple[Person, ...]
    same_names: tuple[tuple[str, int], ...]
    """Names that several learner ids carry, and how many."""
    shared: tuple[tuple[str, str, int], ...]
    """Pairs of learner ids whose records hold the same answers, and how many: one has loaded the other's file."""


def merge_records(records: Iterable[tuple[str, Record]]) -> Cohort:
    """All files' records as learners."""
    by_id: dict[str, list[tuple[str, Record]]] = defaultdict(list)
    for name, record in records:
        by_id[record.learner.id].append((name, record))
    people = [_merge_person(learner, files) for learner, files in by_id.items()]
    people.sort(key=lambda person: (person.name.casefold(), person.id))
    return Cohort(tuple(people), _find_same_names(people), _find_shared(people))


def _merge_person(learner: str, files: list[tuple[str, Record]]) -> Person:
    files.sort(key=lambda pair: (pair[1].saved, pair[0]))
    records = [record for _, record in files]
    attempts: dict[str, Attempt] = {}
    clashes = 0
    for record in records:
        for attempt in record.attempts:
            known = attempts.setdefault(attempt.id, attempt)
            clashes += known is not attempt and known != attempt
    ratings = {(r.when, r.item, r.at): r for record in records for r in record.ratings}
    return Person(
        id=learner,
        name=_find_last(record.learner.name for record in records),
        role=_find_last(record.learner.role for record in records),
        group=_find_last(record.learner.group for record in records),
        attempts=tuple(sorted(attempts.values(), key=lambda attempt: (attempt.at, attempt.id))),
        marks=_merge_marks(mark for record in records for mark in record.lessons),
        ratings=tuple(sorted(ratings.values(), key=lambda rating: rating.at)),
        files=tuple(name for name, _ in files),
        clashes=clashes,
    )


def _pick_last(attempts: Iterable[Attempt]) -> Tries:
    """Of these attempts the last graded one at each item."""
    picked: dict[str, dict[str, Attempt]] = {}
    for attempt in attempts:
        if attempt.right is not None:
            picked.setdefault(attempt.lesson, {})[attempt.item] = attempt
    return picked


def _find_last(texts: Iterable[str]) -> str:
    """The last text that is not empty, as one clean line: a name typed later replaces an earlier one."""
    cleaned = [clean_line(text) for text in texts]
    return next((text for text in reversed(cleaned) if text != ""), "")


def _merge_marks(marks: Iterable[Mark]) -> dict[str, Mark]:
    """One mark a lesson: the latest end, the most minutes, passed if it ever was; minutes of copies are not summed."""
    merged: dict[str, Mark] = {}
    for mark in marks:
        known = merged.get(mark.lesson)
        if known is None:
            merged[mark.lesson] = mark
            continue
        ends = [end for end in (known.finished, mark.finished) if end is not None]
        merged[mark.lesson] = Mark(
            lesson=mark.lesson,
            finished=max(ends, default=None),
            minutes=max(known.minutes, mark.minutes),
            passed=known.passed or mark.passed,
        )
    return merged


def _find_same_names(people: Sequence[Person]) -> tuple[tuple[str, int], ...]:
    counts: dict[str, list[str]] = defaultdict(list)
    for person in people:
        if person.name != "":
            counts[" ".join(person.name.casefold().split())].append(person.name)
    return tuple((names[0], len(names)) for names in counts.values() if len(names) > 1)


def _find_shared(people: Sequence[Person]) -> tuple[tuple[str, str, int], ...]:
    owners: dict[str, str] = {}
    pairs: dict[tuple[str, str], int] = defaultdict(int)
    for person in people:
        for attempt in person.attempts:
            owner = owners.setdefault(attempt.id, person.id)
            if owner != person.id:
                pairs[owner, person.id] += 1
    return tuple((one, other, count) for (one, other), count in pairs.items())
