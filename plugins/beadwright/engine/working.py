"""A problem being worked: the frame now, the steps so far, and who owns which columns."""

from __future__ import annotations

from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromNothing, Hand, Source, Work
from beadwright.engine.house import HouseStyle
from beadwright.engine.walkthrough import Owner, Purpose, Remark, Step


class Working:
    """What a procedure works with. It grows step by step; the frames in it never change.

    `owners` is what the procedure says about the columns now; each step is read by it after its moves. Column
    numbers count from the right of the frame.
    """

    def __init__(self, frame: Frame, house: HouseStyle, hand: Hand) -> None:
        self.frame = frame.cleared()
        self.house = house
        self.steps: list[Step] = []
        self.owners: tuple[Owner, ...] = ()
        self._hand = hand

    def set(self, column: int, digit: int, source: Source = FromNothing(), purpose: Purpose = Purpose.SET) -> None:
        """Set a digit in a column at rest."""
        self._work(purpose, Work(Action.SET, digit, Column(column), source))

    def add(self, column: int, digit: int, source: Source = FromNothing(), purpose: Purpose = Purpose.ADD) -> None:
        """Add a digit in a column."""
        self._work(purpose, Work(Action.ADD, digit, Column(column), source))

    def take(self, column: int, digit: int, source: Source = FromNothing(), purpose: Purpose = Purpose.TAKE) -> None:
        """Take a digit away in a column."""
        self._work(purpose, Work(Action.TAKE, digit, Column(column), source))

    def clear(self, column: int, source: Source = FromNothing()) -> None:
        """Clear what a column holds."""
        self._work(Purpose.CLEAR, Work(Action.CLEAR, self.frame.digit(column), Column(column), source))

    def say(self, topic: str, **facts: str | int) -> None:
        """Say something about the work; no bead moves."""
        self._note(Purpose.SAY, None, Remark(topic, tuple(facts.items())))

    def _work(self, purpose: Purpose, work: Work) -> None:
        worked = self._hand(self.frame, work, len(self.steps) + 1)
        self.frame = self.frame.apply_all(worked.moves)
        reads = tuple(owner.read(self.frame) for owner in self.owners)
        self.steps.append(
            Step(len(self.steps) + 1, purpose, work, worked.technique, worked.runs_on, worked.moves, self.frame, reads)
        )

    def _note(self, purpose: Purpose, work: Work | None, remark: Remark) -> None:
        reads = tuple(owner.read(self.frame) for owner in self.owners)
        self.steps.append(Step(len(self.steps) + 1, purpose, work, None, False, (), self.frame, reads, remark))
