"""The one shared way to work a digit in a column: set it, add it, take it away, clear it.

Every procedure works its digits through a hand, and a slip is another hand. Source: PROCEDURES §3.1–3.4.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache, partial
from itertools import chain
from typing import Any, NamedTuple, Protocol

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Bead, Beads, Column, ColumnShape, Frame, Move
from beadwright.engine.house import HouseStyle, Inner, Order


class Action(StrEnum):
    """What is done with a digit in a column."""

    SET = "set"
    ADD = "add"
    TAKE = "take"
    CLEAR = "clear"


class Technique(StrEnum):
    """How the beads of one digit move."""

    SET = "set"
    DIRECT = "direct"
    PARTNER_OF_5 = "partner-of-5"
    PARTNER_OF_10 = "partner-of-10"
    BOTH_PARTNERS = "both-partners"
    COUNT = "count"
    CLEAR = "clear"


# What a digit comes from. Sources of two kinds never equal each other, whatever their numbers.


@dataclass(frozen=True, slots=True)
class FromTerm:
    """The digit belongs to the term of this number (1 is the first) of a sum."""

    term: int

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"term": self.term}


@dataclass(frozen=True, slots=True)
class FromProduct:
    """The digit is the tens or the ones of a product of two digits."""

    factors: tuple[int, int]
    product: str
    place: str

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"factors": list(self.factors), "product": self.product, "place": self.place}


@dataclass(frozen=True, slots=True)
class FromQuotient:
    """The digit belongs to the quotient digit of this column, placed by this rule."""

    quotient_column: Column
    rule: str

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"quotient_column": self.quotient_column, "rule": self.rule}


@dataclass(frozen=True, slots=True)
class FromOddNumber:
    """The digit belongs to this odd number, which is taken from this group of the radicand (1 is the leftmost)."""

    odd_number: int
    group: int

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"odd_number": str(self.odd_number), "group": self.group}


@dataclass(frozen=True, slots=True)
class FromRoot:
    """The digit belongs to the root digit of this group (1 is the leftmost)."""

    root_group: int

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"root_group": self.root_group}


@dataclass(frozen=True, slots=True)
class FromNothing:
    """The digit needs no explanation of where it comes from."""

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {}


Source = FromTerm | FromProduct | FromQuotient | FromOddNumber | FromRoot | FromNothing


class Work(NamedTuple):
    """One digit to be worked in one column, and what the digit comes from."""

    action: Action
    digit: int
    column: Column
    source: Source = FromNothing()

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step."""
        data = {"action": str(self.action), "digit": self.digit, "column": self.column}
        return data | self.source.to_data()


class Worked(NamedTuple):
    """The moves that work a digit. `runs_on`: the exchange met a full (or an empty) column on the left."""

    technique: Technique | None
    runs_on: bool
    moves: tuple[Move, ...]


class Hand(Protocol):
    """Works one digit on a frame; `number` is the step's number. Raises `FrameError` before any bead moves."""

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The moves for this digit on this frame."""
        ...


def build_hand(house: HouseStyle, inner: Inner | None = None) -> Hand:
    """The hand that works every digit rightly in this house style; `inner` overrides the house's way of adding."""
    way = house.inner if inner is None else inner
    return partial(_work_rightly, house, _ADDING[way], _TAKING[way])


DigitWay = Callable[[Frame, int, int, Order], Worked]
"""Adds or takes away a digit: (frame, column, digit, order of an exchange) to its moves."""


def _work_rightly(house: HouseStyle, add: DigitWay, take: DigitWay, frame: Frame, work: Work, number: int) -> Worked:
    action, digit, column, _ = work
    if action is Action.ADD:
        return add(frame, column, digit, house.add_order)
    if action is Action.TAKE:
        return take(frame, column, digit, house.take_order)
    if action is Action.SET:
        return set_digit(frame, column, digit)
    return clear_column(frame, column)


