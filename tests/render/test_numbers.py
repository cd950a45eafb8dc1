"""Numbers and problems in words, against what a teacher would say; written by hand."""

import pytest

from beadwright.engine import parse_problem
from beadwright.render import (
    format_number,
    format_problem,
    load_words,
    name_column,
    say_number,
    say_number_text,
    say_problem,
)

WORDS = load_words("en")


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (0, "zero"),
        (7, "seven"),
        (10, "ten"),
        (13, "thirteen"),
        (20, "twenty"),
        (48, "forty-eight"),
        (99, "ninety-nine"),
        (100, "one hundred"),
        (305, "three hundred five"),
        (1000, "one thousand"),
        (1034, "one thousand thirty-four"),
        (12_000, "twelve thousand"),
        (100_001, "one hundred thousand one"),
        (999_999, "nine hundred ninety-nine thousand nine hundred ninety-nine"),
        (1_000_000, "one million"),
        (2_000_300_040, "two billion three hundred thousand forty"),
        (9_000_000_000_007, "nine trillion seven"),
        (10**24, "one septillion"),
        (7 * 10**63 + 2, "seven vigintillion two"),
        (5 * 10**68, "five" + 68 * " zero"),
    ],
)
def test_a_whole_number_is_said_as_in_class(number: int, said: str) -> None:
    assert say_number(number, WORDS) == said


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("12.5", "twelve point five"),
        ("0.05", "zero point zero five"),
        ("12.50", "twelve point five zero"),
        ("1/2", "one half"),
        ("3/2", "three halves"),
        ("1 7/8", "one and seven eighths"),
        ("5/23", "five over twenty-three"),
    ],
)
def test_decimals_and_fractions_are_said_as_in_class(text: str, said: str) -> None:
    assert say_number_text(text, WORDS) == said


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("7", "7"),
        ("999", "999"),
        ("1000", "1,000"),
        ("1234567.25", "1,234,567.25"),
        ("0.05", "0.05"),
        ("1 7/8", "1 7/8"),
    ],
)
def test_a_number_is_shown_in_groups(text: str, shown: str) -> None:
    assert format_number(text, WORDS) == shown


@pytest.mark.parametrize(
    ("problem", "shown", "said"),
    [
        ("48 + 37", "48 + 37", "forty-eight plus thirty-seven"),
        ("1048-37+5", "1,048 − 37 + 5", "one thousand forty-eight minus thirty-seven plus five"),
        ("12.5 x 0.4", "12.5 × 0.4", "twelve point five times zero point four"),
        ("954 / 23", "954 ÷ 23", "nine hundred fifty-four divided by twenty-three"),
        ("1 ÷ 8 to 1 place", "1 ÷ 8, to 1 decimal place", "one divided by eight, to one decimal place"),
        ("1 ÷ 8 to 3 places", "1 ÷ 8, to 3 decimal places", "one divided by eight, to three decimal places"),
        ("15% of 80", "15% of 80", "fifteen percent of eighty"),
        ("√1444", "√1,444", "the square root of one thousand four hundred forty-four"),
        ("3/4 + 1 1/8", "3/4 + 1 1/8", "three fourths plus one and one eighth"),
        ("1 1/2 - 3/4", "1 1/2 − 3/4", "one and one half minus three fourths"),
        ("1/2 × 3", "1/2 × 3", "one half times three"),
        ("3/4 ÷ 1/2", "3/4 ÷ 1/2", "three fourths divided by one half"),
    ],
)
def test_a_problem_is_shown_and_said(problem: str, shown: str, said: str) -> None:
    parsed = parse_problem(problem)
    assert format_problem(parsed, WORDS) == shown
    assert say_problem(parsed, WORDS) == said


@pytest.mark.parametrize(
    "text", ["48 + 37", "1048 - 37", "12.5 × 0.4", "954 ÷ 23", "15% of 80", "√1444", "1 1/2 - 3/4"]
)
def test_what_a_reader_sees_can_be_typed_again(text: str) -> None:
    problem = parse_problem(text)
    assert parse_problem(format_problem(problem, WORDS)) == problem


@pytest.mark.parametrize(
    ("column", "ones_column", "place"),
    [
        (1, 1, "ones"),
        (2, 1, "tens"),
        (3, 1, "hundreds"),
        (4, 1, "thousands"),
        (5, 1, "ten thousands"),
        (6, 1, "hundred thousands"),
        (7, 1, "millions"),
        (13, 1, "trillions"),
        (26, 1, "ten septillions"),
        (4, 4, "ones"),
        (3, 4, "tenths"),
        (2, 4, "hundredths"),
        (1, 4, "thousandths"),
        (3, 7, "ten-thousandths"),
        (1, 7, "millionths"),
        (104, 1, "column 104"),
        (5, None, "column 5"),
    ],
)
def test_a_column_goes_by_its_place(column: int, ones_column: int | None, place: str) -> None:
    assert name_column(column, ones_column, WORDS).place == place


def test_a_column_is_named_as_a_sentence_needs_it() -> None:
    tens, fifth = name_column(2, 1, WORDS), name_column(5, None, WORDS)
    assert (tens.the, tens.on, tens.read, tens.also) == (
        "the tens",
        "on the tens",
        "the tens read {digit}",
        "the tens {digit}",
    )
    assert (fifth.the, fifth.on, fifth.read) == ("column 5", "in column 5", "column 5 reads {digit}")
