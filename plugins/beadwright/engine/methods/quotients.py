"""Division by trial digits: what it needs and when it is refused. How it is worked stands in `dividing`.

Source: PROCEDURES §3.7 and §3.8, common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine.errors import MethodError
from beadwright.engine.frame import Frame
from beadwright.engine.house import HouseStyle, KeptFactor, Trial
from beadwright.engine.methods.dividing import QuotientPlan
from beadwright.engine.problem import Problem, Quotient
from beadwright.engine.room import QuotientRoom, check_room, find_free_columns, lay_out_quotient
from beadwright.engine.solution import count_quotient_places, count_zeros_added, divide, find_quotient, rounds


@dataclass(frozen=True, slots=True)
class QuotientProcedure:
    """Dividing digit by digit."""

    name: str = "trial-digits"
    inner: None = None

    def does(self, problem: Problem, frame: Frame) -> bool:
        """Quotients of whole numbers and decimals, on frames whose columns have an upper bead."""
        return isinstance(problem, Quotient) and frame.shape.upper > 0

    def plan(self, problem: Problem, frame: Frame, house: HouseStyle) -> QuotientPlan:
        """Dividend at the right, quotient left of it; raises `MethodError` for more trial digits than are needed."""
        if not isinstance(problem, Quotient):
            raise TypeError(f"not a quotient: {problem}")
        kept = house.kept_factor is KeptFactor.SET
        room = _build_room(problem, house, kept)
        check_room(problem, frame, room.needed)
        given = house.trial_digits if house.trial is Trial.GIVEN else ()
        _check_given(problem, given)
        free = find_free_columns(frame, len(room.divisor) if kept else 0)
        return QuotientPlan(problem, room, free, house.trial, given, rounds(problem, house))


TRIAL_DIGITS = QuotientProcedure()


def _build_room(problem: Quotient, house: HouseStyle, kept: bool) -> QuotientRoom:
    dividend, divisor = problem.dividend, problem.divisor
    zeros = count_zeros_added(problem)
    units, _ = find_quotient(problem, house)
    return lay_out_quotient(
        dividend.digits + "0" * zeros,
        divisor.digits,
        dividend_places=dividend.places + zeros,
        places=count_quotient_places(problem),
        on_mark=is_decimal(problem),
        kept=kept,
        digits=len(str(units).lstrip("0")),
    )


def is_decimal(problem: Quotient) -> bool:
    """Whether the problem is worked in decimals: a number with places, or a quotient to so many places."""
    return max(problem.dividend.places, problem.divisor.places, problem.places) > 0


def _check_given(problem: Quotient, given: tuple[int, ...]) -> None:
    units, _ = divide(problem)
    needed = sum(digit != "0" for digit in str(units))
    if len(given) > needed:
        raise MethodError(
            "trial-digits",
            f"{problem} has {needed} quotient digits to try, {len(given)} were given",
            "Give at most one trial digit for each quotient digit that is not 0",
        )
