"""Spatial layout: a problem in columns, as on paper, in cells.

Nemeth: separation lines and signs by Code sections 178 and 185, as taught in workshops; a numeral has no indicator.
UEB: a line is dot 5 and dots 25 in series, each numeral has its indicator, all in one column, and signs of operation
have a column of their own. A division in UEB is a numeric passage, so that its numerals need no indicators.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeGuard

from beadwright.engine import Number, Problem, Product, Quotient, Sum
from beadwright.render.braille.cells import BrailleError, to_cells
from beadwright.render.braille.longhand import Working, find_division_work, find_partial_products

CODE_NAMES = ("nemeth", "ueb")


@dataclass(frozen=True, slots=True)
class Column:
    """The numbers of a vertical problem: texts that end in the same place, the sign of each ("" for none).

    `lines` says after how many of them a separation line stands; once for a sum, twice where products are added up.
    """

    texts: tuple[str, ...]
    signs: tuple[str, ...]
    lines: tuple[int, ...]


def can_stand(problem: Problem) -> TypeGuard[Sum | Product | Quotient]:
    """Whether a problem has a spatial layout here: sums, products, and quotients by a whole number."""
    return isinstance(problem, Sum | Product) or (isinstance(problem, Quotient) and problem.divisor.places == 0)


def lay_out(problem: Problem, code: str, *, answered: bool = False) -> tuple[str, ...]:
    """The lines of a problem in columns, in Unicode braille; with `answered` its working and answer.

    Raises `BrailleError` for a problem that has no spatial layout here.

    >>> from beadwright.engine import parse_problem
    >>> from beadwright.render.braille.cells import to_ascii
    >>> [to_ascii(line) for line in lay_out(parse_problem("35 + 51"), "ueb")]
    ['  #CE', '"6#EA', '  "33']
    """
    if not can_stand(problem):
        raise BrailleError(f"{problem} has no spatial layout; it is written on a line")
    if isinstance(problem, Quotient):
        rows = lay_out_division(problem, code, answered=answered)
    else:
        column = _build_sum(problem, answered) if isinstance(problem, Sum) else _build_product(problem, answered)
        rows = _write_nemeth_column(column) if code == "nemeth" else _write_ueb_column(column)
    return tuple(to_cells(row.rstrip()) for row in rows)


def _build_sum(problem: Sum, answered: bool) -> Column:
    """Numbers one below the other, marker below marker, without commas between groups (as the handouts have them)."""
    numbers = [term.number for term in problem.terms]
    signs = ["", *_write_sum_signs(problem)]
    texts = [_pad_places(str(number), number.places, problem.places) for number in numbers]
    if answered:
        texts.append(str(Number(problem.find_totals(problem.places)[-1], problem.places)))
        signs.append("")
    return Column(_align(texts), tuple(signs), (len(numbers),))


def _write_sum_signs(problem: Sum) -> list[str]:
    """The signs before the numbers after the first: where all are added, one plus before the last says so."""
    signs: list[str] = [term.sign for term in problem.terms[1:]]
    return [""] * (len(signs) - 1) + ["+"] if "-" not in signs else signs


def _pad_places(text: str, places: int, most: int) -> str:
    """A number with blank cells where others have more places, the marker's own cell included."""
    return text + " " * (most - places + (1 if places == 0 and most > 0 else 0))


def _build_product(problem: Product, answered: bool) -> Column:
    """Factors flush right; partial products leave the cell of the product's marker blank (Iowa handout)."""
    texts, signs = [str(problem.first), str(problem.second)], ["", "×"]
    lines = [2]
    if answered:
        working = find_partial_products(problem)
        texts += [*working.partials, working.answer]
        signs += [""] * (len(working.partials) + 1)
        lines += [2 + len(working.partials)] if working.partials else []
    return Column(_align(texts), tuple(signs), tuple(lines))


def _align(texts: Sequence[str]) -> tuple[str, ...]:
    width = max(map(len, texts))
    return tuple(text.rjust(width) for text in texts)


_NEMETH_SIGNS = {"": "", "+": "+", "-": "-", "×": "@*"}
_UEB_SIGNS = {"": "", "+": '"6', "-": '"-', "×": '"8'}


def _write_nemeth_column(column: Column) -> list[str]:
    """Signs of adding and taking left of the widest number above the line (178), × left of the multiplier.

    A line goes one cell beyond the widest item on either side.
    """
    above = column.texts[: column.lines[0]]
    widest = max(len(text.strip()) for text in above)
    room = len(column.texts[0])
    rows = []
    for text, sign in zip(column.texts, column.signs, strict=True):
        used = len(text.lstrip()) if sign == "×" else room - min(len(t) - len(t.lstrip()) for t in above)
        start = f"{_NEMETH_SIGNS[sign]}{text[room - used :]}" if sign else text
        rows.append(start.rjust(max(room, widest) + 2))
    margin = min(len(row) - len(row.lstrip()) for row in rows)
    rows = [row[margin - 1 :] if margin > 0 else f" {row}" for row in rows]
    line = "3" * (len(rows[0]) + 1)
    return _insert_lines(rows, column.lines, line)


def _write_ueb_column(column: Column) -> list[str]:
    """Signs in the first column, indicators in the next, digits after them; the line begins below the indicators."""
    rows = []
    for text, sign in zip(column.texts, column.signs, strict=True):
        rows.append(f"{_UEB_SIGNS[sign]:<2}#{_write_passage_digits(text)}")
    line = '  "' + "3" * max(2, len(column.texts[0]))
    return _insert_lines(rows, column.lines, line)


def _insert_lines(rows: list[str], places: tuple[int, ...], line: str) -> list[str]:
    """Rows with a separation line after each of these places."""
    drawn: list[str] = []
    for number, row in enumerate(rows, start=1):
        drawn.append(row)
        if number in places:
            drawn.append(line)
    return drawn


def lay_out_division(problem: Quotient, code: str, *, answered: bool) -> list[str]:
    """Divisor, sign and dividend below a line; with `answered` the quotient above it and the working below.

    The line begins above the division sign and ends one cell right of the arrangement; each quotient digit stands
    above the last digit that it was found from.
    """
    working = find_division_work(problem)
    dividend = working.dividend if answered else str(problem.dividend)
    sign = "o" if code == "nemeth" else "_"
    write = str if code == "nemeth" else _write_passage_digits
    indent = " " * (len(working.divisor) + 1)
    width = len(dividend) + 2
    line = " " * len(working.divisor) + ("3" * width if code == "nemeth" else '"' + "3" * (width - 1))
    rows = [line, f"{write(working.divisor)}{sign}{write(dividend)}"]
    if answered:
        rows.insert(0, indent + write(working.answer))
        rows += _write_division_steps(working, indent, line, code)
    return rows if code == "nemeth" else ["##", *rows, "#'"]


def _write_division_steps(working: Working, indent: str, line: str, code: str) -> list[str]:
    """What is taken and what is left, in turn; a line after each number that is taken."""
    rows: list[str] = []
    for number, partial in enumerate(working.partials):
        rows.append(indent + (partial if code == "nemeth" else _write_passage_digits(partial)))
        if number % 2 == 0:
            rows.append(line)
    return rows


def _write_passage_digits(text: str) -> str:
    """Digits in a numeric passage, where a blank cell is a blank cell."""
    return text.translate({ord(sign): cell for sign, cell in zip("1234567890,.", "abcdefghij14", strict=True)})
