"""Problems as text: what they mean, that they parse back, and where an unclear one stops making sense."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beadwright.engine import (
    FractionProblem,
    MixedNumber,
    Number,
    Percent,
    Problem,
    ProblemError,
    Product,
    Quantity,
    Quotient,
    Root,
    Sum,
    Term,
    parse_problem,
)

MEANINGS: list[tuple[str, Problem]] = [
    ("48+37", Sum((Term("+", Number(48)), Term("+", Number(37))))),
    ("48 + 37 - 12 + 605", Sum(tuple(Term(s, Number(n)) for s, n in zip("++-+", (48, 37, 12, 605), strict=True)))),  # type: ignore[arg-type]
    ("1,048 − .5", Sum((Term("+", Number(1048)), Term("-", Number(5, 1))))),
    ("007 + 1.50", Sum((Term("+", Number(7)), Term("+", Number(150, 2))))),
    ("12.5 × 0.4", Product(Number(125, 1), Number(4, 1))),
    ("306 x 4", Product(Number(306), Number(4))),
    ("306x4", Product(Number(306), Number(4))),
    ("306*4", Product(Number(306), Number(4))),
    ("837 ÷ 3", Quotient(Number(837), Number(3))),
    ("837 / 3", Quotient(Number(837), Number(3))),
    ("954 ÷ 23 to 2 places", Quotient(Number(954), Number(23), 2)),
    ("1 ÷ 8 to 1 place", Quotient(Number(1), Number(8), 1)),
    ("1 ÷ 7 to 30 places", Quotient(Number(1), Number(7), 30)),
    ("15% of 80", Percent(Number(15), Number(80))),
    ("12.5 % of 8", Percent(Number(125, 1), Number(8))),
    ("3/4 + 1 1/8", FractionProblem(MixedNumber(0, 3, 4), "+", MixedNumber(1, 1, 8))),
    ("2 ÷ 3/4", FractionProblem(Number(2), "÷", MixedNumber(0, 3, 4))),
    ("3/4 - 1/8", FractionProblem(MixedNumber(0, 3, 4), "-", MixedNumber(0, 1, 8))),
    ("3 0/4 + 2", Sum((Term("+", Number(3)), Term("+", Number(2))))),
    ("√1444", Root(Number(1444))),
    ("sqrt 2.25", Root(Number(225, 2))),
    ("48\u00a0+\u202f37", Sum((Term("+", Number(48)), Term("+", Number(37))))),
]


@pytest.mark.parametrize(("text", "problem"), MEANINGS)
def test_what_a_text_means(text: str, problem: Problem) -> None:
    assert parse_problem(text) == problem
    assert parse_problem(str(problem)) == problem


# (text, position counted from 0 where it stops making sense)
UNCLEAR = [
    ("", 0),
    ("   ", 0),
    ("48", 2),
    ("48 +", 4),
    ("48 + ", 4),
    ("+ 48", 0),
    ("-5 + 3", 0),
    ("48 + + 37", 5),
    ("48 37", 3),
    ("48 + 37 = 85", 8),
    ("forty + 2", 0),
    ("48 + 3o7", 6),
    ("1,04 + 3", 0),
    ("3 + 10,00", 4),
    ("5. + 1", 1),
    ("0.5.3 + 1", 3),
    ("4 × 5 × 6", 6),
    ("4 + 5 × 6", 6),
    ("4 ÷ 0", 2),
    ("4 ÷ 0.00", 2),
    ("1 + 2 to 2 places", 6),
    ("9 ÷ 4 to 0 places", 9),
    ("9 ÷ 4 to 31 places", 9),
    ("9 ÷ 4 to 00031 places", 9),
    ("9 ÷ 4 to 2", 6),
    ("9 ÷ 4 of 2 places", 6),
    ("9 × 4 to 2 places", 6),
    ("234.92 ÷ 6 to 1 place", 11),
    ("0.025 ÷ 0.7 to 1 place", 12),
    ("15% of", 2),
    ("15% 80", 2),
    ("15% of 3/4", 7),
    ("1/0 + 2", 0),
    ("1/2 ÷ 0", 4),
    ("1/2 ÷ 0/3", 4),
    ("1/2 + 1/3 + 1/4", 10),
    ("1.5 2/3 + 1", 0),
    ("1,000/3 + 1", 0),
    ("√", 0),
    ("√ 4 + 5", 4),
    ("√3/4", 1),
    ("√-4", 2),
    ("2 + √4", 4),
    ("48 ＋ 37", 3),
    ("4٣ + 1", 1),
]


@pytest.mark.parametrize(("text", "position"), UNCLEAR)
def test_where_an_unclear_text_stops_making_sense(text: str, position: int) -> None:
    with pytest.raises(ProblemError) as unclear:
        parse_problem(text)
    assert (unclear.value.code, unclear.value.position) == ("problem-unclear", position)
    assert unclear.value.reason
    assert unclear.value.next_step
    assert str(unclear.value) == f"{unclear.value.reason}. {unclear.value.next_step}"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "A problem is missing"),
        ("48 + 3o7", "“o7” is not part of a problem"),
        ("48", "One number alone is not a problem"),
        (
            "234.92 ÷ 6 to 1 place",
            "This quotient has 2 places by itself: write “to 2 places” or more, or leave “to … places” out",
        ),
    ],
)
def test_a_reason_is_a_sentence(text: str, reason: str) -> None:
    with pytest.raises(ProblemError) as unclear:
        parse_problem(text)
    assert unclear.value.reason == reason


def test_the_longest_texts() -> None:
    assert len(parse_problem(" + ".join("1" * 50)).terms) == 50  # type: ignore[union-attr]
    with pytest.raises(ProblemError, match="at most 50 numbers"):
        parse_problem(" + ".join("1" * 51))
    assert str(parse_problem("9" * 60 + " + 1")) == "9" * 60 + " + 1"
    with pytest.raises(ProblemError, match="at most 60 digits"):
        parse_problem("9" * 61 + " + 1")
    assert parse_problem("1 + 1".ljust(400)) == parse_problem("1 + 1")
    with pytest.raises(ProblemError) as long:
        parse_problem("1 + 1".ljust(401))
    assert (long.value.code, long.value.position) == ("problem-long", 0)
    assert str(parse_problem("1/" + "9" * 58 + " + 1")) == "1/" + "9" * 58 + " + 1"
    with pytest.raises(ProblemError, match="is not a fraction"):
        parse_problem("1/" + "9" * 59 + " + 1")


WHOLES = st.integers(0, 10**12)
NUMBERS = st.builds(Number, WHOLES, st.integers(0, 12))
ABOVE_ZERO = st.builds(Number, st.integers(1, 10**12), st.integers(0, 12))
MIXED = st.builds(MixedNumber, st.integers(0, 999), st.integers(1, 999), st.integers(1, 999))
QUANTITIES: st.SearchStrategy[Quantity] = st.one_of(NUMBERS, MIXED)
SIGNS = st.sampled_from(["+", "-"])
SUMS = st.builds(
    lambda first, rest: Sum((Term("+", first), *rest)),
    NUMBERS,
    st.lists(st.builds(Term, SIGNS, NUMBERS), min_size=1, max_size=9),
)
FRACTIONS = st.one_of(
    st.builds(FractionProblem, MIXED, st.sampled_from(["+", "-", "×"]), QUANTITIES),
    st.builds(FractionProblem, QUANTITIES, st.sampled_from(["+", "-", "×", "÷"]), MIXED),
)
PROBLEMS = st.one_of(
    SUMS,
    st.builds(Product, NUMBERS, NUMBERS),
    st.builds(Quotient, NUMBERS, ABOVE_ZERO, st.integers(0, 30)),
    st.builds(Percent, NUMBERS, NUMBERS),
    FRACTIONS,
    st.builds(Root, NUMBERS),
)


def check_clear_or_placed(text: str) -> None:
    """A text is a problem that survives its own text, or it is unclear at one of its characters."""
    try:
        problem = parse_problem(text)
    except ProblemError as unclear:
        position = unclear.position
    else:
        assert parse_problem(str(problem)) == problem
        return
    assert 0 <= position <= len(text)


@given(PROBLEMS)
def test_a_text_parses_back_to_its_problem(problem: Problem) -> None:
    assert parse_problem(str(problem)) == problem


@given(st.text(max_size=40))
def test_any_text_is_a_problem_or_unclear(text: str) -> None:
    check_clear_or_placed(text)


@given(st.text("0123456789 +-×÷/.,√%tofplaces", max_size=24))
def test_texts_that_are_nearly_problems(text: str) -> None:
    check_clear_or_placed(text)


# By hand: 48 + 37 = 85, 85 − 12 = 73; 0.5 + 2 in tenths; 3/4 + 9/8 = 15/8; 15 % of 80 = 12; 38 × 38 = 1444.
def test_exact_values() -> None:
    assert Sum((Term("+", Number(48)), Term("+", Number(37)), Term("-", Number(12)))).find_totals(0) == [48, 85, 73]
    assert Sum((Term("+", Number(5, 1)), Term("+", Number(2)))).find_totals(1) == [5, 25]
    assert FractionProblem(MixedNumber(0, 3, 4), "+", MixedNumber(1, 1, 8)).exact == Fraction(15, 8)
    assert FractionProblem(MixedNumber(0, 1, 4), "-", Number(1)).exact == Fraction(-3, 4)
    assert FractionProblem(MixedNumber(0, 2, 3), "×", Number(6)).exact == 4
    assert FractionProblem(Number(2), "÷", MixedNumber(0, 2, 3)).exact == 3
    assert Percent(Number(15), Number(80)).exact == 12
    assert Product(Number(125, 1), Number(4, 1)).exact == 5
    assert Quotient(Number(9), Number(12)).exact == Fraction(3, 4)
    assert Root(Number(1444)).exact == (38, 0)
    assert Root(Number(226, 2)).exact == (15, 1)  # 2.26: 1.5 × 1.5 = 2.25
    assert Root(Number(25, 1)).exact == (15, 25)  # 2.50: 1.5 × 1.5 = 2.25, 0.25 left


def test_places_are_told_in_the_singular_and_the_plural() -> None:
    assert str(Quotient(Number(9), Number(4))) == "9 ÷ 4"
    assert str(Quotient(Number(9), Number(4), 1)) == "9 ÷ 4 to 1 place"
    assert str(Quotient(Number(9), Number(4), 2)) == "9 ÷ 4 to 2 places"


def test_zeros_before_a_count_of_places_mean_nothing() -> None:
    assert parse_problem("9 ÷ 4 to 00012 places") == Quotient(Number(9), Number(4), 12)


def test_numbers_as_they_stand_on_a_frame() -> None:
    assert (str(Number(5, 1)), str(Number(0, 3)), str(Number(1205, 2))) == ("0.5", "0.000", "12.05")
    assert (Number(1205, 2).digits, Number(5, 2).digits, Number(0).digits) == ("1205", "5", "0")
    assert Number(125, 2).exact == Fraction(5, 4)
    assert Number(15, 1).with_places(3) == Number(1500, 3)
    with pytest.raises(ValueError, match="does not fit"):
        Number(15, 1).with_places(0)
    for units, places in ((-1, 0), (1, -1)):
        with pytest.raises(ValueError, match="never below zero"):
            Number(units, places)
    assert (str(MixedNumber(1, 7, 8)), str(MixedNumber(0, 7, 8)), str(MixedNumber(3, 0, 8))) == ("1 7/8", "7/8", "3")
    for whole, above, below in ((-1, 1, 2), (1, -1, 2), (1, 1, 0)):
        with pytest.raises(ValueError, match="not a mixed number"):
            MixedNumber(whole, above, below)
