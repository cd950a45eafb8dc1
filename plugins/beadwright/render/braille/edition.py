"""A booklet in braille: every block set in cells by what it is, then on pages."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from beadwright.render.booklet.arithmetic import join_spans
from beadwright.render.booklet.blocks import (
    Asked,
    Block,
    Booklet,
    Entry,
    FillIn,
    Formula,
    FrameShown,
    Heading,
    Listing,
    NewPage,
    Paragraph,
    Span,
    Spans,
    Table,
)
from beadwright.render.braille.atoms import Code
from beadwright.render.braille.cells import BLANK, to_cells
from beadwright.render.braille.codes import build_code
from beadwright.render.braille.lines import break_row
from beadwright.render.braille.literary import Literary, translate
from beadwright.render.braille.pages import BraillePages, Chunk, Geometry, build_pages, number_cells
from beadwright.render.braille.rows import build_problem_row
from beadwright.render.braille.spatial import can_stand, lay_out
from beadwright.render.braille.wrapping import Unit, split_expression, split_words, wrap
from beadwright.render.numbers import format_wanted
from beadwright.render.words import Words

USUAL_PAGE = Geometry()
_MARKERS = {"en": ("4", "_4"), "es": ("'", "-")}
"""By language: the full stop after a number in a list, and what stands before an entry without one."""
_INDENTS = {2: 4, 3: 6}
"""Blank cells before a heading below the title."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BrailleStyle:
    """How a booklet is written: the code of its arithmetic (`nemeth` or `ueb`), contracted text or not, page size."""

    code: str = "nemeth"
    contracted: bool = True
    geometry: Geometry = USUAL_PAGE

    def build_code(self) -> Code:
        """The code itself; raises `ValueError` for a name that is none."""
        return build_code(self.code, contracted=self.contracted)


def write_booklet(booklet: Booklet, style: BrailleStyle, words: Words) -> BraillePages:
    """The pages of a booklet, its contents first where it has parts.

    Where liblouis is missing only the arithmetic comes out. Raises `BrailleError` when liblouis cannot write a text.
    """
    contents = words.text("editions.contents")
    literary = translate(
        (*_find_texts(booklet.blocks, words), contents), contracted=style.contracted, language=booklet.language
    )
    setter = _Setter(style, literary, words, booklet.language)
    chunks = list(setter.set_blocks(booklet.blocks))
    has_parts = sum(1 for chunk in chunks if chunk.title) > 1
    heading = Chunk(setter.center(setter.find_units((contents,))), keep=True) if has_parts else None
    return build_pages(chunks, style.geometry, contents=heading)


def _find_texts(blocks: Sequence[Block], words: Words) -> Iterator[str]:  # noqa: C901 - as in _set_block
    """Every text of the blocks that is not arithmetic."""
    for block in blocks:
        match block:
            case Heading(spans=spans):
                yield from _texts_of(spans)
            case Paragraph():
                yield from _texts_of(_lead(block))
            case Listing(entries=entries):
                for entry in entries:
                    yield "" if entry.marker == "•" else entry.marker
                    yield from _texts_of(entry.spans)
            case Table():
                for row in _spell_rows(block, words):
                    yield from _texts_of(row)
            case FrameShown(reading=reading, lead=lead):
                yield from _texts_of((*lead, " ", reading) if lead else (reading,))
            case Asked(problem=problem):
                yield format_wanted(problem, words)
            case FillIn(spans=spans, marker=marker, labels=labels):
                yield marker
                yield from _texts_of(spans)
                yield from labels
            case _:
                continue


def _texts_of(spans: Spans) -> Iterator[str]:
    return (span for span in join_spans(spans) if isinstance(span, str))


def _lead(paragraph: Paragraph) -> Spans:
    """A paragraph's text with its label before it."""
    label, spans = paragraph.label, paragraph.spans
    if label == "":
        return spans
    return (f"{label} ", *spans) if spans else (label,)


def _spell_rows(table: Table, words: Words) -> Iterator[Spans]:
    """A table row by row, each cell after the head of its column."""
    before, after = words.pattern("editions.cell").split("{head}")[1].split("{cell}")
    for row in table.rows:
        spelt: list[Span] = []
        for place, (head, cell) in enumerate(zip(table.head, row, strict=False)):
            spelt += ["; "] if place > 0 else []
            spelt += [*head, before, *cell, after] if head else [*cell]
        yield tuple(spelt)


