"""Where each technique and each slip occurs in a course: noted lesson by lesson, told on one page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from beadwright.engine import EASIEST_FIRST, RUNS_ON, SLIPS, Technique, Walkthrough, find_techniques
from beadwright.practice import Entry, FindSlipEntry
from beadwright.render.course_pages import LESSON_FOLDER, LessonLink
from beadwright.render.numbers import format_problem
from beadwright.render.pages import Occurrence, Page, escape_markdown, slot_line, write_front_matter
from beadwright.render.slips import name_slip
from beadwright.render.templates import render_part
from beadwright.render.words import Words

TECHNIQUES = (str(Technique.COUNT), *map(str, EASIEST_FIRST), RUNS_ON)
"""What is listed as a technique, in the order of skills (trade.md §4)."""


def note_example(walkthrough: Walkthrough, anchor: str, words: Words) -> Occurrence:
    """What a worked example of a lesson shows; `anchor` is the id of its heading."""
    name = words.text("where.worked", problem=format_problem(walkthrough.problem, words))
    return Occurrence(anchor, name, find_topics(walkthrough))


def note_item(entry: Entry, ask: str, anchor: str, words: Words) -> Occurrence | None:
    """What an item needs to be worked, and the slip to find in it; None where nothing is worked."""
    slips = (entry.slipped.slip,) if isinstance(entry, FindSlipEntry) else ()
    walkthrough = entry.slipped.right if isinstance(entry, FindSlipEntry) else getattr(entry, "walkthrough", None)
    if walkthrough is None:
        return None
    problem = format_problem(walkthrough.problem, words)
    name = words.text("where.item", problem=problem, kind=words.text(f"ask.kind.{ask}"))
    return Occurrence(anchor, name, (*find_topics(walkthrough), *slips))


def find_topics(walkthrough: Walkthrough) -> tuple[str, ...]:
    """The techniques that the digits after the first number need, an exchange that runs on as one of its own."""
    found = {str(technique) for technique in find_techniques(walkthrough)}
    if any(step.runs_on for step in walkthrough.steps):
        found.add(RUNS_ON)
    return tuple(topic for topic in TECHNIQUES if topic in found)


class _Place(NamedTuple):
    """One link: its address as seen from the course's first page, and what it says."""

    url: str
    name: str


class _InLesson(NamedTuple):
    """A lesson and the places in it where one topic occurs."""

    title: str
    places: tuple[_Place, ...]


def write_where(pages: Sequence[tuple[LessonLink, Iterable[Occurrence]]], words: Words) -> Page:
    """The page that leads to each worked example and item of each technique and slip that the course has.

    `pages` are the lessons in the order of the course with what occurs in them.
    """
    noted = [(link, tuple(occurrences)) for link, occurrences in pages]
    title = words.text("where.title")
    chunks = [write_front_matter(title, kind="where"), f"# {escape_markdown(title)}", words.text("where.intro")]
    slots: dict[str, str] = {}
    for kind, topics in (("techniques", TECHNIQUES), ("slips", tuple(SLIPS))):
        chunks.append(f"## {words.text(f'where.{kind}')} {{: #{kind} }}")
        for topic in topics:
            lessons = tuple(_find_lessons(topic, noted))
            if lessons:
                chunks += [f"### {escape_markdown(_name(topic, words))} {{: #{topic} }}", slot_line(f"where-{topic}")]
                slots[f"where-{topic}"] = render_part("where", lessons=lessons, words=words)
    return Page("\n\n".join(chunks) + "\n", slots)


def _find_lessons(topic: str, noted: Iterable[tuple[LessonLink, tuple[Occurrence, ...]]]) -> Iterator[_InLesson]:
    for link, occurrences in noted:
        found = [_Place(f"{LESSON_FOLDER}/{link.page}#{o.anchor}", o.name) for o in occurrences if topic in o.topics]
        if found:
            yield _InLesson(link.lesson.title, tuple(found))


def _name(topic: str, words: Words) -> str:
    name = name_slip(topic, words) if topic in SLIPS else words.text(f"sheet.technique.{topic}")
    return name[:1].upper() + name[1:]
