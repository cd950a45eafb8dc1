"""Products and percents, judged by the referee: all pairs below a hundred, samples of larger and of decimal ones.

Columns and moves written out here were worked by hand from PROCEDURES §3.6 and §3.8 (common practice, no source).
"""

from decimal import Decimal
from itertools import product
from random import Random

import pytest

from beadwright.engine import (
    FirstFactor,
    FrameError,
    HouseStyle,
    Inner,
    KeptFactor,
    Number,
    Order,
    Percent,
    Product,
    Purpose,
    Technique,
    Walkthrough,
    build_frame,
    parse_problem,
    work_problem,
)
from tests.referee import check_data, check_seen, find_missing_for_product, see_value

STYLES = [
    HouseStyle(add_order=order, inner=inner, kept_factor=kept, first_factor=first)
    for order, inner, kept, first in product(Order, Inner, KeptFactor, FirstFactor)
]
USUAL = HouseStyle()
SET = HouseStyle(kept_factor=KeptFactor.SET)


def multiply(text: str, house: HouseStyle = USUAL, *, columns: int = 13) -> Walkthrough:
    return work_problem(parse_problem(text), build_frame(columns=columns), house=house)


def test_all_pairs_below_a_hundred() -> None:
    frame = build_frame()
    for a, b in product(range(100), repeat=2):
        walkthrough = work_problem(Product(Number(a), Number(b)), frame)
        assert walkthrough.answer.text == str(a * b)
        check_seen(see_value(walkthrough))


@pytest.mark.parametrize("house", STYLES, ids=lambda house: " ".join(map(str, house.to_data().values())))
def test_a_sample_in_every_house_style(house: HouseStyle) -> None:
    """Through plain data, as any reader of it would judge."""
    chance = Random("products in every style")
    for _ in range(120):
        a, b = (chance.randrange(10 ** chance.randint(1, 4)) for _ in range(2))
        walkthrough = multiply(f"{a} × {b}", house, columns=26)
        assert walkthrough.answer.text == str(a * b)
        check_data(walkthrough.to_data())


def test_long_factors_on_two_frames() -> None:
    chance = Random("long products")
    for _ in range(150):
        m = chance.randint(1, 24)
        n = chance.randint(1, 25 - m)
        a, b = chance.randrange(10 ** (m - 1), 10**m), chance.randrange(10 ** (n - 1), 10**n)
        walkthrough = multiply(f"{a} × {b}", columns=26)
        assert walkthrough.answer.text == str(a * b)
        check_seen(see_value(walkthrough))


def draw_decimal(chance: Random) -> str:
    places = chance.randint(0, 5)
    return f"{Decimal(chance.randrange(10 ** chance.randint(1, 5))).scaleb(-places):.{places}f}"


def test_decimals_against_decimal() -> None:
    """The product has the places of both factors together, zeros at its end included."""
    chance = Random("decimal products")
    for _ in range(1500):
        a, b = draw_decimal(chance), draw_decimal(chance)
        house = chance.choice(STYLES)
        walkthrough = multiply(f"{a} × {b}", house, columns=26)
        assert walkthrough.answer.text == f"{Decimal(a) * Decimal(b):f}"
        check_seen(see_value(walkthrough))


def test_percents_against_decimal() -> None:
    """Two more places than the numbers as written (§3.8)."""
    chance = Random("percents")
    for _ in range(500):
        a, b = draw_decimal(chance), draw_decimal(chance)
        walkthrough = multiply(f"{a}% of {b}", chance.choice(STYLES), columns=26)
        assert walkthrough.answer.text == f"{Decimal(a) * Decimal(b) * Decimal('0.01'):f}"
        check_seen(see_value(walkthrough))


def show_works(walkthrough: Walkthrough) -> list[tuple[str, int, int]]:
    """(purpose, digit, column) of every step that works a digit."""
    return [(str(step.purpose), step.work.digit, step.work.column) for step in walkthrough.steps if step.work]


