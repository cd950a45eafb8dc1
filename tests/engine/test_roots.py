"""Square roots by both procedures, judged by the referee: a dense range, long ones, decimals, lowering, room.

Columns and moves written out here were worked by hand from PROCEDURES §3.10 (common practice, no source).
"""

from decimal import Decimal
from itertools import product
from math import isqrt
from random import Random

import pytest

from beadwright.engine import (
    FrameError,
    HouseStyle,
    Inner,
    MethodError,
    Number,
    Order,
    Purpose,
    Root,
    Walkthrough,
    build_frame,
    find_slipped,
    parse_problem,
    predict_slips,
    work_problem,
)
from tests.referee import check_data, check_seen, find_missing_for_root, see_value

METHODS = ("odd-number", "double-root")
STYLES = [HouseStyle(add_order=add, take_order=take, inner=inner) for add, take, inner in product(Order, Order, Inner)]


def work_root(
    text: str, method: str = "double-root", *, columns: int = 13, house: HouseStyle = STYLES[0]
) -> Walkthrough:
    return work_problem(parse_problem(f"√{text}"), build_frame(columns=columns), house=house, method=method)


def read_answer(walkthrough: Walkthrough) -> tuple[str, str]:
    remainder = walkthrough.answer.remainder
    return walkthrough.answer.text, "0" if remainder is None else remainder.text


@pytest.mark.parametrize("hundreds", range(100))
@pytest.mark.parametrize("method", METHODS)
def test_every_root_below_ten_thousand(method: str, hundreds: int) -> None:
    frame = build_frame()
    for n in range(100 * hundreds, 100 * hundreds + 100):
        walkthrough = work_problem(Root(Number(n)), frame, method=method)
        assert read_answer(walkthrough) == (str(isqrt(n)), str(n - isqrt(n) ** 2))
        check_seen(see_value(walkthrough))


@pytest.mark.parametrize("house", STYLES, ids=lambda house: f"{house.add_order} {house.take_order} {house.inner}")
@pytest.mark.parametrize("method", METHODS)
def test_a_sample_in_every_house_style(method: str, house: HouseStyle) -> None:
    """Through plain data, as any reader of it would judge."""
    chance = Random("roots in every style")
    for _ in range(30):
        n = chance.randrange(10 ** chance.randint(1, 8))
        walkthrough = work_root(str(n), method, columns=16, house=house)
        assert read_answer(walkthrough) == (str(isqrt(n)), str(n - isqrt(n) ** 2))
        check_data(walkthrough.to_data())
        assert Walkthrough.from_data(walkthrough.to_data()).to_data() == walkthrough.to_data()


@pytest.mark.parametrize("method", METHODS)
def test_long_radicands_on_two_frames(method: str) -> None:
    """16 digits and 8 root digits are 24; two more beside them fill the 26 columns."""
    chance = Random("long roots")
    for _ in range(100):
        n = chance.randrange(10 ** chance.randint(5, 16))
        walkthrough = work_root(str(n), method, columns=26)
        assert read_answer(walkthrough) == (str(isqrt(n)), str(n - isqrt(n) ** 2))
        check_seen(see_value(walkthrough))


@pytest.mark.parametrize("method", METHODS)
def test_squares_and_their_neighbours(method: str) -> None:
    """Nothing is left of a square; of one less, twice the root before it; zeros inside and at the end of the root."""
    for root in (10, 20, 99, 100, 101, 109, 190, 406, 500, 909, 990, 999, 1000, 1001, 9009):
        for n, due in ((root**2, (root, 0)), (root**2 - 1, (root - 1, 2 * root - 2)), (root**2 + 1, (root, 1))):
            walkthrough = work_root(str(n), method, columns=16)
            assert read_answer(walkthrough) == (str(due[0]), str(due[1]))
            check_seen(see_value(walkthrough))


