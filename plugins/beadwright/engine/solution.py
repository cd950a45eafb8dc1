"""What exact arithmetic gives for a problem: the outside check that every walkthrough must agree with."""

from __future__ import annotations

from typing import NamedTuple

from beadwright.engine.house import HouseStyle, Rounding
from beadwright.engine.number import MixedNumber, Number, write_number
from beadwright.engine.problem import FractionProblem, Percent, Problem, Product, Quotient, Sum


class Solution(NamedTuple):
    """An answer's text, and the remainder's text where the problem leaves one."""

    text: str
    remainder: str | None = None


def solve(problem: Problem, house: HouseStyle) -> Solution:
    """The answer by integers alone, decimals with as many places as PROCEDURES §3.8 gives them."""
    if isinstance(problem, Sum):
        places = problem.places
        return Solution(write_number(problem.find_totals(places)[-1], places))
    if isinstance(problem, Product):
        return Solution(str(_multiply(problem.first, problem.second, 0)))
    if isinstance(problem, Percent):
        return Solution(str(_multiply(problem.percent, problem.of, 2)))
    if isinstance(problem, Quotient):
        return _solve_quotient(problem, house)
    if isinstance(problem, FractionProblem):
        whole, rest = divmod(problem.exact.numerator, problem.exact.denominator)
        return Solution(str(MixedNumber(whole, rest, problem.exact.denominator)))
    root, left = problem.exact
    places = -(-problem.radicand.places // 2)
    return Solution(str(Number(root, places)), str(Number(left, 2 * places)) if left > 0 else None)


def _multiply(first: Number, second: Number, more_places: int) -> Number:
    return Number(first.units * second.units, first.places + second.places + more_places)


def count_zeros_added(problem: Quotient) -> int:
    """How many zeros are added to the dividend so that the quotient has the places that it is wanted to."""
    return max(0, problem.places + problem.divisor.places - problem.dividend.places)


def count_quotient_places(problem: Quotient) -> int:
    """The places of the quotient: those wanted, or more when the dividend has more to give."""
    return problem.dividend.places + count_zeros_added(problem) - problem.divisor.places


def divide(problem: Quotient) -> tuple[int, int]:
    """The quotient cut after its last place, and the remainder, each in units of its own last place."""
    scale: int = 10 ** count_zeros_added(problem)
    return divmod(problem.dividend.units * scale, problem.divisor.units)


def rounds(problem: Quotient, house: HouseStyle) -> bool:
    """Whether this quotient is rounded: the course rounds half up and it has places."""
    return house.rounding is Rounding.HALF_UP and count_quotient_places(problem) > 0


def find_quotient(problem: Quotient, house: HouseStyle) -> tuple[int, int]:
    """The quotient as the course gives it, and what it leaves: nothing where it is rounded. Units as in `divide`."""
    units, left = divide(problem)
    if rounds(problem, house):
        return units + (1 if 2 * left >= problem.divisor.units else 0), 0
    return units, left


def _solve_quotient(problem: Quotient, house: HouseStyle) -> Solution:
    units, left = find_quotient(problem, house)
    remainder = write_number(left, problem.dividend.places + count_zeros_added(problem)) if left > 0 else None
    return Solution(write_number(units, count_quotient_places(problem)), remainder)
