"""The course that ships as its tests look at it: lessons, and every problem in them with its place and its working."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from beadwright.course import (
    Course,
    DrawItem,
    Lesson,
    PartBlock,
    PlacedItem,
    ProblemItem,
    WalkthroughBlock,
    draw_pool,
    load_course,
    resolve_item,
    work,
    work_example,
)
from beadwright.engine import Walkthrough
from tests.content.passages import CONTENT

# What each lesson adds to what may be used, in the order of trade.md §4.
TEACHES: dict[str, frozenset[str]] = {
    "frames-hands-and-care": frozenset(),
    "readiness": frozenset({"count"}),
    "set-read-clear": frozenset(),
    "direct": frozenset({"direct"}),
    "partner-of-5": frozenset({"partner-of-5"}),
    "partner-of-10": frozenset({"partner-of-10"}),
    "both-partners": frozenset({"both-partners"}),
    "several-columns": frozenset(),
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
    """Every problem of a lesson, each one that a draw can give included."""
    items: dict[int, list[PlacedItem]] = {}
    for placed in lesson.items():
        items.setdefault(int(placed.path[1]), []).append(placed)
    part = ""
    for number, block in enumerate(lesson.body):
        part = block.part.title if isinstance(block, PartBlock) else part
        if isinstance(block, WalkthroughBlock):
            yield Worked(lesson.id, number, part, work_example(course, lesson, block.walkthrough))
        for placed in items.get(number, ()):
            for walkthrough in _work_item(course, lesson, placed):
                yield Worked(lesson.id, number, part, walkthrough)


def _work_item(course: Course, lesson: Lesson, placed: PlacedItem) -> tuple[Walkthrough, ...]:
    setting = resolve_item(course, lesson, placed.practice, placed.item)
    if isinstance(placed.item, DrawItem):
        return draw_pool(course, placed.item.draw, setting, seed=f"{lesson.id}/{placed.practice.id}")
    if isinstance(placed.item, ProblemItem):
        return (work(placed.item.problem, setting.frame, setting.house, setting.method),)
    return ()
