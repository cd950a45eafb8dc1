"""The one shared way to work a digit in a column: set it, add it, take it away, clear it.

Every procedure works its digits through a hand, and a slip is another hand. Source: PROCEDURES §3.1–3.4.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from itertools import chain
from typing import Any, NamedTuple, Protocol

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import (
    FIVE_AND_FOUR,
    NINE_BEAD,
    Bead,
    Beads,
    Column,
    ColumnShape,
    Frame,
    Move,
)
from beadwright.engine.house import HouseStyle, Inner, Order


class Action(StrEnum):
    """What is done with a digit in a column."""

    SET = "set"
    ADD = "add"
    TAKE = "take"
    CLEAR = "clear"


_ADD, _TAKE, _CLEAR = Action.ADD, Action.TAKE, Action.CLEAR  # looked up once: every digit asks for one


class Technique(StrEnum):
    """How the beads of one digit move."""

    SET = "set"
    DIRECT = "direct"
    PARTNER_OF_5 = "partner-of-5"
    PARTNER_OF_10 = "partner-of-10"
    BOTH_PARTNERS = "both-partners"
    COUNT = "count"
    CLEAR = "clear"


# What a digit comes from. Sources of two kinds never equal each other, whatever their numbers: those that are tuples
# differ in shape. Tuples are looked up quickly, and the sources of most steps are.


@dataclass(frozen=True, slots=True)
class FromTerm:
    """The digit belongs to the term of this number (1 is the first) of a sum."""

    term: int

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"term": self.term}


@cache
def find_term(term: int) -> FromTerm:
    """Where the digits of this term come from; the same value each time, since every digit of a sum has one."""
    return FromTerm(term)


class FromProduct(NamedTuple):
    """The digit is the tens or the ones of a product of two digits."""

    factors: tuple[int, int]
    product: str
    place: str

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"factors": list(self.factors), "product": self.product, "place": self.place}


class FromQuotient(NamedTuple):
    """The digit belongs to the quotient digit of this column, placed by this rule."""

    quotient_column: Column
    rule: str

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"quotient_column": self.quotient_column, "rule": self.rule}


class FromOddNumber(NamedTuple):
    """The digit belongs to this odd number, which is taken from this group of the radicand (1 is the leftmost)."""

    odd_number: int
    group: int

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `work`."""
        return {"odd_number": str(self.odd_number), "group": self.group}


class FromRoot(NamedTuple):
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
    return _find_hand(house.inner if inner is None else inner, house.add_order, house.take_order)


@cache
def _find_hand(inner: Inner, add_order: Order, take_order: Order) -> Hand:
    """The hand of a way of adding and the orders of an exchange; the same one each time."""
    adding, taking = _ADDING[inner], _TAKING[inner]

    def work_rightly(frame: Frame, work: Work, number: int) -> Worked:
        action, digit, column, _ = work
        upper, lower = here = frame.beads_in(column)
        held = 5 * upper + lower
        if action is _ADD:
            reach = _reach_past(_FULL, frame, column) if held + digit > 9 else ()
            return adding(frame.shape, reach, here, column, digit, add_order)
        if action is _TAKE:
            reach = _reach_past(_EMPTY, frame, column) if held < digit else ()
            return taking(frame.shape, reach, here, column, digit, take_order)
        if action is _CLEAR:
            return _clear_column(column, upper, lower)
        if held > 0:
            raise FrameError(
                "column-in-use", f"Column {column} is not at rest", "Clear it before setting a digit there"
            )
        return _set_digit(frame.shape, column, digit)

    return work_rightly


# What a digit moves depends on it, on its column, and on what the columns hold that it reaches: its own, and for an
# exchange those on the left up to the one that gives or takes the 1. There are few such cases, so each is worked once.

Reach = tuple[Beads, ...]
"""What some columns beside each other hold, leftmost first."""

Case = Callable[[ColumnShape, Reach, Beads, int, int, Order], Worked]
"""Works a digit: (shape, what it reaches on the left, what its column holds, column, digit, order of an exchange)."""


