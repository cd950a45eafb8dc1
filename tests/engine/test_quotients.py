"""Quotients, judged by the referee: a dense sample of all pairs, long ones, decimal ones, every way of trying a digit.

Columns and moves written out here were worked by hand from PROCEDURES §3.7 and §3.8 (common practice, no source).
"""

from decimal import ROUND_DOWN, ROUND_HALF_UP, Context, Decimal
from itertools import product
from random import Random

import pytest

from beadwright.engine import (
    FrameError,
    HouseStyle,
    Inner,
    KeptFactor,
    MethodError,
    Number,
    Order,
    ProblemError,
    Purpose,
    Quotient,
    Rounding,
    Trial,
    Walkthrough,
    build_frame,
    parse_problem,
    work_problem,
)
from tests.referee import check_data, check_seen, find_missing_for_quotient, see_value

USUAL = HouseStyle()
SET = HouseStyle(kept_factor=KeptFactor.SET)
STYLES = [
    HouseStyle(add_order=add, take_order=take, inner=inner, kept_factor=kept, trial=trial)
    for add, take, inner, kept, trial in product(Order, Order, Inner, KeptFactor, Trial)
]
EXACTLY = Context(prec=80)


def divide(text: str, house: HouseStyle = USUAL, *, columns: int = 13) -> Walkthrough:
    return work_problem(parse_problem(text), build_frame(columns=columns), house=house)


def read_answer(walkthrough: Walkthrough) -> tuple[str, str]:
    remainder = walkthrough.answer.remainder
    return walkthrough.answer.text, "0" if remainder is None else remainder.text


