"""Published examples of taking away, state by state, in the house style that each of them needs.

Sources
-------
*Abacus: Mystery of the Bead*: Totton Heffelfinger and Gary Flom, 2004 and later, pages “Subtraction” and “SubAdd”.
Takes left-first: the 1 from the left, then the partner. (For both examples the page's text says in its third step
that the 1 comes from the hundreds, while its own states show it taken from the tens; the states are used.)
*Mathematics Made Easy*: M. N. G. Mani, A. Plernchaivanich, G. R. Ramesh, L. Campbell, *Mathematics Made Easy for
Children with Visual Impairment*, ON-NET 2005 (the year from memory), page 43.
"""

import pytest

from beadwright.engine import Technique, find_techniques
from tests.published.states import read_states_by_column
from tests.support.frames import ORDERS, Way, work

LEFT_FIRST = Way(take="left-first")

BY_COLUMN = [
    # *Abacus: Mystery of the Bead*: rods A B C: 102, A − 1, B + 3, B − 1, C + 2.
    ("102 - 78", [102, 2, 32, 22, 24]),
    # *Abacus: Mystery of the Bead*: 146, A − 1, B + 5, B − 1, C + 3.
    ("146 - 57", [146, 46, 96, 86, 89]),
]


@pytest.mark.parametrize(("problem", "states"), BY_COLUMN)
def test_states_rod_by_rod(problem: str, states: list[int]) -> None:
    assert read_states_by_column(work(problem, LEFT_FIRST)) == states


def test_adding_right_first_and_taking_left_first_in_one_house() -> None:
    """*Abacus: Mystery of the Bead* does both: 34 + 78 − 88 goes through its states of adding, then on left-first.

    The taking away was worked by hand after its rule: 112, hundreds − 1, tens + 2, tens − 1, ones + 2.
    """
    way = Way(add="right-first", take="left-first")
    assert read_states_by_column(work("34 + 78 - 88", way)) == [34, 4, 104, 102, 112, 12, 32, 22, 24]


@pytest.mark.parametrize("order", ORDERS)
def test_by_result_only(order: str) -> None:
    """*Abacus: Mystery of the Bead*, “SubAdd”: 3275 − 689 = 2586.

    The page works it by the nines' complement, another method than ours, so only the result is held against it.
    """
    assert work("3275 - 689", Way(take=order)).answer.text == "2586"


def test_which_problem_needs_a_partner() -> None:
    """*Mathematics Made Easy*, page 43: 43 − 32 = 11 is direct; 82 − 19 needs the partner in the ones."""
    assert work("43 - 32").answer.text == "11"
    assert find_techniques(work("43 - 32")) == {Technique.DIRECT}
    tens, ones = work("82 - 19").steps[-2:]
    assert tens.technique is Technique.DIRECT
    assert ones.technique is Technique.PARTNER_OF_10
