"""Cells and headings as a reader sees them, in the words and signs of a language."""

from __future__ import annotations

import math

from beadwright.records.tables import Cell, Column, Kind, Table, Word
from beadwright.render import Words

LEAST_P = 0.001


def format_heading(column: Column, words: Words) -> str:
    """What stands above a column."""
    return words.text(f"report.columns.{column.key}") if column.heading is None else column.heading


def format_title(table: Table, words: Words) -> str:
    """What a table is called."""
    return words.text(f"report.tables.{table.name}.title")


def format_cell(cell: Cell, kind: Kind, words: Words) -> str:
    """A cell in words. What is not there is shown as such, never as 0."""
    if cell is None:
        return words.text("report.nothing")
    if isinstance(cell, Word):
        fields = {} if cell.count is None else {"count": cell.count}
        return words.text(f"{cell.section}.{cell.name}", **fields)
    if isinstance(cell, str):
        return cell if cell != "" else words.text("report.nothing")
    return format_value(cell, kind, words)


def format_value(value: float, kind: Kind, words: Words) -> str:
    """A number by the kind of its column: percent with one place at most, p with three, other numbers with two at most.

    Percent are cut and not rounded: what does not reach a mark must not read as if it did.
    """
    if kind == "share":
        return words.text("report.percent", number=_mark(f"{math.floor(1000 * value + 1e-9) / 10:g}", words))
    if kind == "p":
        return words.text("report.least_p") if value < LEAST_P else _mark(f"{value:.3f}", words)
    if kind == "whole":
        return _mark(f"{value:.0f}", words)
    text = f"{value:.2f}"
    return _mark(text.rstrip("0").rstrip(".") if "." in text else text, words)


def _mark(text: str, words: Words) -> str:
    """A number with the language's decimal marker and a true minus sign; no grouping, as years stand beside it."""
    shown = "0" if text == "-0" else text
    return shown.replace(".", words.text("numbers.marker")).replace("-", "−")
