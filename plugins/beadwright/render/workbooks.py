"""Text in the cells of a workbook: whatever stands in it, it comes out as the very same text."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

LONGEST_CELL = 16_000
"""A cell holds 32,767 units of UTF-16, and a sign takes two of them at most."""


def write_text(sheet: Worksheet, row: int, column: int, text: str, form: Format | None = None) -> None:
    """Write a text, cut where no cell could hold it, into a cell counted from 0.

    xlsxwriter takes a text that stands in `<r>…</r>` for markup of its own making and writes it as it is, formulas and
    all. Such a text is given to it in pieces. It escapes `_xHHHH_` in pieces once too often, so no piece holds one
    whole; control signs, which no text in our tables has, are escaped so too and come out as `_xHHHH_` there.
    """
    shown = text[:LONGEST_CELL]
    if shown.startswith("<r>") and shown.endswith("</r>"):
        pieces = re.findall("[^_]*_|[^_]+", shown[2:])
        sheet.write_rich_string(row, column, "<", "r", *pieces, *([] if form is None else [form]))
    else:
        sheet.write_string(row, column, shown, form)
