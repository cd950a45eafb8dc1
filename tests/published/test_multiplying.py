"""Published examples of multiplying, state by state, in the house style that each of them needs.

Sources
-------
*Abacus: Mystery of the Bead*: Totton Heffelfinger and Gary Flom, 2004 and later, pages “Multiplication” and “Mult_Dec”.
The multiplier is set at the far left. The page “Decimal” gives the rule that it names after F. Kato.
*The Japanese Abacus*: Takashi Kojima, Tuttle, Tokyo 1954, as reproduced page by page at funabacus.blogspot.com, July
2011; the blog does not name the book, so the attribution is from memory.
*Tochio's Computation on the Soroban*: K. Tochio, Kelly & Walsh, Yokohama 1912, chapter on multiplication. Its placement
is an older one, with tens on the digit's own rod after clearing it, which we do not work: only its result is checked.
*Mathematics Made Easy*: M. N. G. Mani, A. Plernchaivanich, G. R. Ramesh, L. Campbell, *Mathematics Made Easy for
Children with Visual Impairment*, ON-NET 2005 (the year from memory), pages 45 and 46. The tactile frame for blind
pupils. The first factor written is the multiplier.
*Traditional Abacus and Bead Arithmetic*, Wikibooks, chapter on multiplication: a table of partial products.
"""

import pytest

from beadwright.engine import FirstFactor, FromProduct, HouseStyle, KeptFactor, Purpose, Walkthrough
from tests.published.rods import find_missing_states, read_rods, work_on_rods

SET = HouseStyle(kept_factor=KeptFactor.SET)
TURNED = HouseStyle(kept_factor=KeptFactor.SET, first_factor=FirstFactor.MULTIPLIER)


def test_306_times_4() -> None:
    """*Abacus: Mystery of the Bead*: 4 on A, 306 on DEF, H the unit rod; the rod I right of it is never used."""
    states = [
        "400306000",
        "400300240",  # + 24 on GH, F cleared
        "400312240",  # + 12 on EF
        "400012240",  # D cleared
    ]
    walkthrough = work_on_rods("306 × 4", 8, SET)
    assert find_missing_states(walkthrough, [state[:-1] for state in states]) == []
    assert walkthrough.answer.text == "1224"


def test_93_times_0_026() -> None:
    """*Abacus: Mystery of the Bead*, page “Mult_Dec”: 26 on BC, 93 on EF, F the product's unit rod; rods B to I."""
    states = [
        "26093000",
        "26093060",  # + 06 on GH
        "26093078",  # + 18 on HI
        "26090078",  # F cleared
        "26091878",  # + 18 on FG
        "26092418",  # + 54 on GH
        "26002418",  # E cleared
    ]
    walkthrough = work_on_rods("93 × 0.026", 8, SET)
    assert find_missing_states(walkthrough, states) == []
    assert walkthrough.answer.text == "2.418"
    assert walkthrough.ones_column == 4  # F, the fourth from the right


def test_a_zero_of_the_multiplier_is_passed_over() -> None:
    """*The Japanese Abacus*: in 78 × 503, with 8 on G, its products stand on HI and JK; IJ belongs to the 0."""
    walkthrough = work_on_rods("78 × 503", 11)  # rods A to K, the product's ones on K
    states = read_rods(walkthrough)
    assert states[0] == "00000780000"
    works = [step.work for step in walkthrough.steps if step.work and step.purpose is Purpose.PRODUCT]
    rods = ["ABCDEFGHIJK"[11 - work.column] for work in works[:3]]
    assert rods == ["H", "J", "K"]  # 40 has no ones to add; 24 on J and K
    assert (states[-1], walkthrough.answer.text) == ("00000039234", str(78 * 503))


def test_4_times_7_on_the_tactile_frame() -> None:
    """*Mathematics Made Easy*, page 46: 4 at the far left, 7 on the hundreds, 28 on tens and ones.

    There both factors are cleared in the end; here the multiplier stays, as PROCEDURES §3.6 has it.
    """
    walkthrough = work_on_rods("4 × 7", 13, TURNED)
    assert find_missing_states(walkthrough, ["4000000000700", "4000000000728", "4000000000028"]) == []


