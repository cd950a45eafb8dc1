"""The course that ships as its tests look at it: lessons, and every problem in them with its place and its working."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from beadwright.course import Course, Lesson, PartBlock, PracticeBlock, WalkthroughBlock, load_course, work_example
from beadwright.engine import Walkthrough
from beadwright.practice import Entry, FindSlipEntry, build_practice
from tests.content.passages import CONTENT

# What each lesson adds to what may be used, in the order of PROCEDURES §4.
TEACHES: dict[str, frozenset[str]] = {
    "frames-hands-and-care": frozenset(),
    "readiness": frozenset({"count"}),
    "set-read-clear": frozenset(),
    "direct": frozenset({"direct"}),
    "partner-of-5": frozenset({"partner-of-5"}),
    "partner-of-10": frozenset({"partner-of-10"}),
    "both-partners": frozenset({"both-partners"}),
    "several-columns": frozenset(),
    "counting-and-choosing": frozenset(),
    "money-and-decimals": frozenset(),
    "multiplication": frozenset(),
    "division": frozenset(),
    "fractions-percent-roots": frozenset(),
    "imagined-frame": frozenset(),
    "watching-a-student": frozenset(),
}
RUN_ON_TAUGHT = ("partner-of-10", "Exchanges that run on")


class Worked(NamedTuple):
    """A problem of a lesson: where it stands (the number of its block), its part, and how it is worked."""

    lesson: str
    block: int
    part: str
    walkthrough: Walkthrough


@lru_cache(maxsize=1)
def load_shipped() -> tuple[Course, tuple[Lesson, ...]]:
    """The course of content/ and its lessons in order; there must be nothing to put right."""
    loaded = load_course(CONTENT)
    assert loaded.findings == ()
    assert loaded.course is not None
    return loaded.course, loaded.lessons


def list_taught() -> tuple[Lesson, ...]:
    """The lessons that teach a skill of the order; a placement check does not."""
    return tuple(lesson for lesson in load_shipped()[1] if lesson.id in TEACHES)


def find_worked(course: Course, lesson: Lesson) -> Iterator[Worked]:
    """Every problem of a lesson, and every one that “another one” can give."""
    part = ""
    for number, block in enumerate(lesson.body):
        if isinstance(block, PartBlock):
            part = block.part.title
        elif isinstance(block, WalkthroughBlock):
            yield Worked(lesson.id, number, part, work_example(course, lesson, block.walkthrough))
        elif isinstance(block, PracticeBlock):
            for item in build_practice(course, lesson, block.practice).items:
                worked = [find_walkthrough(entry) for entry in item.pool]
                yield from (Worked(lesson.id, number, part, each) for each in worked if each is not None)


def find_walkthrough(entry: Entry) -> Walkthrough | None:
    """How the problem of an entry is rightly worked; None where it has no problem."""
    return entry.slipped.right if isinstance(entry, FindSlipEntry) else getattr(entry, "walkthrough", None)
