"""Nemeth Code, against section-numbered examples of The Nemeth Braille Code, 1972 revision, as a public test suite of a
mathematics-to-braille library (MathCAT, tests/braille/Nemeth/rules.rs) encodes them in cells."""

import pytest

from beadwright.engine import parse_problem
from beadwright.render.braille import NEMETH, Row, build_equation_row, to_cells, write_row
from beadwright.render.braille.rows import (
    Enclosed,
    Fraction,
    Letters,
    Mixed,
    Numeral,
    Omission,
    Radical,
    Relation,
    Sign,
)

MINUS = Sign("-")
X_PLUS_Y = (Letters("x"), Sign("+"), Letters("y"))

EXAMPLES: dict[str, tuple[Row, str]] = {
    "9.a.1": ((Numeral("27"),), "⠼⠆⠶"),
    "9.a.14": ((MINUS, Numeral("1")), "⠤⠼⠂"),
    "9.a.15": ((MINUS, Numeral(".3")), "⠤⠼⠨⠒"),
    "11.d.1": ((Numeral("65"), MINUS, Numeral("75")), "⠼⠖⠢⠤⠶⠢"),
    "11.a.1": ((Enclosed("[", ((Numeral("0"),), (Numeral("1"),))),), "⠈⠷⠴⠠⠀⠂⠈⠾"),
    "62.a": ((Fraction((Letters("a"), Sign("+"), Letters("b")), (Letters("c"),)),), "⠹⠁⠬⠃⠌⠉⠼"),
    "64.2": ((Mixed(Numeral("4"), Fraction((Numeral("3"),), (Numeral("8"),), slanted=True)),), "⠼⠲⠸⠹⠒⠸⠌⠦⠸⠼"),
    "66.1": (
        (Fraction((Fraction((Numeral("3"),), (Numeral("8"),)),), (Numeral("5"),)),),
        "⠠⠹⠹⠒⠌⠦⠼⠠⠌⠢⠠⠼",
    ),
    "103.a.2": ((Radical(X_PLUS_Y),), "⠜⠭⠬⠽⠻"),
    "103.b.2": ((Radical((Enclosed("(", (X_PLUS_Y,)),), bar=False),), "⠜⠷⠭⠬⠽⠾"),
    "104.1": ((Radical((Numeral("2"),), index=(Numeral("3"),)),), "⠣⠒⠜⠆⠻"),
    "134.1": ((Sign("+"), Numeral("2"), MINUS, Sign("+"), Numeral("3")), "⠬⠆⠤⠐⠬⠒"),
    "151.10": (
        (
            Numeral("1"),
            Relation(":"),
            Numeral("2"),
            Relation("::"),
            Numeral("3"),
            Relation(":"),
            Numeral("6"),
        ),
        "⠼⠂⠀⠐⠂⠀⠼⠆⠀⠰⠆⠀⠼⠒⠀⠐⠂⠀⠼⠖",
    ),
}

# The symbols of the code (the same suite; liblouis nemethdefs.cti; teaching sites on braille), by their dots.
SIGNS: dict[str, tuple[Row, tuple[str, ...]]] = {
    "digits": ((Numeral("1234567890"),), ("3456", "2", "23", "25", "256", "26", "235", "2356", "236", "35", "356")),
    "decimal point": ((Numeral("1.2"),), ("3456", "2", "46", "23")),
    "comma": ((Numeral("1,034"),), ("3456", "2", "6", "356", "25", "256")),
    "plus": ((Numeral("1"), Sign("+"), Numeral("1")), ("3456", "2", "346", "2")),
    "minus": ((Numeral("1"), Sign("-"), Numeral("1")), ("3456", "2", "36", "2")),
    "multiplication cross": ((Numeral("1"), Sign("×"), Numeral("1")), ("3456", "2", "4", "16", "2")),
    "multiplication dot": ((Numeral("1"), Sign("·"), Numeral("1")), ("3456", "2", "16", "2")),
    "divided by": ((Numeral("1"), Sign("÷"), Numeral("1")), ("3456", "2", "46", "34", "2")),
    "equals": (
        (Numeral("1"), Relation("="), Numeral("1")),
        ("3456", "2", "", "46", "13", "", "3456", "2"),
    ),
    "fraction": ((Fraction((Numeral("3"),), (Numeral("8"),)),), ("1456", "25", "34", "236", "3456")),
    "mixed number": (
        (Mixed(Numeral("1"), Fraction((Numeral("3"),), (Numeral("8"),))),),
        ("3456", "2", "456", "1456", "25", "34", "236", "456", "3456"),
    ),
    "omission": ((Omission(),), ("123456",)),
}


def cells_of(dots: tuple[str, ...]) -> str:
    """Cells from their dot numbers: dot n is bit n - 1 of a Unicode pattern."""
    return "".join(chr(0x2800 + sum(1 << int(dot) - 1 for dot in cell)) for cell in dots)


# Worked problems of handbooks on bead arithmetic, put into the code by hand from its rules on numerals (9), operations
# (129 to 138), comparison (139 to 151), fractions (61) and radicals (103).
DERIVED = {
    "34 + 78 = 112": "#34+78 .k #112",
    "306 × 4 = 1224": "#306@*4 .k #1,224",
    "837 ÷ 3 = 279": "#837./3 .k #279",
    "102 - 78 = 24": "#102-78 .k #24",
    "√164836 = 406": ">164,836] .k #406",
    "3/8 + 1/8 = 1/2": "?3/8#+?1/8# .k ?1/2#",
}


@pytest.mark.parametrize("text", DERIVED)
def test_a_worked_problem_has_its_cells_by_the_rules(text: str) -> None:
    """The same strings with commas in numbers of four digits and more, as this project prints them."""
    problem, _, answer = text.partition(" = ")
    assert write_row(build_equation_row(parse_problem(problem), answer), NEMETH) == to_cells(DERIVED[text])


@pytest.mark.parametrize("section", EXAMPLES)
def test_an_example_of_the_code_has_its_cells(section: str) -> None:
    row, cells = EXAMPLES[section]
    assert write_row(row, NEMETH) == cells


@pytest.mark.parametrize("sign", SIGNS)
def test_a_symbol_has_its_dots(sign: str) -> None:
    row, dots = SIGNS[sign]
    assert write_row(row, NEMETH) == cells_of(dots)


def test_the_switch_indicators_have_their_dots() -> None:
    """Opening 456 146, closing 456 156 (UEB rules 14.6; `_% … _:` in a lesson of a braille course)."""
    assert NEMETH.indicators is not None
    opening, closing = map(to_cells, NEMETH.indicators)
    assert (opening, closing) == (cells_of(("456", "146")), cells_of(("456", "156")))
