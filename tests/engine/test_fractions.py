"""Fractions and mixed numbers, judged by the referee: every small one, random long ones, room, who owns what.

Columns and moves written out here were worked by hand from PROCEDURES §3.9 (common practice, no source).
"""

from fractions import Fraction
from itertools import product
from random import Random

import pytest

from beadwright.engine import (
    FractionProblem,
    FrameError,
    HouseStyle,
    Inner,
    MethodError,
    MixedNumber,
    Number,
    Order,
    ProblemError,
    Quantity,
    Walkthrough,
    build_frame,
    parse_problem,
    predict_slips,
    work_problem,
)
from tests.referee import check_data, check_seen, find_missing_for_fractions, see_value

OPERATIONS = ("+", "-", "×", "÷")
STYLES = [HouseStyle(add_order=add, take_order=take, inner=inner) for add, take, inner in product(Order, Order, Inner)]


def work_fractions(text: str, house: HouseStyle = STYLES[0], *, columns: int = 13) -> Walkthrough:
    return work_problem(parse_problem(text), build_frame(columns=columns), house=house)


def compute(first: Fraction, operation: str, second: Fraction) -> Fraction:
    return {"+": first + second, "-": first - second, "×": first * second, "÷": first / (second or 1)}[operation]


def write(value: Fraction) -> str:
    whole, rest = divmod(value.numerator, value.denominator)
    fraction = f"{rest}/{value.denominator}" if rest else ""
    return f"{whole} {fraction}".strip() if whole or not rest else fraction


def judge(walkthrough: Walkthrough, due: Fraction) -> None:
    assert walkthrough.answer.text == write(due)
    check_seen(see_value(walkthrough))


@pytest.mark.parametrize("operation", OPERATIONS)
@pytest.mark.parametrize("below", range(1, 9))
def test_every_small_fraction(operation: str, below: int) -> None:
    """a/b with c/d for a, c of 1 to 9, b, d of 1 to 8: proper and improper, each sign; below zero is refused."""
    frame = build_frame()
    for above, other, under in product(range(1, 10), range(1, 10), range(1, 9)):
        text = f"{above}/{below} {operation} {other}/{under}"
        due = compute(Fraction(above, below), operation, Fraction(other, under))
        if due < 0:
            with pytest.raises(FrameError) as refused:
                work_problem(parse_problem(text), frame)
            assert refused.value.code == "below-zero"
        else:
            judge(work_problem(parse_problem(text), frame), due)


def draw_quantity(chance: Random, digits: int) -> tuple[Quantity, Fraction]:
    """A whole number, a fraction or a mixed number, proper or improper."""
    whole, above = chance.randrange(10**digits), chance.randrange(1, 10**digits)
    below = chance.randrange(1, 10**digits)
    kind = chance.random()
    if kind < 0.2:
        return Number(whole), Fraction(whole)
    whole = 0 if kind < 0.5 else whole
    return MixedNumber(whole, above, below), whole + Fraction(above, below)


@pytest.mark.parametrize("digits", [1, 2, 3])
@pytest.mark.parametrize("operation", OPERATIONS)
def test_random_mixed_numbers(operation: str, digits: int) -> None:
    chance = Random(f"mixed {operation} {digits}")
    for _ in range(150):
        (first, one), (second, other) = draw_quantity(chance, digits), draw_quantity(chance, digits)
        fraction = any(isinstance(number, MixedNumber) for number in (first, second))
        if not fraction or (operation == "÷" and other == 0) or (operation == "-" and one < other):
            continue
        problem = parse_problem(f"{first} {operation} {second}")
        judge(work_problem(problem, build_frame(columns=30)), compute(one, operation, other))


