"""Braille cells as Unicode patterns and as North American Braille ASCII, the characters of a `.brf` file."""

from __future__ import annotations

BLANK = "\u2800"
ASCII_ORDER = " A1B'K2L@CIF/MSP\"E3H9O6R^DJG>NTQ,*5<-U8V.%[$+X!&;:4\\0Z7(_?W]#Y)="
"""The 64 characters of Braille ASCII in the order of the patterns U+2800 to U+283F."""

_TO_CELL = {sign: chr(0x2800 + place) for place, sign in enumerate(ASCII_ORDER)}
_TO_CELL |= {sign.lower(): cell for sign, cell in _TO_CELL.items()}
_TO_CELL |= {"`": _TO_CELL["@"], "{": _TO_CELL["["], "}": _TO_CELL["]"], "|": _TO_CELL["\\"], "~": _TO_CELL["^"]}
_TO_ASCII = {chr(0x2800 + place): sign for place, sign in enumerate(ASCII_ORDER)}


class BrailleError(ValueError):
    """Text that is no braille, or something that has no form in a braille code; the message says which."""


def to_cells(ascii_braille: str) -> str:
    """Braille ASCII, in capitals or small letters, as Unicode patterns; raises `BrailleError` for other characters.

    >>> to_cells("#27")
    '⠼⠆⠶'
    """
    try:
        return "".join(_TO_CELL[sign] for sign in ascii_braille)
    except KeyError as odd:
        raise BrailleError(f"{odd} is not a character of Braille ASCII") from None


def to_ascii(cells: str) -> str:
    """Unicode patterns of six dots as Braille ASCII in capitals; raises `BrailleError` for anything else.

    >>> to_ascii("⠼⠉⠐⠖⠼⠑")
    '#C"6#E'
    """
    try:
        return "".join(_TO_ASCII[cell] for cell in cells)
    except KeyError as odd:
        raise BrailleError(f"{odd} is not a braille pattern of six dots") from None
