"""Arithmetic in Unified English Braille.

Rules by section of The Rules of Unified English Braille, 2013 (RUEB), and of the UEB Guidelines for Technical Material,
2014 (GTM): numbers RUEB 6 and GTM 2, signs of operation GTM 3, fractions GTM 6, roots GTM 8. How a numeral is divided
between lines: from memory.
"""

from __future__ import annotations

from beadwright.render.braille.atoms import Atom, Kind, find_split
from beadwright.render.braille.cells import BrailleError
from beadwright.render.braille.rows import (
    Enclosed,
    Fraction,
    Letters,
    Mixed,
    Node,
    Numeral,
    Omission,
    PercentSign,
    Radical,
    Relation,
    Remainder,
    Row,
    Sign,
    Word,
)

UEB_DIGITS = str.maketrans("1234567890,. ", 'abcdefghij14"')
_SIGNS = {"+": '"6', "-": '"-', "×": '"8', "·": '"4', "÷": '"/'}
_RELATIONS = {"=": '"7', "<": "@<", ">": "@>", ":": "3", "::": "33"}
_CURRENCY = {"$": "@s", "£": "@l", "€": "@e", "¢": "@c"}
_ENCLOSED = {"(": ('"<', '">'), "[": (".<", ".>")}


class Ueb:
    """UEB: digits by the letters a to j; the indicator is repeated after every sign of operation.

    Signs of operation have no space around them and signs of comparison have one on either side (GTM 3.1).
    `contracted` says how words among the numbers are written.
    """

    name = "ueb"
    indicators: tuple[str, str] | None = None

    def __init__(self, *, contracted: bool = True) -> None:
        self._words = {"of": "("} if contracted else {}

    def spell(self, row: Row) -> tuple[Atom, ...]:
        """The atoms of a row; what an atom holds inside is written out with its indicators."""
        return tuple(atom for node in row for atom in self._spell_node(node))

    def _spell_node(self, node: Node) -> tuple[Atom, ...]:
        match node:
            case Numeral(currency="" | "¢"):
                after = (Atom(_CURRENCY["¢"], Kind.OTHER),) if node.currency == "¢" else ()
                return (Atom(node.text, Kind.NUMERAL), *after)
            case Sign(name=name, spaced=spaced):
                return (Atom(_SIGNS[name], Kind.RELATION if spaced else Kind.SIGN),)
            case Relation(name=name):
                return (Atom(_RELATIONS[name], Kind.RELATION),)
            case Word(text=text):
                return (Atom(self._words.get(text, text), Kind.SPACED),)
            case Remainder():
                return (Atom(";r", Kind.SPACED),)
            case _:
                return (Atom(self._write_node(node), Kind.OTHER),)

    def _write(self, row: Row) -> str:
        """A row inside another, or whole where it is not broken."""
        return "".join(self._write_node(node) for node in row)

    def _write_node(self, node: Node) -> str:  # noqa: PLR0911 - one case for each kind
        match node:
            case Numeral(text=text, currency=currency):
                numeral = f"#{text.translate(UEB_DIGITS)}"
                return f"{numeral}{_CURRENCY['¢']}" if currency == "¢" else f"{_CURRENCY.get(currency, '')}{numeral}"
            case Letters(text=text):
                return text
            case Sign(name=name, spaced=spaced):
                return f" {_SIGNS[name]} " if spaced else _SIGNS[name]
            case PercentSign():
                return ".0"
            case Omission():
                return ".-"
            case Fraction():
                return self._write_fraction(node)
            case Mixed(whole=whole, part=part):
                return f"{self._write_node(whole)}{self._write_fraction(part)}"
            case Radical(inside=inside, index=(), bar=True):
                return f";%{self._write(inside)}+"
            case Enclosed(opening=opening, parts=parts):
                left, right = _ENCLOSED[opening]
                return f"{left}{'1 '.join(self._write(part) for part in parts)}{right}"
            case _:
                raise BrailleError(f"{type(node).__name__} is not written in UEB here")

    def _write_fraction(self, fraction: Fraction) -> str:
        """A numeric fraction: one indicator, the line between the numerals (GTM 6.1); a slanted line as its own sign.

        Raises `BrailleError` where anything but one numeral stands above or below.
        """
        match fraction:
            case Fraction(above=(Numeral() as above,), below=(Numeral() as below,)):
                first, second = self._write_node(above), self._write_node(below)
                return f"{first}_/{second}" if fraction.slanted else f"{first}/{second.removeprefix('#')}"
            case _:
                raise BrailleError("A fraction in UEB here has one numeral above and one below")

    def find_indicator(self, before: Atom | None, *, alone: bool) -> str:
        """Always: wherever a numeral stands."""
        return "#"

    def write_digits(self, text: str) -> str:
        """By the letters a to j, the comma as dot 2, the marker as dots 256, a space between groups as dot 5."""
        return text.translate(UEB_DIGITS)

    def end_line(self, before: Atom, after: Atom) -> str:
        """Dot 5 where a line is broken and no space stood there."""
        return '"' if after.kind in (Kind.SIGN, Kind.MINUS) else ""

    def split(self, atom: Atom, room: int) -> tuple[str, Atom]:
        """Divided with dot 5 at the end of the line, after a comma where there is one; no second indicator."""
        place = find_split(atom.text, room - 1)
        if atom.kind is Kind.OTHER:
            return f'{atom.text[:place]}"', Atom(atom.text[place:], atom.kind)
        return f'{self.write_digits(atom.text[:place])}"', Atom(atom.text[place:], Kind.REST)
