"""A problem being worked: the frame now, the steps so far, and who owns which columns."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from beadwright.engine.frame import Frame
from beadwright.engine.hand import Action, FromNothing, Hand, Source, Work
from beadwright.engine.house import HouseStyle
from beadwright.engine.walkthrough import Owner, Purpose, Remark, Step

_SET, _ADD, _TAKE, _SAY = Action.SET, Action.ADD, Action.TAKE, Purpose.SAY  # looked up once: every step asks for one
_new: Any = tuple.__new__  # what a named tuple is made by in the end; every step makes two


class Working:
    """What a procedure works with, from a frame at rest. It grows step by step; the frames in it never change.

    `owners` is what the procedure says about the columns now; each step keeps it. Column numbers count from the right
    of the frame. `known` are the first steps, where they were worked before: they are taken over instead of being
    worked again.
    """

    def __init__(self, frame: Frame, house: HouseStyle, hand: Hand, known: Sequence[Step] = ()) -> None:
        self.frame = frame
        self.house = house
        self.steps: list[Step] = []
        self.owners: tuple[Owner, ...] = ()
        self._hand = hand
        self._known = known
        self._given = len(known)

    def set(self, column: int, digit: int, source: Source = FromNothing(), purpose: Purpose = Purpose.SET) -> None:
        """Set a digit in a column at rest."""
        self.work(purpose, _SET, column, digit, source)

    def add(self, column: int, digit: int, source: Source = FromNothing(), purpose: Purpose = Purpose.ADD) -> None:
        """Add a digit in a column."""
        self.work(purpose, _ADD, column, digit, source)

    def take(self, column: int, digit: int, source: Source = FromNothing(), purpose: Purpose = Purpose.TAKE) -> None:
        """Take a digit away in a column."""
        self.work(purpose, _TAKE, column, digit, source)

    def clear(self, column: int, source: Source = FromNothing()) -> None:
        """Clear what a column holds."""
        self.work(Purpose.CLEAR, Action.CLEAR, column, self.frame.digit(column), source)

    def work(self, purpose: Purpose, action: Action, column: int, digit: int, source: Source) -> None:
        """Work a digit in a column."""
        steps = self.steps
        number = len(steps) + 1
        if number <= self._given:
            self._take_over(number)
            return
        work: Work = _new(Work, (action, digit, column, source))
        technique, runs_on, moves = self._hand(self.frame, work, number)
        self.frame = after = self.frame.apply_all(moves)
        steps.append(_new(Step, (number, purpose, work, technique, runs_on, moves, after, self.owners, None)))

    def say(self, topic: str, **facts: str | int) -> None:
        """Say something about the work; no bead moves."""
        number = len(self.steps) + 1
        if number <= self._given:
            self._take_over(number)
            return
        remark: Remark = _new(Remark, (topic, tuple(facts.items())))
        self.steps.append(_new(Step, (number, _SAY, None, None, False, (), self.frame, self.owners, remark)))

    def _take_over(self, number: int) -> None:
        """Take over a step that is known."""
        step = self._known[number - 1]
        self.frame = step.after
        self.steps.append(step)
