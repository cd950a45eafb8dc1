"""The pages that a course gives: lessons, the learner's record, the glossary, and parts for a trainer's own pages."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from beadwright.course import Course, Loaded
from beadwright.render import (
    LESSON_FOLDER,
    LessonLink,
    Page,
    Words,
    render_course_parts,
    slot_line,
    write_glossary,
    write_lesson,
    write_record,
    write_review,
    write_trainer_pages,
)

RECORD_URI = "record.md"
REVIEW_URI = "review.md"
GLOSSARY_URI = "glossary.md"
_PART = re.compile(r"^<!--\s*bw:([a-z-]+)\s*-->\s*$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class CoursePages:
    """The pages made here by their source path, the lessons' in the order of the course, and parts for own pages."""

    made: Mapping[str, Page]
    lesson_uris: tuple[str, ...]
    parts: Mapping[str, str]
    start: str
    """What the first page is called in lists of pages."""

    def place_parts(self, markdown: str) -> str:
        """A trainer's Markdown with a slot for each line `<!-- bw:name -->` that names a part; others stay."""
        return _PART.sub(lambda found: slot_line(found[1]) if found[1] in self.parts else found[0], markdown)

    def slots(self, uri: str) -> Mapping[str, str]:
        """The slots of the page with this source path."""
        return self.made[uri].slots if uri in self.made else self.parts


def build_pages(course: Course, loaded: Loaded, words: Words, *, for_trainers: bool) -> CoursePages:
    """Render every page of a course."""
    links = [LessonLink(lesson, number, f"{lesson.id}.html") for number, lesson in enumerate(loaded.lessons, start=1)]
    lessons = {
        f"{LESSON_FOLDER}/{link.lesson.id}.md": write_lesson(course, link, links, words, for_trainers=for_trainers)
        for link in links
    }
    made = dict(lessons)
    made[RECORD_URI] = write_record(course, words)
    made[REVIEW_URI] = write_review(words)
    if loaded.glossary is not None:
        made[GLOSSARY_URI] = write_glossary(loaded.glossary, words)
    if for_trainers:
        made |= write_trainer_pages(course, links, words)
    return CoursePages(made, tuple(lessons), render_course_parts(course, links, words), words.text("home.start"))
