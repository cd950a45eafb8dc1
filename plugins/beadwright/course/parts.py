"""All that could be read of a course, for checks that need more than one place."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from beadwright.course.binding import Path
from beadwright.course.drafts import Draft
from beadwright.course.findings import Finding
from beadwright.course.models_course import Course, Glossary
from beadwright.course.models_lesson import LessonFile

YAML_LOST = "(yaml)"
"""Stands among a draft's lost keys when something was lost before the models saw it, such as a doubled key."""


@dataclass(frozen=True, slots=True)
class Parts:
    """What is sound in a course's files.

    `lessons` has the drafts of lessons by id, in the order of file names; `lesson_ids` has the ids of those too that
    could not be read at all, so that what refers to them is not called unknown.
    """

    course: Draft[Course] | None
    lessons: Mapping[str, Draft[LessonFile]]
    lesson_ids: Collection[str]
    glossary: Draft[Glossary] | None = None

    def course_with(self, *keys: str) -> Course | None:
        """The course, if all it says under `keys` is sound."""
        return None if self.course is None or self.course.lost & {YAML_LOST, *keys} else self.course.model


def check_doubled(draft: Draft[Any], names: Iterable[tuple[Path, str]]) -> Iterator[Finding]:
    """A finding for each name that stood earlier; what stands in for a lost key is passed over."""
    first: dict[str, Path] = {}
    for path, name in names:
        if path[0] in draft.lost and path[0] != "body":
            continue
        if name in first:
            line = draft.located.find(first[name]).node.place.line
            yield draft.located.finding("id-doubled", path, line=line)
        first.setdefault(name, path)