def test_where_a_product_is_worked() -> None:
    """2 digits and 1 digit and one for the frame: 23 starts in column 4 (§3.6). 3 × 4 = 12, then 2 × 4 = 08."""
    walkthrough = multiply("23 × 4")
    assert show_works(walkthrough) == [
        ("set", 2, 4),
        ("set", 3, 3),
        ("product", 1, 2),
        ("product", 2, 1),
        ("clear", 3, 3),
        ("product", 8, 2),
        ("clear", 2, 4),
    ]
    assert (walkthrough.answer.columns, walkthrough.ones_column) == ((2, 1), 1)


def test_the_multiplier_set_at_the_far_left() -> None:
    """Three digits and two: 305 starts in column 6; 42 stands in columns 13 and 12 and stays there."""
    walkthrough = multiply("305 × 42", SET)
    assert show_works(walkthrough)[:4] == [("set", 4, 13), ("set", 2, 12), ("set", 3, 6), ("set", 5, 4)]
    assert walkthrough.steps[-1].after.digits(13, 12) == "42"
    assert walkthrough.steps[-1].after.value == 42 * 10**11 + 305 * 42


def test_the_first_factor_as_the_multiplier() -> None:
    """Turned round, 4 × 23 has the multiplicand 23: the same beads as 23 × 4, with the numbers named as written."""
    turned = multiply("4 × 23", HouseStyle(first_factor=FirstFactor.MULTIPLIER))
    plain = multiply("23 × 4")
    assert [step.moves for step in turned.steps] == [step.moves for step in plain.steps]
    terms = [step.work.source.to_data()["term"] for step in turned.steps if step.work and step.purpose is Purpose.SET]
    assert terms == [2, 2]


def test_what_a_step_says_of_its_digits() -> None:
    """7 × 6 = 42: tens, then ones, each with the pair and the product."""
    works = [step.work.to_data() for step in multiply("7 × 6").steps if step.work and step.purpose is Purpose.PRODUCT]
    assert works == [
        {"action": "add", "digit": 4, "column": 2, "factors": [7, 6], "product": "42", "place": "tens"},
        {"action": "add", "digit": 2, "column": 1, "factors": [7, 6], "product": "42", "place": "ones"},
    ]


def find_remarks(walkthrough: Walkthrough) -> list[dict[str, object]]:
    return [step.remark.to_data() for step in walkthrough.steps if step.remark is not None]


def test_zeros_are_said_and_move_nothing() -> None:
    """403 × 20: the 0 of 403, the 0 of 20, the 0 in front of 06 and 08."""
    walkthrough = multiply("403 × 20")
    remarks = find_remarks(walkthrough)
    assert {"topic": "zero-holds", "column": 5, "term": 1} in remarks
    # 403 starts in 3 + 2 + 1 = 6, so 3 stands in 4: 3 × 2 = 06 has its tens in 3; 3 × 0 its tens in 2.
    assert {"topic": "add-tens-zero", "first": 3, "second": 2, "product": "06", "column": 3} in remarks
    assert {"topic": "add-nothing", "first": 3, "second": 0, "column": 2} in remarks
    assert {"topic": "multiplicand-zero", "column": 5} in remarks
    assert {"topic": "add-tens-zero", "first": 4, "second": 2, "product": "08", "column": 5} in remarks
    assert [work for work in show_works(walkthrough) if work[0] == "product"] == [("product", 6, 2), ("product", 8, 4)]
    assert all(step.moves == () and step.technique is None for step in walkthrough.steps if step.work is None)


def test_a_product_that_ends_in_zero() -> None:
    """5 × 4 = 20: the tens are added, the ones are said."""
    remarks = find_remarks(multiply("5 × 4"))
    assert {"topic": "add-ones-zero", "first": 5, "second": 4, "product": "20", "column": 1} in remarks


@pytest.mark.parametrize(("text", "sets"), [("0 × 5", []), ("5 × 0", [5]), ("0 × 0", [])])
def test_nothing_times_something(text: str, sets: list[int]) -> None:
    walkthrough = multiply(text)
    assert walkthrough.answer.text == "0"
    assert [step.work.digit for step in walkthrough.steps if step.work and step.purpose is Purpose.SET] == sets
    check_seen(see_value(walkthrough))


