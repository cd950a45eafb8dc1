"""Slips in working one digit: each gives the wrong moves that replace the right ones, as far as the beads allow.

Source: PROCEDURES §5, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cache
from itertools import groupby
from typing import Any, NamedTuple

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Bead, Frame, Move, find_effect
from beadwright.engine.hand import (
    Action,
    FromProduct,
    Groups,
    Technique,
    Work,
    Worked,
    bead_moves,
    borrow_moves,
    build_hand,
    carry_moves,
    join_groups,
)
from beadwright.engine.house import HouseStyle, Inner, Order

Moves = tuple[Move, ...]

_new: Any = tuple.__new__  # what a named tuple is made by in the end; every digit has a dozen


class Place(NamedTuple):
    """One digit about to be worked: the frame before it, the work, how it is worked rightly, the house style.

    `here` are the right moves in the worked column, `left` those in each other column, nearest first (none without an
    exchange); `due` is by how much the digit, worked rightly, changes what the whole frame reads. `build_place` fills
    these in.
    """

    frame: Frame
    work: Work
    right: Worked
    house: HouseStyle
    due: int
    here: Moves
    left: Groups

    @property
    def adds(self) -> bool:
        """Whether the digit is added."""
        return self.work.action is Action.ADD

    @property
    def takes(self) -> bool:
        """Whether the digit is taken away."""
        return self.work.action is Action.TAKE

    @property
    def order(self) -> Order:
        """The house's order of an exchange for this action."""
        return self.house.add_order if self.adds else self.house.take_order

    def count_on(self, frame: Frame, counts: int) -> Moves:
        """So many counts on a frame in the worked column; raises `FrameError` where there is no bead for one."""
        count = build_hand(self.house, Inner.COUNTING)
        return count(frame, self.work._replace(digit=counts), 0).moves

    def arrange(self, here: Moves, left: Groups) -> Moves:
        """Moves of the worked column and of others in the house's order."""
        return join_groups(here, left, self.order)


def build_place(frame: Frame, work: Work, right: Worked, house: HouseStyle) -> Place:
    """The place of one digit, with its right moves parted by column."""
    action, digit, column, _ = work
    due = (-digit if action is Action.TAKE or action is Action.CLEAR else digit) * 10 ** (column - 1)
    here, left = _part_moves(right.moves, column)
    return Place(frame, work, right, house, due, here, left)


@cache
def _part_moves(moves: Moves, column: int) -> tuple[Moves, Groups]:
    """The moves in `column`, and those in each other column, nearest first."""
    others = sorted([move for move in moves if move.column != column], key=lambda move: move.column)
    here = tuple([move for move in moves if move.column == column])
    return here, [tuple(group) for _, group in groupby(others, key=lambda move: move.column)]


class Made(NamedTuple):
    """A slip made at a place: which variant of it, and the moves made in place of the right ones."""

    variant: str
    moves: Moves


DigitSlip = Callable[[Place], Iterable[Made]]
"""Makes a slip where it can be, in a digit that is worked by one of the slip's techniques (`table`)."""


def exchange_dropped(at: Place) -> Iterator[Made]:
    """The partner of 10 is moved but the left is not, or the left is moved and the partner is not.

    In counting the ten is one count of several: what is left out is left out of it, and the counts go on.
    """
    if at.left:
        yield Made("left-missing", at.here)
        here_missing = at.arrange((), at.left)
        if at.right.technique is Technique.COUNT:
            held = at.frame.digit(at.work.column)
            before = 9 - held if at.adds else held
            here_missing = (*at.count_on(at.frame, before), *here_missing)
            then = at.frame.apply_all(here_missing)
            here_missing = (*here_missing, *at.count_on(then, at.work.digit - before - 1))
        yield Made("here-missing", here_missing)


def five_for_ten(at: Place) -> Iterator[Made]:
    """An exchange with the partner of 5 in place of the partner of 10; or a ten where a five was due."""
    digit, column = at.work.digit, at.work.column
    if at.frame.shape.upper == 0 or digit > 4:
        return
    lower = digit - 5 if at.adds else 5 - digit
    if at.right.technique is Technique.PARTNER_OF_10:
        yield Made("five", at.arrange(bead_moves(column, 0, lower), at.left))
    else:
        left = carry_moves(at.frame, column) if at.adds else borrow_moves(at.frame, column)
        yield Made("ten", at.arrange(bead_moves(column, 0, lower), left))


