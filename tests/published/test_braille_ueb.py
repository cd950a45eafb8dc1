"""UEB, against examples of The Rules of Unified English Braille (RUEB, 2013) and of the UEB Guidelines for Technical
Material (GTM, 2014), as public test suites (liblouis tests/braille-specs/en-ueb.yaml, MathCAT tests/braille/UEB)
encode them."""

import pytest

from beadwright.render.braille import UEB, Row, to_ascii, write_row
from beadwright.render.braille.rows import Enclosed, Fraction, Letters, Numeral, Radical, Relation, Sign, Word

EQUALS = Relation("=")
PLUS, MINUS, TIMES, DIVIDED = Sign("+"), Sign("-"), Sign("×"), Sign("÷")


def n(text: str) -> Numeral:
    return Numeral(text)


EXAMPLES: list[tuple[str, Row, str]] = [
    ("RUEB 6.2.1", (n("62"),), "#fb"),
    ("RUEB 6.2.1", (n("1959"),), "#aiei"),
    ("RUEB 6.2.1", (n("3,500"),), "#c1ejj"),
    ("RUEB 6.2.1", (n("8.93"),), "#h4ic"),
    ("RUEB 6.2.1", (n(".7"),), "#4g"),
    ("RUEB 6.2.1", (n("0.7"),), "#j4g"),
    ("RUEB 6.2.1", (n("4 500 000"),), '#d"ejj"jjj'),
    ("RUEB 6.3.1", (n("7"), MINUS, n("5"), EQUALS, n("2")), '#g"-#e "7 #b'),
    ("RUEB 6.3.1", (Fraction((n("1"),), (n("4"),), slanted=True),), "#a_/#d"),
    ("RUEB 3.17.1", (n("2"), Sign("+", spaced=True), n("2"), EQUALS, n("4")), '#b "6 #b "7 #d'),
    (
        "RUEB 3.17.1",
        (Enclosed("(", ((n("5"), Sign("÷", spaced=True), n("20"), Sign("×", spaced=True), n("100")),)),),
        '"<#e "/ #bj "8 #ajj">',
    ),
    ("GTM 2.1", (n("3,000"),), "#c1jjj"),
    ("GTM 2.1", (n("5 000 000"),), '#e"jjj"jjj'),
    ("GTM 3.1", (n("3"), PLUS, n("5"), EQUALS, n("8")), '#c"6#e "7 #h'),
    ("GTM 3.1", (n("8"), MINUS, n("5"), EQUALS, n("3")), '#h"-#e "7 #c'),
    (
        "GTM 3.1",
        (n("3"), TIMES, n("5"), EQUALS, n("5"), TIMES, n("3"), EQUALS, n("15")),
        '#c"8#e "7 #e"8#c "7 #ae',
    ),
    (
        "GTM 3.1",
        (n("5.72"), Letters(" m"), DIVIDED, n("10"), EQUALS, n("57.2"), Word("cm")),
        '#e4gb m"/#aj "7 #eg4b cm',
    ),
    ("GTM 3.4", (MINUS, n("4"), Word("to"), PLUS, n("5")), '"-#d to "6#e'),
    ("GTM 6.1", (Fraction((n("5"),), (n("8"),)),), "#e/h"),
    ("GTM 6.1", (Fraction((n("5.7"),), (n("2,000"),)),), "#e4g/b1jjj"),
    ("GTM 6.3", (Fraction((n("3"),), (n("8"),), slanted=True),), "#c_/#h"),
    ("GTM 8.1", (Radical((n("9"),)), EQUALS, n("3")), ';%#i+ "7 #c'),
    (
        "GTM, national guidance",
        (n("6"), EQUALS, n("1"), TIMES, n("2"), TIMES, n("3"), EQUALS, n("1"), PLUS, n("2"), PLUS, n("3")),
        '#f "7 #a"8#b"8#c "7 #a"6#b"6#c',
    ),
]


@pytest.mark.parametrize(("section", "row", "braille"), EXAMPLES, ids=[f"{e[0]} {e[2]}" for e in EXAMPLES])
def test_an_example_of_the_rules_has_its_cells(section: str, row: Row, braille: str) -> None:
    assert to_ascii(write_row(row, UEB)) == braille.upper()


# Some of the same examples as their source gives them in cells.
CELLS = [
    ((n("3,000"),), "⠼⠉⠂⠚⠚⠚"),
    ((n("3"), PLUS, n("5"), EQUALS, n("8")), "⠼⠉⠐⠖⠼⠑⠀⠐⠶⠀⠼⠓"),
    ((n("8"), MINUS, n("5"), EQUALS, n("3")), "⠼⠓⠐⠤⠼⠑⠀⠐⠶⠀⠼⠉"),
    ((Fraction((n("5"),), (n("8"),)),), "⠼⠑⠌⠓"),
    ((Fraction((n("3"),), (n("8"),), slanted=True),), "⠼⠉⠸⠌⠼⠓"),
    ((Radical((n("9"),)), EQUALS, n("3")), "⠰⠩⠼⠊⠬⠀⠐⠶⠀⠼⠉"),
]


@pytest.mark.parametrize(("row", "cells"), CELLS, ids=[cells for _, cells in CELLS])
def test_the_cells_are_those_of_the_guidelines(row: Row, cells: str) -> None:
    assert write_row(row, UEB) == cells


def test_letters_stand_as_they_are() -> None:
    assert to_ascii(write_row((Letters("x"), EQUALS, n("3")), UEB)) == 'X "7 #C'
