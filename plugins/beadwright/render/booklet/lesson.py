"""A lesson as a booklet: its text, its figures in words, its worked examples, its items, answers at the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal

from beadwright.course import (
    CautionBlock,
    Course,
    Example,
    FacilitatorBlock,
    Figure,
    FigureBlock,
    Lesson,
    PartBlock,
    PracticeBlock,
    RatingBlock,
    ReflectBlock,
    TextBlock,
    WalkthroughBlock,
    show_figure,
    work_example,
)
from beadwright.practice import PracticeItem, build_lone_item, build_practice
from beadwright.render.booklet.arithmetic import find_formulas
from beadwright.render.booklet.blocks import Block, Booklet, Entry, Heading, Listing, NewPage, Paragraph
from beadwright.render.booklet.items import ItemBlocks, build_item, show_frame
from beadwright.render.booklet.prose import read_prose
from beadwright.render.course_pages import LessonLink
from beadwright.render.numbers import format_number, format_problem
from beadwright.render.speech import find_named_ones, say_steps
from beadwright.render.walkthroughs import find_lowest
from beadwright.render.words import Words

_LEVELS: tuple[Literal[1, 2, 3], ...] = (1, 2, 3)


def build_lesson(course: Course, link: LessonLink, links: Sequence[LessonLink], words: Words) -> Booklet:
    """The booklet of a lesson; `links` are all lessons of the course. Notes for the facilitator are left out."""
    # What a page keeps for “another one” has no place on paper, and drawing it is most of the work.
    writer = _Writer(course.model_copy(update={"pool": 1}), link.lesson, words)
    blocks = tuple(_close_gaps((*_start(link, links, words), *writer.write())))
    return Booklet(link.lesson.title, course.language, blocks)


def _close_gaps(blocks: Sequence[Block]) -> Iterator[Block]:
    """The blocks with no level of heading passed over, where a lesson has sections outside its parts."""
    level = 0
    for block in blocks:
        if isinstance(block, Heading):
            level = min(block.level, level + 1)
            yield replace(block, level=_LEVELS[level - 1])
        else:
            yield block


def number_items(course: Course, lesson: Lesson) -> Iterator[tuple[int, PracticeItem]]:
    """All items of a lesson with their numbers in its booklet."""
    small = course.model_copy(update={"pool": 1})
    number = 0
    for block in lesson.body:
        for item in list_items(small, lesson, block):
            number += 1
            yield number, item


def list_items(course: Course, lesson: Lesson, block: object) -> tuple[PracticeItem, ...]:
    """The items of one block, in order; none of most blocks."""
    match block:
        case PracticeBlock(practice=practice):
            return build_practice(course, lesson, practice).items
        case ReflectBlock(reflect=asked) | RatingBlock(rating=asked):
            return (build_lone_item(course, lesson, asked),)
        case _:
            return ()


def _start(link: LessonLink, links: Sequence[LessonLink], words: Words) -> Iterator[Block]:
    lesson = link.lesson
    yield Heading(1, find_formulas(lesson.title))
    place = words.text("lesson.place", number=link.number, total=len(links))
    yield Paragraph((f"{place} {words.text('lesson.minutes', count=lesson.minutes)}",))
    yield Paragraph((words.text("lesson.objectives"),))
    yield Listing(tuple(Entry("•", find_formulas(objective.text)) for objective in lesson.objectives))
    needs = [other.lesson.title for other in links if other.lesson.id in lesson.needs]
    if needs:
        yield Paragraph((f"{words.text('lesson.needs')} {'; '.join(needs)}.",))


class _Writer:
    """Writes the blocks of one lesson, numbering its items as they come."""

    def __init__(self, course: Course, lesson: Lesson, words: Words) -> None:
        self._course = course
        self._lesson = lesson
        self._words = words
        self._items: list[ItemBlocks] = []

    def write(self) -> Iterator[Block]:
        for block in self._lesson.body:
            yield from self._write_block(block)
        yield from self._write_answers()

    def _write_block(self, block: object) -> Iterator[Block]:
        match block:
            case PartBlock(part=part):
                yield Heading(2, find_formulas(part.title), idea=True)
                if part.minutes is not None:
                    yield Paragraph((self._words.text("lesson.part_minutes", count=part.minutes),))
            case TextBlock(text=text):
                yield from read_prose(text)
            case FigureBlock(figure=figure):
                yield from self._write_figure(figure)
            case WalkthroughBlock(walkthrough=example):
                yield from self._write_example(example)
            case PracticeBlock(practice=practice):
                yield Heading(3, find_formulas(practice.title), idea=True)
                yield from self._write_items(block)
            case CautionBlock(caution=caution, name=name):
                yield from self._write_caution(caution if name is None else self._course.cautions[name])
            case FacilitatorBlock():
                return
            case ReflectBlock() | RatingBlock():
                yield from self._write_items(block)
            case _:
                raise TypeError(f"a block without a form in booklets: {block!r}")

    def _write_figure(self, figure: Figure) -> Iterator[Block]:
        frame = show_figure(self._course, self._lesson, figure)
        lowest, ones = figure.columns
        lead = find_formulas(figure.caption or "")
        yield show_frame(frame, self._words, ones, lowest=min(lowest, ones), lead=lead)

    def _write_example(self, example: Example) -> Iterator[Block]:
        walkthrough = work_example(self._course, self._lesson, example)
        shown = format_problem(walkthrough.problem, self._words)
        yield Heading(3, find_formulas(self._words.text("lesson.worked", problem=shown)), idea=True)
        answer = walkthrough.answer
        fields = {"problem": shown, "answer": format_number(answer.text, self._words)}
        key = "lesson.worked_answer"
        if answer.remainder is not None:
            key = "lesson.worked_remainder"
            fields["remainder"] = format_number(answer.remainder.text, self._words)
        yield Paragraph(find_formulas(self._words.text(key, **fields)))
        if example.note is not None:
            yield from read_prose(example.note)
        said = say_steps(walkthrough, self._words)
        yield Listing(tuple(Entry(f"{n}.", find_formulas(step.full)) for n, step in enumerate(said, start=1)))
        end, ones = walkthrough.steps[-1].after, find_named_ones(walkthrough)
        lead = (self._words.text("editions.frame_at_end"),)
        yield show_frame(end, self._words, ones, lowest=find_lowest(walkthrough), lead=lead)

    def _write_items(self, block: object) -> Iterator[Block]:
        for item in list_items(self._course, self._lesson, block):
            built = build_item(item, len(self._items) + 1, self._words)
            self._items.append(built)
            yield from built.asked

    def _write_caution(self, text: str) -> Iterator[Block]:
        yield Paragraph((), label=self._words.text("lesson.caution"))
        yield from read_prose(text)

    def _write_answers(self) -> Iterator[Block]:
        answers = [(item.number, item.answer) for item in self._items if item.answer != ()]
        if answers:
            yield NewPage()
            yield Heading(2, (self._words.text("editions.answers"),), idea=True)
            yield Listing(tuple(Entry(f"{number}.", answer) for number, answer in answers))
