"""One slip at one place, and the hands that make slips in more than one digit."""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Hand, Work, Worked
from beadwright.engine.methods import Plan


@dataclass(frozen=True, slots=True)
class Occurrence:
    """One slip at one place. `step` is the first step that goes wrong, `column` where.

    `last` is the last step that `hand` may work otherwise than rightly; None where that may be any. `plan` is the plan
    that is worked where the slip lies in it too; None leaves the right one.
    """

    slip: str
    variant: str
    step: int
    column: Column
    hand: Hand
    last: int | None = None
    plan: Plan | None = None


NOTHING = Worked(None, False, ())
"""What a hand does with a digit that it passes over."""


@dataclass(frozen=True, slots=True)
class SkipSteps:
    """A hand that passes over these steps."""

    right: Hand
    numbers: frozenset[int]

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """No moves at these steps, the right ones elsewhere."""
        return NOTHING if number in self.numbers else self.right(frame, work, number)


@dataclass(frozen=True, slots=True)
class ShiftSteps:
    """A hand that works the digits of these steps some columns off (> 0: to the left).

    Raises `FrameError` where a bead would move in column `limit` or left of it: the slip cannot be made there.
    """

    right: Hand
    numbers: frozenset[int]
    columns: int
    limit: int | None = None

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The right moves for the wrong column at these steps."""
        if number not in self.numbers:
            return self.right(frame, work, number)
        return keep_below(
            self.limit, self.right(frame, work._replace(column=Column(work.column + self.columns)), number)
        )


def keep_below(limit: int | None, worked: Worked) -> Worked:
    """The same moves; raises `FrameError` when one of them is in column `limit` or left of it."""
    if limit is not None and any(move.column >= limit for move in worked.moves):
        raise FrameError("quotient-in-use", "An exchange would reach the quotient digit", "Lower that digit")
    return worked