_FULL = frozenset({FIVE_AND_FOUR.split(9), NINE_BEAD.split(9)})
_EMPTY = frozenset({FIVE_AND_FOUR.split(0)})


def _reach_past(passed: frozenset[Beads], frame: Frame, column: int) -> Reach:
    """What stands left of `column`, up to the first column that holds none of `passed`; () where all of them do."""
    beads = frame.beads
    last = left = len(beads) - column
    while left > 0:
        left -= 1
        if beads[left] not in passed:
            return beads[left:last]
    return ()


@cache
def bead_moves(column: int, upper: int, lower: int) -> tuple[Move, ...]:
    """Moves in one column, the upper bead before the lower beads; none for a change of 0."""
    moves = []
    if upper != 0:
        moves.append(Move(Column(column), Bead.UPPER, upper))
    if lower != 0:
        moves.append(Move(Column(column), Bead.LOWER, lower))
    return tuple(moves)


@cache
def _set_digit(shape: ColumnShape, column: int, digit: int) -> Worked:
    """Set `digit` in `column`, which is at rest."""
    return Worked(Technique.SET, False, bead_moves(column, *shape.split(digit)))


@cache
def _clear_column(column: int, upper: int, lower: int) -> Worked:
    """Clear all that a column holds."""
    return Worked(Technique.CLEAR, False, bead_moves(column, -upper, -lower))


@cache
def _add_by_partners(shape: ColumnShape, reach: Reach, here: Beads, column: int, digit: int, order: Order) -> Worked:
    """Add `digit` (1–9) in `column`: direct, partner of 5, partner of 10 or both partners (PROCEDURES §3.1)."""
    upper, lower = here
    if 5 * upper + lower + digit <= 9:
        more_upper, more_lower = shape.split(digit)
        if lower + more_lower <= shape.lower:
            return Worked(Technique.DIRECT, False, bead_moves(column, more_upper, more_lower))
        return Worked(Technique.PARTNER_OF_5, False, bead_moves(column, 1, digit - 5))
    left = _carry(shape, reach, column)
    less_upper, less_lower = shape.split(10 - digit)
    if lower >= less_lower:
        return _exchange(Technique.PARTNER_OF_10, bead_moves(column, -less_upper, -less_lower), left, order)
    return _exchange(Technique.BOTH_PARTNERS, bead_moves(column, -1, digit - 5), left, order)


@cache
def _take_by_partners(shape: ColumnShape, reach: Reach, here: Beads, column: int, digit: int, order: Order) -> Worked:
    """Take `digit` (1–9) away in `column`: direct, partner of 5, partner of 10 or both partners (PROCEDURES §3.2)."""
    upper, lower = here
    if 5 * upper + lower >= digit:
        less_upper, less_lower = shape.split(digit)
        if lower >= less_lower:
            return Worked(Technique.DIRECT, False, bead_moves(column, -less_upper, -less_lower))
        return Worked(Technique.PARTNER_OF_5, False, bead_moves(column, -1, 5 - digit))
    left = _borrow(shape, reach, column)
    more_upper, more_lower = shape.split(10 - digit)
    if lower + more_lower <= shape.lower:
        return _exchange(Technique.PARTNER_OF_10, bead_moves(column, more_upper, more_lower), left, order)
    return _exchange(Technique.BOTH_PARTNERS, bead_moves(column, 1, 5 - digit), left, order)


Groups = list[tuple[Move, ...]]


def _exchange(technique: Technique, here: tuple[Move, ...], left: Groups, order: Order) -> Worked:
    """An exchange from the moves in the column itself and those to its left (nearest first)."""
    return Worked(technique, len(left) > 1, join_groups(here, left, order))


def join_groups(here: tuple[Move, ...], left: Groups, order: Order) -> tuple[Move, ...]:
    """The moves of an exchange in one row: left-first starts at the leftmost column, right-first at the worked one."""
    row = here
    for group in left:
        row = group + row if order is Order.LEFT_FIRST else row + group
    return row