class _Setter:
    """Sets blocks in cells."""

    def __init__(self, style: BrailleStyle, literary: Literary, words: Words, language: str) -> None:
        self._code = style.build_code()
        self._width = style.geometry.cells
        self._name = style.code
        self._literary = literary
        self._words = words
        self._stop, self._bullet = map(to_cells, _MARKERS[language])

    def set_blocks(self, blocks: Sequence[Block]) -> Iterator[Chunk]:
        """The chunks of all blocks; problems that follow each other stand between one pair of switch indicators."""
        new_page = False
        previous: Block | None = None
        for index, block in enumerate(blocks):
            if isinstance(block, NewPage):
                new_page = True
                continue
            chunks = list(self._set_block(block))
            if self._is_row(block):
                following = blocks[index + 1] if index + 1 < len(blocks) else None
                chunks = self._switch(chunks, first=not self._is_row(previous), last=not self._is_row(following))
            for chunk in chunks:
                yield Chunk(chunk.lines, chunk.space, chunk.keep, new_page, chunk.whole, chunk.title)
                new_page = False
            previous = block

    def _set_block(self, block: Block) -> Iterator[Chunk]:  # noqa: C901 - one case for each kind of block
        match block:
            case Heading():
                yield from self._set_heading(block)
            case Paragraph():
                yield from self._set_lines(self.find_units(_lead(block)), first=2, runover=0)
            case Listing(entries=entries, kept=kept):
                chunks = [chunk for entry in entries for chunk in self._set_entry(entry)]
                if kept and chunks:
                    chunks = [Chunk(tuple(line for chunk in chunks for line in chunk.lines), space=True, whole=True)]
                yield from chunks
            case Table():
                for row in _spell_rows(block, self._words):
                    yield from self._set_lines(self.find_units(row), first=0, runover=2)
            case FrameShown(reading=reading, lead=lead):
                spans = (*lead, " ", reading) if lead else (reading,)
                yield from self._set_lines(self.find_units(spans), first=2, runover=0)
            case Asked():
                yield self._set_problem(block)
            case FillIn():
                yield from self._set_fill_in(block)
            case NewPage():
                return

    def find_units(self, spans: Spans) -> Iterator[Unit]:
        """The units of text and arithmetic."""
        for span in join_spans(spans):
            if isinstance(span, str):
                cells = self._literary.write(span)
                yield from split_words(cells)
                if cells.endswith(BLANK):
                    yield Unit("", spaced=True)
            else:
                yield from split_expression(span.row, self._code, self._width - 6)

    def _set_lines(self, units: Iterator[Unit], *, first: int, runover: int) -> Iterator[Chunk]:
        lines = wrap(units, self._width, first=first, runover=runover)
        if lines:
            yield Chunk(lines)

    def center(self, units: Iterator[Unit]) -> tuple[str, ...]:
        """Lines in the middle, at least three blank cells on either side where there is room."""
        lines = wrap(units, self._width - (6 if self._width >= 30 else 0))
        return tuple(BLANK * ((self._width - len(line)) // 2) + line for line in lines)

    def _set_heading(self, heading: Heading) -> Iterator[Chunk]:
        if heading.level == 1:
            lines = self.center(self.find_units(heading.spans))
        else:
            indent = _INDENTS[heading.level] if self._width >= 30 else 2
            lines = wrap(self.find_units(heading.spans), self._width, first=indent, runover=indent)
        if not lines:
            return
        title = wrap(self.find_units(heading.spans), self._width - 6, runover=2) if heading.level < 3 else ()
        yield Chunk(lines, space=True, keep=True, title=title)

    def _set_entry(self, entry: Entry) -> Iterator[Chunk]:
        indent = 2 * entry.depth
        yield from self._set_lines(self._mark(entry.marker, entry.spans), first=indent, runover=indent + 2)

    def _mark(self, marker: str, spans: Spans) -> Iterator[Unit]:
        """The units of a text after its marker; none where the text has no cells."""
        units = list(self.find_units(spans))
        if not any(unit.cells for unit in units):
            return
        cells = self._write_marker(marker)
        if cells:
            yield Unit(cells)
            units[0] = replace(units[0], spaced=True)
        yield from units

    def _set_fill_in(self, block: FillIn) -> Iterator[Chunk]:
        """What is asked, then each label on a line of its own, whose rest is free, or blank lines; on one page."""
        lines = wrap(self._mark(block.marker, block.spans), self._width, runover=2)
        for label in block.labels:
            lines += wrap(self.find_units((label,)), self._width, first=2, runover=4)
        if lines:
            yield Chunk((*lines, *[""] * block.lines), space=block.marker != "", whole=True)

    def _write_marker(self, marker: str) -> str:
        """A number by its digits and a full stop, so that it needs no liblouis; a bullet; else as text."""
        number = marker.removesuffix(".")
        if number.isdigit():
            return number_cells(int(number)) + (self._stop if marker.endswith(".") else "")
        return self._bullet if marker == "•" else self._literary.write(marker)

    def _is_row(self, block: Block | None) -> bool:
        """Whether a block is a problem without words, so that it stands between indicators with those beside it."""
        return isinstance(block, Asked) and format_wanted(block.problem, self._words) == ""

    def _set_problem(self, asked: Asked) -> Chunk:
        """A numbered problem; in Nemeth its number is in Nemeth too, since both stand between the indicators.

        One with words after it is set as text with arithmetic in it.
        """
        own = f"{asked.number}."
        row = build_problem_row(asked.problem, of=self._words.text("problem.of"))
        if not self._is_row(asked):
            spans = (Formula(asked.shown, row), format_wanted(asked.problem, self._words))
            return Chunk(wrap(self._mark(own, spans), self._width, runover=4), space=True, whole=True)
        number = to_cells(f"#{asked.number}_4") if self._name == "nemeth" else self._write_marker(own)
        if asked.vertical and can_stand(asked.problem):
            rows = lay_out(asked.problem, self._name)
            margin = BLANK * (len(number) + 2)
            if max(map(len, rows)) + len(margin) <= self._width:
                return Chunk((number + BLANK + BLANK + rows[0], *(margin + row for row in rows[1:])), True, whole=True)
        start = len(number) + 1
        lines = break_row(row, self._code, self._width, runover=4, first=self._width - start)
        return Chunk((f"{number}{BLANK}{lines[0]}", *lines[1:]), space=True, whole=True)

    def _switch(self, chunks: list[Chunk], *, first: bool, last: bool) -> list[Chunk]:
        """Problems with the switch indicators on lines of their own before the first and after the last (14.6.3)."""
        if self._code.indicators is None:
            return chunks
        opening, closing = map(to_cells, self._code.indicators)
        before = [Chunk((opening,), space=True, keep=True)] if first else []
        after = [Chunk((closing,), space=True)] if last else []
        return [*before, *chunks, *after]
