"""What a sum needs by partners, from its digits alone: for sifting many drawn problems before one is worked.

The same rules as in `hand` (PROCEDURES §3.1, §3.2), told about values and not about beads; tests hold the two together.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from beadwright.engine.frame import ColumnShape
from beadwright.engine.hand import Technique
from beadwright.engine.problem import Sum


class Sketch(NamedTuple):
    """The techniques that the digits after the first number need, and whether an exchange runs on."""

    techniques: frozenset[Technique]
    runs_on: bool


def sketch_sum(problem: Sum, shape: ColumnShape) -> Sketch | None:
    """What the sum needs by partners on columns of this shape; None when a running total falls below zero."""
    places = problem.places
    return sketch_numbers(
        tuple(term.number.units * 10 ** (places - term.number.places) for term in problem.terms),
        tuple(term.sign for term in problem.terms[1:]),
        shape,
    )


def sketch_numbers(numbers: Sequence[int], signs: Sequence[str], shape: ColumnShape) -> Sketch | None:
    """The same from whole numbers, in units of the last place; `signs` are `+` or `-`, one fewer than the numbers."""
    found: set[Technique] = set()
    ran_on = False
    total, known = numbers[0], _find_techniques(shape)
    for number, written in zip(numbers[1:], signs, strict=True):
        sign = 1 if written == "+" else -1
        if total + sign * number < 0:
            return None
        place = 10 ** len(str(number))
        for digit in map(int, str(number)):
            place //= 10
            if digit == 0:
                continue
            exchanged, technique = known[total // place % 10, sign * digit]
            found.add(technique)
            if exchanged:
                passed, left = _pass_over(total // place // 10, sign)
                ran_on = ran_on or passed
                if shape.upper > 0 and left == (4 if sign > 0 else 5):
                    found.add(Technique.PARTNER_OF_5)
            total += sign * digit * place
    return Sketch(frozenset(found), ran_on)


@cache
def _find_techniques(shape: ColumnShape) -> dict[tuple[int, int], tuple[bool, Technique]]:
    """What each change of one digit needs, by what the column holds and the change."""
    changes = [change for change in range(-9, 10) if change != 0]
    return {(held, change): _find_technique(held, change, shape) for held in range(10) for change in changes}


def _find_technique(held: int, change: int, shape: ColumnShape) -> tuple[bool, Technique]:
    """Whether a column that holds `held` exchanges ten for this change of one digit, and by which technique."""
    digit = abs(change)
    exchanged = not 0 <= held + change <= 9
    moved = 10 - digit if exchanged else digit
    lower_after = shape.split(held)[1] + (1 if (change > 0) is not exchanged else -1) * shape.split(moved)[1]
    direct = 0 <= lower_after <= shape.lower
    if exchanged:
        return True, Technique.PARTNER_OF_10 if direct else Technique.BOTH_PARTNERS
    return False, Technique.DIRECT if direct else Technique.PARTNER_OF_5


def _pass_over(left: int, sign: int) -> tuple[bool, int]:
    """Whether the columns to the left begin with a full (or empty) one, and the first digit that is not."""
    full, passed = (9 if sign > 0 else 0), False
    while left % 10 == full:
        left //= 10
        passed = True
    return passed, left % 10
