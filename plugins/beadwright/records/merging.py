"""Records -> a learner: several files of one person become one.

By the rule of the pages: records are joined by learner id, attempts by attempt id.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from beadwright.records.plain import clean_line
from beadwright.records.schema import Attempt, Mark, Rating, Record

Tries = Mapping[str, Mapping[str, Attempt]]
"""One attempt an item, by lesson and then by item."""


@dataclass(frozen=True, slots=True)
class Who:
    """Who a learner is."""

    id: str
    name: str
    role: str
    group: str


@dataclass(frozen=True, eq=False)
class Person:
    """One learner: everything from all files with this id, attempts and ratings in order of time."""

    who: Who
    attempts: tuple[Attempt, ...]
    marks: Mapping[str, Mark]
    ratings: tuple[Rating, ...]
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


def merge_person(files: Sequence[tuple[str, Record]]) -> Person:
    """What all files of one learner say; each record stands beside the name of its file."""
    records = [record for _, record in sorted(files, key=lambda pair: (pair[1].saved, pair[0]))]
    attempts: dict[str, Attempt] = {}
    clashes = 0
    for record in records:
        for attempt in record.attempts:
            known = attempts.setdefault(attempt.id, attempt)
            clashes += known is not attempt and known != attempt
    ratings = {(r.when, r.item, r.at): r for record in records for r in record.ratings}
    return Person(
        who=Who(
            id=records[0].learner.id,
            name=_find_last(record.learner.name for record in records),
            role=_find_last(record.learner.role for record in records),
            group=_find_last(record.learner.group for record in records),
        ),
        attempts=tuple(sorted(attempts.values(), key=lambda attempt: (attempt.at, attempt.id))),
        marks=_merge_marks(mark for record in records for mark in record.lessons),
        ratings=tuple(sorted(ratings.values(), key=lambda rating: rating.at)),
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
