"""Adding and taking away, several numbers in turn, highest place first.

By partners (PROCEDURES §3.1, §3.2) or by counting (§3.3), on five-and-four and nine-bead frames (§3.4); decimals as in
§3.8. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, find_term
from beadwright.engine.house import HouseStyle, Inner
from beadwright.engine.methods.digits import set_number, work_number
from beadwright.engine.problem import Problem, Sign, Sum
from beadwright.engine.room import check_room, find_highest_column, find_ones_column
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

    def plan(self, problem: Problem, frame: Frame, house: HouseStyle) -> SumPlan:
        """Ones over ones, the marker on a unit mark; refuses a running total that the frame cannot hold, by term."""
        if not isinstance(problem, Sum):
            raise TypeError(f"not a sum: {problem}")
        places = problem.places
        _check_sum(problem, places, frame)
        return SumPlan(problem, places, find_ones_column(places), self.inner)


PARTNERS = SumProcedure("partners", Inner.PARTNERS)
COUNTING = SumProcedure("counting", Inner.COUNTING)

_WAYS: dict[tuple[Inner, Sign], tuple[Action, Purpose]] = {
    (Inner.PARTNERS, "+"): (Action.ADD, Purpose.ADD),
    (Inner.PARTNERS, "-"): (Action.TAKE, Purpose.TAKE),
    (Inner.COUNTING, "+"): (Action.ADD, Purpose.COUNT),
    (Inner.COUNTING, "-"): (Action.TAKE, Purpose.COUNT),
}
"""How a term is worked in one way of adding, and what its steps are made for."""


class SumPlan(NamedTuple):
    """A sum laid out with its ones in `ones_column`, its numbers having up to so many `places`."""

    problem: Sum
    places: int
    ones_column: Column
    inner: Inner

    def work(self, working: Working) -> Answer:
        """Set the first number, then add or take away each further one, highest place first."""
        lowest = self.ones_column - self.places
        working.owners = (Owner("sum", working.frame.columns, lowest, self.ones_column),)
        if self.places > 0:
            marked = working.frame.is_left_of_mark(self.ones_column)
            working.say("marker" if marked else "marker-between", ones_column=self.ones_column)
        for number, term in enumerate(self.problem.terms, 1):
            digits = term.number.digits
            highest = self.ones_column - term.number.places + len(digits) - 1
            if number == 1:
                set_number(working, digits, highest, 1)
            else:
                action, purpose = _WAYS[self.inner, term.sign]
                work_number(working, action, digits, highest, find_term(number), purpose)
        return self.answer(working)

    def answer(self, working: Working) -> Answer:
        """The sum, in the columns that own it."""
        reading = working.owners[0].read(working.frame)
        return Answer(reading.text, reading.columns, self.places)


def _check_sum(problem: Sum, places: int, frame: Frame) -> None:
    """Name the number that goes below zero, else the first that needs the widest total; the ones always have a column.

    No term is wider than the totals beside it, so the totals alone decide.
    """
    totals = problem.find_totals(places)
    if min(totals) < 0:
        raise _below_zero(problem, [total < 0 for total in totals].index(True) + 1)
    widest = max(totals)
    needed = find_highest_column(widest, places)
    if needed > frame.columns:
        number = [find_highest_column(total, places) for total in totals].index(needed) + 1
        term = problem.terms[number - 1]
        check_room(f"Number {number} of {problem} ({term.sign} {term.number})", frame, needed)


def _below_zero(problem: Sum, number: int) -> FrameError:
    taken = problem.terms[number - 1].number
    return FrameError(
        "below-zero",
        f"Number {number} of {problem} takes {taken} away from less than that; a frame holds nothing below zero",
        "Take a smaller number away, or change the order of the numbers",
    )