@pytest.mark.parametrize("house", STYLES, ids=lambda house: f"{house.add_order} {house.take_order} {house.inner}")
def test_a_sample_in_every_house_style(house: HouseStyle) -> None:
    """Through plain data, as any reader of it would judge."""
    for text in ("3/4 + 1 1/8", "5 1/6 - 2 3/4", "2 2/5 × 3 1/3", "7 ÷ 2 1/4", "9/4 - 2", "1/2 + 1/2"):
        walkthrough = work_fractions(text, house)
        check_data(walkthrough.to_data())
        assert Walkthrough.from_data(walkthrough.to_data()).to_data() == walkthrough.to_data()


def show_works(walkthrough: Walkthrough) -> list[tuple[str, int, int]]:
    """(purpose, digit, column) of every step that works a digit, taking away written below zero."""
    return [
        (str(step.purpose), -step.work.digit if step.work.action == "take" else step.work.digit, step.work.column)
        for step in walkthrough.steps
        if step.work
    ]


def find_topics(walkthrough: Walkthrough) -> list[str]:
    return [step.remark.topic for step in walkthrough.steps if step.remark is not None]


def test_adding_by_hand() -> None:
    """3/4 + 1 1/8. L = 8; the numerator holds 7 at most, the whole 1: denominator in 1, numerator in 3, whole in 5."""
    walkthrough = work_fractions("3/4 + 1 1/8")
    assert show_works(walkthrough) == [
        ("set", 3, 3),
        ("set", 4, 1),
        ("clear", 4, 1),
        ("set", 8, 1),
        ("clear", 3, 3),
        ("product", 6, 3),  # 3 × 2 = 06
        ("add", 1, 5),
        ("add", 1, 3),
    ]
    assert find_topics(walkthrough) == ["common-denominator", "change-numerator", "add-tens-zero", "lowest-terms"]
    assert walkthrough.answer.parts == (("whole", (5, 5)), ("numerator", (3, 3)), ("denominator", (1, 1)))
    assert walkthrough.answer.text == "1 7/8"


def test_regrouping_and_reducing_by_hand() -> None:
    """5/6 + 5/6: the numerator holds 10, so it has columns 4 and 3, the whole 6. 6 goes over: 1 4/6, reduced 1 2/3."""
    walkthrough = work_fractions("5/6 + 5/6")
    assert show_works(walkthrough) == [
        ("set", 5, 3),
        ("set", 6, 1),
        ("add", 5, 3),
        ("take", -6, 3),
        ("add", 1, 6),
        ("clear", 4, 3),
        ("set", 2, 3),
        ("clear", 6, 1),
        ("set", 3, 1),
    ]
    assert find_topics(walkthrough) == ["common-denominator", "regroup", "common-factor"]


def test_taking_from_a_whole_by_hand() -> None:
    """2 1/4 − 3/4: 1 is less than 3, so 1 of the whole becomes 4 of the numerator: 1 2/4, reduced 1 1/2."""
    walkthrough = work_fractions("2 1/4 - 3/4")
    assert show_works(walkthrough) == [
        ("set", 2, 5),
        ("set", 1, 3),
        ("set", 4, 1),
        ("take", -1, 5),
        ("add", 4, 3),
        ("take", -3, 3),
        ("clear", 2, 3),
        ("set", 1, 3),
        ("clear", 4, 1),
        ("set", 2, 1),
    ]
    assert "regroup-whole" in find_topics(walkthrough)


def test_wholes_that_stand_in_the_numerator() -> None:
    """9/4 − 2: the 2 is in the numerator, so it is regrouped twice before 2 is taken. What was refused half-way."""
    walkthrough = work_fractions("9/4 - 2")
    assert show_works(walkthrough)[2:] == [
        ("take", -4, 3),
        ("add", 1, 5),
        ("take", -4, 3),
        ("add", 1, 5),
        ("take", -2, 5),
    ]
    for text, due in (("1 5/4 - 2", "1/4"), ("25/2 - 12", "1/2"), ("3 9/2 - 7 1/3", "1/6"), ("7/2 - 3 1/2", "0")):
        assert work_fractions(text).answer.text == due
        check_seen(see_value(work_fractions(text)))


