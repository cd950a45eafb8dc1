"""What comes of a slip in a sum or a product, by value alone.

Which digits they work, and in which columns, is fixed before any bead moves, and a digit worked rightly changes what
the frame reads by itself in its place or is refused. So what follows a slip need not be worked bead by bead, which
takes ten times as long. The run through a hand that slips (`find_slipped`) stays the measure: tests hold the two
together.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, Hand, build_hand
from beadwright.engine.number import write_number
from beadwright.engine.problem import Sum
from beadwright.engine.slips.cause import Cause, build_prediction
from beadwright.engine.slips.digits import Place
from beadwright.engine.slips.occurrences import DRIFTS, find_digit_slips, find_occurrences, find_places
from beadwright.engine.walkthrough import Step, Walkthrough


def foresee_causes(walkthrough: Walkthrough, *, most_steps: int) -> Iterator[Cause]:
    """Each wrong answer that one slip in working or reading this sum or product gives.

    In a product no further slip is tried once so many steps have been worked.
    """
    last = walkthrough.steps[-1]
    _, highest, lowest, ones = last.owners[-1]
    unread, read = 10 ** (lowest - 1), 10 ** (highest - lowest + 1)
    right = last.after.value // unread % read
    is_sum = isinstance(walkthrough.problem, Sum)
    ends = _foresee_ends(walkthrough) if is_sum else _foresee_product_ends(walkthrough, most_steps)
    for end, slip, variant, column, number in (*ends, *_misread_end(last.after)):
        units = end // unread % read
        if units != right:
            yield write_number(units, ones - lowest), build_prediction(slip, variant, column, number)


End = tuple[int, str, str, Column, int | None]
"""What the whole frame reads in the end, and the slip, its variant, its column and its step."""


def _misread_end(end: Frame) -> Iterator[End]:
    value = end.value
    for variant, columns in find_misreadings(end):
        misread = value - sum(4 * 10 ** (column - 1) for column in columns)
        yield misread, "upper-bead-as-one", variant, columns[0], None


def find_misreadings(frame: Frame) -> list[tuple[str, list[Column]]]:
    """The columns whose upper bead may be read as 1: in all of them, or in one; by the variant's name."""
    columns = [Column(len(frame.beads) - index) for index, (upper, _) in enumerate(frame.beads) if upper > 0]
    every = [("read-all", columns)] if len(columns) > 1 else []
    return [*every, *(("read", [column]) for column in columns)]


def _foresee_ends(walkthrough: Walkthrough) -> Iterator[End]:
    digits = _look_ahead(walkthrough)
    for digit in digits:
        at, number, reads, *_ = digit
        column = at.work.column
        for slip, variant in find_digit_slips(at):
            end = digit.go_on(reads + variant.change)
            if end is not None:
                yield end, slip, variant.name, column, number
    for _, own in groupby(digits, key=lambda digit: digit.at.work.source):
        term = list(own)
        yield from _drift(term, walkthrough.start.columns)
        yield from _turn_round(term)


class Digit(NamedTuple):
    """A digit about to be worked, the number of its step, what the frame reads, and what later digits do to that.

    They change it in all by `change`, on the way by `least` at the least and by `most` at the most. A frame reads less
    than `limit`.
    """

    at: Place
    number: int
    reads: int
    change: int
    least: int
    most: int
    limit: int

    def go_on(self, value: int) -> int | None:
        """What a frame that reads `value` after this digit reads in the end; None when it refuses a later one."""
        return value + self.change if value + self.least >= 0 and value + self.most < self.limit else None


def _look_ahead(walkthrough: Walkthrough) -> list[Digit]:
    """The digits with what those after each do, worked rightly."""
    found: list[Digit] = []
    end, limit = walkthrough.steps[-1].after.value, 10**walkthrough.start.columns
    change = least = most = 0
    for at, number in reversed(list(find_places(walkthrough))):
        found.append(Digit(at, number, end - change - at.due, change, least, most, limit))
        change, least, most = at.due + change, min(0, at.due + least), max(0, at.due + most)
    return found[::-1]


def _drift(term: list[Digit], columns: int) -> Iterator[End]:
    """A whole number, all its digits one column off."""
    first = term[0]
    for name, way in DRIFTS.items():
        if all(0 < digit.at.work.column + way <= columns for digit in term):
            dues = [digit.at.due * 10 if way > 0 else digit.at.due // 10 for digit in term]
            end = _work_on(first.reads, dues, term[-1])
            if end is not None:
                yield end, "column-drift", name, first.at.work.column, first.number


def _work_on(value: int, dues: Iterable[int], last: Digit) -> int | None:
    """What a frame that reads `value` reads after digits that change it by `dues`, and those after the last of them."""
    for due in dues:
        value += due
        if not 0 <= value < last.limit:
            return None
    return last.go_on(value)


def _turn_round(term: list[Digit]) -> Iterator[End]:
    """In a whole number, the smaller digit taken from the larger wherever the column holds less than the digit."""
    for index, (at, number, reads, *_) in enumerate(term):
        if at.takes and at.frame.digit(at.work.column) < at.work.digit:
            value = reads
            for digit, column in [(later.at.work.digit, later.at.work.column) for later in term[index:]]:
                place = 10 ** (column - 1)
                held = value // place % 10
                value += (digit - 2 * held if held < digit else -digit) * place
            end = term[-1].go_on(value)
            if end is not None:
                yield end, "wrong-way-round", "turned", at.work.column, number
            return


def _foresee_product_ends(walkthrough: Walkthrough, most_steps: int) -> Iterator[End]:
    frames, steps = walkthrough.frames, walkthrough.steps
    worked_steps = 0
    for found in find_occurrences(walkthrough, build_hand(walkthrough.house)):
        if worked_steps >= most_steps:
            return
        worked_steps += len(steps)
        last = len(steps) if found.last is None else found.last
        try:
            frame = _work_with(found.hand, frames[found.step - 1], steps[found.step - 1 : last])
        except FrameError:
            continue
        end = _work_rest(frame.value, steps[last:], 10**frame.columns)
        if end is not None:
            yield end, found.slip, found.variant, found.column, found.step


def _work_with(hand: Hand, frame: Frame, steps: Iterable[Step]) -> Frame:
    """The frame after these steps by a hand that slips; raises `FrameError` where the beads do not allow it."""
    for step in steps:
        if step.work is not None:
            frame = frame.apply_all(hand(frame, step.work, step.number).moves)
    return frame


def _work_rest(value: int, steps: Iterable[Step], limit: int) -> int | None:
    """What a frame that reads `value` reads after these steps of a product; None when it refuses one."""
    for step in steps:
        if step.work is not None:
            action, digit, column, _ = step.work
            place = 10 ** (column - 1)
            held = value // place % 10
            if action is Action.SET and held > 0:
                return None
            value += (-held if action is Action.CLEAR else digit) * place
            if value >= limit:
                return None
    return value
