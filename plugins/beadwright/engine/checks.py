"""Checks that a learner is taught: the inverse operation, and casting out nines with what it cannot catch.

Source: the order of skills of PROCEDURES §4; casting out nines is common arithmetic, no source.
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from beadwright.engine.errors import MethodError
from beadwright.engine.number import Number
from beadwright.engine.problem import Percent, Problem, Product, Quotient, Sum, Term
from beadwright.engine.solution import count_quotient_places


class Inverse(NamedTuple):
    """A problem to work as a check, and what it must give."""

    problem: Problem
    expected: Number


def build_inverse(problem: Problem, answer: Number, remainder: Number | None = None) -> tuple[Inverse, ...]:
    """The problems that lead back from an answer, in the order in which they are worked.

    A sum is undone from its last number to its second; a product is divided by its second factor (by its first when
    the second is 0), a percent by its percent; a quotient is multiplied by the divisor, and what is left is added.
    Raises `MethodError` for 0 × 0, which nothing undoes, and for problems that are checked otherwise.

    >>> [str(step.problem) for step in build_inverse(Quotient(Number(954), Number(23)), Number(41), Number(11))]
    ['41 × 23', '943 + 11']
    """
    if isinstance(problem, Sum):
        return _undo_sum(problem, answer)
    if isinstance(problem, Product):
        return _undo_product(problem.first, problem.second, answer)
    if isinstance(problem, Percent):
        return _undo_percent(problem, answer)
    if isinstance(problem, Quotient):
        return _undo_quotient(problem, answer, remainder)
    raise _no_inverse(problem)


def _no_inverse(problem: Problem) -> MethodError:
    return MethodError("no-inverse", f"{problem} has no inverse to check it by", "Work it once more")


def _undo_sum(problem: Sum, answer: Number) -> tuple[Inverse, ...]:
    undone = [Term("-" if term.sign == "+" else "+", term.number) for term in reversed(problem.terms[1:])]
    first = problem.terms[0].number.with_places(problem.places)
    return (Inverse(Sum((Term("+", answer), *undone)), first),)


def _undo_product(first: Number, second: Number, answer: Number) -> tuple[Inverse, ...]:
    divisor, other = (second, first) if second.units > 0 else (first, second)
    if divisor.units == 0:
        raise _no_inverse(Product(first, second))
    return (Inverse(Quotient(answer, divisor, other.places), other),)


def _undo_percent(problem: Percent, answer: Number) -> tuple[Inverse, ...]:
    """Divide by the percent, as a number with two more places; the part of nothing has no way back."""
    if problem.percent.units == 0:
        raise _no_inverse(problem)
    rate = Number(problem.percent.units, problem.percent.places + 2)
    return (Inverse(Quotient(answer, rate, problem.of.places), problem.of),)


def _undo_quotient(problem: Quotient, answer: Number, remainder: Number | None) -> tuple[Inverse, ...]:
    product = Number(answer.units * problem.divisor.units, answer.places + problem.divisor.places)
    back = Inverse(Product(answer, problem.divisor), product)
    if remainder is None:
        return (back,)
    added = Sum((Term("+", product), Term("+", remainder)))
    dividend = problem.dividend.with_places(count_quotient_places(problem) + problem.divisor.places)
    return back, Inverse(added, dividend)


def cast_out_nines(number: Number) -> int:
    """What is left of the digits when nines are cast out: 0 to 8; the marker plays no part.

    >>> cast_out_nines(Number(39867))
    6
    """
    return sum(int(digit) for digit in number.digits) % 9


class NinesCheck(NamedTuple):
    """Casting out nines of a whole problem: what each number leaves, what the answer should leave and what it leaves.

    `parts` are the numbers in the order in which they stand in the check: the numbers of a sum, the factors, or the
    quotient, the divisor and what is left.
    """

    parts: tuple[tuple[Number, int], ...]
    expected: int
    found: int

    @property
    def agrees(self) -> bool:
        """Whether the answer passes. One that does not is wrong; one that does may still be."""
        return self.expected == self.found


def check_by_nines(problem: Problem, answer: Number, remainder: Number | None = None) -> NinesCheck:
    """Cast out nines of a sum, a product, a percent or a quotient; raises `MethodError` for other problems.

    A quotient is checked turned round: quotient × divisor + what is left against the dividend.

    >>> check_by_nines(Product(Number(306), Number(4)), Number(1224)).agrees
    True
    """
    if isinstance(problem, Sum):
        numbers = [term.number.with_places(problem.places) for term in problem.terms]
        signs = [1 if term.sign == "+" else -1 for term in problem.terms]
        left = sum(sign * cast_out_nines(number) for sign, number in zip(signs, numbers, strict=True)) % 9
        return NinesCheck(_leave(*numbers), left, cast_out_nines(answer))
    if isinstance(problem, Product | Percent):
        first, second = (
            (problem.first, problem.second) if isinstance(problem, Product) else (problem.percent, problem.of)
        )
        left = cast_out_nines(first) * cast_out_nines(second) % 9
        return NinesCheck(_leave(first, second), left, cast_out_nines(answer))
    if isinstance(problem, Quotient):
        rest = Number(0) if remainder is None else remainder
        left = (cast_out_nines(answer) * cast_out_nines(problem.divisor) + cast_out_nines(rest)) % 9
        return NinesCheck(_leave(answer, problem.divisor, rest), left, cast_out_nines(problem.dividend))
    raise MethodError("no-nines", f"{problem} is not checked by casting out nines", "Work it back instead")


def _leave(*numbers: Number) -> tuple[tuple[Number, int], ...]:
    return tuple((number, cast_out_nines(number)) for number in numbers)


class Escape(StrEnum):
    """Ways in which a wrong answer passes casting out nines."""

    DIGITS_SWAPPED = "digits-swapped"
    NINE_FOR_ZERO = "nine-for-zero"
    MARKER = "marker"
    ZEROS = "zeros"
    MULTIPLE_OF_NINE = "multiple-of-nine"


def find_escape(right: Number, wrong: Number) -> Escape | None:
    """Why casting out nines does not catch this wrong answer; None when it does, or when the answer is right.

    The same digits in another order, 9 and 0 in each other's place, the marker or zeros at the end wrong, zeros inside
    too many or too few, or any other error by a multiple of 9.

    >>> find_escape(Number(1224), Number(1242)), find_escape(Number(1224), Number(1225))
    (<Escape.DIGITS_SWAPPED: 'digits-swapped'>, None)
    """
    if right.exact == wrong.exact or cast_out_nines(right) != cast_out_nines(wrong):
        return None
    before, after = right.digits, wrong.digits
    if before.rstrip("0") == after.rstrip("0"):
        return Escape.MARKER
    if sorted(before) == sorted(after):
        return Escape.DIGITS_SWAPPED
    if before.replace("9", "0") == after.replace("9", "0"):
        return Escape.NINE_FOR_ZERO
    if before.replace("0", "") == after.replace("0", ""):
        return Escape.ZEROS
    return Escape.MULTIPLE_OF_NINE
