"""Another way to work a problem that was just answered rightly: flexible is who knows more than one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from beadwright.engine import EngineError, Number, Problem, Product, Quotient, Root, Sum, Walkthrough, build_inverse
from beadwright.engine import work_problem as work_by

MOST_STEPS = 60
"""A longer one is no quick second look any more."""

_PROCEDURES = {"odd-number": "double-root", "double-root": "odd-number"}


@dataclass(frozen=True, slots=True)
class OtherWay:
    """The other way, worked. `back` is what it leads to; `left` is what is added to it then, if anything.

    `order`: the numbers in the other order; `opposite`: back from the answer; `procedure`: the same problem by another
    procedure.
    """

    kind: Literal["order", "opposite", "procedure"]
    walkthrough: Walkthrough
    back: Number
    left: Number | None = None


def find_other_way(walkthrough: Walkthrough) -> OtherWay | None:
    """The way that shows most: another order where the moves become others, else the opposite; None where none fits."""
    problem = walkthrough.problem
    if walkthrough.answer.parts != ():
        return None
    answer = _read(walkthrough.answer.text)
    if isinstance(problem, Quotient) and walkthrough.answer.remainder is None and answer.exact != problem.exact:
        return None  # it was rounded, and would lead back to another number
    if isinstance(problem, Root):
        return _try(walkthrough, "procedure", problem, answer, method=_PROCEDURES.get(walkthrough.method))
    turned = _turn_round(problem)
    found = None if turned is None else _try(walkthrough, "order", turned, answer, method=walkthrough.method)
    return _find_opposite(walkthrough, answer) if found is None else found


def _turn_round(problem: Problem) -> Problem | None:
    """The two numbers of a sum or a product in the other order, where that is another problem."""
    if isinstance(problem, Sum) and len(problem.terms) == 2 and problem.terms[1].sign == "+":
        turned: Problem = Sum(problem.terms[::-1])
    elif isinstance(problem, Product):
        turned = Product(problem.second, problem.first)
    else:
        return None
    return None if turned == problem else turned


def _find_opposite(walkthrough: Walkthrough, answer: Number) -> OtherWay | None:
    remainder = walkthrough.answer.remainder
    left = None if remainder is None else _read(remainder.text)
    try:
        inverse, *_ = steps = build_inverse(walkthrough.problem, answer, left)
    except EngineError:
        return None
    # The opposite of a sum is worked as the sum was; that of a product is a division, by the usual procedure.
    method = walkthrough.method if isinstance(walkthrough.problem, Sum) else None
    left = left if isinstance(walkthrough.problem, Quotient) else None
    return _try(walkthrough, "opposite", inverse.problem, steps[-1].expected, method=method, left=left)


def _try(
    walkthrough: Walkthrough,
    kind: Literal["order", "opposite", "procedure"],
    problem: Problem,
    back: Number,
    *,
    method: str | None,
    left: Number | None = None,
) -> OtherWay | None:
    """This way, worked on the same frame; None where the frame or the procedure does not allow it."""
    try:
        worked = work_by(problem, walkthrough.start, house=walkthrough.house, method=method)
    except EngineError:
        return None
    return OtherWay(kind, worked, back, left) if len(worked.steps) <= MOST_STEPS else None


def _read(text: str) -> Number:
    """A number as data write it."""
    whole, _, places = text.partition(".")
    return Number(int(whole + places), len(places))