def carry_moves(frame: Frame, column: int) -> Groups:
    """What sets 1 on the left of `column`: a group of moves a column, nearest first; each 9 passed is cleared."""
    return _carry(frame.shape, _reach_past(_FULL, frame, column), column)


def _carry(shape: ColumnShape, reach: Reach, column: int) -> Groups:
    if reach == ():
        raise FrameError(
            "frame-full", "No column is left to take the 1 of the exchange", "Use a longer frame", missing=1
        )
    lower = reach[0][1]
    groups = [bead_moves(column + passed, *_find_change(shape, 9, 0)) for passed in range(1, len(reach))]
    taker = column + len(reach)
    return [*groups, bead_moves(taker, 0, 1) if lower < shape.lower else bead_moves(taker, 1, -4)]


def borrow_moves(frame: Frame, column: int) -> Groups:
    """What clears 1 on the left of `column`: a group of moves a column, nearest first; each 0 passed is set to 9."""
    return _borrow(frame.shape, _reach_past(_EMPTY, frame, column), column)


def _borrow(shape: ColumnShape, reach: Reach, column: int) -> Groups:
    if reach == ():
        raise FrameError("below-zero", "No column on the left has a 1 to give", "Take a smaller number away")
    lower = reach[0][1]
    groups = [bead_moves(column + passed, *_find_change(shape, 0, 9)) for passed in range(1, len(reach))]
    giver = column + len(reach)
    return [*groups, bead_moves(giver, 0, -1) if lower > 0 else bead_moves(giver, -1, 4)]


@cache
def _add_by_counting(shape: ColumnShape, reach: Reach, here: Beads, column: int, digit: int, order: Order) -> Worked:
    """Add `digit` (0–10) in `column` one count at a time (PROCEDURES §3.3)."""
    held = 5 * here[0] + here[1]
    if held + digit <= 9:
        return Worked(Technique.COUNT, False, _count(shape, column, held, held + digit))
    left, emptied = _carry(shape, reach, column), bead_moves(column, *_find_change(shape, 9, 0))
    before, after = _count(shape, column, held, 9), _count(shape, column, 0, held + digit - 10)
    return Worked(Technique.COUNT, len(left) > 1, before + join_groups(emptied, left, order) + after)


@cache
def _take_by_counting(shape: ColumnShape, reach: Reach, here: Beads, column: int, digit: int, order: Order) -> Worked:
    """Take `digit` (0–10) away in `column` one count at a time (PROCEDURES §3.3)."""
    held = 5 * here[0] + here[1]
    if held >= digit:
        return Worked(Technique.COUNT, False, _count(shape, column, held, held - digit))
    left, filled = _borrow(shape, reach, column), bead_moves(column, *_find_change(shape, 0, 9))
    before, after = _count(shape, column, held, 0), _count(shape, column, 9, held - digit + 10)
    return Worked(Technique.COUNT, len(left) > 1, before + join_groups(filled, left, order) + after)


def _count(shape: ColumnShape, column: int, start: int, end: int) -> tuple[Move, ...]:
    """Counting in one column from the digit `start` up or down to the digit `end`: the moves of each count in turn."""
    way = 1 if start < end else -1
    counts = [bead_moves(column, *_find_change(shape, held, held + way)) for held in range(start, end, way)]
    return tuple(chain.from_iterable(counts))


def _find_change(shape: ColumnShape, held: int, wanted: int) -> Beads:
    """How many upper and lower beads are set (< 0: cleared) where one digit stands and another is wanted."""
    (upper, lower), (upper_wanted, lower_wanted) = shape.split(held), shape.split(wanted)
    return upper_wanted - upper, lower_wanted - lower


_ADDING: dict[Inner, Case] = {Inner.PARTNERS: _add_by_partners, Inner.COUNTING: _add_by_counting}
_TAKING: dict[Inner, Case] = {Inner.PARTNERS: _take_by_partners, Inner.COUNTING: _take_by_counting}
