"""What is said between the digits, at each turn of each procedure, with the numbers it is said with.

The turns are those of PROCEDURES §3.6–3.10 (common practice, no source); numbers and columns were worked by hand.
"""

import pytest

from beadwright.engine import HouseStyle, KeptFactor, Rounding, Trial, build_frame, parse_problem, work_problem

USUAL = HouseStyle()
Turn = tuple[str, dict[str, object]]


def turn(topic: str, **facts: object) -> Turn:
    return topic, facts


def tens_zero(way: str, first: int, second: int, column: int) -> Turn:
    """A product below ten: its 0 is said and holds its column."""
    return turn(f"{way}-tens-zero", first=first, second=second, product=f"0{first * second}", column=column)


QUOTIENTS = [
    (
        "954 ÷ 23",  # 41 r 11
        USUAL,
        [
            turn("quotient-start", dividend="954", divisor="23", column=3, last_column=4),
            turn("divisor-remembered", divisor="23"),
            turn("compare-second-left", divisor="23", left="95", first_column=3, column=5),
            turn("trial-known", left="95", divisor="23", digit=4, column=5),
            tens_zero("take", 4, 2, 4),
            turn("compare-second-left", divisor="23", left="34", first_column=2, column=4),
            turn("trial-known", left="34", divisor="23", digit=1, column=4),
            tens_zero("take", 1, 2, 3),
            tens_zero("take", 1, 3, 2),
            turn("quotient-stop", divisor="23", column=3, last_column=4),
            turn("quotient-done", quotient="41", remainder="11"),
        ],
    ),
    (
        "837 ÷ 3",  # 279
        USUAL,
        [
            turn("quotient-start", dividend="837", divisor="3", column=3, last_column=3),
            turn("divisor-remembered", divisor="3"),
            turn("compare-second-left", divisor="3", left="8", first_column=3, column=5),
            turn("trial-known", left="8", divisor="3", digit=2, column=5),
            tens_zero("take", 2, 3, 4),
            turn("compare-first-left", divisor="3", left="2", first_column=3, column=4),
            turn("trial-known", left="23", divisor="3", digit=7, column=4),
            turn("compare-first-left", divisor="3", left="2", first_column=2, column=3),
            turn("trial-known", left="27", divisor="3", digit=9, column=3),
            turn("nothing-left"),
            turn("quotient-exact", quotient="279"),
        ],
    ),
    (
        "7 ÷ 23",
        USUAL,
        [
            turn("quotient-start", dividend="7", divisor="23", column=1, last_column=4),
            turn("divisor-remembered", divisor="23"),
            turn("dividend-smaller", dividend="7", divisor="23"),
            turn("quotient-done", quotient="0", remainder="7"),
        ],
    ),
    (
        "92 ÷ 19",  # 4 r 16; 9 ÷ 1 is 9, which is too large five times
        HouseStyle(trial=Trial.FIRST_DIGIT),
        [
            turn("quotient-start", dividend="92", divisor="19", column=2, last_column=4),
            turn("divisor-remembered", divisor="19"),
            turn("compare-second-left", divisor="19", left="92", first_column=2, column=4),
            turn("trial-first-digit", left="9", divisor="1", digit=9, column=4),
            tens_zero("take", 9, 1, 3),
            turn("trial-too-large", digit=9, factor=9, product="81", left=2, column=4),
            turn("trial-too-large", digit=8, factor=9, product="72", left=12, column=4),
            turn("trial-too-large", digit=7, factor=9, product="63", left=22, column=4),
            turn("trial-too-large", digit=6, factor=9, product="54", left=32, column=4),
            turn("trial-too-large", digit=5, factor=9, product="45", left=42, column=4),
            turn("quotient-stop", divisor="19", column=3, last_column=4),
            turn("quotient-done", quotient="4", remainder="16"),
        ],
    ),
    (
        "3588 ÷ 46",  # 7 and 7 by 50, and 46 is left once more
        HouseStyle(trial=Trial.ROUNDED),
        [
            turn("quotient-start", dividend="3588", divisor="46", column=4, last_column=4),
            turn("divisor-remembered", divisor="46"),
            turn("compare-first-left", divisor="46", left="35", first_column=4, column=5),
            turn("trial-rounded", left="35", divisor="5", digit=7, column=5),
            turn("compare-first-left", divisor="46", left="36", first_column=3, column=4),
            turn("trial-rounded", left="36", divisor="5", digit=7, column=4),
            turn("trial-too-small", digit=7, divisor="46", left=46, column=4),
            turn("nothing-left"),
            turn("quotient-exact", quotient="78"),
        ],
    ),
    (
        "306 ÷ 3",  # 102
        USUAL,
        [
            turn("quotient-start", dividend="306", divisor="3", column=3, last_column=3),
            turn("divisor-remembered", divisor="3"),
            turn("zero-holds", column=2, term=1),
            turn("compare-second-left", divisor="3", left="3", first_column=3, column=5),
            turn("trial-known", left="3", divisor="3", digit=1, column=5),
            tens_zero("take", 1, 3, 4),
            turn("quotient-zeros", count=1, highest_column=4, lowest_column=4),
            turn("compare-second-left", divisor="3", left="6", first_column=1, column=3),
            turn("trial-known", left="6", divisor="3", digit=2, column=3),
            tens_zero("take", 2, 3, 2),
            turn("nothing-left"),
            turn("quotient-exact", quotient="102"),
        ],
    ),
    (
        "7 ÷ 3 to 1 place",  # 2.3 and 1 tenth left; twice 1 is less than 3
        HouseStyle(rounding=Rounding.HALF_UP),
        [
            turn("quotient-start", dividend="7", divisor="3", column=2, last_column=3),
            turn("zeros-added", count=1),
            turn("quotient-markers", count=1, ones_column=2, quotient_column=4),
            turn("divisor-remembered", divisor="3"),
            turn("compare-second-left", divisor="3", left="7", first_column=2, column=4),
            turn("trial-known", left="7", divisor="3", digit=2, column=4),
            tens_zero("take", 2, 3, 3),
            turn("compare-first-left", divisor="3", left="1", first_column=2, column=3),
            turn("trial-known", left="10", divisor="3", digit=3, column=3),
            tens_zero("take", 3, 3, 2),
            turn("quotient-stop", divisor="3", column=2, last_column=3),
            turn("round-down", remainder=1, twice=2, divisor="3"),
            turn("quotient-rounded", quotient="2.3"),
        ],
    ),
    (
        "2 ÷ 3 to 2 places",  # 0.66 and 2 hundredths left; twice 2 is at least 3
        HouseStyle(rounding=Rounding.HALF_UP),
        [
            turn("quotient-start", dividend="2", divisor="3", column=5, last_column=5),
            turn("zeros-added", count=2),
            turn("rest-at-right", count=2),
            turn("quotient-markers", count=2, ones_column=5, quotient_column=7),
            turn("divisor-remembered", divisor="3"),
            turn("compare-first-left", divisor="3", left="2", first_column=5, column=6),
            turn("trial-known", left="20", divisor="3", digit=6, column=6),
            turn("compare-first-left", divisor="3", left="2", first_column=4, column=5),
            turn("trial-known", left="20", divisor="3", digit=6, column=5),
            turn("quotient-stop", divisor="3", column=4, last_column=5),
            turn("round-up", remainder=2, twice=4, divisor="3"),
            turn("quotient-rounded", quotient="0.67"),
        ],
    ),
]

