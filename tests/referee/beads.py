"""A frame as the referee sees it: how many upper and lower beads each column has set, leftmost column first."""

from collections.abc import Iterable
from typing import NamedTuple

Beads = tuple[int, int]
Board = tuple[Beads, ...]
Move = tuple[int, str, int]
"""(column counted from the right, `upper` or `lower`, beads set (> 0) or cleared (< 0))."""


class RuleError(AssertionError):
    """Something in a walkthrough that the trade's rules do not allow."""


class Shape(NamedTuple):
    """How many upper beads, worth 5, and lower beads, worth 1, a column has."""

    upper: int
    lower: int

    def show(self, digit: int) -> Beads:
        """The beads that show a digit: a five is the upper bead wherever there is one."""
        return (digit // 5, digit % 5) if self.upper else (0, digit)


FIVE_AND_FOUR = Shape(1, 4)
NINE_BEAD = Shape(0, 9)


def require(holds: bool, *what: object) -> None:
    """Raise a `RuleError` that says `what` unless it holds."""
    if not holds:
        raise RuleError(" ".join(str(part) for part in what))


def move_beads(board: Board, moves: Iterable[Move], shape: Shape) -> Board:
    """The board after the moves in turn; a move of beads that are not there is a `RuleError`."""
    columns = list(board)
    for column, bead, change in moves:
        require(1 <= column <= len(columns), "no column", column)
        require(bead in ("upper", "lower"), "no such bead:", bead)
        require(change != 0, "a move of no bead in column", column)
        upper, lower = columns[-column]
        after = (upper + change, lower) if bead == "upper" else (upper, lower + change)
        there = 0 <= after[0] <= shape.upper and 0 <= after[1] <= shape.lower
        require(there, "column", column, "has", (upper, lower), "set, so not", change, bead)
        columns[-column] = after
    return tuple(columns)


def read_columns(board: Board, highest: int, lowest: int) -> str:
    """The digits from column `highest` down to `lowest`."""
    require(len(board) >= highest >= lowest >= 1, "no columns", highest, "to", lowest)
    held = board[len(board) - highest : len(board) - lowest + 1]
    return "".join(str(5 * upper + lower) for upper, lower in held)


def read_all(board: Board) -> int:
    """The whole board as one number, column 1 being the ones."""
    total = 0
    for upper, lower in board:
        total = total * 10 + upper * 5 + lower
    return total
