"""A lesson's practice sheet: further problems of the kinds that its items ask, on paper, and the key."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from beadwright.course import Course, Lesson
from beadwright.engine import Technique
from beadwright.practice import (
    AnswerEntry,
    CarryOutEntry,
    NextMoveEntry,
    OrderEntry,
    PracticeItem,
    ReadEntry,
    SetEntry,
)
from beadwright.practice.values import Entry as PracticeEntry
from beadwright.render.booklet.arithmetic import find_formulas
from beadwright.render.booklet.blocks import Asked, Block, Booklet, Entry, Heading, Listing, Paragraph
from beadwright.render.booklet.items import ItemBlocks, build_item
from beadwright.render.booklet.lesson import list_items
from beadwright.render.numbers import format_problem
from beadwright.render.words import Words

_PARTS: tuple[tuple[str, tuple[type[PracticeEntry], ...], int], ...] = (
    ("work", (AnswerEntry, CarryOutEntry), 12),
    ("set", (SetEntry,), 6),
    ("read", (ReadEntry,), 4),
)
"""The parts of a sheet: a name, the kinds of entry in it, and how many at most."""

_SETTING = (Technique.SET, Technique.CLEAR)

Chosen = tuple[PracticeItem, PracticeEntry]


@dataclass(frozen=True, slots=True)
class Papers:
    """A sheet and its key."""

    sheet: Booklet
    key: Booklet


def build_practice_sheet(course: Course, lesson: Lesson, words: Words) -> Papers | None:
    """The sheet of a lesson and its key; None where no item of the lesson has more of its kind to work on paper."""
    items = [item for block in lesson.body for item in list_items(course, lesson, block)]
    body: list[Block] = []
    answers: list[Entry] = []
    for name, kinds, most in _PARTS:
        chosen = _choose(items, kinds, most)
        if not chosen:
            continue
        body.append(Heading(2, (words.text(f"editions.practice.{name}"),)))
        for item, entry in chosen:
            built = build_item(item, len(answers) + 1, words, entry)
            body.extend(_ask(entry, built, words))
            answers.append(Entry(f"{built.number}.", built.answer))
    if not answers:
        return None
    title = words.text("editions.practice.title", lesson=lesson.title)
    sheet = _bind(title, course.language, (Paragraph((words.text("editions.practice.about"),)), *body))
    key = _bind(words.text("sheet.key", title=title), course.language, (Listing(tuple(answers)),))
    return Papers(sheet, key)


def _choose(items: Sequence[PracticeItem], kinds: tuple[type[PracticeEntry], ...], most: int) -> list[Chosen]:
    """Further entries of the items in turn, none of them one that the lesson itself asks, and none twice."""
    asking = [item for item in items if isinstance(item.pool[0], kinds) and _is_work(item.pool[0])]
    seen = {_name(item.pool[0]) for item in items}
    chosen: list[Chosen] = []
    for turn in range(1, max((len(item.pool) for item in asking), default=0)):
        for item in asking:
            if turn < len(item.pool) and _name(item.pool[turn]) not in seen and len(chosen) < most:
                seen.add(_name(item.pool[turn]))
                chosen.append((item, item.pool[turn]))
    return chosen


def _is_work(entry: PracticeEntry) -> bool:
    """Whether there is more to do than to set a number: one with 0 added to it makes no problem on paper."""
    if not isinstance(entry, AnswerEntry | CarryOutEntry):
        return True
    return any(step.technique not in (None, *_SETTING) for step in entry.walkthrough.steps)


def _name(entry: PracticeEntry) -> str:
    """What an entry asks, as a text that is the same for the same."""
    if isinstance(entry, AnswerEntry | CarryOutEntry | NextMoveEntry | OrderEntry):
        return str(entry.walkthrough.problem)
    return str(entry.number) if isinstance(entry, ReadEntry | SetEntry) else ""


def _ask(entry: PracticeEntry, built: ItemBlocks, words: Words) -> Iterator[Block]:
    if isinstance(entry, AnswerEntry | CarryOutEntry):
        problem = entry.walkthrough.problem
        yield Asked(built.number, problem, format_problem(problem, words))
    else:
        yield from built.asked


def _bind(title: str, language: str, blocks: Sequence[Block]) -> Booklet:
    return Booklet(title, language, (Heading(1, find_formulas(title)), *blocks))
