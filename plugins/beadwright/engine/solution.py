"""What exact arithmetic gives for a problem: the outside check that every walkthrough must agree with."""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine.errors import MethodError
from beadwright.engine.house import HouseStyle
from beadwright.engine.number import MixedNumber, Number
from beadwright.engine.problem import FractionProblem, Problem, Root, Sum


@dataclass(frozen=True, slots=True)
class Solution:
    """An answer's text, and the remainder's text where the problem leaves one."""

    text: str
    remainder: str | None = None


def solve(problem: Problem, house: HouseStyle) -> Solution:
    """The answer by integers alone; raises `MethodError` for a kind of problem that has no procedure."""
    if isinstance(problem, Sum):
        return Solution(str(Number(problem.totals[-1], problem.places)))
    if isinstance(problem, FractionProblem):
        whole, rest = divmod(problem.exact.numerator, problem.exact.denominator)
        return Solution(str(MixedNumber(whole, rest, problem.exact.denominator)))
    if isinstance(problem, Root):
        root, left = problem.exact
        return Solution(str(Number(root, -(-problem.radicand.places // 2))), str(left) if left > 0 else None)
    raise MethodError("no-method", f"{problem} has no procedure", "Use adding and taking away")