PRODUCTS = [
    (
        "23 × 4",
        USUAL,
        [
            turn(
                "product-start",
                multiplicand="23",
                multiplier="4",
                multiplicand_digits=2,
                multiplier_digits=1,
                count=0,
                column=4,
            ),
            turn("multiplier-remembered", multiplier="4"),
            tens_zero("add", 2, 4, 3),
            turn("product-done", product="92"),
        ],
    ),
    (
        "1.5 × 0.4",
        HouseStyle(kept_factor=KeptFactor.SET),
        [
            turn(
                "product-start-shifted",
                multiplicand="15",
                multiplier="4",
                multiplicand_digits=2,
                multiplier_digits=1,
                count=1,
                column=5,
            ),
            turn("product-marker", count=2, ones_column=4),
            turn("add-ones-zero", first=5, second=4, product="20", column=2),
            tens_zero("add", 1, 4, 4),
            turn("product-done", product="0.60"),
        ],
    ),
    (
        "15% of 80",
        USUAL,
        [
            turn(
                "product-start-shifted",
                multiplicand="15",
                multiplier="80",
                multiplicand_digits=2,
                multiplier_digits=2,
                count=1,
                column=6,
            ),
            turn("percent-places", count=2),
            turn("product-marker", count=2, ones_column=4),
            turn("multiplier-remembered", multiplier="80"),
            turn("add-ones-zero", first=5, second=8, product="40", column=3),
            turn("add-nothing", first=5, second=0, column=3),
            tens_zero("add", 1, 8, 5),
            turn("add-nothing", first=1, second=0, column=4),
            turn("product-done", product="12.00"),
        ],
    ),
]

