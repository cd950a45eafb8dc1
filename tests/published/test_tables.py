"""The published tables of partners, and of the moves for + n and − n, held against every state of a column.

Sources
-------
Partners of 10: K. Tochio, *Tochio's Computation on the Soroban*, Kelly & Walsh, Yokohama 1912, table of the chapter
on addition.
Partners of 5: a soroban handbook in numbered sections, section four (title and author not known).
Moves for + n: “Addition techniques”, a draft of that name in a user's sandbox of the English Wikipedia (Kpufferfish).
Moves for − 6 to − 9 by both partners: subtraction rhymes quoted in an Artima forum, thread 179033. The rest of the
taking away is the mirror image of the adding.
"""

from typing import NamedTuple

import pytest

from beadwright.engine import Bead, Step, Technique
from tests.support.frames import Way, work

PARTNERS_OF_10 = {1: 9, 2: 8, 3: 7, 4: 6, 5: 5, 6: 4, 7: 3, 8: 2, 9: 1}
PARTNERS_OF_5 = {1: 4, 2: 3, 3: 2, 4: 1}


class Row(NamedTuple):
    """The moves for one n: by partner of 5, by partner of 10, by both; None where the table has none."""

    five: str | None
    ten: str
    both: str | None


ADDING = {
    1: Row("+5 -4", "+10 -9", None),
    2: Row("+5 -3", "+10 -8", None),
    3: Row("+5 -2", "+10 -7", None),
    4: Row("+5 -1", "+10 -6", None),
    5: Row(None, "+10 -5", None),
    6: Row(None, "+10 -4", "+10 -5 +1"),
    7: Row(None, "+10 -3", "+10 -5 +2"),
    8: Row(None, "+10 -2", "+10 -5 +3"),
    9: Row(None, "+10 -1", "+10 -5 +4"),
}
TAKING = {
    1: Row("-5 +4", "-10 +9", None),
    2: Row("-5 +3", "-10 +8", None),
    3: Row("-5 +2", "-10 +7", None),
    4: Row("-5 +1", "-10 +6", None),
    5: Row(None, "-10 +5", None),
    6: Row(None, "-10 +4", "-10 +5 -1"),
    7: Row(None, "-10 +3", "-10 +5 -2"),
    8: Row(None, "-10 +2", "-10 +5 -3"),
    9: Row(None, "-10 +1", "-10 +5 -4"),
}
TABLES = {"+": ADDING, "-": TAKING}


def work_digit(held: int, sign: str, n: int) -> Step:
    """The step that works n in a column that holds `held`, with a 1 on the tens and tens to carry to."""
    (step,) = work(f"{10 + held} {sign} {n}").steps[-1:]
    return step


def write_moves(step: Step) -> str:
    """Moves as the table writes them: the left as ten; here as one number, or upper and lower where they part."""
    ten = sum(10 * move.change for move in step.moves if move.column == 2)
    here = [(5 if move.bead is Bead.UPPER else 1) * move.change for move in step.moves if move.column == 1]
    same_way = len({amount > 0 for amount in here}) == 1
    return " ".join(f"{amount:+d}" for amount in ([ten] if ten else []) + ([sum(here)] if same_way else here))


def choose_cell(held: int, sign: str, n: int) -> tuple[str | None, Technique]:
    """The cell of the table that a column's beads call for, found by trying what the beads allow."""
    upper, lower = divmod(held, 5)
    way = 1 if sign == "+" else -1
    row = TABLES[sign][n]
    if are_there(upper, lower, way * (n // 5), way * (n % 5)):
        return f"{way * n:+d}", Technique.DIRECT
    if 0 <= held + way * n <= 9:
        return row.five, Technique.PARTNER_OF_5
    partner = PARTNERS_OF_10[n]
    if are_there(upper, lower, -way * (partner // 5), -way * (partner % 5)):
        return row.ten, Technique.PARTNER_OF_10
    return row.both, Technique.BOTH_PARTNERS


def are_there(upper: int, lower: int, upper_change: int, lower_change: int) -> bool:
    return 0 <= upper + upper_change <= 1 and 0 <= lower + lower_change <= 4


@pytest.mark.parametrize("sign", ["+", "-"])
@pytest.mark.parametrize("n", range(1, 10))
def test_the_moves_for_every_digit_on_every_column_state(sign: str, n: int) -> None:
    for held in range(10):
        step = work_digit(held, sign, n)
        cell, technique = choose_cell(held, sign, n)
        assert cell is not None, "the table has the cell"
        assert (write_moves(step), step.technique) == (cell, technique), held


def test_each_cell_of_the_tables_is_met() -> None:
    for sign, table in TABLES.items():
        met = {choose_cell(held, sign, n)[0] for held in range(10) for n in range(1, 10)}
        cells = {cell for row in table.values() for cell in row if cell is not None}
        assert cells <= met


@pytest.mark.parametrize(("n", "partner"), PARTNERS_OF_10.items())
def test_partners_of_10(n: int, partner: int) -> None:
    """On nine beads, n on a column that its partner makes full goes by setting 1 left and clearing the partner."""
    (step,) = work(f"{partner} + {n}", Way("nine-bead")).steps[-1:]
    assert [(move.column, move.change) for move in step.moves] == [(2, 1), (1, -partner)]
    (back,) = work(f"10 - {n}", Way("nine-bead")).steps[-1:]
    assert [(move.column, move.change) for move in back.moves] == [(2, -1), (1, partner)]


@pytest.mark.parametrize(("n", "partner"), PARTNERS_OF_5.items())
def test_partners_of_5(n: int, partner: int) -> None:
    """n on a column that its partner makes five goes by setting the upper bead and clearing the partner."""
    (step,) = work(f"{partner} + {n}").steps[-1:]
    assert [(move.bead, move.change) for move in step.moves] == [(Bead.UPPER, 1), (Bead.LOWER, -partner)]
    (back,) = work(f"5 - {n}").steps[-1:]
    assert [(move.bead, move.change) for move in back.moves] == [(Bead.UPPER, -1), (Bead.LOWER, partner)]
