"""What room a procedure needs and where its columns stand: the one place that decides what a frame can hold.

All columns count from the right of the frame. Source: PROCEDURES §3.4–3.10, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from beadwright.engine.frame import MARK_EVERY, Column, Frame, too_wide
from beadwright.engine.number import Number


def check_room(what: object, frame: Frame, needed: int) -> None:
    """Raise `FrameError`, saying how many columns `what` is missing, unless the frame has as many as are needed."""
    if needed > frame.columns:
        raise too_wide(str(what), frame, needed - frame.columns)


@cache
def find_ones_column(places: int) -> Column:
    """1 for whole numbers; else the first of 4, 7, 10, … that leaves room for so many places.

    >>> [find_ones_column(places) for places in (0, 1, 3, 4)]
    [1, 4, 4, 7]
    """
    return Column(1 + MARK_EVERY * -(-places // MARK_EVERY))


def place_number(number: Number) -> tuple[Column, Column]:
    """The columns of a number's last place and of its ones, when it stands alone on a frame.

    >>> place_number(Number(1250, 2))
    (2, 4)
    """
    ones = find_ones_column(number.places)
    return Column(ones - number.places), ones


def find_highest_column(units: int, places: int) -> int:
    """The highest column that a number takes with its ones in `find_ones_column(places)`; its ones always have one.

    `units` are those of the number's last place.

    >>> find_highest_column(112, 0), find_highest_column(5, 1)
    (3, 4)
    """
    return find_ones_column(places) - places - 1 + max(len(str(units)), places + 1)


def count_group_columns(widths: Sequence[int]) -> int:
    """What groups of columns of these widths need, with one column at rest between two of them."""
    return sum(widths) + len(widths) - 1


def count_root_columns(radicand: int, root: int, beside: int) -> int:
    """What a radicand and a root of so many digits need, with so many columns beside them."""
    return radicand + root + beside


def find_shift(column: int) -> int:
    """By how few columns to the left a column comes to stand just left of a unit mark (on 1, 4, 7, 10, …).

    >>> [find_shift(column) for column in (1, 2, 3, 4)]
    [0, 2, 1, 0]
    """
    return (1 - column) % MARK_EVERY


@dataclass(frozen=True, slots=True)
class ProductRoom:
    """Where a product is worked: `multiplicand` and `multiplier` are how many digits each has, leading zeros apart.

    `places` are those of the product; `kept` says whether the multiplier is set at the far left.
    """

    multiplicand: int
    multiplier: int
    places: int
    kept: bool

    @property
    def shift(self) -> int:
        """How many columns at the right stay at rest, so that the marker falls on a unit mark."""
        return -self.places % MARK_EVERY

    @property
    def ones_column(self) -> Column:
        """The column of the product's ones."""
        return Column(self.places + self.shift + 1)

    @property
    def lowest(self) -> int:
        """The column in which the product ends."""
        return 1 + self.shift

    @property
    def start(self) -> int:
        """The column of the multiplicand's first digit: digits and digits and one for the frame."""
        return self.multiplicand + self.multiplier + 1 + self.shift

    @property
    def needed(self) -> int:
        """How many columns the work needs."""
        return self.start + (self.multiplier + 1 if self.kept else 0)


class QuotientRoom(NamedTuple):
    """Where a quotient of so many `places` is worked.

    `shift` columns at the right stay at rest. Dividend and remainder end in column `lowest`, their ones stand in
    `ones_column`; the dividend begins in `highest`. The quotient ends in `last`, its ones stand in
    `quotient_ones_column`: on a unit mark where `on_mark` says so. `kept` says whether the divisor is set at the far
    left. `needed` is how many columns the work needs.
    """

    divisor: str
    places: int
    on_mark: bool
    kept: bool
    shift: int
    lowest: int
    highest: int
    last: int
    ones_column: Column
    quotient_ones_column: Column
    needed: int


def lay_out_quotient(
    dividend: str, divisor: str, *, dividend_places: int, places: int, on_mark: bool, kept: bool, digits: int
) -> QuotientRoom:
    """The room of a quotient. `dividend` are its digits with the zeros that are added, `divisor` its digits.

    `dividend_places` count the added zeros, `places` are those of the quotient. `on_mark` says whether the quotient's
    ones must stand on a unit mark (they must in decimals). `digits` is how many digits the quotient has when it is
    done: one that grows a digit by rounding needs a column for it.
    """
    size = len(divisor)
    shift = find_shift(size + 2 + places) if on_mark else 0
    last = size + 2 + shift
    return QuotientRoom(
        divisor=divisor,
        places=places,
        on_mark=on_mark,
        kept=kept,
        shift=shift,
        lowest=1 + shift,
        highest=len(dividend) + shift,
        last=last,
        ones_column=Column(1 + shift + dividend_places),
        quotient_ones_column=Column(last + places),
        needed=max(len(dividend), size + max(1, digits)) + 1 + shift + (size + 1 if kept else 0),
    )


def find_free_columns(frame: Frame, kept_digits: int) -> int:
    """The highest column left of which a factor of so many digits and a column at rest stand (none for 0 digits)."""
    return frame.columns - (kept_digits + 1 if kept_digits > 0 else 0)