@pytest.mark.parametrize("method", METHODS)
def test_decimals_against_isqrt(method: str) -> None:
    """One place of the root for each pair of places; the remainder has as many places as the completed radicand."""
    chance = Random("decimal roots")
    for _ in range(400):
        places = chance.randint(1, 6)
        units = chance.randrange(10 ** chance.randint(1, 8))
        text = f"{Decimal(units).scaleb(-places):.{places}f}"
        pairs = (places + 1) // 2
        whole = units * 10 ** (2 * pairs - places)
        root, left = isqrt(whole), whole - isqrt(whole) ** 2
        walkthrough = work_root(text, method, columns=26)
        told = read_answer(walkthrough)
        assert told[0] == f"{Decimal(root).scaleb(-pairs):.{pairs}f}"
        assert Decimal(told[1]) == Decimal(left).scaleb(-2 * pairs)
        assert Decimal(told[0]) ** 2 + Decimal(told[1]) == Decimal(text)
        assert walkthrough.ones_column == 2 * pairs + 1
        check_seen(see_value(walkthrough))


def show_works(walkthrough: Walkthrough) -> list[tuple[str, int, int]]:
    """(purpose, digit, column) of every step that works a digit, taking away written below zero."""
    return [
        (str(step.purpose), -step.work.digit if step.work.action == "take" else step.work.digit, step.work.column)
        for step in walkthrough.steps
        if step.work
    ]


def find_remarks(walkthrough: Walkthrough, topic: str) -> list[dict[str, object]]:
    remarks = [step.remark.to_data() for step in walkthrough.steps if step.remark is not None]
    return [remark for remark in remarks if remark["topic"] == topic]


def test_odd_numbers_by_hand() -> None:
    """√144 on 13 columns: 1 from the first group; 21 and 23 from 44. Root digits in columns 13 and 12."""
    walkthrough = work_root("144", "odd-number")
    assert show_works(walkthrough) == [
        ("set", 1, 3),
        ("set", 4, 2),
        ("set", 4, 1),
        ("take", -1, 3),
        ("add", 1, 13),
        ("take", -2, 2),
        ("take", -1, 1),
        ("add", 1, 12),
        ("take", -2, 2),
        ("take", -3, 1),
        ("add", 1, 12),
    ]
    assert [(r["group"], r["odd"]) for r in find_remarks(walkthrough, "odd-first")] == [(1, 1), (2, 21)]
    assert [(r["group"], r["odd"], r["digit"]) for r in find_remarks(walkthrough, "odd-stop")] == [
        (1, 3, 1),
        (2, 25, 2),
    ]
    assert walkthrough.answer.columns == (13, 12)


def test_double_root_by_hand() -> None:
    """√1444: 3 × 3 = 09 from 14, 6 in the register; 54 ÷ 6 = 9: 9 × 6 = 54 goes, 81 does not go from 4: 8.

    Then 6 is given back in column 2 of what is left: 8 × 8 = 64 goes. The register is 76, halved 38.
    """
    walkthrough = work_root("1444")
    assert show_works(walkthrough) == [
        ("set", 1, 4),
        ("set", 4, 3),
        ("set", 4, 2),
        ("set", 4, 1),
        ("set", 3, 12),
        ("product", -9, 3),  # 09: its ones end the first group, in column 3
        ("add", 3, 12),
        ("set", 9, 11),
        ("product", -5, 3),  # 9 × 6 = 54: its ones in column 1 + 1
        ("product", -4, 2),
        ("lower", -1, 11),
        ("give-back", 6, 2),
        ("product", -6, 2),  # 8 × 8
        ("product", -4, 1),
        ("add", 8, 11),
        ("clear", 7, 12),
        ("clear", 6, 11),
        ("set", 3, 12),
        ("set", 8, 11),
    ]
    assert [r["digit"] for r in find_remarks(walkthrough, "root-lower")] == [9]
    assert find_remarks(walkthrough, "root-halve") == [{"topic": "root-halve", "register": 76, "root": 38}]
    assert walkthrough.answer.columns == (12, 11)


def test_a_digit_is_lowered_more_than_once() -> None:
    """√195: 95 ÷ … : 1 from 1, register 2; 9 ÷ 2 = 4: 8 goes, 16 does not go from 15; 3: 3 × 3 = 9 goes. 26 left."""
    walkthrough = work_root("195")
    assert read_answer(walkthrough) == ("13", "26")
    # √399: 29 ÷ 2 = 14, so 9 is tried; 9 × 2 = 18 goes, 81 goes from 119: 38 is left of 399 − 361.
    assert read_answer(work_root("399")) == ("19", "38")
    # √224: 12 ÷ 2 = 6: 12 goes, 36 does not go from 4; 5: 2 given back, 25 does not go from 24; 4: 16 goes.
    lowered = work_root("224")
    assert [r["digit"] for r in find_remarks(lowered, "root-lower")] == [6, 5]
    assert [work for work in show_works(lowered) if work[0] in ("lower", "give-back")] == [
        ("lower", -1, 11),
        ("give-back", 2, 2),
        ("lower", -1, 11),
        ("give-back", 2, 2),
    ]
    assert read_answer(lowered) == ("14", "28")