@pytest.mark.parametrize(
    ("text", "answer", "start", "ones_column", "columns"),
    [
        # 1 + 1 places: shifted by 1, ones in 4. 15 and 4: 2 + 1 + 1 + 1 = 5. The product 060 ends in column 2.
        ("1.5 × 0.4", "0.60", 5, 4, (4, 2)),
        # three places: no shift. 93 and 26: 2 + 2 + 1 = 5.
        ("93 × 0.026", "2.418", 5, 4, (4, 1)),
        # four places: shifted by 2, ones in 7. 25 and 25: 5 + 2.
        ("0.25 × 0.25", "0.0625", 7, 7, (7, 3)),
        # one place: shifted by 2, ones in 4. 125 and 8: 3 + 1 + 1 + 2.
        ("12.5 × 8", "100.0", 7, 4, (6, 3)),
        # 12.5 % has three places.
        ("12.5% of 80", "10.000", 6, 4, (5, 1)),
        ("15% of 80", "12.00", 6, 4, (5, 2)),
    ],
)
def test_the_marker_is_a_unit_mark(
    text: str, answer: str, start: int, ones_column: int, columns: tuple[int, int]
) -> None:
    walkthrough = multiply(text)
    assert (walkthrough.answer.text, walkthrough.answer.columns) == (answer, columns)
    assert walkthrough.ones_column == ones_column
    first_set = next(step.work for step in walkthrough.steps if step.work)
    assert first_set.column == start
    places = len(answer.partition(".")[2])
    assert {"topic": "product-marker", "count": places, "ones_column": ones_column} in find_remarks(walkthrough)
    check_seen(see_value(walkthrough))


def test_places_left_of_the_frame() -> None:
    """3 × 3 with seven places each: fourteen, shifted by 1, ones in column 16, three beyond a frame of 13."""
    walkthrough = multiply("0.0000003 × 0.0000003")
    assert walkthrough.answer.text == "0.00000000000009"
    assert walkthrough.answer.columns == (13, 2)
    assert {"topic": "product-marker-beyond", "count": 14, "beyond": 3} in find_remarks(walkthrough)


@pytest.mark.parametrize(("columns", "beyond"), [(5, 2), (6, 1), (7, None)])
def test_where_the_frame_ends_at_the_ones(columns: int, beyond: int | None) -> None:
    """Six places: the ones in column 7, which the work itself, of 1 + 1 + 1 columns, does not need."""
    walkthrough = work_problem(parse_problem("0.001 × 0.001"), build_frame(columns=columns))
    told = [remark.get("beyond") for remark in find_remarks(walkthrough) if str(remark["topic"]) in MARKERS]
    assert (walkthrough.answer.text, told) == ("0.000001", [beyond])


MARKERS = ("product-marker", "product-marker-beyond")


# Room with the multiplier set: m + 2n + 2. 13 columns allow m = 9, 7, 5, 3 for n = 1, 2, 3, 4 (§3.6).
@pytest.mark.parametrize(("n", "m"), [(1, 9), (2, 7), (3, 5), (4, 3)])
def test_room_with_the_multiplier_set(n: int, m: int) -> None:
    fits = f"{'9' * m} × {'9' * n}"
    assert multiply(fits, SET).answer.text == str(int("9" * m) * int("9" * n))
    for more in (1, 2, 3):
        with pytest.raises(FrameError) as refused:
            multiply(f"{'9' * (m + more)} × {'9' * n}", SET)
        assert (refused.value.code, refused.value.missing) == ("frame-too-short", more)


@pytest.mark.parametrize(("m", "n"), [(11, 1), (6, 6), (1, 11), (8, 4)])
def test_room_with_the_multiplier_remembered(m: int, n: int) -> None:
    """m + n + 1."""
    assert multiply(f"{'8' * m} × {'7' * n}").answer.text == str(int("8" * m) * int("7" * n))
    with pytest.raises(FrameError) as refused:
        multiply(f"{'8' * m} × {'7' * (n + 2)}")
    assert refused.value.missing == 2
    assert "2 more columns" in str(refused.value)


