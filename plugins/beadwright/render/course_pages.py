"""Pages about the whole course, and parts that a trainer may put into pages of her own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any, NamedTuple

from markupsafe import Markup

from beadwright.course import Course, DrawnItem, Glossary, Lesson, RatingItem, ReflectItem, Term, resolve_item
from beadwright.render.numbers import format_number
from beadwright.render.pages import Page, escape_markdown, slot_line, write_front_matter
from beadwright.render.prose import render_prose
from beadwright.render.svg import draw_svg, render_shapes
from beadwright.render.templates import render_part
from beadwright.render.words import Words

LESSON_FOLDER = "modules"
SOURCES_FILE = "assets/bw/sources.txt"
"""What course and lessons of a site were made from, as one hash, so that a pack can tell whether they are still so."""

_SHOWN = "6052837"
"""What the frame of the start page holds, as far as it has columns: digits of every make, a zero among them."""


class LessonLink(NamedTuple):
    """A lesson with its number in the course and its page's file name in the folder of the lesson pages."""

    lesson: Lesson
    number: int
    page: str

    @property
    def url(self) -> str:
        """The address as seen from the course's first page."""
        return f"{LESSON_FOLDER}/{self.page}"


def write_glossary(glossary: Glossary, words: Words, *, where: str) -> Page:
    """The glossary in alphabetical order, each term a heading that can be linked to.

    `where` is the source path of the page that tells where moves and slips occur.
    """
    terms = sorted(glossary.terms, key=lambda term: term.term.casefold())
    known = {term.term.casefold(): name_term(term.term) for term in terms}
    title = words.text("home.glossary")
    chunks = [write_front_matter(title, kind="glossary"), f"# {title}", words.text("home.glossary_intro")]
    chunks.append(f"{words.text('where.from_glossary')} [{words.text('where.title')}]({where}).")
    for term in terms:
        chunks.extend(_write_term(term, known, words))
    return Page("\n\n".join(chunks) + "\n", {})


def _write_term(term: Term, known: dict[str, str], words: Words) -> list[str]:
    chunks = [f"## {escape_markdown(term.term)} {{: #{name_term(term.term)} }}", term.meaning]
    if term.see:
        links = [f"[{escape_markdown(name)}](#{known[name.casefold()]})" for name in term.see]
        chunks.append(f"{words.text('home.see')} {', '.join(links)}.")
    return chunks


def name_term(term: str) -> str:
    """The id of a term's heading.

    >>> name_term("Partner of 5")
    'term-partner-of-5'
    """
    plain = "".join(sign if sign.isalnum() else " " for sign in term.casefold())
    return "term-" + "-".join(plain.split())


def write_record(course: Course, lessons: Sequence[Lesson], words: Words) -> Page:
    """The learner's own page: progress, the record, and the course's words on handing it in."""
    title = words.text("home.record")
    front = write_front_matter(title, kind="record")
    chunks = [front, f"# {title}", words.text("home.record_intro"), slot_line("record")]
    chunks += [f"## {words.text('home.hand_in')}", course.record.send]
    if course.record.keep is not None:
        chunks.append(course.record.keep)
    chunks += [f"## {words.text('home.ask')}", slot_line("contact")]
    slots = {"record": render_record(course, lessons, words), "contact": _render_contact(course, words)}
    return Page("\n\n".join(chunks) + "\n", slots)


def render_record(course: Course, lessons: Sequence[Lesson], words: Words) -> Markup:
    """The part of the learner's own page that scripts fill in from the record."""
    counted = {lesson.id: count_objectives(course, lesson) for lesson in lessons}
    data = {"pass_mark": float(course.pass_mark), "lessons": counted}
    return render_part("record", words=words, counted=data)


def count_objectives(course: Course, lesson: Lesson) -> list[tuple[str, str, int]]:
    """The lesson's objectives that items show: id, text, how many items."""
    counts: Counter[str | None] = Counter()
    for placed in lesson.items():
        item = placed.item
        if not isinstance(item, ReflectItem | RatingItem):
            shown = resolve_item(course, lesson, placed.practice, item).objective
            counts[shown] += item.drawn.count if isinstance(item, DrawnItem) else 1
    return [(each.id, each.text, counts[each.id]) for each in lesson.objectives if each.id in counts]


def write_review(words: Words) -> Page:
    """The learner's page of what is due again, across lessons."""
    title = words.text("review.title")
    chunks = [write_front_matter(title, kind="review"), f"# {title}", words.text("review.intro"), slot_line("review")]
    return Page("\n\n".join(chunks) + "\n", {"review": render_part("review", words=words)})


def list_lessons(course: Course, links: Sequence[LessonLink]) -> list[dict[str, Any]]:
    """The lessons in order, for scripts: id, title, address from the first page, and its place on each of its paths."""
    places: dict[str, dict[str, int]] = {}
    for path in course.paths:
        for place, lesson in enumerate(path.lessons, start=1):
            places.setdefault(lesson, {})[path.id] = place
    return [
        {"lesson": each.lesson.id, "title": each.lesson.title, "url": each.url, "paths": places.get(each.lesson.id, {})}
        for each in links
    ]


def render_course_parts(course: Course, links: Sequence[LessonLink], words: Words) -> dict[str, Markup]:
    """What `<!-- bw:name -->` in a page may ask for: `lessons`, `paths`, `begin`, `contact`, `cautions`."""
    return {
        "lessons": render_part("course-lessons", lessons=links, words=words),
        "paths": render_part("course-paths", paths=_build_paths(course, links, words), words=words),
        "begin": _render_begin(course, links[0], words),
        "contact": _render_contact(course, words),
        "cautions": render_part("course-cautions", cautions=[render_prose(text) for text in course.cautions.values()]),
    }


def _render_begin(course: Course, first: LessonLink, words: Words) -> Markup:
    """Where to begin, above the course's own frame, whole, with a number set on it."""
    at_rest = course.frame.build()
    frame = at_rest.with_number(int(_SHOWN[-at_rest.columns :]))
    picture = draw_svg(frame, name=words.text("figure.told"), columns=(frame.columns, 1))
    return render_part(
        "course-begin",
        first=first,
        words=words,
        shapes=render_shapes([frame.shape]),
        picture=picture,
        number=format_number(_SHOWN[-at_rest.columns :].lstrip("0"), words),
    )


def say_time(minutes: int, words: Words) -> str:
    """So many minutes in words, in whole hours from two hours on.

    >>> from beadwright.render.words import load_words
    >>> say_time(545, load_words("en"))
    'about 9 hours'
    """
    if minutes < 120:
        return words.text("home.time_minutes", count=minutes)
    return words.text("home.time_hours", count=round(minutes / 60))


def _render_contact(course: Course, words: Words) -> Markup:
    return render_part("course-contact", people=course.contact, words=words)


def _build_paths(course: Course, links: Sequence[LessonLink], words: Words) -> list[dict[str, Any]]:
    by_id = {link.lesson.id: link for link in links}
    paths = []
    for path in course.paths:
        chosen = [by_id[lesson_id] for lesson_id in path.lessons]
        paths.append(
            {
                "path": path,
                "text": render_prose(path.text or ""),
                "lessons": chosen,
                "time": say_time(sum(link.lesson.minutes for link in chosen), words),
            }
        )
    return paths
