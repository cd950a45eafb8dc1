"""Texts in a workbook, whatever they look like: read back by another program, each is what it was."""

from io import BytesIO
from typing import Any

import pytest
import xlsxwriter
from hypothesis import example, given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook
from openpyxl.utils.escape import unescape

from beadwright.render.workbooks import write_text

WAYS: tuple[dict[str, Any], ...] = ({"constant_memory": True}, {"in_memory": True})
"""The report's workbook and the score sheet."""
ODD = (
    '<r></r></is></c><c r="Z2"><f>HYPERLINK("//e.x","hi")</f></c><c><is><r></r>', "<r>&</r>", "<r></r>", "<r> \n</r>",
    "<r>_x0041_</r>", "<r>__x000D_x0041__ _</r>", "<r><t>told</t></r>", "<r>",
    "=1+1", '{=HYPERLINK("//e.x")}', "+1", "-1", "@SUM(A1)", "1", "TRUE",
    "#DIV/0!", "http://e.x/", "  two  blanks  ", "_x000D_", "a\rb", "\x00", "\ufffe\uffff", "]]>", "<!--", "\U0001f600",
)  # fmt: skip
signs = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=30)
shown = st.text(st.characters(exclude_categories=["Cs", "Cc", "Cn"]) | st.sampled_from("_x0AF<>/r"), max_size=30)
texts = st.one_of(signs, shown.map("<r>{}</r>".format), signs.map("={}".format), st.sampled_from(ODD))


def read_back(texts: list[str], options: dict[str, Any]) -> list[list[Any]]:
    """Each text written plainly and under a format, as cells in the rows of a sheet."""
    made = BytesIO()
    book = xlsxwriter.Workbook(made, options)
    sheet, bold = book.add_worksheet("texts"), book.add_format({"bold": True})
    for row, text in enumerate(texts):
        write_text(sheet, row, 0, text)
        write_text(sheet, row, 1, text, bold)
    book.close()
    return [list(row) for row in load_workbook(made)["texts"].iter_rows()]


@pytest.mark.parametrize("options", WAYS, ids=["in-rows", "in-a-table"])
@settings(deadline=None)
@given(st.lists(texts, min_size=1, max_size=6))
@example(list(ODD))
def test_a_text_comes_out_as_it_was(options: dict[str, Any], written: list[str]) -> None:
    rows = read_back(written, options)
    assert len(rows) == len(written)
    for text, row in zip(written, rows, strict=True):
        assert len(row) == 2
        for cell in row:
            assert cell.data_type == "s"
            assert cell.hyperlink is None
            # Signs that XML has no place for stand as _xHHHH_ in the file (ISO/IEC 29500-1, 22.9.2.19); this reader
            # leaves most of that to who asks, and undoes only what a shared table has escaped twice.
            assert text in (unescape(cell.value), cell.value)


@pytest.mark.parametrize("options", WAYS, ids=["in-rows", "in-a-table"])
def test_a_text_longer_than_a_cell_is_cut_and_stays(options: dict[str, Any]) -> None:
    # 20,000 of these are 40,000 units, and a cell holds 32,767.
    smiling = "\U0001f600" * 20_000
    (row, framed) = read_back([smiling, f"<r>{smiling}</r>"], options)
    assert len(row[0].value) >= 16_000
    assert smiling.startswith(row[0].value)
    assert f"<r>{smiling}".startswith(framed[0].value)
