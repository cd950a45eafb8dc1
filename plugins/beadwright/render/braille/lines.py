"""Atoms of a row on lines: joined by the code's rules, and broken before a sign where a line is too short."""

from __future__ import annotations

from collections.abc import Sequence

from beadwright.render.braille.atoms import Atom, Code, Kind
from beadwright.render.braille.cells import to_cells
from beadwright.render.braille.rows import Row

_SPACED = (Kind.RELATION, Kind.SPACED)
LEAST_ROOM = 5


def write_row(row: Row, code: Code) -> str:
    """A row in a code on one line, however long, in Unicode braille.

    >>> from beadwright.engine import parse_problem
    >>> from beadwright.render.braille import NEMETH, UEB, build_equation_row
    >>> row = build_equation_row(parse_problem("34 + 78"), "112")
    >>> write_row(row, NEMETH), write_row(row, UEB)
    ('⠼⠒⠲⠬⠶⠦⠀⠨⠅⠀⠼⠂⠂⠆', '⠼⠉⠙⠐⠖⠼⠛⠓⠀⠐⠶⠀⠼⠁⠁⠃')
    """
    return to_cells(join_atoms(code.spell(row), code))


def break_row(row: Row, code: Code, width: int, *, runover: int = 2, first: int | None = None) -> tuple[str, ...]:
    """A row on lines of at most `width` cells, lines after the first set in by `runover` blank cells.

    `first` is the room on the first line where something stands before the row. A line is broken before a sign of
    comparison, else before a sign of operation, else inside a numeral by the code's rule.
    """
    lines, rest = [], list(code.spell(row))
    room = width if first is None else first
    while True:
        line, rest = _take_line(rest, code, room)
        lines.append(line)
        if not rest:
            break
        room = width - runover
    return tuple(to_cells((" " * runover if number else "") + line) for number, line in enumerate(lines))


def join_atoms(atoms: Sequence[Atom], code: Code, *, trimmed: bool = True) -> str:
    """Atoms side by side, as they stand on one line; not `trimmed`, a space at the end stays for what is to follow."""
    text, before, alone = "", None, False
    for atom in atoms:
        if atom.kind in _SPACED:
            text += f"{atom.text} " if text.endswith(" ") or text == "" else f" {atom.text} "
            before, alone = None, False
            continue
        text += _write_atom(atom, code, before, alone=alone)
        alone = before is None
        before = atom
    return text.rstrip(" ") if trimmed else text


def _write_atom(atom: Atom, code: Code, before: Atom | None, *, alone: bool) -> str:
    if atom.kind is Kind.NUMERAL:
        return code.find_indicator(before, alone=alone) + code.write_digits(atom.text)
    return code.write_digits(atom.text) if atom.kind is Kind.REST else atom.text


def _take_line(atoms: list[Atom], code: Code, room: int) -> tuple[str, list[Atom]]:
    """As much as fits one line, and the atoms left for the next."""
    whole = join_atoms(atoms, code)
    if len(whole) <= room:
        return whole, []
    for kinds in ((Kind.RELATION,), (Kind.SIGN, Kind.MINUS), (Kind.SPACED,)):
        for place in range(len(atoms) - 1, 0, -1):
            if atoms[place].kind in kinds:
                line = join_atoms(atoms[:place], code) + code.end_line(atoms[place - 1], atoms[place])
                if len(line) <= room:
                    return line, atoms[place:]
    return _split_long(atoms, code, room)


def _split_long(atoms: list[Atom], code: Code, room: int) -> tuple[str, list[Atom]]:
    """What is too long goes on a line of its own if it fits there and a space is before it; else it is divided."""
    place = next(n for n in range(1, len(atoms) + 1) if len(join_atoms(atoms[:n], code)) > room) - 1
    begins = max((n + 1 for n in range(place) if atoms[n].kind in _SPACED), default=0)
    ends = next((n for n in range(place, len(atoms)) if atoms[n].kind in _SPACED), len(atoms))
    if begins > 0 and len(join_atoms(atoms[begins:ends], code)) <= room:
        return join_atoms(atoms[:begins], code), atoms[begins:]
    return _divide(atoms, place, code, room)


def _divide(atoms: list[Atom], place: int, code: Code, room: int) -> tuple[str, list[Atom]]:
    """The atom at `place` divided; where too little room is left for that, it begins the next line."""
    atom, before = atoms[place], join_atoms(atoms[:place], code, trimmed=False)
    previous = atoms[place - 1] if place > 0 and atoms[place - 1].kind not in _SPACED else None
    start = ""
    if atom.kind is Kind.NUMERAL:
        alone = place == 1 or (place > 1 and atoms[place - 2].kind in _SPACED)
        start = code.find_indicator(previous, alone=alone)
    left = room - len(before) - len(start)
    if place > 0 and left < LEAST_ROOM:
        line = before.rstrip(" ") + ("" if previous is None else code.end_line(previous, atom))
        return (line, atoms[place:]) if len(line) <= room else _divide(atoms, place - 1, code, room)
    head, rest = code.split(atom, left)
    return before + start + head, [rest, *atoms[place + 1 :]]