def test_a_digit_is_lowered_to_nothing() -> None:
    """√120: 2 ÷ 2 = 1: 2 goes, 1 does not go from 0: 0, and 2 is given back; the root is 10, 20 left."""
    walkthrough = work_root("120")
    works = show_works(walkthrough)
    assert ("set", 1, 11) in works
    assert works[-5:] == [("product", -2, 2), ("lower", -1, 11), ("give-back", 2, 2), ("clear", 2, 12), ("set", 1, 12)]
    assert read_answer(walkthrough) == ("10", "20")
    check_seen(see_value(walkthrough))


def test_two_register_digits_are_given_back_as_far_as_worked() -> None:
    """√16129 = 127: 1; 2; register 24, 172 ÷ 24 = 7. √15875: root 125 or 126? 126² = 15876, so 125 and 250 left.

    There 147 ÷ 24 = 6: 6 × 2 and 6 × 4 go from 147, leaving 3; 36 does not go from 35: 5, and 2 and 4 are given back.
    """
    assert read_answer(work_root("16129")) == ("127", "0")
    walkthrough = work_root("15875")
    assert [work for work in show_works(walkthrough) if work[0] in ("lower", "give-back")][-3:] == [
        ("lower", -1, 10),
        ("give-back", 2, 3),
        ("give-back", 4, 2),
    ]
    assert read_answer(walkthrough) == ("125", "250")


@pytest.mark.parametrize("method", METHODS)
def test_zero_digits_of_the_root_move_nothing(method: str) -> None:
    """√164836 = 406: nothing is worked for the 0; its column stays at rest and is read as 0."""
    walkthrough = work_root("164836", method)
    worked = {step.work.source.to_data().get("root_group") for step in walkthrough.steps if step.work}
    assert 2 not in worked
    highest = 13 if method == "odd-number" else 12
    assert walkthrough.steps[-1].after.digits(highest, highest - 2) == "406"
    topic = {"odd-number": "odd-stop", "double-root": "root-trial"}[method]
    assert [r["digit"] for r in find_remarks(walkthrough, topic) if r["group"] == 2] == [0]


@pytest.mark.parametrize("method", METHODS)
def test_the_root_of_nothing(method: str) -> None:
    for text, answer in (("0", "0"), ("0.00", "0.0"), ("0.0", "0.0"), ("0.0004", "0.02")):
        walkthrough = work_root(text, method)
        assert read_answer(walkthrough) == (answer, "0")
        check_seen(see_value(walkthrough))


@pytest.mark.parametrize("method", METHODS)
def test_the_check_is_said(method: str) -> None:
    """Root × root and what is left make the radicand, each with its marker."""
    exact = work_root("10.24", method)
    assert find_remarks(exact, "root-check-exact") == [
        {"topic": "root-check-exact", "root": "3.2", "radicand": "10.24"}
    ]
    walkthrough = work_root("2.0", method)
    assert find_remarks(walkthrough, "root-check") == [
        {"topic": "root-check", "root": "1.4", "left": "0.04", "radicand": "2.00"}
    ]


def test_who_owns_which_columns() -> None:
    walkthrough = work_root("1444")
    readings = [[(read.part, read.text) for read in step.reads] for step in walkthrough.steps]
    assert readings[0] == [("radicand", "1000")]
    assert [("double-root", "6"), ("left", "544")] in readings
    assert [("double-root", "76"), ("left", "0")] in readings
    assert readings[-1] == [("root", "38"), ("left", "0")]
    odd = [[tuple(read) for read in step.reads] for step in work_root("2.25", "odd-number").steps]
    assert odd[-1] == [("root", "1.5", (13, 12)), ("left", "0.00", (3, 1))]


