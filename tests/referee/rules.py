"""How one digit is worked in one column, rule by rule.

Adding by partners (PROCEDURES §3.1), taking away by partners (§3.2), counting (§3.3), nine-bead frames (§3.4): common
practice in the trade, no source.
"""

from functools import lru_cache
from typing import NamedTuple

from tests.referee.beads import NINE_BEAD, Beads, Board, Move, RuleError, Shape

Moves = tuple[Move, ...]


class Style(NamedTuple):
    """How digits are worked: `way` is `partners` or `counting`; `add`, `take` are `left-first` or `right-first`."""

    way: str
    add: str
    take: str


class Ruling(NamedTuple):
    """What the rules say: the technique, whether an exchange runs on, and every move in its order."""

    technique: str
    runs_on: bool
    moves: Moves


def rule_on(shape: Shape, board: Board, action: str, digit: int, column: int, style: Style) -> Ruling:
    """The ruling for one digit; a digit that the frame has no column for is a `RuleError`."""
    # Columns to the right of the worked one play no part, so the ruling is kept for all that differ only there.
    here_and_left = board[: len(board) - column + 1]
    return _rule_on(shape, here_and_left, action, digit, column, style)


@lru_cache(maxsize=200_000)
def _rule_on(shape: Shape, board: Board, action: str, digit: int, column: int, style: Style) -> Ruling:
    columns = _Columns(shape, column, [list(beads) for beads in reversed(board)])
    if action == "set":
        if board[-1] != (0, 0):
            raise RuleError(f"column {column} is not at rest")
        return Ruling("set", False, columns.move(column, *shape.show(digit)))
    if action == "clear":
        upper, lower = board[-1]
        if 5 * upper + lower != digit:
            raise RuleError(f"column {column} does not hold {digit}")
        return Ruling("clear", False, columns.move(column, -upper, -lower))
    order = {"add": style.add, "take": style.take}[action]
    if style.way == "counting":
        return _count(columns, action, digit, order)
    return _work_by_partners(columns, action, digit, order)


class _Columns:
    """The worked column and those to its left, changed as they are worked."""

    def __init__(self, shape: Shape, first: int, beads: list[list[int]]) -> None:
        self.shape, self.first, self.beads = shape, first, beads

    def at(self, column: int) -> Beads:
        place = column - self.first
        if place >= len(self.beads):
            raise RuleError(f"there is no column {column} for the exchange")
        upper, lower = self.beads[place]
        return upper, lower

    def move(self, column: int, upper: int, lower: int) -> Moves:
        """In one column the upper bead moves before the lower beads."""
        self.beads[column - self.first][0] += upper
        self.beads[column - self.first][1] += lower
        changes = (("upper", upper), ("lower", lower))
        return tuple((column, bead, change) for bead, change in changes if change)

    def is_full(self, column: int) -> bool:
        return self.at(column) == self.shape

    def is_at_rest(self, column: int) -> bool:
        return self.at(column) == (0, 0)


def _work_by_partners(columns: _Columns, action: str, digit: int, order: str) -> Ruling:
    upper, lower = columns.at(columns.first)
    find = {"add": _find_adding, "take": _find_taking}[action]
    technique, change_upper, change_lower = find(columns.shape, upper, lower, digit)
    here = columns.move(columns.first, change_upper, change_lower)
    if technique not in ("partner-of-10", "both-partners"):
        return Ruling(technique, False, here)
    left = columns.first + 1
    runs_on = columns.is_full(left) if action == "add" else columns.is_at_rest(left)
    return Ruling(technique, runs_on, _in_order(here, _pass_one(columns, left, action, order), order))


def _find_adding(shape: Shape, upper: int, lower: int, digit: int) -> tuple[str, int, int]:
    """Technique, change of upper beads, change of lower beads."""
    partner = 10 - digit
    if shape == NINE_BEAD:
        return ("direct", 0, digit) if lower + digit <= 9 else ("partner-of-10", 0, -partner)
    if upper + digit // 5 <= 1 and lower + digit % 5 <= 4:
        return "direct", digit // 5, digit % 5
    if digit <= 4 and upper == 0 and lower + digit >= 5:
        return "partner-of-5", 1, -(5 - digit)
    if upper >= partner // 5 and lower >= partner % 5:
        return "partner-of-10", -(partner // 5), -(partner % 5)
    return "both-partners", -1, digit - 5


def _find_taking(shape: Shape, upper: int, lower: int, digit: int) -> tuple[str, int, int]:
    """Technique, change of upper beads, change of lower beads."""
    partner = 10 - digit
    if shape == NINE_BEAD:
        return ("direct", 0, -digit) if lower >= digit else ("partner-of-10", 0, partner)
    if upper >= digit // 5 and lower >= digit % 5:
        return "direct", -(digit // 5), -(digit % 5)
    if digit <= 4 and upper == 1 and lower < digit:
        return "partner-of-5", -1, 5 - digit
    if upper + partner // 5 <= 1 and lower + partner % 5 <= 4:
        return "partner-of-10", partner // 5, partner % 5
    return "both-partners", 1, -(digit - 5)


def _pass_one(columns: _Columns, column: int, action: str, order: str) -> Moves:
    """One more (or less) in a column on the left, which may pass it on further left in its turn."""
    upper, lower = columns.at(column)
    if action == "add":
        if columns.is_full(column):
            here = columns.move(column, -upper, -lower)
        else:
            return columns.move(column, *((0, 1) if lower < columns.shape.lower else (1, -4)))
    elif columns.is_at_rest(column):
        here = columns.move(column, *columns.shape)
    else:
        return columns.move(column, *((0, -1) if lower > 0 else (-1, 4)))
    return _in_order(here, _pass_one(columns, column + 1, action, order), order)


def _in_order(here: Moves, left: Moves, order: str) -> Moves:
    return left + here if order == "left-first" else here + left


def _count(columns: _Columns, action: str, digit: int, order: str) -> Ruling:
    """Each unit of the digit is a count and a movement; the left gets or gives its 1 by counting too."""
    moves: Moves = ()
    runs_on = False
    for _ in range(digit):
        ends = columns.is_full if action == "add" else columns.is_at_rest
        if ends(columns.first) and ends(columns.first + 1):
            runs_on = True
        moves += _pass_one(columns, columns.first, action, order)
    return Ruling("count", runs_on, moves)
