"""Problems in columns: what stands where, read back by place and not by character."""

from random import Random

import pytest

from beadwright.engine import Product, Quotient, Sum, parse_problem
from beadwright.render.braille import BrailleError, can_stand, lay_out, to_ascii

UEB_DIGITS = str.maketrans("ABCDEFGHIJ4", "1234567890.")
BOTH = pytest.mark.parametrize("code", ["nemeth", "ueb"])


def rows_of(problem: str, code: str, *, answered: bool = False) -> list[str]:
    return [to_ascii(row) for row in lay_out(parse_problem(problem), code, answered=answered)]


def read_digits(row: str, code: str) -> str:
    """The number at the end of a row; signs and indicators are left of it."""
    if code == "nemeth":
        return row.replace("@*", "").strip(" +-")
    return row.partition("#")[2].strip().translate(UEB_DIGITS)


@BOTH
def test_digits_of_one_place_stand_in_one_column(code: str) -> None:
    chance = Random("columns")
    for _ in range(300):
        numbers = [f"{chance.randint(1, 99999)}.{chance.randint(0, 99):02}" for _ in range(3)]
        rows = rows_of(" + ".join(numbers), code, answered=True)
        read = [row for index, row in enumerate(rows) if index != 3]
        assert [read_digits(row, code) for row in read[:3]] == numbers
        marker = "." if code == "nemeth" else "4"
        assert len({len(row) - row.rindex(marker, 0, len(row) - 2) for row in read}) == 1
        assert float(read_digits(read[3], code)) == pytest.approx(sum(map(float, numbers)))


@BOTH
def test_a_whole_number_stands_left_of_the_marker(code: str) -> None:
    first, second, *_ = rows_of("1.25 + 10", code)
    marker = first.rindex("." if code == "nemeth" else "4")
    assert len(second) == marker


@BOTH
def test_signs_stand_in_one_column_and_the_line_covers_the_widest(code: str) -> None:
    rows = rows_of("1204 - 37 - 5", code)
    signs = [row.index("-") for row in rows[1:3]]
    assert len(set(signs)) == 1
    assert len(rows[3]) >= max(map(len, rows[:3]))


@pytest.mark.parametrize(
    ("problem", "partials", "answer"),
    [("23 × 45", ["115", "920"], "1035"), ("306 × 4", [], "1224"), ("12 × 304", ["48", "3600"], "3648")],
)
def test_products_show_their_partial_products(problem: str, partials: list[str], answer: str) -> None:
    rows = [row.strip() for row in rows_of(problem, "nemeth", answered=True)]
    assert [row for row in rows[3:-1] if "33" not in row] == partials
    assert rows[-1] == answer


@pytest.mark.parametrize(
    ("problem", "quotient", "working"),
    [
        ("954 ÷ 23", "41", ["92", "34", "23", "11"]),
        ("612 ÷ 6", "102", ["6", "12", "12", "0"]),
        ("600 ÷ 6", "100", ["6", "0"]),
        ("5 ÷ 8", "0", []),
        ("7 ÷ 8 to 3 places", "0.875", ["6.4", "60", "56", "40", "40", "0"]),
    ],
)
def test_divisions_show_what_is_taken_and_what_is_left(problem: str, quotient: str, working: list[str]) -> None:
    rows = [row.strip() for row in rows_of(problem, "nemeth", answered=True)]
    assert rows[0] == quotient
    found = [row.replace(" ", ".") for row in rows[3:] if set(row) != {"3"}]
    assert found == working


def test_a_division_in_ueb_is_a_numeric_passage() -> None:
    rows = rows_of("1196 ÷ 23", "ueb")
    assert (rows[0], rows[2], rows[-1]) == ("##", "BC_AAIF", "#'")


def test_what_has_no_spatial_layout_is_refused() -> None:
    for text in ("1/2 + 1/4", "√9", "15% of 80", "12.5 ÷ 0.4"):
        problem = parse_problem(text)
        assert not can_stand(problem)
        with pytest.raises(BrailleError, match="on a line"):
            lay_out(problem, "nemeth")


def test_thousands_of_problems_keep_their_digits() -> None:
    """Nothing is cut at a margin, nothing is lost: all digits of the numbers stand in the rows."""
    chance = Random("kept")
    for _ in range(1500):
        first, second = chance.randint(1, 10**9), chance.randint(1, 10**6)
        for sign, kind in (("+", Sum), ("×", Product), ("÷", Quotient)):
            problem = parse_problem(f"{first} {sign} {second}")
            assert isinstance(problem, kind)
            text = "".join(to_ascii(row) for row in lay_out(problem, "nemeth"))
            assert str(first) in text
            assert str(second) in text