@pytest.mark.parametrize("trial", Trial)
def test_a_dense_sample_below_a_thousand(trial: Trial) -> None:
    frame, house = build_frame(), HouseStyle(trial=trial)
    for a in range(0, 1000, 11):
        for b in range(1, 100, 2):
            walkthrough = work_problem(Quotient(Number(a), Number(b)), frame, house=house)
            assert read_answer(walkthrough) == (str(a // b), str(a % b))
            check_seen(see_value(walkthrough))


@pytest.mark.parametrize("house", STYLES, ids=lambda house: " ".join(map(str, house.to_data().values())))
def test_a_sample_in_every_house_style(house: HouseStyle) -> None:
    """Through plain data, as any reader of it would judge."""
    chance = Random("quotients in every style")
    for _ in range(40):
        a, b = chance.randrange(10 ** chance.randint(1, 7)), chance.randrange(1, 10 ** chance.randint(1, 4))
        walkthrough = divide(f"{a} ÷ {b}", house, columns=26)
        assert read_answer(walkthrough) == (str(a // b), str(a % b))
        check_data(walkthrough.to_data())


def test_long_numbers_on_two_frames() -> None:
    chance = Random("long quotients")
    for _ in range(150):
        k = chance.randint(1, 24)
        n = chance.randint(1, min(k, 10))
        a, b = chance.randrange(10 ** (k - 1), 10**k), chance.randrange(10 ** (n - 1), 10**n)
        walkthrough = divide(f"{a} ÷ {b}", HouseStyle(trial=chance.choice(list(Trial))), columns=26)
        assert read_answer(walkthrough) == (str(a // b), str(a % b))
        check_seen(see_value(walkthrough))


def draw_decimal(chance: Random, least: int) -> str:
    places = chance.randint(0, 4)
    return f"{Decimal(chance.randrange(least, 10 ** chance.randint(1, 5))).scaleb(-places):.{places}f}"


def count_given(dividend: str, divisor: str) -> int:
    """The places that a quotient has by itself; fewer cannot be wanted."""
    return len(dividend.partition(".")[2]) - len(divisor.partition(".")[2])


def test_decimals_against_decimal() -> None:
    """Cut after the last place, or rounded half up there, where Decimal does the same."""
    chance = Random("decimal quotients")
    for _ in range(1500):
        a, b, wanted = draw_decimal(chance, 0), draw_decimal(chance, 1), chance.randint(0, 4)
        wanted = 0 if wanted < count_given(a, b) else wanted
        rounding = chance.choice(list(Rounding))
        house = HouseStyle(rounding=rounding, trial=chance.choice(list(Trial)))
        walkthrough = divide(f"{a} ÷ {b}" + (f" to {wanted} places" if wanted else ""), house, columns=26)
        answer = walkthrough.answer
        assert answer.decimals == max(wanted, count_given(a, b))
        unit = Decimal(1).scaleb(-answer.decimals)
        mode = ROUND_HALF_UP if rounding is Rounding.HALF_UP and answer.decimals > 0 else ROUND_DOWN
        due = EXACTLY.divide(Decimal(a), Decimal(b)).quantize(unit, rounding=mode, context=EXACTLY)
        assert answer.text == f"{due:f}"
        if mode == ROUND_DOWN:
            left = Decimal(a) - due * Decimal(b)
            assert Decimal(read_answer(walkthrough)[1]) == left
        check_seen(see_value(walkthrough))


def show_works(walkthrough: Walkthrough) -> list[tuple[str, int, int]]:
    """(purpose, digit, column) of every step that works a digit, taking away written below zero."""
    return [
        (str(step.purpose), -step.work.digit if step.work.action == "take" else step.work.digit, step.work.column)
        for step in walkthrough.steps
        if step.work
    ]


def find_remarks(walkthrough: Walkthrough) -> list[dict[str, object]]:
    return [step.remark.to_data() for step in walkthrough.steps if step.remark is not None]


def test_where_quotient_digits_stand() -> None:
    """954 ÷ 23: 95 holds 23, so 4 stands two left of the 9, in 5. Then 34 holds 23: 1 in 4. Left is 11."""
    walkthrough = divide("954 ÷ 23")
    assert show_works(walkthrough) == [
        ("set", 9, 3),
        ("set", 5, 2),
        ("set", 4, 1),
        ("quotient", 4, 5),
        ("product", -8, 3),  # 4 × 2 = 08: tens in 4, ones in 3
        ("product", -1, 3),  # 4 × 3 = 12: tens in 3, ones in 2
        ("product", -2, 2),
        ("quotient", 1, 4),
        ("product", -2, 2),
        ("product", -3, 1),
    ]
    answer = walkthrough.answer
    assert (answer.text, answer.columns, answer.quotient_ones_column) == ("41", (5, 4), 4)
    assert answer.remainder is not None
    assert tuple(answer.remainder) == ("11", (2, 1))
    assert answer.full_text == "41 r 11"


def test_each_step_says_which_rule_placed_its_digit() -> None:
    """273 ÷ 3: 3 is larger than 2, first left; 927 ÷ 3: 3 is not larger than 9, second left."""
    for text, column, rule in (("273 ÷ 3", 4, "first-left"), ("927 ÷ 3", 5, "second-left")):
        walkthrough = divide(text)
        work = next(step.work for step in walkthrough.steps if step.purpose is Purpose.QUOTIENT)
        assert work is not None
        assert work.source.to_data() == {"quotient_column": column, "rule": rule}
        topics = [remark["topic"] for remark in find_remarks(walkthrough)]
        assert f"compare-{rule}" in topics


def test_a_zero_of_the_quotient_stays_at_rest() -> None:
    """927 ÷ 3 = 309: 3 in 5, nothing in 4, 9 in 3. 840 ÷ 4 = 210: the 0 at the end."""
    walkthrough = divide("927 ÷ 3")
    assert walkthrough.steps[-1].after.digits(5, 3) == "309"
    zeros = {"topic": "quotient-zeros", "count": 1, "highest_column": 4, "lowest_column": 4}
    assert zeros in find_remarks(walkthrough)
    at_end = {"topic": "quotient-zeros", "count": 1, "highest_column": 3, "lowest_column": 3}
    assert at_end in find_remarks(divide("840 ÷ 4"))
    long = {"topic": "quotient-zeros", "count": 3, "highest_column": 6, "lowest_column": 4}
    assert long in find_remarks(divide("80008 ÷ 8"))


@pytest.mark.parametrize("text", ["3 ÷ 7", "0 ÷ 5", "45 ÷ 123", "0.05 ÷ 0.7", "3 ÷ 700 to 2 places"])
def test_a_dividend_that_is_too_small(text: str) -> None:
    """The quotient is 0: nothing is moved but the dividend, which is set and stays as the remainder."""
    walkthrough = divide(text)
    assert {step.purpose for step in walkthrough.steps if step.work} <= {Purpose.SET}
    assert Decimal(walkthrough.answer.text) == 0
    assert Decimal(read_answer(walkthrough)[1]) == Decimal(text.partition(" ")[0])
    assert "dividend-smaller" in [remark["topic"] for remark in find_remarks(walkthrough)]


def test_nothing_is_divided_by_zero() -> None:
    for text in ("5 ÷ 0", "5 ÷ 0.00", "0 / 0"):
        with pytest.raises(ProblemError, match="divided by 0"):
            parse_problem(text)


def corrections(walkthrough: Walkthrough) -> list[tuple[str, int, int]]:
    wanted = ("quotient", "lower", "give-back", "raise")
    return [work for work in show_works(walkthrough) if work[0] in wanted]


@pytest.mark.parametrize(
    ("text", "house", "guess"),
    [
        ("50 ÷ 7", HouseStyle(), ("known", "50", "7", 7, 3)),
        ("3588 ÷ 46", HouseStyle(), ("known", "358", "46", 7, 5)),
        ("3588 ÷ 46", HouseStyle(trial=Trial.FIRST_DIGIT), ("first-digit", "35", "4", 8, 5)),
        ("3588 ÷ 46", HouseStyle(trial=Trial.ROUNDED), ("rounded", "35", "5", 7, 5)),
        ("3000 ÷ 44", HouseStyle(trial=Trial.ROUNDED), ("rounded", "30", "4", 7, 5)),
        ("3500 ÷ 50", HouseStyle(trial=Trial.GIVEN, trial_digits=(6,)), ("given", "350", "50", 6, 5)),
        ("8800 ÷ 40", HouseStyle(trial=Trial.ROUNDED), ("rounded", "8", "4", 2, 6)),
    ],
)
def test_what_a_trial_digit_is_said_to_come_from(
    text: str, house: HouseStyle, guess: tuple[str, str, str, int, int]
) -> None:
    """The first quotient digit: what of the dividend over what of the divisor, the digit tried and its column."""
    style, left, divisor, digit, column = guess
    said = [remark for remark in find_remarks(divide(text, house)) if str(remark["topic"]).startswith("trial-")]
    assert said[0] == {
        "topic": f"trial-{style}",
        "left": left,
        "divisor": divisor,
        "digit": digit,
        "column": column,
    }


def test_first_digits_are_lowered() -> None:
    """3588 ÷ 46 by first digits. 35 ÷ 4 = 8: 8 × 4 = 32 goes, 8 × 6 = 48 does not go from 38: 7, and 4 back in 3.

    Then 368: 36 ÷ 4 = 9: 36 goes, 54 does not go from 8: 8, and 4 back in column 2.
    """
    walkthrough = divide("3588 ÷ 46", HouseStyle(trial=Trial.FIRST_DIGIT))
    assert corrections(walkthrough) == [
        ("quotient", 8, 5),
        ("lower", -1, 5),
        ("give-back", 4, 3),
        ("quotient", 9, 4),
        ("lower", -1, 4),
        ("give-back", 4, 2),
    ]
    too_large = {"topic": "trial-too-large", "digit": 8, "factor": 6, "product": "48", "left": 38, "column": 5}
    assert too_large in find_remarks(walkthrough)
    # After giving back, the work goes on from the digit that could not be taken: 7 × 6 = 42 from 78.
    after = show_works(walkthrough)
    assert after[after.index(("give-back", 4, 3)) + 1 :][:2] == [("product", -4, 3), ("product", -2, 2)]
    check_seen(see_value(walkthrough))


def test_a_rounded_divisor_is_raised() -> None:
    """3588 ÷ 46 with 46 taken as 5: 35 ÷ 5 = 7 is right; 36 ÷ 5 = 7 leaves 46, so it is raised to 8."""
    walkthrough = divide("3588 ÷ 46", HouseStyle(trial=Trial.ROUNDED))
    assert corrections(walkthrough) == [
        ("quotient", 7, 5),
        ("quotient", 7, 4),
        ("raise", 1, 4),
        ("raise", -4, 2),
        ("raise", -6, 1),
    ]
    assert {"topic": "trial-too-small", "digit": 7, "divisor": "46", "left": 46, "column": 4} in find_remarks(
        walkthrough
    )


def test_a_rounded_divisor_can_be_too_small() -> None:
    """3588 ÷ 44: 4 stays 4, so 35 ÷ 4 = 8 holds, 68 ÷ 44: 6 ÷ 4 = 1; 3588 = 81 × 44 + 24. And 352 ÷ 44: 35 ÷ 4 = 8."""
    assert corrections(divide("3588 ÷ 44", HouseStyle(trial=Trial.ROUNDED))) == [("quotient", 8, 5), ("quotient", 1, 4)]
    # 300 ÷ 44: 30 ÷ 4 = 7: 28 goes, 28 does not go from 20: 6.
    lowered = corrections(divide("300 ÷ 44", HouseStyle(trial=Trial.ROUNDED)))
    assert lowered == [("quotient", 7, 4), ("lower", -1, 4), ("give-back", 4, 2)]


def test_a_guess_above_nine_is_nine() -> None:
    """1000 ÷ 19 by first digits: 10 ÷ 1 = 10, so 9; it is lowered to 5, then 50 ÷ 19: 5 ÷ 1 = 5, lowered to 2."""
    works = corrections(divide("1000 ÷ 19", HouseStyle(trial=Trial.FIRST_DIGIT)))
    assert [work for work in works if work[0] == "quotient"] == [("quotient", 9, 5), ("quotient", 5, 4)]
    assert sum(work[0] == "lower" for work in works) == 4 + 3


def test_a_guess_below_one_is_one() -> None:
    """99 ÷ 95 with 95 taken as 10: 9 ÷ 10 is below 1, so 1."""
    assert corrections(divide("99 ÷ 95", HouseStyle(trial=Trial.ROUNDED))) == [("quotient", 1, 4)]


def test_two_digits_worked_before_a_third_cannot_be_taken() -> None:
    """1999 ÷ 399 by first digits: 19 ÷ 3 = 6. 18 goes, 54 does not go from 19: 5, 3 back in column 3.

    Then 45 goes from 49 and 45 from 49: 4 is left. Nothing further.
    """
    works = show_works(divide("1999 ÷ 399", HouseStyle(trial=Trial.FIRST_DIGIT)))
    assert works[4:] == [
        ("quotient", 6, 5),
        ("product", -1, 4),
        ("product", -8, 3),
        ("lower", -1, 5),
        ("give-back", 3, 3),
        ("product", -4, 3),
        ("product", -5, 2),
        ("product", -4, 2),
        ("product", -5, 1),
    ]


def test_given_digits() -> None:
    """The author's digits in their order; those that are not given are known ones."""
    raised = divide("3588 ÷ 46", HouseStyle(trial=Trial.GIVEN, trial_digits=(6,)))
    assert corrections(raised) == [
        ("quotient", 6, 5),
        ("raise", 1, 5),
        ("raise", -4, 3),
        ("raise", -6, 2),
        ("quotient", 8, 4),
    ]
    both = divide("3588 ÷ 46", HouseStyle(trial=Trial.GIVEN, trial_digits=(8, 9)))
    assert [work for work in corrections(both) if work[0] == "quotient"] == [("quotient", 8, 5), ("quotient", 9, 4)]
    far = divide("3588 ÷ 46", HouseStyle(trial=Trial.GIVEN, trial_digits=(4, 0)))
    assert [work for work in corrections(far) if work[0] == "quotient"] == [("quotient", 4, 5), ("quotient", 1, 4)]
    assert sum(work == ("raise", 1, 4) for work in corrections(far)) == 7
    for walkthrough in (raised, both, far):
        check_seen(see_value(walkthrough))
        assert Walkthrough.from_data(walkthrough.to_data()).to_data() == walkthrough.to_data()


def test_more_digits_than_are_tried() -> None:
    """927 ÷ 3 = 309 tries two digits; the 0 is not tried."""
    with pytest.raises(MethodError) as refused:
        divide("927 ÷ 3", HouseStyle(trial=Trial.GIVEN, trial_digits=(3, 0, 9)))
    assert refused.value.code == "trial-digits"
    assert "2 quotient digits" in refused.value.reason


@pytest.mark.parametrize(
    ("text", "answer", "ones_column", "quotient_ones_column", "columns", "remainder"),
    [
        # z = 2, quotient's ones in 1 + 2 + 2 = 5, moved by 2 to 7; dividend 2 in 5.
        ("2 ÷ 3 to 2 places", "0.66", 5, 7, (7, 5), ("0.02", (3, 3))),
        # z = 3, quotient's ones in 1 + 2 + 3 = 6, moved by 1.
        ("7 ÷ 8 to 3 places", "0.875", 5, 7, (7, 4), None),
        # z = 0 + 0 − 1 is below 0: one place although none was asked for. 1 + 2 + 1 = 4: no shift.
        ("12.5 ÷ 4", "3.1", 2, 4, (4, 3), ("0.1", (1, 1))),
        # z = 1: 120 ÷ 5; quotient's ones in 1 + 2 = 3, moved by 1. Whole, so the remainder counts tenths.
        ("12 ÷ 0.5", "24", 3, 4, (5, 4), None),
        ("12 ÷ 0.7", "17", 3, 4, (5, 4), ("0.1", (2, 2))),
        # z = 2: 300 ÷ 5; quotient's ones in 1 + 2 = 3, moved by 1; dividend's ones in 1 + 2 + 1: the same column.
        ("3 ÷ 0.05", "60", 4, None, (5, 4), None),
        # 0.026 is used as 26 (§3.8), z = 0: 2418 ÷ 26; quotient's ones in 2 + 2, dividend's in 1 + 3.
        ("2.418 ÷ 0.026", "93", 4, None, (5, 4), None),
    ],
)
def test_two_markers(
    text: str,
    answer: str,
    ones_column: int,
    quotient_ones_column: int | None,
    columns: tuple[int, int],
    remainder: tuple[str, tuple[int, int]] | None,
) -> None:
    walkthrough = divide(text)
    told = walkthrough.answer
    assert (told.text, told.columns, told.quotient_ones_column) == (answer, columns, quotient_ones_column)
    assert walkthrough.ones_column == ones_column
    assert (None if told.remainder is None else tuple(told.remainder)) == remainder
    assert "quotient-markers" in [remark["topic"] for remark in find_remarks(walkthrough)]
    check_seen(see_value(walkthrough))


HALF_UP = HouseStyle(rounding=Rounding.HALF_UP)


def test_rounding_half_up() -> None:
    """2 ÷ 3: 0.66 and 2 left; twice 2 is not less than 3. 1 ÷ 3: twice 1 is. 1 ÷ 8 to 2 places: 0.12, twice 4 is 8."""
    for text, cut, rounded in (
        ("2 ÷ 3 to 2 places", "0.66", "0.67"),
        ("1 ÷ 3 to 2 places", "0.33", "0.33"),
        ("1 ÷ 8 to 2 places", "0.12", "0.13"),
        ("1 ÷ 4 to 2 places", "0.25", "0.25"),
    ):
        assert divide(text).answer.text == cut
        walkthrough = divide(text, HALF_UP)
        assert (walkthrough.answer.text, walkthrough.answer.remainder) == (rounded, None)
        check_seen(see_value(walkthrough))
    assert {"topic": "round-up", "remainder": 2, "twice": 4, "divisor": "3"} in find_remarks(
        divide("2 ÷ 3 to 2 places", HALF_UP)
    )


def test_a_whole_quotient_keeps_its_remainder() -> None:
    """Rounding is for decimal quotients: 17 ÷ 9 is 1 and 8 left in every course."""
    assert divide("17 ÷ 9", HALF_UP).answer.full_text == "1 r 8"


def test_rounding_that_runs_on_needs_a_column() -> None:
    """999.7 ÷ 100 to 1 place: 9.9 cut, 10.0 rounded. 4 + 0 + 2 columns and one of shift; one more for the 1."""
    assert divide("999.7 ÷ 100 to 1 place", columns=7).answer.full_text == "9.9 r 9.7"
    with pytest.raises(FrameError) as refused:
        divide("999.7 ÷ 100 to 1 place", HALF_UP, columns=7)
    assert refused.value.missing == 1
    walkthrough = divide("999.7 ÷ 100 to 1 place", HALF_UP, columns=8)
    assert (walkthrough.answer.text, walkthrough.answer.columns) == ("10.0", (8, 6))


@pytest.mark.parametrize(
    ("text", "house", "needed"),
    [
        ("954 ÷ 23", USUAL, 5),  # 95 holds 23: 3 + 2
        ("154 ÷ 23", USUAL, 4),  # 15 does not: 3 + 1, and at least 2 + 2
        ("5 ÷ 123", USUAL, 5),  # at least 3 + 2
        ("954 ÷ 23", SET, 8),  # 2 + 1 more
        ("5 ÷ 123", SET, 9),
        ("1 ÷ 8 to 3 places", USUAL, 6),  # 1 + 3 + 1, and one of shift
        ("99999999999 ÷ 9", USUAL, 13),  # 11 + 2
        ("89999999999 ÷ 9", USUAL, 12),
    ],
)
def test_room(text: str, house: HouseStyle, needed: int) -> None:
    check_seen(see_value(divide(text, house, columns=needed)))
    for fewer in (1, 2):
        with pytest.raises(FrameError) as refused:
            divide(text, house, columns=needed - fewer)
        assert (refused.value.code, refused.value.missing) == ("frame-too-short", fewer)


def test_the_border_everywhere() -> None:
    """Worked exactly where the referee's own room rule says so, with as many columns missing."""
    chance = Random("room of quotients")
    for _ in range(400):
        dividend, divisor = draw_decimal(chance, 0), draw_decimal(chance, 1)
        text = f"{dividend} ÷ {divisor}"
        if chance.random() < 0.5:
            text += f" to {max(chance.randint(1, 3), count_given(dividend, divisor))} places"
        columns, house = chance.randint(2, 16), chance.choice((USUAL, SET))
        missing = find_missing_for_quotient(text, columns, kept_factor=str(house.kept_factor))
        if missing == 0:
            check_seen(see_value(divide(text, house, columns=columns)))
        else:
            with pytest.raises(FrameError) as refused:
                divide(text, house, columns=columns)
            assert refused.value.missing == missing


def test_the_marker_left_of_the_frame() -> None:
    """0.5 ÷ 70 to 10 places: z = 9, the quotient's ones in 2 + 2 + 10 = 14, moved to 16: three beyond 13 columns."""
    walkthrough = divide("0.5 ÷ 70 to 10 places")
    assert walkthrough.answer.text == "0.0071428571"
    assert walkthrough.answer.columns == (13, 6)
    beyond = [remark for remark in find_remarks(walkthrough) if remark["topic"] == "quotient-marker-beyond"]
    assert [remark["beyond"] for remark in beyond] == [3]


@pytest.mark.parametrize(("columns", "beyond"), [(6, 1), (7, None)])
def test_where_the_frame_ends_at_the_ones(columns: int, beyond: int | None) -> None:
    """1 ÷ 7 to 3 places: the quotient's ones in 1 + 2 + 3 = 6, moved to 7; 4 + 1 columns, moved by 1, are room."""
    walkthrough = divide("1 ÷ 7 to 3 places", columns=columns)
    markers = ("quotient-markers", "quotient-marker-beyond")
    told = [remark.get("beyond") for remark in find_remarks(walkthrough) if str(remark["topic"]) in markers]
    assert (walkthrough.answer.text, told) == ("0.142", [beyond])


def test_who_owns_which_columns() -> None:
    """3588 ÷ 46: as 7 is set in 5, the dividend becomes what is left; at the end the two rightmost hold a remainder."""
    walkthrough = divide("3590 ÷ 46")
    steps = [step for step in walkthrough.steps if step.purpose is Purpose.QUOTIENT]
    assert [tuple(read) for read in steps[0].reads] == [("quotient", "7", (5, 5)), ("left", "3590", (4, 1))]
    assert [tuple(read) for read in walkthrough.steps[-1].reads] == [
        ("quotient", "78", (5, 4)),
        ("remainder", "2", (1, 1)),
    ]
    before = walkthrough.steps[steps[0].number - 2]
    assert [tuple(read) for read in before.reads] == [("dividend", "3590", (4, 1))]


def test_the_divisor_stays_set() -> None:
    walkthrough = divide("954 ÷ 23", SET)
    assert walkthrough.steps[-1].after.digits(13, 12) == "23"
    assert tuple(walkthrough.steps[-1].reads[0]) == ("divisor", "23", (13, 12))
