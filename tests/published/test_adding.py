"""Published examples of adding, state by state, in the house style that each of them needs.

Sources
-------
*Abacus: Mystery of the Bead*: Totton Heffelfinger and Gary Flom, 2004 and later, page “Addition”. Adds right-first: the
partner first, then the 1 on the left.
*Tochio's Computation on the Soroban*: K. Tochio, Kelly & Walsh, Yokohama 1912, chapter on addition.
*Mathematics Made Easy*: M. N. G. Mani, A. Plernchaivanich, G. R. Ramesh, L. Campbell, *Mathematics Made Easy for
Children with Visual Impairment*, ON-NET 2005 (the year from memory), page 40. The tactile frame for blind pupils.
*Addition techniques*: a draft of that name in a user's sandbox of the English Wikipedia (Kpufferfish). Right-first.
"""

import pytest

from tests.published.states import read_states_by_column, read_states_by_move
from tests.support.frames import Way, work

RIGHT_FIRST = Way(add="right-first")

BY_COLUMN = [
    # *Abacus: Mystery of the Bead*: rods A B C: 034, B − 3, A + 1, C − 2, B + 1.
    ("34 + 78", [34, 4, 104, 102, 112]),
    # *Abacus: Mystery of the Bead*: 8.9 + 56 with B the unit rod: 089, A + 5, B − 4, A + 1; read as tenths here.
    ("8.9 + 56", [89, 589, 549, 649]),
    # *Addition techniques*: 24 + 8 goes through 22.
    ("24 + 8", [24, 22, 32]),
]


@pytest.mark.parametrize(("problem", "states"), BY_COLUMN)
def test_states_rod_by_rod(problem: str, states: list[int]) -> None:
    walkthrough = work(problem, RIGHT_FIRST)
    unit = 10 ** (walkthrough.ones_column - walkthrough.answer.decimals - 1)
    assert read_states_by_column(walkthrough) == [unit * state for state in states]


BY_MOVE = [
    # *Addition techniques*: 4 + 3: + 5, then − 2.
    ("4 + 3", [4, 9, 7]),
    # *Mathematics Made Easy*, page 40: 4 + 5 sets the upper bead. For 4 + 3 no lower bead is free, so the upper bead is
    # set and 2 are cleared; that this ends at 7 is reckoned, not printed there.
    ("4 + 5", [4, 9]),
    ("4 + 3", [4, 9, 7]),
]


@pytest.mark.parametrize(("problem", "states"), BY_MOVE)
def test_states_move_by_move(problem: str, states: list[int]) -> None:
    assert read_states_by_move(work(problem)) == states


def test_upper_bead_before_lower_beads_on_the_left() -> None:
    """*Addition techniques*: 162.07 + 393.94: 462.07, 452.07, 952.07 (+ 5 first), 552.07 (− 4); in the end 556.01."""
    walkthrough = work("162.07 + 393.94", RIGHT_FIRST)
    unit = 10 ** (walkthrough.ones_column - 3)
    states = [state // unit for state in read_states_by_move(walkthrough)]
    assert states[:5] == [16207, 46207, 45207, 95207, 55207]
    assert (states[-1], walkthrough.answer.text) == (55601, "556.01")


def test_a_ripple_is_carried_forward() -> None:
    """*Tochio's Computation*: 9731 + 269 = 10000. For 1 + 9, 1 is cleared and 1 carried forward: nothing is filled up.

    The book tells the two moves in one breath, so their order is not held against it.
    """
    walkthrough = work("9731 + 269")
    assert walkthrough.answer.text == "10000"
    here = [(str(move.bead), move.change) for move in walkthrough.steps[-1].moves if move.column == 1]
    assert here == [("lower", -1)]
    carried = [(move.column, str(move.bead), move.change) for move in walkthrough.steps[-1].moves if move.change > 0]
    assert carried == [(5, "lower", 1)]


@pytest.mark.parametrize("problem", ["9731 + 269", "162.07 + 393.94", "34 + 78", "3275 - 689"])
def test_from_the_highest_column_to_the_right(problem: str) -> None:
    """*Tochio's Computation*, rule 1, and *Mathematics Made Easy*, page 40, both work from the highest column."""
    steps = [step for step in work(problem).steps if step.work is not None]
    for term in (1, 2):
        columns = [step.work.column for step in steps if step.work and step.work.to_data()["term"] == term]
        assert columns == sorted(columns, reverse=True)