@cache
def bead_moves(column: int, upper: int, lower: int) -> tuple[Move, ...]:
    """Moves in one column, the upper bead before the lower beads; none for a change of 0.

    There are few of them and every digit needs some, so each is made once.
    """
    moves = []
    if upper != 0:
        moves.append(Move(Column(column), Bead.UPPER, upper))
    if lower != 0:
        moves.append(Move(Column(column), Bead.LOWER, lower))
    return tuple(moves)


def set_digit(frame: Frame, column: int, digit: int) -> Worked:
    """Set `digit` in a column at rest."""
    if frame.beads_in(column) != (0, 0):
        raise FrameError("column-in-use", f"Column {column} is not at rest", "Clear it before setting a digit there")
    return Worked(Technique.SET, False, bead_moves(column, *frame.shape.split(digit)))


def clear_column(frame: Frame, column: int) -> Worked:
    """Clear all that a column holds."""
    upper, lower = frame.beads_in(column)
    return Worked(Technique.CLEAR, False, bead_moves(column, -upper, -lower))


def add_by_partners(frame: Frame, column: int, digit: int, order: Order) -> Worked:
    """Add `digit` (1–9) in `column`: direct, partner of 5, partner of 10 or both partners (PROCEDURES §3.1)."""
    here, exchanged = _add_here(frame.shape, frame.beads_in(column), column, digit)
    return _exchange(here, carry_moves(frame, column), order) if exchanged else here


@cache
def _add_here(shape: ColumnShape, beads: Beads, column: int, digit: int) -> tuple[Worked, bool]:
    """What adding a digit moves in its own column, and whether ten is exchanged for it; each is found once."""
    upper, lower = beads
    if 5 * upper + lower + digit <= 9:
        more_upper, more_lower = shape.split(digit)
        if lower + more_lower <= shape.lower:
            return Worked(Technique.DIRECT, False, bead_moves(column, more_upper, more_lower)), False
        return Worked(Technique.PARTNER_OF_5, False, bead_moves(column, 1, digit - 5)), False
    less_upper, less_lower = shape.split(10 - digit)
    if lower >= less_lower:
        return Worked(Technique.PARTNER_OF_10, False, bead_moves(column, -less_upper, -less_lower)), True
    return Worked(Technique.BOTH_PARTNERS, False, bead_moves(column, -1, digit - 5)), True


def take_by_partners(frame: Frame, column: int, digit: int, order: Order) -> Worked:
    """Take `digit` (1–9) away in `column`: direct, partner of 5, partner of 10 or both partners (PROCEDURES §3.2)."""
    here, exchanged = _take_here(frame.shape, frame.beads_in(column), column, digit)
    return _exchange(here, borrow_moves(frame, column), order) if exchanged else here


@cache
def _take_here(shape: ColumnShape, beads: Beads, column: int, digit: int) -> tuple[Worked, bool]:
    """What taking a digit away moves in its own column, and whether ten is exchanged for it; each is found once."""
    upper, lower = beads
    if 5 * upper + lower >= digit:
        less_upper, less_lower = shape.split(digit)
        if lower >= less_lower:
            return Worked(Technique.DIRECT, False, bead_moves(column, -less_upper, -less_lower)), False
        return Worked(Technique.PARTNER_OF_5, False, bead_moves(column, -1, 5 - digit)), False
    more_upper, more_lower = shape.split(10 - digit)
    if lower + more_lower <= shape.lower:
        return Worked(Technique.PARTNER_OF_10, False, bead_moves(column, more_upper, more_lower)), True
    return Worked(Technique.BOTH_PARTNERS, False, bead_moves(column, 1, 5 - digit)), True


Groups = list[tuple[Move, ...]]


def _exchange(here: Worked, left: Groups, order: Order) -> Worked:
    """An exchange from what is worked in the column itself and the moves of those to its left (nearest first)."""
    return Worked(here.technique, len(left) > 1, join_groups(here.moves, left, order))


