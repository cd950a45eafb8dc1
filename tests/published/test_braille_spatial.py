"""Problems in columns, cell by cell, against published teaching material; `.` is a blank cell here.

Nemeth: M. Denault, workshop of 2012 on Code sections 178 and 185; handout of a braille summer institute in Iowa.
UEB: handout “UEB: Spatial Arrangements” of a university in Massachusetts.
"""

import pytest

from beadwright.engine import parse_problem
from beadwright.render.braille import lay_out, to_ascii


def rows_of(problem: str, code: str, *, answered: bool = False) -> list[str]:
    """The rows without blank cells that all of them begin or end with."""
    rows = [to_ascii(row) for row in lay_out(parse_problem(problem), code, answered=answered)]
    margin = min(len(row) - len(row.lstrip(" ")) for row in rows)
    return [row[margin:].rstrip(" ").replace(" ", ".") for row in rows]


# Denault; the rows of the four problems side by side are parted where their lines end.
NEMETH = {
    "4 + 3": ["..4", ".+3", "3333"],
    "10 - 7": ["..10", ".-.7", "33333"],
    "9 + 7": ["..9", ".+7", "3333"],
    "7 - 3": ["..7", ".-3", "3333"],
    "9 - 3": ["..9", ".-3", "3333"],
}

UEB = {
    "35 + 51": ["..#CE", '"6#EA', '.."33'],
    "16 + 504 + 7": ["..#.AF", "..#EJD", '"6#..G', '.."333'],
    "3 × 2": ["..#C", '"8#B', '.."33', "..#F"],
}


@pytest.mark.parametrize("problem", NEMETH)
def test_nemeth_rows_are_those_of_the_workshop(problem: str) -> None:
    assert rows_of(problem, "nemeth") == NEMETH[problem]


@pytest.mark.parametrize("problem", UEB)
def test_ueb_rows_are_those_of_the_handout(problem: str) -> None:
    answered = problem == "3 × 2"
    assert rows_of(problem, "ueb", answered=answered) == UEB[problem]


def test_a_line_in_ueb_has_one_cell_more_than_the_widest_number_has_digits() -> None:
    """The example with numbers of five digits."""
    assert rows_of("12345 - 678", "ueb")[-1] == '.."33333'


def test_partial_products_leave_a_blank_cell_above_the_marker() -> None:
    """345.7 × 2.77 = 957.589 with 24 199, 241 990, 691 400 (Iowa)."""
    rows = rows_of("345.7 × 2.77", "nemeth", answered=True)
    assert [row.strip(".") for row in rows[3:6]] == ["24.199", "241.990", "691.400"]
    assert rows[-1].strip(".") == "957.589"
    marker = rows[-1].index(".", len(rows[-1]) - len(rows[-1].lstrip(".")))
    assert [row[marker] for row in rows[3:6]] == ["."] * 3
    assert len({len(row) for row in (*rows[3:6], rows[-1])}) == 1


def test_a_division_has_its_quotient_above_and_its_working_below() -> None:
    """1196 ÷ 23 = 52: 115, 46, 46, 0 (Iowa). Sign of dots 135; the line begins above it and ends one cell beyond."""
    rows = rows_of("1196 ÷ 23", "nemeth", answered=True)
    quotient, line, problem, *working = rows
    assert problem == "23O1196"
    assert quotient.strip(".") == "52"
    assert [row.strip(".") for row in working if "3333" not in row] == ["115", "46", "46", "0"]
    assert line == ".." + "3" * (len("O1196") + 1)
    assert quotient.index("5") == problem.index("9")
