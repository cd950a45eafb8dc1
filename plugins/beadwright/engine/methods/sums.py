"""Adding and taking away, several numbers in turn, highest place first.

By partners (trade.md §3.1, §3.2) or by counting (§3.3), on five-and-four and nine-bead frames (§3.4); decimals as in
§3.8. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import MARK_EVERY, Column, Frame, too_wide
from beadwright.engine.hand import FromTerm
from beadwright.engine.house import HouseStyle, Inner
from beadwright.engine.problem import Problem, Sum
from beadwright.engine.walkthrough import Answer, Owner, Purpose
from beadwright.engine.working import Working


@dataclass(frozen=True, slots=True)
class SumProcedure:
    """Adding and taking away with one way of working a digit."""

    name: str
    inner: Inner

    def does(self, problem: Problem, frame: Frame) -> bool:
        """Sums of whole numbers and decimals, on every frame."""
        return isinstance(problem, Sum)

    def suits(self, problem: Problem, frame: Frame, house: HouseStyle) -> bool:
        """The house's own way of adding."""
        return self.does(problem, frame) and self.inner is house.inner

    def check(self, problem: Problem, frame: Frame, house: HouseStyle) -> None:
        """Refuse a running total that the frame cannot hold or that is below zero, naming the term."""
        assert isinstance(problem, Sum)
        lowest = find_ones_column(problem) - problem.places
        for number, (term, total) in enumerate(zip(problem.terms, problem.totals, strict=True), start=1):
            if total < 0:
                raise _below_zero(problem, number)
            widest = max(total, term.number.with_places(problem.places).units)
            missing = len(str(widest)) + lowest - 1 - frame.columns
            if missing > 0:
                raise too_wide(f"Number {number} of {problem} ({term.sign} {term.number})", frame, missing)

    def ones_column(self, problem: Problem, frame: Frame, house: HouseStyle) -> Column:
        """Ones over ones, the marker on a unit mark."""
        assert isinstance(problem, Sum)
        return find_ones_column(problem)

    def work(self, working: Working, problem: Problem) -> None:
        """Set the first number, then add or take away each further one, highest place first."""
        assert isinstance(problem, Sum)
        ones = find_ones_column(problem)
        working.owners = (Owner("sum", working.frame.columns, ones - problem.places, ones),)
        if problem.places > 0:
            working.say("marker", ones_column=ones)
        self._set_first(working, problem, ones)
        for number, term in enumerate(problem.terms[1:], start=2):
            for column, digit in _placed_digits(term.number.digits, ones - term.number.places):
                if digit != 0 and term.sign == "+":
                    working.add(column, digit, FromTerm(number), self._purpose(Purpose.ADD))
                elif digit != 0:
                    working.take(column, digit, FromTerm(number), self._purpose(Purpose.TAKE))

    def _purpose(self, partners: Purpose) -> Purpose:
        return Purpose.COUNT if self.inner is Inner.COUNTING else partners

    def _set_first(self, working: Working, problem: Sum, ones: int) -> None:
        first = problem.terms[0].number
        for column, digit in _placed_digits(first.digits, ones - first.places):
            if digit == 0:
                working.say("zero-holds", column=column, term=1)
            else:
                working.set(column, digit, FromTerm(1))

    def answer(self, working: Working, problem: Problem) -> Answer:
        """The sum, in the columns that own it."""
        assert isinstance(problem, Sum)
        reading = working.owners[0].read(working.frame)
        return Answer(reading.text, reading.columns, problem.places)


PARTNERS = SumProcedure("partners", Inner.PARTNERS)
COUNTING = SumProcedure("counting", Inner.COUNTING)


def find_ones_column(problem: Sum) -> Column:
    """1 for whole numbers; else the first of 4, 7, 10, … that leaves room for the most places (trade.md §3.8)."""
    groups = -(-problem.places // MARK_EVERY)
    return Column(1 + MARK_EVERY * groups)


def _placed_digits(digits: str, lowest: int) -> list[tuple[int, int]]:
    """(column, digit) of a number whose last digit stands in column `lowest`, highest place first."""
    highest = lowest + len(digits) - 1
    return [(highest - index, int(digit)) for index, digit in enumerate(digits)]


def _below_zero(problem: Sum, number: int) -> FrameError:
    term = problem.terms[number - 1]
    return FrameError(
        "below-zero",
        f"Number {number} of {problem} takes {term.number} away from less than that, and a frame holds nothing below zero",
        "Take a smaller number away, or change the order of the numbers",
    )
