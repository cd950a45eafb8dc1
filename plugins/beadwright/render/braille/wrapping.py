"""Cells on lines: words and expressions, broken where the codes allow it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from beadwright.render.braille.atoms import Code
from beadwright.render.braille.cells import BLANK, to_cells
from beadwright.render.braille.lines import break_row, write_row
from beadwright.render.braille.rows import Row

HYPHEN = "⠤"
_RELATIONS = frozenset(map(to_cells, (".k", '"7')))


@dataclass(frozen=True, slots=True)
class Unit:
    """Cells that stay on one line. Not `spaced`: joined to what is before; `begins_line`: broken off an expression."""

    cells: str
    spaced: bool = True
    begins_line: bool = False


def split_words(cells: str) -> Iterator[Unit]:
    """The words of text in cells; the first is joined to what is before it unless a blank cell stands in front."""
    spaced = cells.startswith(BLANK)
    for word in cells.split(BLANK):
        if word != "":
            yield Unit(word, spaced)
            spaced = True


def split_expression(row: Row, code: Code, width: int) -> tuple[Unit, ...]:
    """An expression among words, with the switch indicators of its code.

    It is broken before a sign of comparison; where it is longer than a line, as `break_row` breaks it.
    """
    units = _glue(write_row(row, code))
    if code.indicators is not None:
        opening, closing = map(to_cells, code.indicators)
        units[0] = f"{opening}{BLANK}{units[0]}"
        units[-1] = f"{units[-1]}{BLANK}{closing}"
    if max(map(len, units)) <= width:
        return tuple(Unit(unit, number > 0) for number, unit in enumerate(units))
    lines = break_row(row, code, width, runover=0)
    broken = [Unit(line, begins_line=True) for line in lines]
    if code.indicators is None:
        return tuple(broken)
    opening, closing = map(to_cells, code.indicators)
    return (Unit(opening, spaced=False), *broken, Unit(closing))


def _glue(cells: str) -> list[str]:
    """An expression in parts that each begin with a sign of comparison, but for the first."""
    parts: list[str] = []
    for word in cells.split(BLANK):
        if not parts or word in _RELATIONS:
            parts.append(word)
        else:
            parts[-1] += BLANK + word
    return parts


def wrap(units: Iterable[Unit], width: int, *, first: int = 0, runover: int = 0) -> tuple[str, ...]:
    """Units on lines of at most `width` cells: `first` blank cells before the first line, `runover` before the others.

    A word that is longer than a line is divided with a hyphen.
    """
    lines: list[str] = []
    line, begun = BLANK * first, False
    for unit in _join(units, width - max(first, runover)):
        space = BLANK if begun and not line.endswith(BLANK) else ""
        if begun and (unit.begins_line or len(line) + len(space) + len(unit.cells) > width):
            lines.append(line.rstrip(BLANK))
            line, space = BLANK * runover, ""
        line, begun = f"{line}{space}{unit.cells}", True
    return (*lines, line.rstrip(BLANK)) if begun else tuple(lines)


def _join(units: Iterable[Unit], most: int) -> Iterator[Unit]:
    """Units with those that are not spaced joined to the one before, and what is too long divided."""
    held: Unit | None = None
    for unit in units:
        if held is not None and not unit.spaced and not unit.begins_line:
            held = replace(held, cells=held.cells + unit.cells)
            continue
        if held is not None:
            yield from _divide(held, most)
        held = unit
    if held is not None:
        yield from _divide(held, most)


def _divide(unit: Unit, most: int) -> Iterator[Unit]:
    rest = unit
    while len(rest.cells) > most:
        head, tail = _find_cut(rest.cells, most)
        yield replace(rest, cells=head)
        rest = Unit(tail)
    yield rest


def _find_cut(cells: str, most: int) -> tuple[str, str]:
    """A unit that is too long in two: at a blank cell where it has one that late, else with a hyphen."""
    blank = cells.rfind(BLANK, 1, most + 1)
    if blank > 0:
        return cells[:blank], cells[blank + 1 :]
    return cells[: most - 1] + HYPHEN, cells[most - 1 :]
