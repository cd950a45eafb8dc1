"""Braille pages: lines on pages of a set size, page numbers, a contents page, and the bytes of a `.brf` file.

The number of a page stands at the right of its last line in literary digits (Nemeth Code section 7.b). Page size and
line ends of the file: common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from beadwright.render.braille.cells import BLANK, to_ascii, to_cells

GUIDE = "⠐"
LEAST_CELLS = 20
LEAST_LINES = 5
MOST = 200
"""More than any paper or display has, common practice, no source; beyond, blanks alone would fill the memory."""


@dataclass(frozen=True, slots=True)
class Geometry:
    """The size of a page: cells in a line, lines with that of its number; `ValueError` when there is no such page."""

    cells: int = 40
    lines: int = 25

    def __post_init__(self) -> None:
        if not (LEAST_CELLS <= self.cells <= MOST and LEAST_LINES <= self.lines <= MOST):
            raise ValueError(
                f"a braille page has {LEAST_CELLS} to {MOST} cells in a line and {LEAST_LINES} to {MOST} lines"
            )


@dataclass(frozen=True, slots=True)
class Chunk:
    """Lines that belong together. `title` puts them on the contents page.

    `space`: a blank line before it; `keep`: not the last on its page (a heading); `new_page`: begins a page.
    """

    lines: tuple[str, ...]
    space: bool = False
    keep: bool = False
    new_page: bool = False
    whole: bool = False
    title: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BraillePages:
    """Finished pages of Unicode braille lines, each as many lines as the page has."""

    pages: tuple[tuple[str, ...], ...]

    def to_brf(self) -> bytes:
        """The bytes of a `.brf` file: Braille ASCII, lines ended by CR LF, a form feed between pages."""
        pages = ["\r\n".join(to_ascii(line) for line in page) + "\r\n" for page in self.pages]
        return "\f".join(pages).encode("ascii")


def read_cells(brf: bytes) -> str:
    r"""The lines of a `.brf` file as Unicode braille, a form feed between pages; blank lines at its ends are left out.

    >>> read_cells(b"#AB4\r\n\r\n\f  X\r\n")
    '⠼⠁⠃⠲\x0c⠀⠀⠭'
    """
    pages = brf.decode("ascii").split("\f")
    return "\f".join("\n".join(map(to_cells, page.split("\r\n"))).strip("\n") for page in pages)


def number_cells(number: int) -> str:
    """A page's number in literary digits."""
    return to_cells("#" + str(number).translate(str.maketrans("1234567890", "abcdefghij")))


def build_pages(chunks: Sequence[Chunk], geometry: Geometry, *, contents: Chunk | None = None) -> BraillePages:
    """Chunks on pages; with `contents` (its heading) a contents page first, whose own pages are numbered p1, p2, …."""
    pages, starts = _fill(chunks, geometry)
    numbered = [_finish(page, number_cells(n), geometry) for n, page in enumerate(pages, start=1)]
    if contents is None:
        return BraillePages(tuple(numbered))
    listed = [contents, *(_list_title(chunk, page, geometry) for chunk, page in starts)]
    front, _ = _fill(listed, geometry)
    before = [_finish(page, to_cells("p") + number_cells(n), geometry) for n, page in enumerate(front, start=1)]
    return BraillePages((*before, *numbered))


def _fill(chunks: Sequence[Chunk], geometry: Geometry) -> tuple[list[list[str]], list[tuple[Chunk, int]]]:
    """Pages of lines without their numbers, and the page on which each chunk with a title begins."""
    pages: list[list[str]] = [[]]
    starts: list[tuple[Chunk, int]] = []
    room = geometry.lines - 1
    for index, chunk in enumerate(chunks):
        page = pages[-1]
        blank = 1 if chunk.space and page else 0
        if page and (chunk.new_page or len(page) + blank + _find_least(chunks, index, room) > room):
            pages.append(page := [])
            blank = 0
        if chunk.title:
            starts.append((chunk, len(pages)))
        page += [""] * blank
        for line in chunk.lines:
            if len(page) == room:
                pages.append(page := [])
            page.append(line)
    return pages, starts


def _find_least(chunks: Sequence[Chunk], index: int, room: int) -> int:
    """How many lines of a chunk, and of those it is kept with, must stand on one page."""
    chunk = chunks[index]
    if chunk.whole or chunk.keep:
        least = len(chunk.lines)
        if chunk.keep and index + 1 < len(chunks):
            following = chunks[index + 1]
            least += (1 if following.space else 0) + _find_least(chunks, index + 1, room)
        return min(least, room)
    return min(len(chunk.lines), 2)


def _finish(page: list[str], number: str, geometry: Geometry) -> tuple[str, ...]:
    padded = page + [""] * (geometry.lines - 1 - len(page))
    return (*padded, number.rjust(geometry.cells, BLANK))


def _list_title(chunk: Chunk, page: int, geometry: Geometry) -> Chunk:
    """A line of the contents: the title, guide dots, the page at the right."""
    number = number_cells(page)
    *before, last = chunk.title
    room = geometry.cells - len(last) - len(number) - 2
    if room < 0:
        before, last, room = [*chunk.title], BLANK, geometry.cells - len(number) - 3
    guide = GUIDE * room if room >= 2 else BLANK * room
    return Chunk((*before, f"{last}{BLANK}{guide}{BLANK}{number}"), whole=True)
