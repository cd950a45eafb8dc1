"""Multiplying as repeated adding, dividing as repeated taking away; the learner keeps the count.

The way of nine-bead frames (PROCEDURES §3.4), and a beginner's method on five-and-four frames. Common practice, no
source.
"""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine.errors import FrameError, MethodError
from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromTerm
from beadwright.engine.house import HouseStyle, Inner
from beadwright.engine.methods.digits import set_number, work_number
from beadwright.engine.methods.products import Factor, order_factors
from beadwright.engine.number import Number
from beadwright.engine.problem import Problem, Product, Quotient
from beadwright.engine.room import check_room, find_highest_column, find_ones_column
from beadwright.engine.solution import count_quotient_places, divide
from beadwright.engine.walkthrough import Answer, Owner, Purpose, Remainder
from beadwright.engine.working import Working

MOST_TIMES = 999


@dataclass(frozen=True, slots=True)
class RepeatedAddingProcedure:
    """Adding the multiplicand as often as the multiplier says."""

    name: str = "repeated-adding"
    inner: None = None

    def does(self, problem: Problem, frame: Frame) -> bool:
        """Products, on every frame."""
        return isinstance(problem, Product)

    def plan(self, problem: Problem, frame: Frame, house: HouseStyle) -> RepeatedAddingPlan:
        """Ones over ones; raises `MethodError` for a multiplier that is not whole or is too large to count."""
        if not isinstance(problem, Product):
            raise TypeError(f"not a product: {problem}")
        multiplicand, multiplier = order_factors((problem.first, problem.second), house)
        if multiplier.number.places > 0:
            raise MethodError(
                "times-not-whole",
                f"{multiplicand.number} cannot be added {multiplier.number} times",
                "Use a whole number of times, or partial products",
            )
        _check_times(str(problem), multiplier.number.units)
        places = multiplicand.number.places
        total = multiplicand.number.units * multiplier.number.units
        check_room(problem, frame, find_highest_column(total, places))
        return RepeatedAddingPlan(multiplicand, multiplier.number.units, find_ones_column(places), house.inner)


REPEATED_ADDING = RepeatedAddingProcedure()


def _check_times(problem: str, times: int) -> None:
    if times > MOST_TIMES:
        raise MethodError(
            "times-too-many",
            f"{problem} would be worked {times} times over; the count is kept to {MOST_TIMES}",
            "Use partial products or trial digits on a five-and-four frame, or smaller numbers",
        )


@dataclass(frozen=True, slots=True)
class RepeatedAddingPlan:
    """A product laid out like a sum of equal numbers."""

    multiplicand: Factor
    times: int
    ones_column: Column
    inner: Inner

    def work(self, working: Working) -> Answer:
        """Set the multiplicand, then add it until it is there as often as the multiplier says."""
        number, term = self.multiplicand.number, self.multiplicand.term
        highest = self.ones_column - number.places + len(number.digits) - 1
        if self.times == 0:
            working.say("times-none", number=str(number))
        else:
            working.say("times-start", number=str(number), count=self.times)
        working.owners = (self._own(working),)
        for count in range(1, self.times + 1):
            if count == 1:
                set_number(working, number.digits, highest, term)
            else:
                purpose = Purpose.COUNT if self.inner is Inner.COUNTING else Purpose.ADD
                work_number(working, Action.ADD, number.digits, highest, FromTerm(term), purpose)
            working.say("times-added", number=str(number), count=count, times=self.times)
        answer = self.answer(working)
        working.say("product-done", product=answer.text)
        return answer

    def _own(self, working: Working) -> Owner:
        return Owner("product", working.frame.columns, self._lowest, self.ones_column)

    @property
    def _lowest(self) -> int:
        return self.ones_column - self.multiplicand.number.places

    def answer(self, working: Working) -> Answer:
        """The product, in the columns that own it."""
        reading = self._own(working).read(working.frame)
        return Answer(reading.text, reading.columns, self.multiplicand.number.places)


@dataclass(frozen=True, slots=True)
class RepeatedTakingProcedure:
    """Taking the divisor away as often as it is there."""

    name: str = "repeated-taking-away"
    inner: None = None

    def does(self, problem: Problem, frame: Frame) -> bool:
        """Quotients that are whole numbers with a remainder, on every frame."""
        return isinstance(problem, Quotient) and count_quotient_places(problem) == 0

    def plan(self, problem: Problem, frame: Frame, house: HouseStyle) -> RepeatedTakingPlan:
        """Ones over ones; raises `MethodError` for a quotient too large to count."""
        if not isinstance(problem, Quotient):
            raise TypeError(f"not a quotient: {problem}")
        times, _ = divide(problem)
        _check_times(str(problem), times)
        places = problem.divisor.places
        check_room(problem, frame, find_highest_column(problem.dividend.with_places(places).units, places))
        return RepeatedTakingPlan(problem, find_ones_column(places), house.inner)


REPEATED_TAKING = RepeatedTakingProcedure()
TAKEN = "times-taken"


@dataclass(frozen=True, slots=True)
class RepeatedTakingPlan:
    """A dividend from which the divisor is taken again and again; the quotient is the learner's count."""

    problem: Quotient
    ones_column: Column
    inner: Inner

    def work(self, working: Working) -> Answer:
        """Set the dividend and take the divisor away while what is left holds it."""
        dividend, divisor = self.problem.dividend, self.problem.divisor
        working.say("taking-start", dividend=str(dividend), divisor=str(divisor))
        working.owners = (self._own(working, "dividend"),)
        set_number(working, dividend.digits, self._find_highest(dividend), 1)
        working.owners = (self._own(working, "left"),)
        purpose = Purpose.COUNT if self.inner is Inner.COUNTING else Purpose.TAKE
        count, most = 0, 10 * (divide(self.problem)[0] + 1)
        while self._left(working) >= divisor.units:
            count += 1
            if count > most:  # only after a slip: what is left does not go down
                raise FrameError("count-without-end", f"Working {self.problem}, the count does not end", "Begin again")
            work_number(working, Action.TAKE, divisor.digits, self._find_highest(divisor), FromTerm(2), purpose)
            working.say(TAKEN, divisor=str(divisor), count=count, left=self._read_left(working))
        working.owners = (self._own(working, "remainder"),)
        left = working.owners[0].read(working.frame).text
        working.say("taking-done", divisor=str(divisor), quotient=count, remainder=left)
        return self.answer(working)

    def _find_highest(self, number: Number) -> int:
        return self.ones_column - number.places + len(number.digits) - 1

    def _own(self, working: Working, part: str) -> Owner:
        lowest = self.ones_column - self.problem.divisor.places
        return Owner(part, working.frame.columns, lowest, self.ones_column)

    def _left(self, working: Working) -> int:
        """What is left, in units of the divisor's last place."""
        return int(self._read_left(working).replace(".", ""))

    def _read_left(self, working: Working) -> str:
        return self._own(working, "left").read(working.frame).text

    def answer(self, working: Working) -> Answer:
        """The learner's count, which stands in no column, and what is left on the frame."""
        count = sum(step.remark is not None and step.remark.topic == TAKEN for step in working.steps)
        left = self._own(working, "remainder").read(working.frame)
        nothing = left.text.strip("0.") == ""
        return Answer(str(count), None, 0, None if nothing else Remainder(left.text, left.columns))