REPEATED = [
    (
        "23 × 3",
        [
            turn("times-start", number="23", count=3),
            turn("times-added", number="23", count=1, times=3),
            turn("times-added", number="23", count=2, times=3),
            turn("times-added", number="23", count=3, times=3),
            turn("product-done", product="69"),
        ],
    ),
    ("23 × 0", [turn("times-none", number="23"), turn("product-done", product="0")]),
    (
        "7 ÷ 3",
        [
            turn("taking-start", dividend="7", divisor="3"),
            turn("times-taken", divisor="3", count=1, left="4"),
            turn("times-taken", divisor="3", count=2, left="1"),
            turn("taking-done", divisor="3", quotient=2, remainder="1"),
        ],
    ),
]

FRACTIONS = [
    (
        "3/4 + 5/6",  # 9/12 + 10/12 = 19/12
        USUAL,
        [
            turn("common-denominator", first=4, second=6, common=12),
            turn("change-numerator", numerator=3, factor=3),
            tens_zero("add", 3, 3, 5),
            turn("second-numerator", numerator=5, factor=2),
            turn("add-ones-zero", first=5, second=2, product="10", column=4),
            turn("regroup", common=12),
            turn("lowest-terms", numerator=7, denominator=12),
        ],
    ),
    ("3/4 - 3/4", USUAL, [turn("common-denominator", first=4, second=4, common=4), turn("no-fraction")]),
    (
        "2 1/4 - 3/4",
        USUAL,
        [
            turn("common-denominator", first=4, second=4, common=4),
            turn("regroup-whole", common=4, taken=3),
            turn("common-factor", numerator=2, denominator=4, factor=2),
        ],
    ),
    (
        "1 1/2 × 2/3",  # 3/2 × 2/3 = 6/6
        USUAL,
        [
            turn("make-improper", whole=1, denominator=2, numerator=1),
            tens_zero("add", 1, 2, 4),
            turn("second-improper", numerator=2, denominator=3),
            turn("multiply-part", part="numerator", value=3, factor=2),
            tens_zero("add", 3, 2, 4),
            turn("multiply-part", part="denominator", value=2, factor=3),
            tens_zero("add", 2, 3, 2),
            turn("common-factor", numerator=6, denominator=6, factor=6),
            turn("regroup-all", numerator=1, denominator=1, whole=1, rest=0),
        ],
    ),
    (
        "3/4 ÷ 5/8",  # 24/20 = 6/5
        USUAL,
        [
            turn("reciprocal", numerator=8, denominator=5),
            turn("multiply-part", part="numerator", value=3, factor=8),
            turn("multiply-part", part="denominator", value=4, factor=5),
            turn("add-ones-zero", first=4, second=5, product="20", column=1),
            turn("common-factor", numerator=24, denominator=20, factor=4),
            turn("regroup-all", numerator=6, denominator=5, whole=1, rest=1),
        ],
    ),
]


