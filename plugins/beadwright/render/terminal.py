"""A frame drawn in plain characters, for a terminal. Every character is ASCII, so that each terminal has it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import repeat

from beadwright.engine import Column, Frame

BEAD = "O"
ROD = "|"
BAR = "="
MARK = "+"
JOIN = "#"


def draw_frame(frame: Frame) -> str:
    """Draw a frame: upper beads, the bar with its unit marks, lower beads, and the digit each column holds.

    A set bead touches the bar. A frame without upper beads has its set beads at the top. Where two frames lie side by
    side, `#` stands between them.

    >>> from beadwright.engine import build_frame
    >>> print(draw_frame(build_frame("five-and-four", columns=4).with_number(1362)))
    O O | O
    | | O |
    =+=====
    O O O O
    | O | O
    O O O |
    O | O O
    O O O O
    1 3 6 2
    """
    shape, beads = frame.shape, frame.beads
    upper = [_draw_upper(shape.upper, up) for up, _ in beads] if shape.upper > 0 else None
    lower = [_draw_lower(shape.lower, low) for _, low in beads]
    digits = [str(frame.digit(column)) for column in range(frame.columns, 0, -1)]
    lines = [_join_columns(frame, cells) for cells in zip(*upper, strict=True)] if upper is not None else []
    lines.append(_join_columns(frame, repeat(BAR, frame.columns), _draw_gap_of_bar))
    lines += [_join_columns(frame, cells) for cells in zip(*lower, strict=True)]
    lines.append(_join_columns(frame, digits))
    return "\n".join(lines)


def _draw_upper(count: int, up: int) -> str:
    """One column above the bar, from the top: beads at rest, the bare rod, beads that are set."""
    return BEAD * (count - up) + ROD + BEAD * up


def _draw_lower(count: int, low: int) -> str:
    """One column below the bar, from the bar: beads that are set, the bare rod, beads at rest."""
    return BEAD * low + ROD + BEAD * (count - low)


def _draw_gap(frame: Frame, column: Column) -> str:
    """What stands just left of a column beside the bar."""
    return JOIN if column == frame.joined else " "


def _draw_gap_of_bar(frame: Frame, column: Column) -> str:
    """What stands just left of a column on the bar."""
    return MARK if column in frame.marks else BAR


def _join_columns(frame: Frame, cells: Iterable[str], gap: Callable[[Frame, Column], str] = _draw_gap) -> str:
    """One line of the drawing: a cell for each column, leftmost first, with what stands between the columns."""
    line = ""
    for column, cell in zip(range(frame.columns, 0, -1), cells, strict=True):
        line += cell if column == frame.columns else gap(frame, Column(column)) + cell
    return line
