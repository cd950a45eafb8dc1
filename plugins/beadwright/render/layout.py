"""Where the parts of a drawn frame stand, in the drawing's own units. Shared by pictures; text drawings need no units.

x grows to the right, y downwards; a bead's place is its middle. A bead at rest lies away from the bar, a set one at it,
and every rod keeps room for one bead (two on a nine-bead frame), so that set and at rest are told apart by place alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from beadwright.engine import Bead, ColumnShape, Frame, Move

PITCH = 44
"""From the middle of one column to the next."""
SLOT = 24
"""Room for one bead along its rod."""
SIDE = 10
"""Thickness of the frame's sides."""
BAR = 10
"""Thickness of the bar."""
JOIN = 20
"""Room between two frames that lie side by side, sides included."""


@dataclass(frozen=True, slots=True)
class RodLayout:
    """Heights along one rod of a column shape."""

    shape: ColumnShape

    @property
    def upper_slots(self) -> int:
        """How many beads the part above the bar has room for."""
        return self.shape.upper + 1 if self.shape.upper > 0 else 0

    @property
    def lower_slots(self) -> int:
        """How many beads the part below the bar has room for; nine beads get more room to slide."""
        return self.shape.lower + (1 if self.shape.upper > 0 else 2)

    @property
    def bar_top(self) -> int:
        """Upper edge of the bar; without upper beads the bar is the frame's upper side."""
        return SIDE + SLOT * self.upper_slots if self.upper_slots > 0 else 0

    @property
    def bar_bottom(self) -> int:
        """Lower edge of the bar."""
        return self.bar_top + BAR

    @property
    def height(self) -> int:
        """Of the whole frame."""
        return self.bar_bottom + SLOT * self.lower_slots + SIDE

    def upper_place(self, slot: int) -> int:
        """The middle of a slot above the bar; slot 1 is nearest the bar."""
        return self.bar_top - SLOT * slot + SLOT // 2

    def lower_place(self, slot: int) -> int:
        """The middle of a slot below the bar; slot 1 is nearest the bar."""
        return self.bar_bottom + SLOT * slot - SLOT // 2

    def place(self, bead: Bead, slot: int) -> int:
        """The middle of a slot on the bead's side of the bar."""
        return self.upper_place(slot) if bead is Bead.UPPER else self.lower_place(slot)


def find_slots(shape: ColumnShape, bead: Bead, count: int) -> tuple[range, range]:
    """Slots (1 is nearest the bar) of the set beads and of those at rest, when `count` beads of this kind are set."""
    layout = RodLayout(shape)
    beads, slots = (shape.upper, layout.upper_slots) if bead is Bead.UPPER else (shape.lower, layout.lower_slots)
    return range(1, count + 1), range(slots - (beads - count) + 1, slots + 1)


@dataclass(frozen=True, slots=True)
class Changed:
    """Beads of one kind that a step has moved: the slots they lie in now, and whether they were set or cleared."""

    column: int
    bead: Bead
    was_set: bool
    slots: range
    gap: int
    """The empty slot beside them, on the side they came from."""


def find_changed_beads(frame: Frame, moves: Iterable[Move]) -> list[Changed]:
    """The beads that `moves` have moved, on the frame after them; moves there and back leave nothing to show."""
    totals: dict[tuple[int, Bead], int] = {}
    for column, bead, change in moves:
        totals[column, bead] = totals.get((column, bead), 0) + change
    return [_find_beads(frame, column, bead, change) for (column, bead), change in totals.items() if change != 0]


def _find_beads(frame: Frame, column: int, bead: Bead, change: int) -> Changed:
    upper, lower = frame.beads_in(column)
    at_bar, at_rest = find_slots(frame.shape, bead, upper if bead is Bead.UPPER else lower)
    if change > 0:
        return Changed(column, bead, True, at_bar[-change:], len(at_bar) + 1)
    return Changed(column, bead, False, at_rest[:-change], len(at_bar) + 1)


def find_window(frames: Iterable[Frame], lowest: int = 1) -> tuple[int, int]:
    """The highest and lowest column to show: those in use on any of the frames, and one more on the left."""
    shown = list(frames)
    columns = shown[-1].columns if shown else lowest
    used = len(str(max([frame.value for frame in shown], default=0)))
    return min(max(used, lowest) + 1, columns), min(lowest, 1)
