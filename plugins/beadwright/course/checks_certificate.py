"""Checks of what a course asks for a certificate."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from beadwright.course.binding import Path
from beadwright.course.drafts import Draft
from beadwright.course.findings import Finding, quote
from beadwright.course.models_course import Course
from beadwright.course.nearness import suggest_near
from beadwright.course.parts import Parts


def check_certificate(parts: Parts, draft: Draft[Course]) -> Iterator[Finding]:
    """Objectives are those of lessons that are asked, hours can be reached, ratings are there to be given."""
    if "certificate" in draft.lost:
        return
    yield from _check_objectives(parts, draft)
    yield from _check_hours(draft)
    asked, course = draft.model.certificate.confidence, draft.model
    if asked != "none" and course.confidence is None and "confidence" not in draft.lost:
        yield draft.located.finding("certificate-confidence", ("certificate", "confidence"), found=quote(asked))


def _check_objectives(parts: Parts, draft: Draft[Course]) -> Iterator[Finding]:
    rules = draft.model.certificate
    known = [
        f"{lesson_id}/{objective.id}"
        for lesson_id, lesson in parts.lessons.items()
        if "objectives" not in lesson.lost
        for objective in lesson.model.objectives
    ]
    unread = {lesson_id for lesson_id in parts.lesson_ids if lesson_id not in parts.lessons}
    unread |= {lesson_id for lesson_id, lesson in parts.lessons.items() if "objectives" in lesson.lost}
    for number, name in enumerate(rules.objectives or ()):
        path: Path = ("certificate", "objectives", number)
        lesson_id = name.partition("/")[0]
        if name not in known and lesson_id not in unread:
            near = suggest_near(name, known)
            example = known[0] if known else "lesson/objective"
            yield draft.located.finding("certificate-objective", path, found=quote(name), example=example, near=near)
        elif rules.lessons is not None and lesson_id not in rules.lessons:
            yield draft.located.finding("certificate-not-asked", path, found=quote(name), lesson=lesson_id)


def _check_hours(draft: Draft[Course]) -> Iterator[Finding]:
    course = draft.model
    most = sum((module.credit for module in course.modules if module.credit is not None), Decimal(0))
    wanted = course.certificate.hours
    if wanted is not None and wanted > most and "modules" not in draft.lost:
        yield draft.located.finding(
            "certificate-hours", ("certificate", "hours"), most=f"{most:f}", found=quote(f"{wanted:f}")
        )
