"""What of a course the report needs: its lessons, objectives, graded items and confidence items, by lasting names."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property
from math import ceil

from beadwright.course import CertificateFile, Course, Lesson, PracticeBlock
from beadwright.engine import Technique, Walkthrough
from beadwright.practice import (
    AnswerEntry,
    CarryOutEntry,
    Entry,
    FindSlipEntry,
    NextMoveEntry,
    OrderEntry,
    PracticeItem,
    build_practice,
)

UNGRADED = frozenset({"reflect", "rating"})
# The hardest first: what a problem is practised for is the hardest technique that it needs.
_TECHNIQUES = (
    Technique.BOTH_PARTNERS,
    Technique.PARTNER_OF_10,
    Technique.PARTNER_OF_5,
    Technique.COUNT,
    Technique.DIRECT,
)


@dataclass(frozen=True, slots=True)
class ItemOutline:
    """A graded item: its lesson, objective, kind, what it asks in short, and the hardest technique that it needs."""

    id: str
    lesson: str
    objective: str | None
    ask: str
    asks: str
    technique: str | None


@dataclass(frozen=True, eq=False)
class LessonOutline:
    """A lesson: its objectives by id in order, its graded items, the minutes planned, its hours of credit, if any."""

    id: str
    title: str
    minutes: int
    credit: Decimal | None
    objectives: dict[str, str]
    items: tuple[ItemOutline, ...]

    @cached_property
    def item_ids(self) -> frozenset[str]:
        """Its graded items by id."""
        return frozenset(item.id for item in self.items)

    @cached_property
    def shown_by(self) -> dict[str, tuple[str, ...]]:
        """By objective the ids of the items that show it; objectives without items are left out."""
        found: dict[str, list[str]] = {}
        for item in self.items:
            if item.objective is not None:
                found.setdefault(item.objective, []).append(item.id)
        return {objective: tuple(items) for objective, items in found.items()}


@dataclass(frozen=True)
class Outline:
    """A course in the order of its lessons."""

    id: str
    title: str
    edition: str
    language: str
    pass_mark: float
    lessons: tuple[LessonOutline, ...]
    paths: tuple[tuple[str, str, tuple[str, ...]], ...]
    """Ways through the course: id, title, lessons."""
    points: tuple[str, ...]
    """Labels of the confidence scale from least to most; empty when the course asks nothing."""
    rated: dict[str, str]
    """Confidence items by id."""
    asked: CertificateFile = field(default_factory=CertificateFile)
    """What is asked for a certificate."""

    @cached_property
    def items(self) -> dict[tuple[str, str], ItemOutline]:
        """Every graded item by lesson and id."""
        return {(item.lesson, item.id): item for lesson in self.lessons for item in lesson.items}

    @cached_property
    def item_ids(self) -> dict[str, frozenset[str]]:
        """Graded items by lesson."""
        return {lesson.id: lesson.item_ids for lesson in self.lessons}

    @cached_property
    def titles(self) -> dict[str, str]:
        """Titles of lessons by id."""
        return {lesson.id: lesson.title for lesson in self.lessons}


def build_outline(course: Course, lessons: Sequence[Lesson]) -> Outline:
    """The outline of a checked course."""
    hours = {module.lesson: module.credit for module in course.modules}
    # An item's name comes from its own problem, so the others of its pool need not be worked.
    lean = course.model_copy(update={"pool": 1})
    scale = course.confidence
    return Outline(
        id=course.id,
        title=course.title,
        edition=course.edition,
        language=course.language,
        pass_mark=float(course.pass_mark),
        lessons=tuple(_build_lesson(lean, lesson, hours.get(lesson.id)) for lesson in lessons),
        paths=tuple((path.id, path.title, tuple(path.lessons)) for path in course.paths),
        points=() if scale is None else tuple(scale.points),
        rated={} if scale is None else {item.id: item.text for item in scale.items},
        asked=course.certificate,
    )


def _build_lesson(course: Course, lesson: Lesson, credit: Decimal | None) -> LessonOutline:
    return LessonOutline(
        id=lesson.id,
        title=lesson.title,
        minutes=lesson.minutes,
        credit=credit,
        objectives={objective.id: objective.text for objective in lesson.objectives},
        items=tuple(_list_items(course, lesson)),
    )


def _list_items(course: Course, lesson: Lesson) -> Iterator[ItemOutline]:
    for block in lesson.body:
        if isinstance(block, PracticeBlock):
            for item in build_practice(course, lesson, block.practice).items:
                if item.ask not in UNGRADED:
                    yield _build_item(lesson.id, item)


def _build_item(lesson: str, item: PracticeItem) -> ItemOutline:
    entry = item.pool[0]
    walkthrough = _find_walkthrough(entry)
    asks = getattr(entry, "question", None) or getattr(entry, "number", None)
    return ItemOutline(
        id=item.id,
        lesson=lesson,
        objective=item.objective,
        ask=item.ask,
        asks=str(asks if walkthrough is None else walkthrough.problem),
        technique=None if walkthrough is None else _find_technique(walkthrough),
    )


def _find_walkthrough(entry: Entry) -> Walkthrough | None:
    if isinstance(entry, FindSlipEntry):
        return entry.slipped.right
    if isinstance(entry, AnswerEntry | CarryOutEntry | NextMoveEntry | OrderEntry):
        return entry.walkthrough
    return None


def _find_technique(walkthrough: Walkthrough) -> str | None:
    used = {step.technique for step in walkthrough.steps}
    return next((str(technique) for technique in _TECHNIQUES if technique in used), None)


def find_need(items: int, pass_mark: float) -> int:
    """How many of an objective's items must be right to show it, as the pages count it: at least one.

    >>> find_need(5, 0.8), find_need(3, 0.8), find_need(1, 0.1)
    (4, 3, 1)
    """
    return max(1, ceil(pass_mark * items - 1e-9))
