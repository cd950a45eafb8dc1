"""Procedures: each lays a problem out on a frame and works it; looked up by name here."""

from __future__ import annotations

from beadwright.engine.errors import MethodError
from beadwright.engine.frame import Frame
from beadwright.engine.hand import build_hand
from beadwright.engine.house import HouseStyle
from beadwright.engine.methods.fractions import FRACTIONS
from beadwright.engine.methods.procedure import Plan, Procedure
from beadwright.engine.methods.products import PARTIAL_PRODUCTS
from beadwright.engine.methods.quotients import TRIAL_DIGITS
from beadwright.engine.methods.repeated import REPEATED_ADDING, REPEATED_TAKING
from beadwright.engine.methods.roots import DOUBLE_ROOT, ODD_NUMBER
from beadwright.engine.methods.sums import COUNTING, PARTNERS
from beadwright.engine.problem import Problem
from beadwright.engine.walkthrough import Walkthrough
from beadwright.engine.working import Working

__all__ = ["METHODS", "Plan", "Procedure", "find_method", "work_problem"]

_PROCEDURES: tuple[Procedure, ...] = (
    PARTNERS,
    COUNTING,
    PARTIAL_PRODUCTS,
    TRIAL_DIGITS,
    REPEATED_ADDING,
    REPEATED_TAKING,
    FRACTIONS,
    ODD_NUMBER,
    DOUBLE_ROOT,
)
METHODS: dict[str, Procedure] = {procedure.name: procedure for procedure in _PROCEDURES}
"""The procedures by name, in the order in which they are asked whether they do a problem."""


def find_method(problem: Problem, frame: Frame, house: HouseStyle, name: str | None = None) -> Procedure:
    """The procedure called `name`, or the first that does the problem, the house's way of adding before the other.

    Raises `MethodError` when none does.
    """
    if name is not None and name not in METHODS:
        raise MethodError("method-name", f"There is no method called {name!r}", f"Use one of {', '.join(METHODS)}")
    asked = METHODS.values() if name is None else (METHODS[name],)
    fitting = None
    for procedure in asked:
        if procedure.does(problem, frame):
            if procedure.inner in (None, house.inner):
                return procedure
            fitting = procedure if fitting is None else fitting
    if fitting is None:
        by = "on this frame" if name is None else f"by the method {name!r}"
        raise MethodError(
            "method-not-for-this",
            f"{problem} cannot be worked {by}",
            "Leave the method out, or choose another frame or problem",
        )
    return fitting


def work_problem(
    problem: Problem, frame: Frame, *, house: HouseStyle = HouseStyle(), method: str | None = None
) -> Walkthrough:
    """The proven walkthrough of `problem` on `frame` at rest.

    Raises `FrameError` when the frame cannot hold the work, `MethodError` when the method does not do it; in both
    cases no bead has moved.
    """
    procedure = find_method(problem, frame, house, method)
    plan = procedure.plan(problem, frame, house)
    start = frame.cleared()
    working = Working(start, house, build_hand(house, procedure.inner))
    answer = plan.work(working)
    return Walkthrough(
        problem=problem,
        method=procedure.name,
        start=start,
        house=house,
        ones_column=plan.ones_column,
        steps=tuple(working.steps),
        answer=answer,
    )
