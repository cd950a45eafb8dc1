"""The pages that a course gives: lessons, the learner's record, the glossary, and parts for a trainer's own pages."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from beadwright.course import Course, Loaded
from beadwright.render import (
    Page,
    Words,
    render_course_parts,
    slot_line,
    write_glossary,
    write_record,
    write_review,
    write_where,
)
from beadwright.site.lessons import LessonStore
from beadwright.site.rounds import RoundStore

RECORD_URI = "record.md"
REVIEW_URI = "review.md"
GLOSSARY_URI = "glossary.md"
WHERE_URI = "moves-and-slips.md"
MOST_LISTED = 60
"""With more lessons the menu lists them in groups, so that it does not grow in every page with every lesson."""
GROUP = 30
_PART = re.compile(
    r"^ {0,3}(?P<fence>`{3,}+|~{3,}+).*\n(?:.*\n)*? {0,3}(?P=fence)[ \t]*$|^<!--\s*bw:(?P<name>[a-z-]+)\s*-->\s*$",
    re.MULTILINE,
)
"""A line that asks for a part, or a whole block of fenced code, in which such a line is to be read and not filled."""


@dataclass(frozen=True, slots=True)
class CoursePages:
    """The pages made here: the lessons', and the others by their source path; and parts for a trainer's own pages."""

    lessons: LessonStore
    rounds: RoundStore
    others: Mapping[str, Page]
    parts: Mapping[str, str]
    start: str
    """What the first page is called in lists of pages."""
    groups: Sequence[tuple[str, Sequence[str]]] = ()
    """The lessons' source paths in groups with titles; none where all are listed one by one."""

    @property
    def uris(self) -> tuple[str, ...]:
        """The source paths of all pages made here, the lessons' first, in the order of the course."""
        return (*self.lessons.uris, *self.others)

    def markdown(self, uri: str) -> str:
        """The Markdown of a page made here."""
        return self.others[uri].markdown if uri in self.others else self.lessons.markdown(uri)

    def place_parts(self, markdown: str) -> str:
        """A trainer's Markdown with a slot for each line `<!-- bw:name -->` that names a part; others and code stay."""
        return _PART.sub(lambda found: slot_line(found["name"]) if found["name"] in self.parts else found[0], markdown)

    def slots(self, uri: str) -> Mapping[str, str]:
        """The slots of the page with this source path; a trainer's own page in place of one of ours may have parts."""
        if uri in self.others:
            return {**self.parts, **self.others[uri].slots}
        return {**self.parts, **self.lessons.slots(uri)} if self.lessons.has(uri) else self.parts


def build_pages(course: Course, loaded: Loaded, words: Words, lessons: LessonStore, rounds: RoundStore) -> CoursePages:
    """All pages of a course, of which the lessons and those for trainers are in `lessons`."""
    others = {RECORD_URI: write_record(course, loaded.lessons, words), REVIEW_URI: write_review(words)}
    if loaded.glossary is not None:
        others[GLOSSARY_URI] = write_glossary(loaded.glossary, words, where=WHERE_URI)
    others[WHERE_URI] = write_where(lessons.list_occurrences(), words)
    others |= rounds.write_pages()
    others |= lessons.read_trainer_pages()
    parts = render_course_parts(course, lessons.links, words)
    groups = tuple(_group_lessons(lessons.uris, words)) if len(lessons.uris) > MOST_LISTED else ()
    return CoursePages(lessons, rounds, others, parts, words.text("home.start"), groups)


def _group_lessons(uris: Sequence[str], words: Words) -> Iterator[tuple[str, Sequence[str]]]:
    for start in range(0, len(uris), GROUP):
        group = uris[start : start + GROUP]
        yield words.text("home.group", first=start + 1, last=start + len(group)), group