def join_groups(here: tuple[Move, ...], left: Groups, order: Order) -> tuple[Move, ...]:
    """The moves of an exchange in one row: left-first starts at the leftmost column, right-first at the worked one."""
    row = here
    for group in left:
        row = group + row if order is Order.LEFT_FIRST else row + group
    return row


def carry_moves(frame: Frame, column: int) -> Groups:
    """What sets 1 on the left of `column`: a group of moves a column, nearest first; each 9 passed is cleared."""
    groups: Groups = []
    while True:
        column += 1
        if column > frame.columns:
            raise FrameError(
                "frame-full", "No column is left to take the 1 of the exchange", "Use a longer frame", missing=1
            )
        upper, lower = frame.beads_in(column)
        if 5 * upper + lower < 9:
            groups.append(bead_moves(column, 0, 1) if lower < frame.shape.lower else bead_moves(column, 1, -4))
            return groups
        groups.append(bead_moves(column, -upper, -lower))


def borrow_moves(frame: Frame, column: int) -> Groups:
    """What clears 1 on the left of `column`: a group of moves a column, nearest first; each 0 passed is set to 9."""
    groups: Groups = []
    while True:
        column += 1
        if column > frame.columns:
            raise FrameError("below-zero", "No column on the left has a 1 to give", "Take a smaller number away")
        upper, lower = frame.beads_in(column)
        if 5 * upper + lower > 0:
            groups.append(bead_moves(column, 0, -1) if lower > 0 else bead_moves(column, -1, 4))
            return groups
        groups.append(bead_moves(column, *frame.shape.split(9)))


def add_by_counting(frame: Frame, column: int, digit: int, order: Order) -> Worked:
    """Add `digit` (0–10) in `column` one count at a time (PROCEDURES §3.3)."""
    shape, held = frame.shape, frame.digit(column)
    if held + digit <= 9:
        return Worked(Technique.COUNT, False, count_moves(shape, column, held, held + digit))
    emptied = Worked(Technique.COUNT, False, bead_moves(column, *_find_change(shape, 9, 0)))
    exchange = _exchange(emptied, carry_moves(frame, column), order)
    before, after = count_moves(shape, column, held, 9), count_moves(shape, column, 0, held + digit - 10)
    return exchange._replace(moves=before + exchange.moves + after)


def take_by_counting(frame: Frame, column: int, digit: int, order: Order) -> Worked:
    """Take `digit` (0–10) away in `column` one count at a time (PROCEDURES §3.3)."""
    shape, held = frame.shape, frame.digit(column)
    if held >= digit:
        return Worked(Technique.COUNT, False, count_moves(shape, column, held, held - digit))
    filled = Worked(Technique.COUNT, False, bead_moves(column, *_find_change(shape, 0, 9)))
    exchange = _exchange(filled, borrow_moves(frame, column), order)
    before, after = count_moves(shape, column, held, 0), count_moves(shape, column, 9, held - digit + 10)
    return exchange._replace(moves=before + exchange.moves + after)


@cache
def count_moves(shape: ColumnShape, column: int, start: int, end: int) -> tuple[Move, ...]:
    """Counting in one column from the digit `start` up or down to the digit `end`: the moves of each count in turn."""
    way = 1 if start < end else -1
    counts = [bead_moves(column, *_find_change(shape, held, held + way)) for held in range(start, end, way)]
    return tuple(chain.from_iterable(counts))


def _find_change(shape: ColumnShape, held: int, wanted: int) -> Beads:
    """How many upper and lower beads are set (< 0: cleared) where one digit stands and another is wanted."""
    (upper, lower), (upper_wanted, lower_wanted) = shape.split(held), shape.split(wanted)
    return upper_wanted - upper, lower_wanted - lower


_ADDING = {Inner.PARTNERS: add_by_partners, Inner.COUNTING: add_by_counting}
_TAKING = {Inner.PARTNERS: take_by_partners, Inner.COUNTING: take_by_counting}
