"""Booklets: lessons and sheets as plain blocks, from which braille, large print and a reader's script are made."""

from beadwright.render.booklet.arithmetic import find_formulas, join_spans, read_row, show_spans
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
from beadwright.render.booklet.items import show_frame
from beadwright.render.booklet.lesson import build_lesson, list_items, number_items
from beadwright.render.booklet.practice import Papers, build_practice_sheet
from beadwright.render.booklet.prose import read_line, read_prose
from beadwright.render.booklet.trainer import build_trainer_sheets

__all__ = [
    "Asked",
    "Block",
    "Booklet",
    "Entry",
    "FillIn",
    "Formula",
    "FrameShown",
    "Heading",
    "Listing",
    "NewPage",
    "Papers",
    "Paragraph",
    "Span",
    "Spans",
    "Table",
    "build_lesson",
    "build_practice_sheet",
    "build_trainer_sheets",
    "find_formulas",
    "join_spans",
    "list_items",
    "number_items",
    "read_line",
    "read_prose",
    "read_row",
    "show_frame",
    "show_spans",
]
