"""Published examples of dividing, state by state, in the house style that each of them needs.

Sources
-------
*The Japanese Abacus*: Takashi Kojima, Tuttle, Tokyo 1954, as reproduced page by page at funabacus.blogspot.com, July
2011; the blog does not name the book, so the attribution is from memory. The divisor is set at the far left.
*Abacus: Mystery of the Bead*: Totton Heffelfinger and Gary Flom, 2004 and later, page “Quotient”: the places of 927 ÷ 3
and 273 ÷ 3; their states follow by arithmetic.
*A lesson on dividing*, edurev.in/t/398793.
*Mathematics Made Easy*: M. N. G. Mani, A. Plernchaivanich, G. R. Ramesh, L. Campbell, *Mathematics Made Easy for
Children with Visual Impairment*, ON-NET 2005 (the year from memory), pages 52 and 57: values on page 57; the states of
the rods follow by arithmetic. An answer to a reader's question in the same collection works 84 ÷ 28.
*Using an Abacus* and *Traditional Abacus and Bead Arithmetic*, Wikibooks: where quotient digits stand; 1225 ÷ 35 by
taking away again and again.
Traditional division with its table of rules puts ten in one column and needs other beads: it is not worked here.
"""

import pytest

from beadwright.engine import HouseStyle, KeptFactor, Purpose, Trial, build_frame, parse_problem, work_problem
from tests.published.rods import find_missing_states, read_rods, work_on_rods

SET = HouseStyle(kept_factor=KeptFactor.SET)


def test_8_by_2() -> None:
    """*The Japanese Abacus*: 2 on A, 8 on F; 4 on D, the second rod left; F cleared."""
    assert find_missing_states(work_on_rods("8 ÷ 2", 6, SET), ["200008", "200400"]) == []


def test_837_by_3() -> None:
    """*The Japanese Abacus*: 3 on A, 837 on FGH; rods D to H are told."""
    states = [
        "00837",
        "20237",  # 2 on D, 6 taken on F
        "27027",  # 7 on E, 21 taken on FG
        "27900",  # 9 on F, 27 taken on GH
    ]
    assert find_missing_states(work_on_rods("837 ÷ 3", 8, SET), [f"300{state}" for state in states]) == []


@pytest.mark.parametrize(
    ("text", "states"),
    [("927 ÷ 3", ["00927", "30027", "30900"]), ("273 ÷ 3", ["00273", "09003", "09100"])],
)
def test_rules_1_and_2(text: str, states: list[str]) -> None:
    """*Abacus: Mystery of the Bead*: dividend on FGH, divisor on A; rods D to H."""
    assert find_missing_states(work_on_rods(text, 8, SET), [f"300{state}" for state in states]) == []


def test_951_by_3() -> None:
    """*A lesson on dividing*: 951 on FGH, 3 on A: 3 on D leaves 51, 1 on E leaves 21, 7 on F clears it."""
    states = ["30000951", "30030051", "30031021", "30031700"]
    assert find_missing_states(work_on_rods("951 ÷ 3", 8, SET), states) == []


def test_3588_by_46() -> None:
    """*Mathematics Made Easy*, page 57: 46 is more than 35, so the first digit is one rod left. Rods I to M."""
    states = [
        "03588",
        "70788",  # 7 on I, 28 taken
        "70368",  # 42 taken
        "78048",  # 8 on J, 32 taken
        "78000",  # 48 taken
    ]
    assert find_missing_states(work_on_rods("3588 ÷ 46", 5), states) == []


def test_3588_by_46_revised_upwards() -> None:
    """*Mathematics Made Easy*, page 57: 6 tried leaves 82, more than 46; 6 becomes 7 and 46 is taken once more.

    The problem is not set anew. The house style has the first trial digit given.
    """
    house = HouseStyle(trial=Trial.GIVEN, trial_digits=(6,))
    states = ["03588", "60828", "70368", "78000"]
    assert find_missing_states(work_on_rods("3588 ÷ 46", 5, house), states) == []


def test_84_by_28_revised_downwards() -> None:
    """*Mathematics Made Easy*: 4 becomes 3, 20 is given back, 24 less 24 is 0. The trial digit is given."""
    house = HouseStyle(trial=Trial.GIVEN, trial_digits=(4,))
    walkthrough = work_on_rods("84 ÷ 28", 4, house)
    assert find_missing_states(walkthrough, ["0084", "4004", "3024", "3000"]) == []
    given_back = [step.work for step in walkthrough.steps if step.work and step.purpose is Purpose.GIVE_BACK]
    assert [(work.digit, work.column) for work in given_back] == [(2, 2)]


@pytest.mark.parametrize(
    ("text", "rule", "rods_left"),
    [("827 ÷ 46", "second-left", 2), ("1800 ÷ 467", "first-left", 1)],
)
def test_where_the_first_digit_stands(text: str, rule: str, rods_left: int) -> None:
    """*Using an Abacus*: 46 and 827 on GHI: the digit on E. 467 and 18 on HI, read as 180: the digit on G."""
    walkthrough = work_on_rods(text, 13, SET)
    dividend = text.partition(" ")[0]
    work = next(step.work for step in walkthrough.steps if step.purpose is Purpose.QUOTIENT)
    assert work is not None
    assert work.source.to_data()["rule"] == rule
    assert work.column == len(dividend) + rods_left


@pytest.mark.parametrize("text", ["837 ÷ 3", "3588 ÷ 46", "56088 ÷ 456", "927 ÷ 3"])
def test_multiplying_back_restores_the_dividend(text: str) -> None:
    """*The Japanese Abacus*: quotient × divisor, worked where the quotient stands, gives back the dividend's rods."""
    quotient = work_on_rods(text, 13)
    divisor = text.rpartition(" ")[2]
    product = work_on_rods(f"{quotient.answer.text} × {divisor}", 13)
    assert read_rods(product)[0] == read_rods(quotient)[-1]
    assert read_rods(product)[-1] == read_rods(quotient)[0]


def test_one_rod_at_rest_before_the_remainder() -> None:
    """*Mathematics Made Easy*, page 52: dividend at the far right with no column after it; one column stays at rest."""
    walkthrough = work_on_rods("954 ÷ 23", 13)
    assert read_rods(walkthrough)[0].endswith("954")
    assert read_rods(walkthrough)[-1].endswith("41" + "0" + "11")


def test_1225_by_35_again_and_again() -> None:
    """*Traditional Abacus and Bead Arithmetic*: 1190, 1155, 1120, … 70, 35, 0; taken away 35 times."""
    walkthrough = work_problem(parse_problem("1225 ÷ 35"), build_frame(), method="repeated-taking-away")
    said = [(step.remark.to_data(), step.after.value) for step in walkthrough.steps if step.remark]
    left = {remark["count"]: value for remark, value in said if remark["topic"] == "times-taken"}
    assert [left[count] for count in (1, 2, 3, 33, 34, 35)] == [1190, 1155, 1120, 70, 35, 0]
    assert (max(left), walkthrough.answer.text) == (35, "35")