def partner_off_by_one(at: Place) -> Iterator[Made]:
    """The partner is one bead too many or too few; in counting, one count too many or too few."""
    if at.right.technique is Technique.COUNT:
        for name, digit in (("too-few", at.work.digit - 1), ("too-many", at.work.digit + 1)):
            if digit > 0:
                yield Made(name, at.count_on(at.frame, digit))
    else:
        upper, lower = _changes(at.here)
        ways = (-1, 1) if lower != 0 else (_sign(upper),)
        for off in ways:
            if lower + off != 0:
                name = "too-few" if off * lower < 0 else "too-many"
                yield Made(name, at.arrange(bead_moves(at.work.column, upper, lower + off), at.left))


def set_and_clear_swapped(at: Place) -> Iterator[Made]:
    """The partner that should be cleared is set, or the other way round."""
    upper, lower = _changes(at.here)
    column = at.work.column
    if at.right.technique is not Technique.PARTNER_OF_10:
        yield Made("five", at.arrange(bead_moves(column, upper, -lower), at.left))
    if at.right.technique is not Technique.PARTNER_OF_5:
        partner_upper, partner_lower = at.frame.shape.split(10 - at.work.digit)
        way = 1 if at.adds else -1
        yield Made("ten", at.arrange(bead_moves(column, way * partner_upper, way * partner_lower), at.left))


def lower_beads_left(at: Place) -> Iterator[Made]:
    """The upper bead is moved, its lower partner is forgotten."""
    for name, moves in (("here", at.here), *[("left", group) for group in at.left]):
        upper, lower = _changes(moves)
        if upper * lower < 0:
            yield Made(name, tuple([move for move in at.right.moves if move.bead is Bead.UPPER or move not in moves]))


def wrong_neighbour(at: Place) -> Iterator[Made]:
    """The 1 of an exchange goes to the right neighbour, or two columns left."""
    for name, column in (("right", at.work.column - 1), ("two-left", at.work.column + 2)):
        if 0 < column <= at.frame.columns:
            found = (carry_moves if at.adds else borrow_moves)(at.frame, column - 1)
            if len(found) == 1:
                yield Made(name, at.arrange(at.here, found))


def runs_out_at_nine(at: Place) -> Iterator[Made]:
    """The exchange meets a 9 on the left and the 1 is lost: the 9 stays, or is cleared with nothing set beyond it."""
    if at.adds and at.right.runs_on:
        yield Made("nine-stays", at.here)
        yield Made("nine-cleared", at.arrange(at.here, at.left[:-1]))


def borrow_through_zero(at: Place) -> Iterator[Made]:
    """A column further left gives 1, but the empty columns between are not set to 9."""
    if at.takes and at.right.runs_on:
        yield Made("zero-stays", at.arrange(at.here, at.left[-1:]))


def digit_skipped(at: Place) -> Iterator[Made]:
    """The digit is passed over. A product of two digits is passed over whole, and clearing is a slip of its own."""
    if at.work.action is not Action.CLEAR and not isinstance(at.work.source, FromProduct):
        yield Made("skipped", ())


def upper_bead_as_one(at: Place) -> Iterator[Made]:
    """All five beads are set for a 5, the upper one counted as 1."""
    if at.work.digit == 5 and at.frame.shape.upper > 0:
        yield Made("set", bead_moves(at.work.column, 1, 4))


def wrong_way_round(at: Place) -> Iterator[Made]:
    """The smaller digit is taken from the larger: what the column holds is taken from the digit."""
    held = at.frame.digit(at.work.column)
    if at.takes and held < at.work.digit:
        new = at.frame.shape.split(at.work.digit - held)
        old = at.frame.beads_in(at.work.column)
        yield Made("turned", bead_moves(at.work.column, new[0] - old[0], new[1] - old[1]))


class Variant(NamedTuple):
    """One legal way of making a slip: its name, the moves, and by how much they change what the frame reads."""

    name: str
    moves: Moves
    change: int


def find_variants(slip: DigitSlip, at: Place) -> list[Variant]:
    """The wrong moves this slip makes at this place: legal ones that leave another frame than the right moves do."""
    found: list[Variant] = []
    try:
        for name, moves in slip(at):
            change = find_change(at.frame, moves)
            if change is None or change == at.due or (found and moves in [variant.moves for variant in found]):
                continue
            found.append(_new(Variant, (name, moves, change)))
    except FrameError:
        return found  # the frame has no column for the next one; those before it stand
    return found


def find_change(frame: Frame, moves: Moves) -> int | None:
    """By how much `moves` in columns of `frame` change what it reads; None when beads are not there."""
    columns, change = find_effect(frame.shape, moves)
    beads = frame.beads
    for place, becomes in columns:
        if beads[place] not in becomes:
            return None
    return change


def _changes(moves: Iterable[Move]) -> tuple[int, int]:
    upper = lower = 0
    for move in moves:
        if move.bead is Bead.UPPER:
            upper += move.change
        else:
            lower += move.change
    return upper, lower


def _sign(change: int) -> int:
    return 1 if change > 0 else -1
