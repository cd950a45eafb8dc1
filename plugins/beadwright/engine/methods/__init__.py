"""Procedures: each turns a problem and a frame into a walkthrough; looked up by name here."""

from __future__ import annotations

from beadwright.engine.errors import MethodError
from beadwright.engine.frame import Frame
from beadwright.engine.hand import Hand, build_hand
from beadwright.engine.house import HouseStyle
from beadwright.engine.methods.procedure import Procedure
from beadwright.engine.methods.sums import COUNTING, PARTNERS
from beadwright.engine.problem import Problem
from beadwright.engine.walkthrough import Walkthrough
from beadwright.engine.working import Working

__all__ = ["METHODS", "Procedure", "find_method", "run_method", "work_problem"]

METHODS: dict[str, Procedure] = {procedure.name: procedure for procedure in (PARTNERS, COUNTING)}


def find_method(problem: Problem, frame: Frame, house: HouseStyle, name: str | None = None) -> Procedure:
    """The procedure called `name`, or the first that suits; raises `MethodError` when none does."""
    if name is not None and name not in METHODS:
        raise MethodError("method-name", f"There is no method called {name!r}", f"Use one of {', '.join(METHODS)}")
    fitting = [p for p in METHODS.values() if p.suits(problem, frame, house)]
    if name is not None:
        fitting = [p for p in METHODS.values() if p.name == name and p.does(problem, frame)]
    if not fitting:
        raise MethodError(
            "method-not-for-this",
            f"{problem} cannot be worked {'on this frame' if name is None else f'by the method {name!r}'}",
            "Leave the method out, or choose another frame or problem",
        )
    return fitting[0]


def run_method(procedure: Procedure, problem: Problem, frame: Frame, house: HouseStyle, hand: Hand) -> Working:
    """Run a procedure with this hand, right or slipping; gives the finished work."""
    procedure.check(problem, frame, house)
    working = Working(frame, house, hand)
    procedure.work(working, problem)
    return working


def work_problem(
    problem: Problem, frame: Frame, *, house: HouseStyle = HouseStyle(), method: str | None = None
) -> Walkthrough:
    """The proven walkthrough of `problem` on `frame` at rest.

    Raises `FrameError` when the frame cannot hold the work, `MethodError` when the method does not do it; in both
    cases no bead has moved.
    """
    procedure = find_method(problem, frame, house, method)
    working = run_method(procedure, problem, frame, house, build_hand(house, procedure.inner))
    return Walkthrough(
        problem=problem,
        method=procedure.name,
        start=frame.cleared(),
        house=house,
        ones_column=procedure.ones_column(problem, frame, house),
        steps=tuple(working.steps),
        answer=procedure.answer(working, problem),
    )
