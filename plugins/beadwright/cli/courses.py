"""The course that a command is about."""

from pathlib import Path

from beadwright.course import Loaded, find_content, format_findings, load_course
from beadwright.records import Outline, build_outline


class CourseError(Exception):
    """A course that is not there or has something to put right; the message says what."""


def load_sound(folder: Path) -> Loaded:
    """The course in a folder, which holds `course.yml` or `mkdocs.yml`; raises `CourseError` unless it is sound."""
    content = find_content(folder)
    loaded = load_course(content)
    if not loaded.is_sound:
        raise CourseError(f"the course in {content} cannot be used as it is:\n{format_findings(loaded.findings)}")
    return loaded


def load_outline(folder: Path) -> Outline:
    """The outline of the course in a folder; raises `CourseError`."""
    loaded = load_sound(folder)
    if loaded.course is None:
        raise CourseError(f"there is no course in {folder}")
    return build_outline(loaded.course, loaded.lessons)