# By hand: r + 1 + k for odd numbers, r + k + 2 for the double root.
@pytest.mark.parametrize(
    ("text", "odd", "double"),
    [("0", 3, 4), ("9", 3, 4), ("10", 4, 5), ("144", 6, 7), ("9999", 7, 8), ("12345678", 13, 14), ("2.0", 6, 7)],
)
def test_room(text: str, odd: int, double: int) -> None:
    for method, needed in (("odd-number", odd), ("double-root", double)):
        check_seen(see_value(work_root(text, method, columns=needed)))
        for fewer in (1, 2):
            with pytest.raises(FrameError) as refused:
                work_root(text, method, columns=needed - fewer)
            assert (refused.value.code, refused.value.missing) == ("frame-too-short", fewer)


@pytest.mark.parametrize("method", METHODS)
def test_the_border_everywhere(method: str) -> None:
    """Worked exactly where the referee's own room rule says so, with as many columns missing."""
    chance = Random("room of roots")
    for _ in range(200):
        places = chance.randint(0, 3)
        text = f"{Decimal(chance.randrange(10 ** chance.randint(1, 9))).scaleb(-places):.{places}f}"
        columns = chance.randint(2, 18)
        missing = find_missing_for_root(f"√{text}", columns, method)
        if missing == 0:
            check_seen(see_value(work_root(text, method, columns=columns)))
        else:
            with pytest.raises(FrameError) as refused:
                work_root(text, method, columns=columns)
            assert refused.value.missing == missing


@pytest.mark.parametrize("method", METHODS)
def test_no_root_on_a_nine_bead_frame(method: str) -> None:
    with pytest.raises(MethodError) as refused:
        work_problem(parse_problem("√9"), build_frame("nine-bead", columns=8), method=method)
    assert refused.value.code == "method-not-for-this"


@pytest.mark.parametrize("inner", Inner)
def test_counting_moves_other_beads_to_the_same_root(inner: Inner) -> None:
    house = HouseStyle(inner=inner)
    techniques = {str(step.technique) for step in work_root("7225", house=house).steps if step.purpose is Purpose.ADD}
    assert (techniques == {"count"}) is (inner is Inner.COUNTING)


@pytest.mark.parametrize("method", METHODS)
def test_slips_are_predicted_for_every_kind_of_root(method: str) -> None:
    """No slip leads to a crash, also where an exchange is lost in doubling and the register reads 0."""
    for text in ("25", "144", "2500", "30", "2.0", "9409", "10404"):
        walkthrough = work_root(text, method)
        predicted = predict_slips(walkthrough)
        assert predicted
        assert walkthrough.answer.full_text not in predicted
        assert {cause.slip for causes in predicted.values() for cause in causes} >= {"digit-skipped"}


def test_a_skipped_count_gives_one_too_few() -> None:
    """√144 by odd numbers: the last 1 of the root forgotten reads 11; nothing is left of the radicand."""
    predicted = predict_slips(work_root("144", "odd-number"))
    assert "digit-skipped" in {cause.slip for cause in predicted["11"]}


def test_a_forgotten_square_shows_in_what_is_left() -> None:
    """√144 by the double root: 2 × 2 never taken leaves 4, the root is 12 all the same."""
    predicted = predict_slips(work_root("144"))
    assert "product-skipped" in {cause.slip for cause in predicted["12 r 4"]}


def test_a_root_that_a_slip_makes_too_long_is_read_whole() -> None:
    """√9111 by the double root: 9 + 9 as 10 set and 1 not cleared makes 19 of 18.

    Then 101 ÷ 19 is 5; 195 × 5 = 975 from 1011 leaves 36; 195 + 5 = 200, half of it 100.
    """
    predicted = predict_slips(work_root("9111"))
    assert "exchange-dropped" in {cause.slip for cause in predicted["100 r 36"]}


def test_a_radicand_does_not_drift() -> None:
    """Its groups are read by column, so a radicand off its columns cannot be worked on."""
    for method in METHODS:
        slips = {cause.slip for causes in predict_slips(work_root("2209", method)).values() for cause in causes}
        assert "column-drift" not in slips


def test_no_slipped_product_reaches_the_root() -> None:
    """√1225 by the double root: a product one column too far left would have to take from the register; it is not made.

    3 × 3 = 09 one further left needs 9 from column 4, which holds 1.
    """
    walkthrough = work_root("1225", columns=8)
    first = next(step for step in walkthrough.steps if step.purpose is Purpose.PRODUCT)
    slipped = [*find_slipped(walkthrough, slip="no-0-held", step=first.number)]
    assert slipped == []
