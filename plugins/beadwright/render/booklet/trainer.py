"""The facilitators' sheets that are filled in by hand: the plan of a first lesson, a visit, a student's skills."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from beadwright.render.booklet.arithmetic import find_formulas
from beadwright.render.booklet.blocks import Block, Booklet, FillIn, Heading, Paragraph
from beadwright.render.course_pages import LessonLink
from beadwright.render.words import Words

PLAN_LINES = 3
"""So many lines of room has each line of a plan."""
Writer = Callable[[Sequence[LessonLink], Words], Iterator[Block]]


def build_trainer_sheets(links: Sequence[LessonLink], language: str, words: Words) -> dict[str, Booklet]:
    """The sheets by the names of their pages: `first-lesson`, `observation`, `checklist`."""
    return {name: _bind(name, write(links, words), language, words) for name, write in _SHEETS.items()}


def _bind(name: str, blocks: Iterator[Block], language: str, words: Words) -> Booklet:
    key = name.replace("-", "_")
    title = words.text(f"facilitators.{key}.title")
    about = Paragraph(find_formulas(words.text(f"facilitators.{key}.about")))
    return Booklet(title, language, (Heading(1, (title,)), about, *blocks))


def _write_plan(links: Sequence[LessonLink], words: Words) -> Iterator[Block]:
    for number, line in enumerate(words.items("facilitators.first_lesson.lines"), start=1):
        yield FillIn((line,), marker=f"{number}.", lines=PLAN_LINES)


def _write_observation(links: Sequence[LessonLink], words: Words) -> Iterator[Block]:
    yield from _write_start("observation", words)
    score = _label(words.text("facilitators.observation.score"), words)
    number = 0
    for part in ("scores", "support"):
        yield Heading(2, (words.text(f"facilitators.observation.{part}_title"),))
        for line in words.items(f"facilitators.observation.{part}"):
            number += 1
            yield FillIn((line,), marker=f"{number}.", labels=(score,))
    yield Paragraph((words.text("facilitators.observation.after").replace("`", ""),))


def _write_checklist(links: Sequence[LessonLink], words: Words) -> Iterator[Block]:
    yield from _write_start("checklist", words)
    labels = tuple(_label(head, words) for head in words.items("facilitators.checklist.heads")[1:])
    for link in links:
        yield Heading(2, find_formulas(f"{link.number}. {link.lesson.title}"))
        for number, objective in enumerate(link.lesson.objectives, start=1):
            yield FillIn(find_formulas(objective.text), marker=f"{link.number}.{number}", labels=labels)


def _write_start(key: str, words: Words) -> Iterator[Block]:
    """What a sheet is about: day, people."""
    for line in words.items(f"facilitators.{key}.start"):
        yield FillIn((_label(line, words),))


def _label(text: str, words: Words) -> str:
    return words.text("editions.cell", head=text, cell="").strip()


_SHEETS: dict[str, Writer] = {
    "first-lesson": _write_plan,
    "observation": _write_observation,
    "checklist": _write_checklist,
}