def test_multiplying_by_hand() -> None:
    """1 1/2 × 2/3: 3/2 first; 3 × 2 = 06 over 2 × 3 = 06; the common factor is 6: 1 over 1, which is 1."""
    walkthrough = work_fractions("1 1/2 × 2/3")
    assert show_works(walkthrough) == [
        ("set", 1, 5),
        ("set", 1, 3),
        ("set", 2, 1),
        ("product", 2, 3),  # 1 × 2 = 02, added to the numerator
        ("clear", 1, 5),
        ("clear", 3, 3),
        ("product", 6, 3),
        ("clear", 2, 1),
        ("product", 6, 1),
        ("clear", 6, 3),
        ("set", 1, 3),
        ("clear", 6, 1),
        ("set", 1, 1),
        ("add", 1, 5),
        ("clear", 1, 3),
        ("clear", 1, 1),
    ]
    assert walkthrough.answer.text == "1"
    assert walkthrough.answer.columns == (5, 5)


def test_dividing_multiplies_by_the_reciprocal() -> None:
    walkthrough = work_fractions("5 ÷ 3/4")
    remark = next(step.remark for step in walkthrough.steps if step.remark and step.remark.topic == "reciprocal")
    assert remark.to_data() == {"topic": "reciprocal", "numerator": 4, "denominator": 3}
    assert walkthrough.answer.text == "6 2/3"


def test_a_whole_number_has_no_numerator_to_change() -> None:
    """2 + 1/2: the common denominator is 2, which is set beside the 2; then 1 above it."""
    walkthrough = work_fractions("2 + 1/2")
    assert show_works(walkthrough) == [("set", 2, 5), ("set", 2, 1), ("add", 1, 3)]
    assert find_topics(walkthrough) == ["common-denominator", "lowest-terms"]


def test_lowest_terms_are_said_and_move_nothing() -> None:
    walkthrough = work_fractions("1/3 + 1/3")
    last = walkthrough.steps[-1]
    assert last.remark is not None
    assert last.remark.to_data() == {"topic": "lowest-terms", "numerator": 2, "denominator": 3}
    assert last.moves == ()
    assert "common-factor" not in find_topics(walkthrough)


@pytest.mark.parametrize("text", ["3/4 - 3/4", "0 × 3/4", "3/4 × 0", "0 ÷ 3/4", "1/2 + 1/2", "2 1/3 - 1/3"])
def test_a_numerator_of_nothing_leaves_no_denominator(text: str) -> None:
    walkthrough = work_fractions(text)
    assert [part for part, _ in walkthrough.answer.parts] == ["whole"]
    assert walkthrough.steps[-1].after.digits(4, 1) == "0000"
    check_seen(see_value(walkthrough))


def test_columns_at_rest_between_the_groups() -> None:
    """12 5/12 + 7 11/12: L = 12, 16 over it at most, 20: columns 2–1, 5–4, 8–7; 6 and 3 stay at rest throughout."""
    walkthrough = work_fractions("12 5/12 + 7 11/12")
    assert {step.after.digit(column) for step in walkthrough.steps for column in (3, 6, 9, 10)} == {0}
    first = next(step for step in walkthrough.steps if step.number == 6)
    assert [tuple(read) for read in first.reads][1:] == [("numerator", "5", (4, 4)), ("denominator", "12", (2, 1))]
    assert walkthrough.answer.columns == (8, 1)
    assert walkthrough.answer.text == "20 1/3"