@pytest.mark.parametrize(("text", "column"), [("45 × 225", 6), ("4 × 7", 3)])
def test_digits_and_digits_and_one_for_the_frame(text: str, column: int) -> None:
    """*Mathematics Made Easy*, page 45: the multiplicand's first digit stands in that column from the right."""
    walkthrough = work_on_rods(text, 13, TURNED)
    multiplicand = [step.work for step in walkthrough.steps if step.work and step.work.source.to_data() == {"term": 2}]
    assert multiplicand[0].column == column
    assert walkthrough.answer.columns is not None
    assert walkthrough.answer.columns[1] == 1


def list_products(walkthrough: Walkthrough) -> list[tuple[int, int]]:
    """The pairs of digits multiplied, in order."""
    found: list[tuple[int, int]] = []
    for step in walkthrough.steps:
        source = step.work.source if step.work else None
        if isinstance(source, FromProduct) and found[-1:] != [source.factors]:
            found.append(source.factors)
    return found


def test_the_order_of_products() -> None:
    """*Mathematics Made Easy*, page 46: the multiplier's highest digit by the multiplicand's lowest comes first.

    Each multiplicand digit is cleared before the next. In 67 × 78 there, 67 is the multiplier.
    """
    walkthrough = work_on_rods("67 × 78", 13, TURNED)
    assert list_products(walkthrough) == [(8, 6), (8, 7), (7, 6), (7, 7)]
    purposes = [step.purpose for step in walkthrough.steps if step.purpose in (Purpose.PRODUCT, Purpose.CLEAR)]
    assert [purposes.count(Purpose.CLEAR), purposes[-1], purposes[4]] == [2, Purpose.CLEAR, Purpose.CLEAR]


def test_products_below_ten_have_a_0_in_front() -> None:
    """*Mathematics Made Easy*, page 45 (01, 02, 03 …), and *Abacus: Mystery of the Bead* (3 × 2 is 06)."""
    walkthrough = work_on_rods("3 × 2", 13)
    (work,) = (step.work for step in walkthrough.steps if step.work and step.purpose is Purpose.PRODUCT)
    assert work.source.to_data() == {"factors": [3, 2], "product": "06", "place": "ones"}
    assert work.column == 1


def test_a_table_of_partial_products() -> None:
    """*Traditional Abacus and Bead Arithmetic*: 345 × 6789 = 2,342,205 as twelve products in their places."""
    rows = [[1_800_000, 210_000, 24_000, 2_700], [240_000, 28_000, 3_200, 360], [30_000, 3_500, 400, 45]]
    walkthrough = work_on_rods("345 × 6789", 13)
    placed: dict[int, list[int]] = {}  # by the multiplicand digit: 5, 4, 3
    for step in walkthrough.steps:
        source = step.work.source if step.work else None
        if isinstance(source, FromProduct) and step.work is not None:
            ones = step.work.column - (1 if source.place == "tens" else 0)
            product = source.factors[0] * source.factors[1] * 10 ** (ones - 1)
            if product not in placed.setdefault(source.factors[0], []):
                placed[source.factors[0]].append(product)
    assert [placed[digit] for digit in (3, 4, 5)] == rows
    assert walkthrough.answer.text == "2342205"


def test_a_product_of_small_decimals() -> None:
    """*Abacus: Mystery of the Bead*, page “Decimal”: 0.03 × 0.001, F the unit rod: 3 on I, 03 on JK, 0.00003.

    Read there by Kato's count of digits, −1 and −2; PROCEDURES §3.8 gives the same rods. Rods A to L; L is at rest.
    """
    walkthrough = work_on_rods("0.03 × 0.001", 12)
    assert walkthrough.ones_column == 7  # F, the seventh from the right
    assert find_missing_states(walkthrough, ["000000003000", "000000003030", "000000000030"]) == []
    assert walkthrough.answer.text == "0.00003"


def test_results_of_another_placement() -> None:
    """*Tochio's Computation*: 564 × 3 = 1692. Its states are those of an older placement, so only this is checked."""
    assert work_on_rods("564 × 3", 13).answer.text == "1692"
