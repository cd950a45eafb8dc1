"""A booklet: a lesson, a practice sheet or a contest section as plain blocks, for braille, large print and a reader.

Nothing in it depends on how it comes out: text is text with the arithmetic in it marked, a frame is a frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from beadwright.engine import Frame, Problem
from beadwright.render.braille import Row


@dataclass(frozen=True, slots=True)
class Formula:
    """Arithmetic in the middle of text: as print shows it, and as a row for braille."""

    text: str
    row: Row


Span = str | Formula
Spans = tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; level 1 is the booklet's title, 2 a part, 3 a section; an `idea` begins a page in large print."""

    level: Literal[1, 2, 3]
    spans: Spans
    idea: bool = False


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph; `label` is bold and stands before it, such as “Take care”."""

    spans: Spans
    label: str = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a list: its marker (a number, a letter, or “•”), how deep it lies (from 0), and its text."""

    marker: str
    spans: Spans
    depth: int = 0


@dataclass(frozen=True, slots=True)
class Listing:
    """A list; a `kept` one, which is short, stays on one page."""

    entries: tuple[Entry, ...]
    kept: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table: the heads of its columns, and rows of as many cells."""

    head: tuple[Spans, ...]
    rows: tuple[tuple[Spans, ...], ...]


@dataclass(frozen=True, slots=True)
class FrameShown:
    """A frame: `reading` says all that the picture shows, `name` in short. `columns`: highest and lowest drawn.

    `lead` says what it is there to show, and stays with it.
    """

    frame: Frame
    reading: str
    name: str
    columns: tuple[int, int]
    ones_column: int
    lead: Spans = ()


@dataclass(frozen=True, slots=True)
class Asked:
    """A problem to be worked, with its number; with room for the answer. `vertical`: in columns where that can be."""

    number: int
    problem: Problem
    shown: str
    vertical: bool = False


@dataclass(frozen=True, slots=True)
class FillIn:
    """Something to be filled in by hand, with its marker or none: `lines` of room below it, or a line after each label.

    With neither, the room is what is left of its own line.
    """

    spans: Spans
    marker: str = ""
    labels: tuple[str, ...] = ()
    lines: int = 0


@dataclass(frozen=True, slots=True)
class NewPage:
    """What follows begins a page."""


Block = Heading | Paragraph | Listing | Table | FrameShown | Asked | FillIn | NewPage


@dataclass(frozen=True, slots=True)
class Booklet:
    """Blocks in order with a title and a language; the first block is the heading that shows the title."""

    title: str
    language: str
    blocks: tuple[Block, ...]