# By hand: the widths of the largest values, and two columns at rest.
@pytest.mark.parametrize(
    ("text", "needed"),
    [
        ("1/2 + 1/2", 5),
        ("5/6 + 5/6", 6),  # the numerator comes to 10
        ("1/10 + 1/2", 6),  # 10 below, 1 + 5 above
        ("99 1/2 + 1/2", 7),  # 100 wholes
        ("9/4 - 2", 5),
        ("12/5 - 11/5", 6),
        ("25/2 - 12", 7),  # 25 above and 12 wholes
        ("9 5/4 - 9 1/4", 5),  # 9 from 9 at once; the 5 above is regrouped when no whole is left
        ("9/8 × 8/9", 6 + 2 - 1),  # 72 over 72
        ("999 1/999 + 1/998", 6 + 4 + 3 + 2),  # 997,002 below, 998 + 999 = 1,997 above
    ],
)
def test_room(text: str, needed: int) -> None:
    check_seen(see_value(work_fractions(text, columns=needed)))
    for fewer in (1, 2):
        with pytest.raises(FrameError) as refused:
            work_fractions(text, columns=needed - fewer)
        assert (refused.value.code, refused.value.missing) == ("frame-too-short", fewer)


def test_the_border_everywhere() -> None:
    """Worked exactly where the referee's own room rule says so, with as many columns missing."""
    chance = Random("room of fractions")
    for _ in range(400):
        (first, one), (second, other) = draw_quantity(chance, 2), draw_quantity(chance, 2)
        operation = chance.choice(OPERATIONS)
        fraction = any(isinstance(number, MixedNumber) for number in (first, second))
        if not fraction or (operation == "÷" and other == 0) or (operation == "-" and one < other):
            continue
        text, columns = f"{first} {operation} {second}", chance.randint(5, 15)
        missing = find_missing_for_fractions(text, columns)
        if missing == 0:
            check_seen(see_value(work_fractions(text, columns=columns)))
        else:
            with pytest.raises(FrameError) as refused:
                work_fractions(text, columns=columns)
            assert refused.value.missing == missing


def test_what_is_refused() -> None:
    with pytest.raises(ProblemError, match="divided by 0"):
        parse_problem("1/2 ÷ 0/3")
    with pytest.raises(FrameError) as below:
        work_fractions("1/2 - 2/3")
    assert below.value.code == "below-zero"
    assert "Number 2 of 1/2 - 2/3" in below.value.reason
    for problem, frame in (("0.5 + 1/2", build_frame()), ("1/2 + 1/2", build_frame("nine-bead", columns=9))):
        with pytest.raises(MethodError) as refused:
            work_problem(parse_problem(problem), frame)
        assert refused.value.code == "method-not-for-this"


@pytest.mark.parametrize("operation", OPERATIONS)
def test_slips_are_predicted_for_every_kind(operation: str) -> None:
    for first, second in (("3/4", "1/8"), ("2 1/4", "1 3/4"), ("7/2", "3"), ("5", "2 2/3"), ("10/12", "1/10")):
        walkthrough = work_fractions(f"{first} {operation} {second}", columns=16)
        predicted = predict_slips(walkthrough)
        assert predicted
        assert walkthrough.answer.full_text not in predicted


def test_a_forgotten_whole_number() -> None:
    """2 1/4 + 1 1/2: the 1 never added gives 2 3/4."""
    predicted = predict_slips(work_fractions("2 1/4 + 1 1/2"))
    assert "digit-skipped" in {cause.slip for cause in predicted["2 3/4"]}


def test_a_whole_number_that_a_slip_makes_wider_than_its_group_is_read_whole() -> None:
    """3/2 ÷ 5/9: 2 × 5 = 10 one column too far right leaves 1 below 27, and 27/1 is 27; its group has one column."""
    predicted = predict_slips(work_fractions("3/2 ÷ 5/9"))
    assert "product-one-column-off" in {cause.slip for cause in predicted["27"]}


def test_plans_are_for_fractions_alone() -> None:
    problem = FractionProblem(MixedNumber(0, 1, 2), "+", Number(3))
    assert str(problem) == "1/2 + 3"
    assert work_problem(problem, build_frame()).answer.text == "3 1/2"
