"""Checks inside a lesson: what its parts refer to, and whether they add up."""

from __future__ import annotations

from collections.abc import Iterator

from beadwright.course.binding import Path
from beadwright.course.drafts import Draft
from beadwright.course.findings import Finding
from beadwright.course.models_items import RatingAsk
from beadwright.course.models_lesson import MOST_ITEMS, CautionBlock, LessonFile, PartBlock, PracticeBlock
from beadwright.course.nearness import suggest_near
from beadwright.course.parts import YAML_LOST, Parts, check_doubled


def check_lesson(parts: Parts, lesson: Draft[LessonFile]) -> Iterator[Finding]:
    """What is wrong inside one lesson and with what it takes from the course."""
    yield from _check_ids(lesson)
    yield from _check_objectives(lesson)
    yield from _check_cautions(parts, lesson)
    yield from _check_ratings(parts, lesson)
    yield from _check_minutes(lesson)
    yield from _check_count(lesson)


def _check_ids(lesson: Draft[LessonFile]) -> Iterator[Finding]:
    model = lesson.model
    objectives: list[tuple[Path, str]] = [(("objectives", i, "id"), o.id) for i, o in enumerate(model.objectives)]
    practices: list[tuple[Path, str]] = [
        (("body", i, "practice", "id"), block.practice.id)
        for i, block in enumerate(model.body)
        if isinstance(block, PracticeBlock)
    ]
    items: list[tuple[Path, str]] = [((*p.path, "id"), p.item.id) for p in model.items() if p.item.id is not None]
    for names in (objectives, practices, items):
        yield from check_doubled(lesson, names)


def _name_objectives(lesson: LessonFile) -> Iterator[tuple[Path, str]]:
    """Where the lesson's practices and items say which objective they show."""
    for number, block in enumerate(lesson.body):
        if isinstance(block, PracticeBlock) and block.practice.objective is not None:
            yield ("body", number, "practice", "objective"), block.practice.objective
    for placed in lesson.items():
        if placed.item.objective is not None:
            yield (*placed.path, "objective"), placed.item.objective


def _check_objectives(lesson: Draft[LessonFile]) -> Iterator[Finding]:
    if "objectives" in lesson.lost:
        return
    known = [objective.id for objective in lesson.model.objectives]
    for path, name in _name_objectives(lesson.model):
        if name not in known:
            yield lesson.located.finding("objective-unknown", path, near=suggest_near(name, known))
    if lesson.lost & {"body", YAML_LOST}:
        return
    shown = {placed.item.objective or placed.practice.objective for placed in lesson.model.items()}
    for number, name in enumerate(known):
        if name not in shown:
            yield lesson.located.finding("objective-uncovered", ("objectives", number, "id"), id=name)


def _check_cautions(parts: Parts, lesson: Draft[LessonFile]) -> Iterator[Finding]:
    course = parts.course_with("cautions")
    if course is None:
        return
    for number, block in enumerate(lesson.model.body):
        name = block.name if isinstance(block, CautionBlock) else None
        if name is not None and name not in course.cautions:
            near = suggest_near(name, course.cautions)
            yield lesson.located.finding("caution-unknown", ("body", number, "caution"), near=near)


def _check_ratings(parts: Parts, lesson: Draft[LessonFile]) -> Iterator[Finding]:
    course = parts.course_with("confidence")
    if course is None:
        return
    known = [] if course.confidence is None else [item.id for item in course.confidence.items]
    for path, asked in lesson.model.ratings():
        if not known:
            yield lesson.located.finding("rating-none", path)
        yield from _check_rating(lesson, path, asked, known)


def _check_rating(lesson: Draft[LessonFile], path: Path, asked: RatingAsk, known: list[str]) -> Iterator[Finding]:
    for number, name in enumerate(asked.items or ()):
        if known and name not in known:
            yield lesson.located.finding("rating-unknown", (*path, "items", number), near=suggest_near(name, known))


def _check_minutes(lesson: Draft[LessonFile]) -> Iterator[Finding]:
    parts = [block.part.minutes for block in lesson.model.body if isinstance(block, PartBlock)]
    total = sum(minutes for minutes in parts if minutes is not None)
    if "minutes" not in lesson.lost and total > lesson.model.minutes:
        yield lesson.located.finding("minutes-sum", ("minutes",), sum=total)


def _check_count(lesson: Draft[LessonFile]) -> Iterator[Finding]:
    """One finding, at the item that makes it too many."""
    count = 0
    for placed in lesson.model.items():
        count += placed.asked
        if count > MOST_ITEMS:
            yield lesson.located.finding("lesson-items", placed.path, most=MOST_ITEMS, count=count)
            return
