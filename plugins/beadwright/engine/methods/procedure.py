"""What every procedure offers to the registry: it plans the work on a frame, and the plan works it."""

from __future__ import annotations

from typing import Protocol

from beadwright.engine.frame import Column, Frame
from beadwright.engine.house import HouseStyle, Inner
from beadwright.engine.problem import Problem
from beadwright.engine.walkthrough import Answer
from beadwright.engine.working import Working


class Plan(Protocol):
    """One problem laid out on one frame: it fits, and every column has its purpose. No bead has moved yet."""

    @property
    def ones_column(self) -> Column:
        """The column of the ones."""
        ...

    def work(self, working: Working) -> Answer:
        """Work the problem from rest; gives the answer that stands on the frame then."""
        ...

    def answer(self, working: Working) -> Answer:
        """Read the answer off the frame."""
        ...


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

    def plan(self, problem: Problem, frame: Frame, house: HouseStyle) -> Plan:
        """Lay out a problem that it does; raises `FrameError`, saying how many columns are missing."""
        ...
