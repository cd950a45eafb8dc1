"""Slips in placing quotient digits and in checking what is left. Source: PROCEDURES §5, common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromQuotient, Hand, Work, Worked
from beadwright.engine.methods.dividing import FIRST_LEFT, QuotientPlan
from beadwright.engine.methods.quotients import TRIAL_DIGITS
from beadwright.engine.slips.occurrence import NOTHING, Occurrence
from beadwright.engine.solution import divide
from beadwright.engine.walkthrough import Purpose, Step, Walkthrough
from beadwright.engine.working import Working


def find_quotient_slips(walkthrough: Walkthrough, right: Hand) -> Iterator[Occurrence]:
    """Every slip in placing one quotient digit, and in leaving the last one too small."""
    plan = TRIAL_DIGITS.plan(walkthrough.problem, walkthrough.start, walkthrough.house)
    before: Column | None = None
    for step in walkthrough.steps:
        source = None if step.work is None else step.work.source
        if step.purpose is Purpose.QUOTIENT and isinstance(source, FromQuotient):
            column = source.quotient_column
            if source.rule == FIRST_LEFT or column > plan.room.last:
                yield _place_wrongly(step.number, source, right)
            if before is not None and before - column > 1:
                closed_up = Misplace(right, column, before - 1 - column)
                yield Occurrence("zero-of-quotient-dropped", "closed-up", step.number, column, closed_up)
            before = column
    yield from _leave_too_small(walkthrough, plan, right)


def _place_wrongly(number: int, source: FromQuotient, right: Hand) -> Occurrence:
    """The other rule: one column further left, or one further right, than where the digit belongs."""
    variant, off = ("left", 1) if source.rule == FIRST_LEFT else ("right", -1)
    hand = Misplace(right, source.quotient_column, off)
    return Occurrence("quotient-one-column-off", variant, number, source.quotient_column, hand)


@dataclass(frozen=True, slots=True)
class Misplace:
    """A hand that works one quotient digit some columns off (> 0: to the left), its products where they belong."""

    right: Hand
    column: Column
    columns: int

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The right moves for the wrong column in this quotient digit."""
        if isinstance(work.source, FromQuotient) and work.column == work.source.quotient_column == self.column:
            work = work._replace(column=Column(work.column + self.columns))
        return self.right(frame, work, number)


def _leave_too_small(walkthrough: Walkthrough, plan: QuotientPlan, right: Hand) -> Iterator[Occurrence]:
    """The last quotient digit is one too small, or is not raised, and the work stops with too much left."""
    hand = LeaveLow(right, Column(plan.room.last))
    raised = _find_raise(walkthrough.steps, plan.room.last)
    if raised is not None:
        yield Occurrence("remainder-not-checked", "not-raised", raised, Column(plan.room.last), hand)
        return
    lower = _try_one_less(walkthrough, plan)
    if lower is not None:
        working = Working(walkthrough.start, walkthrough.house, right)
        lower.work(working)
        raised = _find_raise(working.steps, plan.room.last)
        if raised is not None:
            yield Occurrence("remainder-not-checked", "too-small", raised, Column(plan.room.last), hand, plan=lower)


def _find_raise(steps: list[Step] | tuple[Step, ...], column: int) -> int | None:
    """The number of the first step that raises the quotient digit of a column."""
    for step in steps:
        source = None if step.work is None else step.work.source
        if step.purpose is Purpose.RAISE and isinstance(source, FromQuotient) and source.quotient_column == column:
            return step.number
    return None


def _try_one_less(walkthrough: Walkthrough, plan: QuotientPlan) -> QuotientPlan | None:
    """The plan with a last trial digit one too small; None where the last digit is 0 or 1."""
    units, _ = divide(plan.problem)
    if units % 10 < 2:
        return None
    tried = sum(step.purpose is Purpose.QUOTIENT for step in walkthrough.steps)
    given = (*plan.given, *(None,) * tried)[: tried - 1]
    return replace(plan, given=(*given, units % 10 - 1))


@dataclass(frozen=True, slots=True)
class LeaveLow:
    """A hand that never raises the quotient digit of one column: 1 is not added, the divisor not taken once more."""

    right: Hand
    column: Column

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """No moves where the digit is raised, the right ones elsewhere."""
        source = work.source
        if isinstance(source, FromQuotient) and source.quotient_column == self.column:
            raises = Action.ADD if work.column == self.column else Action.TAKE
            if work.action is raises:
                return NOTHING
        return self.right(frame, work, number)
