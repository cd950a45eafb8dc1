"""A mixed number on a frame: denominator, numerator and whole number in groups of columns, one at rest between.

Source: PROCEDURES §3.9, common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import gcd
from typing import NamedTuple

from beadwright.engine.frame import Frame
from beadwright.engine.hand import Action, FromNothing, FromTerm, Source
from beadwright.engine.methods.digits import place_digits, work_number, work_product
from beadwright.engine.number import MixedNumber
from beadwright.engine.room import check_room, count_group_columns
from beadwright.engine.walkthrough import Answer, Owner, Purpose
from beadwright.engine.working import Working


class Group(NamedTuple):
    """The columns of one part of a mixed number; its ones stand in `lowest`."""

    part: str
    highest: int
    lowest: int

    @property
    def owner(self) -> Owner:
        """How the group is read."""
        return Owner(self.part, self.highest, self.lowest, self.lowest)

    def value(self, frame: Frame) -> int:
        """What the group holds."""
        return int(frame.digits(self.highest, self.lowest))

    def add(self, working: Working, number: int, source: Source = FromNothing()) -> None:
        """Add a number in the group, highest place first."""
        digits = str(number)
        work_number(working, Action.ADD, digits, self._start(digits), source, Purpose.ADD)

    def take(self, working: Working, number: int, source: Source = FromNothing()) -> None:
        """Take a number away in the group, highest place first."""
        digits = str(number)
        work_number(working, Action.TAKE, digits, self._start(digits), source, Purpose.TAKE)

    def set(self, working: Working, number: int, source: Source = FromNothing()) -> None:
        """Set a number in the group at rest; a 0 inside it or at its end moves nothing."""
        digits = str(number)
        for column, digit in place_digits(digits, self._start(digits)):
            if digit > 0:
                working.set(column, digit, source)

    def replace(self, working: Working, number: int) -> None:
        """Clear the group and set another number; nothing moves when it holds that number."""
        if self.value(working.frame) == number:
            return
        for column in range(self.highest, self.lowest - 1, -1):
            if working.frame.digit(column) > 0:
                working.clear(column)
        self.set(working, number)

    def work_product(self, working: Working, action: Action, first: int, second: int) -> None:
        """Add or take away first × second by partial products of two digits each, highest places first."""
        digits, others = str(first), str(second)
        for high, left in place_digits(digits, self._start(digits)):
            for low, right in place_digits(others, self._start(others)):
                work_product(working, action, (left, right), high + low - self.lowest + 1)

    def _start(self, digits: str) -> int:
        """The column of the first of these digits."""
        return self.lowest + len(digits) - 1


@dataclass(frozen=True, slots=True)
class Groups:
    """The three groups of a mixed number, the denominator ending in column 1."""

    whole: Group
    numerator: Group
    denominator: Group

    @property
    def owners(self) -> tuple[Owner, Owner, Owner]:
        """How the three are read, leftmost first."""
        return self.whole.owner, self.numerator.owner, self.denominator.owner

    def set_first(self, working: Working, first: MixedNumber) -> None:
        """Set the first number; only it is ever set."""
        for group, number in self._parts(first):
            group.set(working, number, FromTerm(1))

    def _parts(self, number: MixedNumber) -> tuple[tuple[Group, int], ...]:
        parts = (self.whole, number.whole), (self.numerator, number.numerator), (self.denominator, number.denominator)
        return parts[:1] if number.numerator == 0 else parts

    def reduce(self, working: Working) -> None:
        """Divide numerator and denominator by their greatest common factor; a numerator of 0 leaves no fraction."""
        above, below = self.numerator.value(working.frame), self.denominator.value(working.frame)
        if above == 0:
            working.say("no-fraction")
            self.denominator.replace(working, 0)
            return
        factor = gcd(above, below)
        if factor == 1:
            working.say("lowest-terms", numerator=above, denominator=below)
            return
        working.say("common-factor", numerator=above, denominator=below, factor=factor)
        self.numerator.replace(working, above // factor)
        self.denominator.replace(working, below // factor)

    def answer(self, frame: Frame) -> Answer:
        """The mixed number that stands on the frame."""
        whole, above = self.whole.owner.read(frame), self.numerator.owner.read(frame)
        below = self.denominator.owner.read(frame)
        if above.text == "0":
            return Answer(whole.text, whole.columns, parts=(("whole", whole.columns),))
        parts = (("numerator", above.columns), ("denominator", below.columns))
        if whole.text == "0":
            return Answer(f"{above.text}/{below.text}", (above.columns[0], 1), parts=parts)
        text = f"{whole.text} {above.text}/{below.text}"
        return Answer(text, (whole.columns[0], 1), parts=(("whole", whole.columns), *parts))


def lay_out_groups(what: str, frame: Frame, whole: int, numerator: int, denominator: int) -> Groups:
    """Groups wide enough for these largest values; raises `FrameError` saying how many columns are missing.

    The whole number has every column on the left of it too: after a slip it may need them.
    """
    widths = [len(str(largest)) for largest in (denominator, numerator, whole)]
    check_room(what, frame, count_group_columns(widths))
    groups, lowest = [], 1
    for part, width in zip(("denominator", "numerator", "whole"), widths, strict=True):
        groups.append(Group(part, lowest + width - 1, lowest))
        lowest += width + 1
    below, above, wholes = groups
    return Groups(wholes._replace(highest=frame.columns), above, below)
