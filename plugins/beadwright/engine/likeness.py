"""Problems like a given one: as many digits and places, zeros alike, and the same techniques needed.

Of a sum the signs stand in the same order. Of a quotient it is the result that is alike: a 0 in it, and something left
or nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from random import Random

from beadwright.engine.drawing import Operation, Want, draw_walkthroughs, find_techniques, runs_on
from beadwright.engine.errors import EngineError
from beadwright.engine.frame import Frame
from beadwright.engine.house import HouseStyle
from beadwright.engine.methods import work_problem
from beadwright.engine.number import Number
from beadwright.engine.problem import Problem, Product, Quotient, Sum, Term
from beadwright.engine.solution import divide
from beadwright.engine.walkthrough import Walkthrough

TRIES = 400


def draw_like(
    walkthrough: Walkthrough,
    most: int,
    *,
    frame: Frame,
    seed: str,
    house: HouseStyle,
    method: str | None = None,
    banned: Collection[str] = (),
) -> tuple[Walkthrough, ...]:
    """`most` other problems like this one, or as many as were found; none at all for a kind that is not drawn.

    Never one of `banned`. Frame, house style and method are those that `walkthrough` was worked with.
    """
    want = _find_want(walkthrough, frozenset(banned))
    if want is not None:
        return draw_walkthroughs(want, most, frame=frame, seed=seed, house=house, method=method)
    if not isinstance(walkthrough.problem, Sum):
        return ()
    wanted = find_techniques(walkthrough)
    found: dict[str, Walkthrough] = {}
    for other in _like_sums(walkthrough.problem, seed):
        text = str(other)
        if len(found) >= most:
            break
        if other == walkthrough.problem or text in found or text in banned:
            continue
        try:
            worked = work_problem(other, frame, house=house, method=method)
        except EngineError:
            continue
        if find_techniques(worked) == wanted:
            found[text] = worked
    return tuple(found.values())


def draw_like_number(number: Number, chance: Random) -> Number:
    """A number with as many digits and places, and zeros where this one has them."""
    digits = ["0" if digit == "0" else str(1 + int(chance.random() * 9)) for digit in number.digits]
    return Number(int("".join(digits)), number.places)


def _find_want(walkthrough: Walkthrough, banned: frozenset[str]) -> Want | None:
    """What to draw so as to get problems like this one; None where drawing does not give such problems."""
    problem = walkthrough.problem
    numbers = _whole_numbers(problem)
    if numbers is None:
        return None
    techniques = find_techniques(walkthrough)
    is_sum = isinstance(problem, Sum)
    zeros, remainder = any("0" in number.digits for number in numbers), None
    if isinstance(problem, Quotient):
        units, left = divide(problem)
        zeros, remainder = "0" in str(units), left > 0
    return Want(
        operation=_find_operation(problem),
        digits=tuple(len(number.digits) for number in numbers),
        needs=techniques if is_sum else frozenset(),
        allows=techniques if is_sum else None,
        runs_on=runs_on(walkthrough) if is_sum else None,
        zeros=zeros,
        remainder=remainder,
        signs=tuple(term.sign for term in problem.terms[1:]) if isinstance(problem, Sum) else None,
        banned=banned | {str(problem)},
    )


def _whole_numbers(problem: Problem) -> tuple[Number, ...] | None:
    """The numbers of a problem that is drawn from whole numbers of 1 and more."""
    if isinstance(problem, Sum):
        numbers = tuple(term.number for term in problem.terms)
    elif isinstance(problem, Product):
        numbers = (problem.first, problem.second)
    elif isinstance(problem, Quotient) and problem.places == 0:
        numbers = (problem.dividend, problem.divisor)
    else:
        return None
    return numbers if all(number.places == 0 and number.units > 0 for number in numbers) else None


def _find_operation(problem: Problem) -> Operation:
    if isinstance(problem, Product):
        return Operation.MULTIPLY
    if isinstance(problem, Quotient):
        return Operation.DIVIDE
    signs = {term.sign for term in problem.terms[1:]} if isinstance(problem, Sum) else set()
    if len(signs) > 1:
        return Operation.ADD_TAKE
    return Operation.ADD if signs == {"+"} else Operation.TAKE


def _like_sums(problem: Sum, seed: str) -> Iterator[Sum]:
    chance = Random(seed)
    for _ in range(TRIES):
        yield Sum(tuple(Term(term.sign, draw_like_number(term.number, chance)) for term in problem.terms))
