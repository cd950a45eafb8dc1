"""What is written in a code says the problem again to a reader that knows only the code's rules."""

from collections.abc import Callable
from random import Random

import pytest

from beadwright.engine import parse_problem
from beadwright.render.braille import (
    NEMETH,
    UEB,
    Code,
    break_row,
    build_equation_row,
    build_problem_row,
    to_ascii,
    write_row,
)
from tests.render.braille.decoding import read_nemeth, read_ueb
from tests.render.braille.problems import draw_problem

READERS: list[tuple[Code, Callable[[list[str]], str]]] = [(NEMETH, read_nemeth), (UEB, read_ueb)]
codes = pytest.mark.parametrize(("code", "read"), READERS, ids=["nemeth", "ueb"])


@codes
def test_thousands_of_problems_read_back_from_one_line(code: Code, read: Callable[[list[str]], str]) -> None:
    chance = Random("one line")
    for _ in range(4000):
        problem = draw_problem(chance)
        line = to_ascii(write_row(build_problem_row(problem), code))
        assert parse_problem(read([line])) == problem, line


@codes
@pytest.mark.parametrize("width", [20, 40])
def test_thousands_of_problems_read_back_from_broken_lines(
    code: Code, read: Callable[[list[str]], str], width: int
) -> None:
    chance = Random(f"broken at {width}")
    for _ in range(2000):
        problem = draw_problem(chance)
        lines = [to_ascii(line) for line in break_row(build_problem_row(problem), code, width)]
        assert parse_problem(read(lines)) == problem, lines
        assert max(map(len, lines)) <= width, lines


@codes
def test_answers_read_back(code: Code, read: Callable[[list[str]], str]) -> None:
    chance = Random("answers")
    for _ in range(500):
        problem = parse_problem(f"{chance.randint(1, 10**6)} ÷ {chance.randint(1, 999)}")
        answer, left = str(chance.randint(0, 10**7)), str(chance.randint(0, 998))
        for width in (20, 40, 200):
            lines = [to_ascii(x) for x in break_row(build_equation_row(problem, answer, left), code, width)]
            assert read(lines) == f"{problem} = {answer} r {left}", lines


@codes
def test_a_numeral_that_fits_a_line_is_kept_whole(code: Code, read: Callable[[list[str]], str]) -> None:
    """“A long numeral is kept whole if it fits on the next line” (Iowa slides)."""
    row = build_equation_row(parse_problem("123456789 × 987654321"), "121932631112635269")
    lines = [to_ascii(line) for line in break_row(row, code, 40)]
    whole = "121,932,631,112,635,269" if code is NEMETH else "ABA1ICB1FCA1AAB1FCE1BFI"
    assert any(whole in line for line in lines), lines


def test_a_numeral_longer_than_a_line_is_divided_after_a_comma_and_has_its_indicator_again() -> None:
    row = build_problem_row(parse_problem("1234567890123456789012345 + 1"))
    first, second, *_ = (to_ascii(line) for line in break_row(row, NEMETH, 20))
    assert first == "#1,234,567,890,123,-"
    assert second.strip() == "#456,789,012,345+1"