@pytest.mark.parametrize(("problem", "house", "turns"), QUOTIENTS + PRODUCTS + FRACTIONS)
def test_each_turn_is_said_with_its_numbers(problem: str, house: HouseStyle, turns: list[Turn]) -> None:
    assert find_turns(problem, house) == turns


@pytest.mark.parametrize(("problem", "turns"), REPEATED)
def test_each_count_is_said(problem: str, turns: list[Turn]) -> None:
    assert find_turns(problem, USUAL, "repeated-adding" if "×" in problem else "repeated-taking-away") == turns


@pytest.mark.parametrize(
    ("problem", "columns", "said", "ones"),
    [
        ("12.5 + 0.25", 13, "marker", 4),
        ("1.000000000001 + 1", 26, "marker", 13),
        ("1.0000000000001 + 1", 26, "marker-between", 16),  # the third column of the left frame: no mark right of it
    ],
)
def test_the_marker_of_a_sum_is_said_where_it_is(problem: str, columns: int, said: str, ones: int) -> None:
    (first, *_) = work_problem(parse_problem(problem), build_frame(columns=columns)).steps
    assert first.remark is not None
    assert (first.remark.topic, dict(first.remark.facts)) == turn(said, ones_column=ones)


ROOTS = {
    ("√144", "odd-number"): [  # 1 from 1; 21 and 23 from 44
        turn("odd-first", group=1, odd=1, holds=1),
        turn("odd-stop", group=1, odd=3, holds=0, digit=1),
        turn("odd-first", group=2, odd=21, holds=44),
        turn("odd-stop", group=2, odd=25, holds=0, digit=2),
        turn("root-check-exact", root="12", radicand="144"),
    ],
    ("√4718", "double-root"): [  # 6; then 9 for 111 ÷ 12, which is too much: 8
        turn("root-first", holds=47, digit=6),
        turn("root-trial", group=2, left=111, register=12, digit=9),
        tens_zero("take", 9, 1, 4),
        turn("root-lower", group=2, digit=9),
        turn("root-halve", register=136, root=68),
        turn("root-check", root="68", left="94", radicand="4718"),
    ],
    ("√150", "odd-number"): [  # 1 from 1; 21 and 23 from 50
        turn("zero-holds", column=1, term=1),
        turn("odd-first", group=1, odd=1, holds=1),
        turn("odd-stop", group=1, odd=3, holds=0, digit=1),
        turn("odd-first", group=2, odd=21, holds=50),
        turn("odd-stop", group=2, odd=25, holds=6, digit=2),
        turn("root-check", root="12", left="6", radicand="150"),
    ],
    ("√150", "double-root"): [  # 1; then 5 ÷ 2, and 2 × 20 and 2 × 2 from 50
        turn("zero-holds", column=1, term=1),
        turn("root-first", holds=1, digit=1),
        tens_zero("take", 1, 1, 4),
        turn("root-trial", group=2, left=5, register=2, digit=2),
        turn("take-nothing", first=2, second=0, column=4),
        tens_zero("take", 2, 2, 3),
        tens_zero("take", 2, 2, 2),
        turn("root-halve", register=24, root=12),
        turn("root-check", root="12", left="6", radicand="150"),
    ],
}


@pytest.mark.parametrize(("problem", "method"), ROOTS)
def test_each_turn_of_a_root_is_said_with_its_numbers(problem: str, method: str) -> None:
    assert find_turns(problem, USUAL, method) == ROOTS[problem, method]


def find_turns(problem: str, house: HouseStyle, method: str | None = None) -> list[Turn]:
    worked = work_problem(parse_problem(problem), build_frame(), house=house, method=method)
    return [(step.remark.topic, dict(step.remark.facts)) for step in worked.steps if step.remark is not None]
