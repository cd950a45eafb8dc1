"""What the checks that ask the engine share."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from beadwright.course.binding import Located, Path
from beadwright.course.findings import Finding
from beadwright.course.models_course import Course
from beadwright.course.models_lesson import LessonFile
from beadwright.course.nearness import suggest_near
from beadwright.engine import METHODS, EngineError


class At(NamedTuple):
    """The lesson that is being checked."""

    course: Course
    lesson_id: str
    lesson: LessonFile
    located: Located


def tell_refused(at: At, code: str, path: Path, error: EngineError) -> Finding:
    """The finding `code` with the engine's own reason and next step."""
    return at.located.finding(code, path, reason=_lower(error.reason), next_step=error.next_step)


def _lower(reason: str) -> str:
    """A reason in the middle of a sentence."""
    return reason[0].lower() + reason[1:] if reason[1:2].islower() or reason[1:2] == " " else reason


def check_method(at: At, path: Path, method: str | None) -> Iterator[Finding]:
    """A method that is named is known."""
    if method not in (None, *METHODS):
        yield at.located.finding("method-unknown", (*path, "method"), near=suggest_near(str(method), METHODS))
