"""The report as a workbook: a sheet a table, numbers as numbers, every text as text, never a formula or a link."""

from __future__ import annotations

import datetime as dt
from io import BytesIO
from tempfile import TemporaryDirectory

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from beadwright.records.report import Report
from beadwright.records.tables import Kind, Table, Word
from beadwright.records.wording import format_cell, format_heading, format_title
from beadwright.render import Words
from beadwright.render.workbooks import write_text

MOST_ROWS = 1_048_000
"""A sheet holds 1,048,576 rows."""
_FORMATS: dict[Kind, str] = {"share": "0.0%", "number": "0.00", "whole": "0", "p": "0.0000"}
# What a learner typed is stored as text by its type; nothing here is read for what it looks like.
_OPTIONS = {
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
    "constant_memory": True,
    "default_date_format": "yyyy-mm-dd",
}


def build_workbook(report: Report, words: Words) -> bytes:
    """The workbook's file; the same report gives the same bytes. Raises `OSError`."""
    with TemporaryDirectory() as folder:  # rows go there, and shall not stay when it is full
        return _build(report, words, folder)


def _build(report: Report, words: Words, folder: str) -> bytes:
    made = BytesIO()
    book = xlsxwriter.Workbook(made, {**_OPTIONS, "tmpdir": folder})
    # A date of its own would make each file another one.
    book.set_properties({"title": report.outline.title, "created": dt.datetime(2000, 1, 1, tzinfo=dt.UTC)})
    head = book.add_format({"bold": True, "text_wrap": True, "valign": "top", "bottom": 1})
    formats = {kind: book.add_format({"num_format": code}) for kind, code in _FORMATS.items()}
    contents = book.add_worksheet(words.text("report.workbook_sheet"))
    contents.set_column(0, 0, 60)
    tables = [table for table in report.tables if len(table.rows) > 0]
    for number, table in enumerate(tables):
        write_text(contents, number, 0, f"{table.name}: {format_title(table, words)}")
        _write_sheet(book.add_worksheet(table.name), table, words, head, formats)
    book.close()
    return made.getvalue()


def _write_sheet(sheet: Worksheet, table: Table, words: Words, head: Format, formats: dict[Kind, Format]) -> None:
    for place, column in enumerate(table.columns):
        write_text(sheet, 0, place, format_heading(column, words), head)
        sheet.set_column(place, place, 30 if column.kind == "text" else 12)
    sheet.freeze_panes(1, 1)
    sheet.autofilter(0, 0, len(table.rows), len(table.columns) - 1)
    for number, row in enumerate(table.rows[:MOST_ROWS], start=1):
        for place, (cell, column) in enumerate(zip(row, table.columns, strict=True)):
            if isinstance(cell, str | Word):
                write_text(sheet, number, place, format_cell(cell, "text", words))
            elif cell is not None:
                sheet.write_number(number, place, cell, formats.get(column.kind))
