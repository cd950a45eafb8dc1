"""What every procedure offers to the registry."""

from __future__ import annotations

from typing import Protocol

from beadwright.engine.frame import Column, Frame
from beadwright.engine.house import HouseStyle, Inner
from beadwright.engine.problem import Problem
from beadwright.engine.walkthrough import Answer
from beadwright.engine.working import Working


class Procedure(Protocol):
    """One way to work one kind of problem. Procedures know nothing of wording, drawing or courses."""

    @property
    def name(self) -> str:
        """The method's name in data and lesson files."""
        ...

    @property
    def inner(self) -> Inner | None:
        """How digits are added and taken away, where the procedure fixes it; None leaves it to the house style."""
        ...

    def does(self, problem: Problem, frame: Frame) -> bool:
        """Whether this procedure does this kind of problem on this kind of frame."""
        ...

    def suits(self, problem: Problem, frame: Frame, house: HouseStyle) -> bool:
        """Whether the house would choose it when no method is named."""
        ...

    def check(self, problem: Problem, frame: Frame, house: HouseStyle) -> None:
        """Raise `FrameError` before any bead moves when the frame cannot hold the work."""
        ...

    def ones_column(self, problem: Problem, frame: Frame, house: HouseStyle) -> Column:
        """The column of the ones."""
        ...

    def work(self, working: Working, problem: Problem) -> None:
        """Work the problem from rest."""
        ...

    def answer(self, working: Working, problem: Problem) -> Answer:
        """Read the answer off the frame."""
        ...
