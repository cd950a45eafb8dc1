"""Arithmetic in Nemeth Code.

Rules by section of The Nemeth Braille Code for Mathematics and Science Notation, 1972 revision: numerals 7 to 19,
fractions 61 to 70, radicals 103 to 105, operation 129 to 138, comparison 139 to 151. Signs of currency: from memory.
"""

from __future__ import annotations

from beadwright.render.braille.atoms import Atom, Kind, find_split
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

_SIGNS = {"+": "+", "-": "-", "×": "@*", "·": "*", "÷": "./"}
_RELATIONS = {"=": ".k", "<": '"k', ">": ".1", ":": '"1', "::": ";2"}
_CURRENCY = {"$": "@s", "£": "@l", "€": "@e", "¢": "@c"}
_ENCLOSED = {"(": ("(", ")"), "[": ("@(", "@)")}


class Nemeth:
    """Nemeth Code: digits in the lower cells, an indicator only where a numeral begins a line or follows a space."""

    name = "nemeth"
    indicators: tuple[str, str] | None = ("_%", "_:")

    def spell(self, row: Row) -> tuple[Atom, ...]:
        """The atoms of a row; two signs side by side are set apart by dot 5 (134)."""
        atoms: list[Atom] = []
        for node in row:
            if isinstance(node, Sign) and atoms and atoms[-1].kind in (Kind.SIGN, Kind.MINUS):
                atoms.append(Atom('"', Kind.OTHER))
            atoms.extend(self._spell_node(node))
        return tuple(atoms)

    def _spell_node(self, node: Node) -> tuple[Atom, ...]:
        match node:
            case Numeral(currency="" | "¢"):
                after = (Atom(_CURRENCY["¢"], Kind.OTHER),) if node.currency == "¢" else ()
                return (Atom(node.text, Kind.NUMERAL), *after)
            case Sign(name=name):
                return (Atom(_SIGNS[name], Kind.MINUS if name == "-" else Kind.SIGN),)
            case Relation(name=name):
                return (Atom(_RELATIONS[name], Kind.RELATION),)
            case Word(text=text):
                return (Atom(text, Kind.SPACED),)
            case Remainder():
                return (Atom(";r", Kind.SPACED),)
            case Mixed(whole=whole, part=part):
                return (Atom(whole.text, Kind.NUMERAL), Atom(_write_mixed_part(part), Kind.OTHER))
            case _:
                return (Atom(_write_inside((node,)), Kind.OTHER),)

    def find_indicator(self, before: Atom | None, *, alone: bool) -> str:
        """At the start of a line, after a space, and after a minus sign that stands there (9.a)."""
        return "#" if before is None or (alone and before.kind is Kind.MINUS) else ""

    def write_digits(self, text: str) -> str:
        """As they are: Braille ASCII has the lower cells of a numeral under its own digits."""
        return text

    def end_line(self, before: Atom, after: Atom) -> str:
        """Nothing: a line is broken before a sign, and the sign shows it."""
        return ""

    def split(self, atom: Atom, room: int) -> tuple[str, Atom]:
        """Divided with a hyphen, after a comma where there is one; the next line has the indicator again."""
        place = find_split(atom.text, room - 1)
        rest = atom.text[place:]
        if atom.kind is Kind.NUMERAL or not rest[0].isdigit():
            return f"{atom.text[:place]}-", Atom(rest, atom.kind)
        return f"{atom.text[:place]}-", Atom(f"#{rest}", atom.kind)


def _write_inside(row: Row) -> str:
    """A row inside a fraction, a radical or an enclosed list: no numeric indicators."""
    return "".join(_write_node(node) for node in row)


def _write_node(node: Node) -> str:  # noqa: PLR0911 - one case for each kind
    match node:
        case Numeral(text=text, currency=currency):
            return f"{text}{_CURRENCY['¢']}" if currency == "¢" else f"{_CURRENCY.get(currency, '')}{text}"
        case Letters(text=text):
            return text
        case Sign(name=name):
            return _SIGNS[name]
        case PercentSign():
            return "@0"
        case Omission():
            return "="
        case Fraction():
            return _write_fraction(node)
        case Radical(inside=inside, index=index, bar=bar):
            return f"{f'<{_write_inside(index)}' if index else ''}>{_write_inside(inside)}{']' if bar else ''}"
        case Enclosed(opening=opening, parts=parts):
            left, right = _ENCLOSED[opening]
            return f"{left}{', '.join(_write_inside(part) for part in parts)}{right}"
        case Mixed(whole=whole, part=part):
            return f"{whole.text}{_write_mixed_part(part)}"
        case _:
            raise TypeError(f"{type(node).__name__} has no place inside another expression")


def _find_depth(row: Row) -> int:
    """How deep fractions lie in a row: 0 without any."""
    return max((1 + _find_depth((*n.above, *n.below)) for n in row if isinstance(n, Fraction)), default=0)


def _write_fraction(fraction: Fraction) -> str:
    """Opened, its line, closed; a fraction that holds others shows its order by dot 6 before its signs (66)."""
    order = "," * _find_depth((*fraction.above, *fraction.below))
    line = "_/" if fraction.slanted else "/"
    return f"{order}?{_write_inside(fraction.above)}{order}{line}{_write_inside(fraction.below)}{order}#"


def _write_mixed_part(part: Fraction) -> str:
    """The fraction of a mixed number, with the indicators of its own (64)."""
    line = "_/" if part.slanted else "/"
    return f"_?{_write_inside(part.above)}{line}{_write_inside(part.below)}_#"
