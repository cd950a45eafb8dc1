"""The score sheet of a contest as a workbook: a sheet for each level, points and places by formulas."""

from __future__ import annotations

from datetime import UTC, datetime
from importlib.util import find_spec
from io import BytesIO
from typing import Any

from beadwright.render.sheets.event import Event, Level
from beadwright.render.sheets.papers import name_medium
from beadwright.render.words import Words
from beadwright.render.workbooks import write_text

MISSING = "The score sheet is not made: it needs xlsxwriter. Install it with: pip install 'beadwright[contest]'"
_MOST_UNITS = 28
"""Of a sheet's name, so that a number has room after it."""
_MADE = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)  # the same bytes for the same contest


def find_xlsxwriter() -> bool:
    """Whether what writes workbooks is installed."""
    return find_spec("xlsxwriter") is not None


def write_scores(event: Event, words: Words) -> bytes:
    """The workbook: name, section, a cell for each problem (1 or 0), points, tie, place.

    A place is found from points first and then from what stands under “tie”.
    """
    import xlsxwriter

    buffer = BytesIO()
    workbook = xlsxwriter.Workbook(buffer, {"in_memory": True})
    workbook.set_properties({"title": event.spec.title, "created": _MADE})
    bold = workbook.add_format({"bold": True, "text_wrap": True, "font_size": 14, "bottom": 2})
    plain = workbook.add_format({"font_size": 14})
    taken: set[str] = set()
    for level in event.levels:
        sheet = workbook.add_worksheet(_name_sheet(level.spec.title, taken))
        _fill(sheet, event, level, words, {"head": bold, "body": plain})
    workbook.close()
    return buffer.getvalue()


def _name_sheet(title: str, taken: set[str]) -> str:
    """A level's title as a workbook allows it: at most 31 units of UTF-16, no sign that it forbids, each name once."""
    plain = "".join(" " if sign in "[]:*?/\\" else sign for sign in title).strip("' ")
    cut = plain.encode("utf-16-le")[: 2 * _MOST_UNITS].decode("utf-16-le", "ignore")
    plain = cut.strip("' ") or "1"
    name, number = plain, 1
    while name.casefold() in taken:
        number += 1
        name = f"{plain} {number}"
    taken.add(name.casefold())
    return name


def _fill(sheet: Any, event: Event, level: Level, words: Words, formats: dict[str, Any]) -> None:
    from xlsxwriter.utility import xl_col_to_name

    items = max(len(section.problems) for section in level.sections)
    heads = [words.text(f"contest.score_{name}") for name in ("name", "section")]
    heads += [words.text("contest.score_item", number=number) for number in range(1, items + 1)]
    heads += [words.text(f"contest.score_{name}") for name in ("points", "tie", "place", "notes")]
    sheet.set_column(0, 1, 26, formats["body"])
    sheet.set_column(2, items + 1, 5, formats["body"])
    sheet.set_column(items + 2, items + 4, 9, formats["body"])
    sheet.set_column(items + 5, items + 5, 30, formats["body"])
    for place, head in enumerate(heads):
        write_text(sheet, 0, place, head, formats["head"])
    last = event.spec.entrants
    first_item, last_item = xl_col_to_name(2), xl_col_to_name(items + 1)
    points, tie = xl_col_to_name(items + 2), xl_col_to_name(items + 3)
    for row in range(2, last + 2):
        sum_up = f'=IF($A{row}="","",SUM({first_item}{row}:{last_item}{row}))'
        sheet.write_formula(row - 1, items + 2, sum_up, formats["body"], "")
        better = f'COUNTIF({points}$2:{points}${last + 1},">"&{points}{row})'
        level_but_tie = (
            f'COUNTIFS({points}$2:{points}${last + 1},{points}{row},{tie}$2:{tie}${last + 1},">"&N({tie}{row}))'
        )
        sheet.write_formula(row - 1, items + 4, f'=IF($A{row}="","",1+{better}+{level_but_tie})', formats["body"], "")
    _list_sections(sheet, level, words, formats, column=items + 7, last=last)
    sheet.data_validation(
        1, 2, last, items + 1, {"validate": "integer", "criteria": "between", "minimum": 0, "maximum": 1}
    )
    sheet.freeze_panes(1, 1)


def _list_sections(sheet: Any, level: Level, words: Words, formats: dict[str, Any], *, column: int, last: int) -> None:
    """The sections beside the table, to choose from: a list inside the rule itself is divided at every comma."""
    from xlsxwriter.utility import xl_rowcol_to_cell

    sheet.set_column(column, column, 30, formats["body"])
    write_text(sheet, 0, column, words.text("contest.score_sections"), formats["head"])
    for row, section in enumerate(level.sections, start=1):
        write_text(sheet, row, column, name_medium(level, section, words), formats["body"])
    first, end = (xl_rowcol_to_cell(row, column, row_abs=True, col_abs=True) for row in (1, len(level.sections)))
    sheet.data_validation(1, 1, last, 1, {"validate": "list", "source": f"={first}:{end}"})
