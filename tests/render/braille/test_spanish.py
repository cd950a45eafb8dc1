"""Spanish text in uncontracted Spanish braille by liblouis, arithmetic in the code chosen."""

import pytest

from beadwright.engine import parse_problem
from beadwright.render import load_words
from beadwright.render.booklet import Asked, Block, Booklet, Entry, Heading, Listing, Paragraph, find_formulas
from beadwright.render.braille import BrailleError, to_ascii
from beadwright.render.braille.edition import BrailleStyle, write_booklet
from beadwright.render.braille.literary import translate

ES = load_words("es")
# Dots of Spanish letters and signs as the braille commissions of Spanish-speaking countries have them; from memory.
DOTS = {
    "á": "12356", "é": "2346", "í": "34", "ó": "346", "ú": "23456", "ü": "1256", "ñ": "12456",
    "¿": "26", "?": "26", "¡": "235", "!": "235", ",": "2", ".": "3", ";": "23", ":": "25", "(": "126", ")": "345",
    "«": "236", "»": "236", "-": "36",
}  # fmt: skip


def cell(dots: str) -> str:
    return chr(0x2800 + sum(1 << (int(dot) - 1) for dot in dots))


def set_lines(*blocks: Block, code: str = "nemeth", contracted: bool = True) -> list[str]:
    booklet = Booklet("x", "es", blocks)
    (page, *_) = write_booklet(booklet, BrailleStyle(code=code, contracted=contracted), ES).pages
    return [to_ascii(line) for line in page[:-1] if line.strip("\u2800")]


@pytest.mark.parametrize(("sign", "dots"), DOTS.items())
def test_a_letter_or_sign_has_its_spanish_cell(sign: str, dots: str) -> None:
    text = f"a{sign}" if sign not in "¿¡(«" else f"{sign}a"
    cells = translate([text], contracted=False, language="es").write(text)
    assert cells.strip(cell("1")) == cell(dots)


def test_capitals_and_numbers_are_written_by_spanish_rules() -> None:
    # Capital 46, two of them before a word in capitals; the numeric indicator is the same as in English; from memory.
    literary = translate(["Marco", "CASA", "48 cuentas"], contracted=True, language="es")
    assert literary.write("Marco") == "⠨⠍⠁⠗⠉⠕"
    assert literary.write("CASA") == "⠨⠨⠉⠁⠎⠁"
    assert literary.write("48 cuentas") == "⠼⠙⠓⠀⠉⠥⠑⠝⠞⠁⠎"


@pytest.mark.parametrize("contracted", [True, False])
def test_text_is_never_contracted_and_lists_have_the_spanish_full_stop(contracted: bool) -> None:
    lines = set_lines(
        Heading(1, ("Cuentas",)),
        Paragraph(("El niño pone cuentas.",)),
        Listing((Entry("1.", ("uno",)), Entry("•", ("dos",)))),
        contracted=contracted,
    )
    assert lines[1:] == ["  .EL NI]O PONE CUENTAS'", "#A' UNO", "- DOS"]


@pytest.mark.parametrize(("code", "row"), [("nemeth", "#48+37 .K #85"), ("ueb", '#DH"6#CG "7 #HE')])
def test_arithmetic_in_spanish_text_stays_in_the_code_chosen(code: str, row: str) -> None:
    (line,) = set_lines(Paragraph(find_formulas("Así: 48 + 37 = 85")), code=code)
    before, after = ("_% ", " _:") if code == "nemeth" else ("", "")
    assert line == f"  .AS/3 {before}{row}{after}"


def test_a_percentage_has_its_spanish_word() -> None:
    (line,) = set_lines(Asked(1, parse_problem("15% of 80"), "15% de 80"), code="ueb")
    assert line == "#A' #AE.0 DE #HJ"
    (within,) = set_lines(Paragraph(find_formulas("15% de 80")), code="ueb")
    assert within == "  #AE.0 DE #HJ"


def test_a_language_without_a_table_is_told() -> None:
    with pytest.raises(BrailleError, match="no braille table for texts in 'fr', only for en and es"):
        translate(["mot"], contracted=True, language="fr")


def test_a_character_without_cells_is_told_by_the_language() -> None:
    with pytest.raises(BrailleError, match="Spanish braille has no cells"):
        translate(["tijeras ✂"], contracted=True, language="es")
