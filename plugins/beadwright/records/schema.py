"""A learner's record as a file: the shape of `beadwright/record/1`, strict and bounded.

The pages write it; a file may come from anybody. Every text has a greatest length and every list a greatest number of
entries, no value is turned into another type, and keys that are unknown are left unread.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import ConfigDict, Field, TypeAdapter
from pydantic.dataclasses import dataclass

SCHEMA = "beadwright/record/1"
MOST_BYTES = 32 * 1024 * 1024
"""A file beyond this is set aside unread; 50,000 answers take about 20 MB."""
MOST_ATTEMPTS = 50_000
"""As in the pages."""
MOST_MARKS = 5_000
MOST_RATINGS = 20_000

_STRICT = ConfigDict(strict=True, extra="ignore", allow_inf_nan=False)

Name = Annotated[str, Field(min_length=1, max_length=200)]
"""A lasting name: of a learner, an attempt, a lesson, an item."""
Word = Annotated[str, Field(max_length=200)]
Text = Annotated[str, Field(max_length=4_000)]
Time = Annotated[str, Field(max_length=40)]
"""A time as the pages write it, `2026-11-25T10:00:00.000Z`; times in this form stand in order as texts."""
Amount = Annotated[float, Field(ge=0, le=1e7)]


@dataclass(frozen=True, slots=True, config=_STRICT)
class Attempt:
    """One answer to one item. `right` is None where nothing is graded.

    `seconds` count where time was measured: they are this try's alone, and those of all tries together the time worked.
    One that names no lesson or no item, as the pages keep it from a damaged file, is at an item that does not exist.
    """

    id: Name
    lesson: Word
    item: Word
    ask: Word
    right: bool | None
    at: Time
    edition: Word = ""
    objective: Word | None = None
    problem: Text = ""
    slip: Word | None = None
    hints: Amount = 0
    timed: bool = False
    digits_right: Amount = 0
    seconds: Amount = 0


@dataclass(frozen=True, slots=True, config=_STRICT)
class Mark:
    """How far a learner is with one lesson: when it was marked as finished, minutes of work, all objectives shown."""

    lesson: Name
    finished: Time | None = None
    minutes: Amount = 0
    passed: bool = False


@dataclass(frozen=True, slots=True, config=_STRICT)
class Rating:
    """How sure a learner was of one thing: `value` of `of` points, before or after."""

    when: Word
    item: Name
    value: Annotated[float, Field(ge=0, le=100)]
    of: Annotated[float, Field(ge=0, le=100)]
    at: Time = ""


@dataclass(frozen=True, slots=True, config=_STRICT)
class Learner:
    """Whose record it is. The name is what was typed; the id was made once, at random, by the browser."""

    id: Name
    name: Text = ""
    role: Word = ""
    group: Text = ""


@dataclass(frozen=True, slots=True, config=_STRICT)
class CourseMark:
    """The course that a record belongs to."""

    id: Word


@dataclass(frozen=True, slots=True, config=_STRICT)
class Record:
    """One file's whole record."""

    schema: Word
    course: CourseMark
    learner: Learner
    attempts: Annotated[tuple[Attempt, ...], Field(max_length=MOST_ATTEMPTS)]
    saved: Time = ""
    lessons: Annotated[tuple[Mark, ...], Field(max_length=MOST_MARKS)] = ()
    ratings: Annotated[tuple[Rating, ...], Field(max_length=MOST_RATINGS)] = ()


@dataclass(frozen=True, slots=True, config=_STRICT)
class Owned:
    """Of a record only whose it is; what this refuses, `Record` refuses too."""

    learner: Learner


OWNERS: TypeAdapter[Owned] = TypeAdapter(Owned)
"""Finds out whose the bytes of a file are, in a fifth of the time that reading them takes."""
RECORDS: TypeAdapter[Record] = TypeAdapter(Record)
"""Reads the bytes of a file into a `Record`, or raises pydantic's `ValidationError`."""
