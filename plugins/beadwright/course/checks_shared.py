"""What the checks that ask the engine share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from beadwright.course.binding import Located, Path
from beadwright.course.drafts import Draft
from beadwright.course.findings import Finding, explain_refusal
from beadwright.course.models_course import Course
from beadwright.course.models_lesson import LessonFile
from beadwright.course.nearness import suggest_near
from beadwright.engine import METHODS, EngineError, Walkthrough

MOST_STEPS = 40_000
"""Steps of all problems of a lesson's pools together. A long lesson has 5,000; each slip is foreseen in each of them,
so that a few lines could ask for hours."""


@dataclass(slots=True)
class Asked:
    """How many steps a lesson has asked for so far. It only grows."""

    steps: int = 0

    def add(self, worked: Iterable[Walkthrough], pool: int) -> None:
        """Count problems that each stand for a pool of as long ones."""
        self.steps += pool * sum(len(walkthrough.steps) for walkthrough in worked)


class At(NamedTuple):
    """The lesson that is being checked, and those it stands among."""

    course: Course
    lesson_id: str
    lesson: LessonFile
    located: Located
    lessons: Mapping[str, Draft[LessonFile]]
    """All lessons of the course, by id."""
    asked: Asked


def tell_refused(at: At, code: str, path: Path, error: EngineError) -> Finding:
    """The finding `code` with the engine's own reason and next step."""
    reason, next_step = explain_refusal(error)
    return at.located.finding(code, path, reason=reason, next_step=next_step)


def check_method(at: At, path: Path, method: str | None) -> Iterator[Finding]:
    """A method that is named is known."""
    if method not in (None, *METHODS):
        yield at.located.finding("method-unknown", (*path, "method"), near=suggest_near(str(method), METHODS))
