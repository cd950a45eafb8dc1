"""An author's Markdown as plain blocks: paragraphs, lists, tables, headings; links and emphasis become text."""

from __future__ import annotations

import re
from functools import cache
from html.parser import HTMLParser

from markdown import Markdown

from beadwright.render.booklet.arithmetic import find_formulas
from beadwright.render.booklet.blocks import Block, Entry, Heading, Listing, Paragraph, Spans, Table


@cache
def _build_converter() -> Markdown:
    return Markdown(extensions=["sane_lists", "attr_list", "tables", "def_list", "md_in_html"], output_format="html")


def read_prose(text: str) -> tuple[Block, ...]:
    """The blocks of an author's Markdown. Every heading becomes one of level 3."""
    return read_html(_build_converter().reset().convert(text))


def read_line(text: str) -> Spans:
    """Markdown of one line, or several put on one line, as text."""
    blocks = read_prose(text)
    said = [show_block(block) for block in blocks]
    return find_formulas(" ".join(part for part in said if part != ""))


def show_block(block: Block) -> str:
    """The text of a block of prose, in one line."""
    from beadwright.render.booklet.arithmetic import show_spans

    match block:
        case Heading(spans=spans) | Paragraph(spans=spans):
            return show_spans(spans)
        case Listing(entries=entries):
            return " ".join(f"{entry.marker} {show_spans(entry.spans)}".removeprefix("• ") for entry in entries)
        case Table(head=head, rows=rows):
            return "; ".join(", ".join(show_spans(cell) for cell in row) for row in (head, *rows))
        case _:
            return ""


def read_html(html: str) -> tuple[Block, ...]:
    """The blocks of HTML as Markdown gives it."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    reader.end_text()
    return tuple(reader.blocks)


_TEXT_ENDS = frozenset(
    ("p", "li", "ul", "ol", "h1", "h2", "h3", "h4", "h5", "h6", "dt", "dd", "div", "blockquote", "pre")
)


class _Reader(HTMLParser):
    """Gathers text until an element ends it, and knows the lists and the table it is in."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.blocks: list[Block] = []
        self._text = ""
        self._lists: list[list[int | None]] = []
        self._entries: list[Entry] = []
        self._marker: str | None = None
        self._heading = False
        self._row: list[Spans] = []
        self._rows: list[tuple[Spans, ...]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Start of an element."""
        if tag in _TEXT_ENDS or tag == "table":
            self.end_text()
        if tag in ("ul", "ol"):
            start = dict(attrs).get("start") or "1"
            self._lists.append([int(start) if tag == "ol" else None])
        elif tag == "li":
            self._marker = self._next_marker()
        elif re.fullmatch("h[1-6]", tag):
            self._heading = True
        elif tag == "br":
            self._text += " "
        elif tag == "table":
            self._rows = []
        elif tag == "tr":
            self._row = []

    def handle_endtag(self, tag: str) -> None:
        """End of an element."""
        if tag in ("th", "td"):
            self._row.append(self._take_text())
        elif tag == "tr":
            self._rows.append(tuple(self._row))
        elif tag == "table":
            head, *rows = self._rows
            self.blocks.append(Table(head, tuple(rows)))
        elif tag in _TEXT_ENDS:
            self.end_text()
        if tag in ("ul", "ol"):
            self._end_list()

    def handle_data(self, data: str) -> None:
        """Text."""
        self._text += data

    def end_text(self) -> None:
        """Make a block or a list entry of the text so far."""
        spans = self._take_text()
        heading, self._heading = self._heading, False
        if spans == ():
            return
        if self._lists:
            self._entries.append(Entry(self._marker or "", spans, len(self._lists) - 1))
            self._marker = None
        else:
            self.blocks.append(Heading(3, spans) if heading else Paragraph(spans))

    def _take_text(self) -> Spans:
        text, self._text = " ".join(self._text.split()), ""
        return find_formulas(text)

    def _next_marker(self) -> str:
        number = self._lists[-1][0] if self._lists else None
        if number is None:
            return "•"
        self._lists[-1][0] = number + 1
        return f"{number}."

    def _end_list(self) -> None:
        self._lists.pop()
        if not self._lists and self._entries:
            self.blocks.append(Listing(tuple(self._entries)))
            self._entries = []