def test_a_shift_needs_room_too() -> None:
    """1.5 × 0.4 needs 2 + 1 + 1 and one for the shift; with the multiplier set two more."""
    assert multiply("1.5 × 0.4", columns=5).answer.text == "0.60"
    assert multiply("1.5 × 0.4", SET, columns=7).answer.text == "0.60"
    for house, columns in ((HouseStyle(), 4), (SET, 6)):
        with pytest.raises(FrameError) as refused:
            multiply("1.5 × 0.4", house, columns=columns)
        assert refused.value.missing == 1


def test_the_border_everywhere() -> None:
    """Worked exactly where the referee's own room rule says so, with as many columns missing."""
    chance = Random("room of products")
    for _ in range(400):
        text = f"{draw_decimal(chance)} × {draw_decimal(chance)}"
        columns, house = chance.randint(2, 16), chance.choice(STYLES)
        rule = {key: house.to_data()[key] for key in ("first_factor", "kept_factor")}
        missing = find_missing_for_product(text, columns, **rule)
        if missing == 0:
            check_seen(see_value(multiply(text, house, columns=columns)))
        else:
            with pytest.raises(FrameError) as refused:
                multiply(text, house, columns=columns)
            assert refused.value.missing == missing


def test_who_owns_which_columns() -> None:
    """23 × 4: after 3 × 4 = 12 the 3 is cleared, and its column goes over to the product."""
    after_clear = next(step for step in multiply("23 × 4").steps if step.purpose is Purpose.CLEAR)
    assert [tuple(read) for read in after_clear.reads] == [("multiplicand", "2", (4, 4)), ("product", "12", (2, 1))]


def test_who_owns_the_multiplier_that_is_set() -> None:
    """12 × 34, the 34 at the far left: its digits are the multiplier's from the first one on."""
    sets = [step for step in multiply("12 × 34", HouseStyle(kept_factor=KeptFactor.SET)).steps if step.moves != ()][:3]
    assert [[tuple(read) for read in step.reads] for step in sets] == [
        [("multiplier", "30", (13, 12))],
        [("multiplier", "34", (13, 12))],
        [("multiplier", "34", (13, 12)), ("multiplicand", "10", (5, 4))],
    ]


def test_counting_inside() -> None:
    """A house that counts adds each digit of a product by counting: 3 × 4 = 12."""
    walkthrough = multiply("3 × 4", HouseStyle(inner=Inner.COUNTING))
    techniques = [step.technique for step in walkthrough.steps if step.purpose is Purpose.PRODUCT]
    assert techniques == [Technique.COUNT, Technique.COUNT]


def test_a_percent_names_its_numbers_as_written() -> None:
    assert str(Percent(Number(15), Number(80))) == "15% of 80"
    walkthrough = multiply("15% of 80")
    assert walkthrough.problem == Percent(Number(15), Number(80))
    assert {"topic": "percent-places", "count": 2} in find_remarks(walkthrough)


def test_through_plain_data_and_back() -> None:
    for text in ("306 × 4", "1.5 × 0.4", "15% of 80"):
        walkthrough = multiply(text, SET)
        assert Walkthrough.from_data(walkthrough.to_data()).to_data() == walkthrough.to_data()


@pytest.mark.parametrize(
    ("problem", "ones_column", "topic"),
    [
        ("0.000012345 × 0.006", 13, "product-marker"),  # between columns 12 and 13: a mark of the right frame
        ("0.0000012345 × 0.006", 16, "product-marker-between"),  # the left frame's marks stand after 16, 19, 22, 25
    ],
)
def test_no_mark_is_promised_where_the_left_one_of_two_frames_has_none(
    problem: str, ones_column: int, topic: str
) -> None:
    walkthrough = work_problem(parse_problem(problem), build_frame(columns=26))
    told = [remark for remark in find_remarks(walkthrough) if str(remark["topic"]).startswith("product-marker")]
    assert [(remark["topic"], remark["ones_column"]) for remark in told] == [(topic, ones_column)]
