"""Fractions and mixed numbers: + − × ÷. Source: PROCEDURES §3.9, common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass
from math import lcm

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromTerm
from beadwright.engine.house import HouseStyle
from beadwright.engine.methods.groups import Groups, lay_out_groups
from beadwright.engine.number import MixedNumber, Number, Quantity
from beadwright.engine.problem import FractionProblem, Problem
from beadwright.engine.walkthrough import Answer
from beadwright.engine.working import Working


@dataclass(frozen=True, slots=True)
class FractionProcedure:
    """The four operations on two fractions, mixed or whole numbers."""

    name: str = "fractions"
    inner: None = None

    def does(self, problem: Problem, frame: Frame) -> bool:
        """Fractions without decimals, on frames whose columns have an upper bead."""
        return isinstance(problem, FractionProblem) and frame.shape.upper > 0 and not _has_decimals(problem)

    def plan(self, problem: Problem, frame: Frame, house: HouseStyle) -> AdditivePlan | ProductPlan:
        """Groups as wide as their largest values; refuses a result below zero."""
        if not isinstance(problem, FractionProblem):
            raise TypeError(f"not a problem in fractions: {problem}")
        first, second = _as_mixed(problem.first), _as_mixed(problem.second)
        if problem.operation in ("×", "÷"):
            return _plan_product(problem, frame, first, second)
        if problem.exact < 0:
            raise FrameError(
                "below-zero",
                f"Number 2 of {problem} takes {second} away from less than that; a frame holds nothing below zero",
                "Take a smaller number away, or change the order of the numbers",
            )
        return _plan_additive(problem, frame, first, second)


FRACTIONS = FractionProcedure()


def _has_decimals(problem: FractionProblem) -> bool:
    return any(isinstance(number, Number) and number.places > 0 for number in (problem.first, problem.second))


def _as_mixed(number: Quantity) -> MixedNumber:
    return MixedNumber(number.units, 0, 1) if isinstance(number, Number) else number


def _plan_additive(problem: FractionProblem, frame: Frame, first: MixedNumber, second: MixedNumber) -> AdditivePlan:
    common = lcm(first.denominator, second.denominator)
    above, other = (n.numerator * (common // n.denominator) for n in (first, second))
    if problem.operation == "+":
        whole, numerator = first.whole + second.whole + (above + other) // common, above + other
    else:
        whole, rest = first.whole, above
        if whole < second.whole:  # the numerator's wholes are needed first
            whole, rest = whole + above // common, above % common
        whole = max(whole, int(problem.exact))
        numerator = max(above, _with_borrowed(rest, other, common))
    groups = lay_out_groups(str(problem), frame, whole, numerator, common)
    return AdditivePlan(groups, first, second, common, takes=problem.operation == "-")


def _with_borrowed(above: int, other: int, common: int) -> int:
    """The numerator with as many wholes added as taking `other` away needs."""
    return above + -(-max(0, other - above) // common) * common


@dataclass(frozen=True, slots=True)
class AdditivePlan:
    """Adding or taking away over the least common denominator."""

    groups: Groups
    first: MixedNumber
    second: MixedNumber
    common: int
    takes: bool

    @property
    def ones_column(self) -> Column:
        """The denominator's ones."""
        return Column(1)

    def work(self, working: Working) -> Answer:
        """Set the first number, change it to the common denominator, work the second, regroup, reduce."""
        working.owners = self.groups.owners
        self.groups.set_first(working, self.first)
        working.say(
            "common-denominator", first=self.first.denominator, second=self.second.denominator, common=self.common
        )
        self.groups.denominator.replace(working, self.common)
        self._change_first(working)
        if self.takes:
            self._take_second(working)
        else:
            self._add_second(working)
        self._regroup(working)
        self.groups.reduce(working)
        return self.answer(working)

    def _change_first(self, working: Working) -> None:
        factor = self.common // self.first.denominator
        if factor > 1 and self.first.numerator > 0:
            working.say("change-numerator", numerator=self.first.numerator, factor=factor)
            self.groups.numerator.replace(working, 0)
            self.groups.numerator.work_product(working, Action.ADD, self.first.numerator, factor)

    def _add_second(self, working: Working) -> None:
        self.groups.whole.add(working, self.second.whole, FromTerm(2))
        self._work_second_numerator(working)

    def _regroup(self, working: Working) -> None:
        while self.groups.numerator.value(working.frame) >= self.common:
            working.say("regroup", common=self.common)
            self.groups.numerator.take(working, self.common)
            self.groups.whole.add(working, 1)

    def _take_second(self, working: Working) -> None:
        if self.groups.whole.value(working.frame) < self.second.whole:
            self._regroup(working)  # 9/4 − 2: the wholes to take from are still in the numerator
        self.groups.whole.take(working, self.second.whole, FromTerm(2))
        taken = self.second.numerator * (self.common // self.second.denominator)
        while self.groups.numerator.value(working.frame) < taken:
            working.say("regroup-whole", common=self.common, taken=taken)
            self.groups.whole.take(working, 1)
            self.groups.numerator.add(working, self.common)
        self._work_second_numerator(working)

    def _work_second_numerator(self, working: Working) -> None:
        factor = self.common // self.second.denominator
        if factor > 1:
            working.say("second-numerator", numerator=self.second.numerator, factor=factor)
            action = Action.TAKE if self.takes else Action.ADD
            self.groups.numerator.work_product(working, action, self.second.numerator, factor)
        elif self.takes:
            self.groups.numerator.take(working, self.second.numerator, FromTerm(2))
        else:
            self.groups.numerator.add(working, self.second.numerator, FromTerm(2))

    def answer(self, working: Working) -> Answer:
        """The mixed number that stands."""
        return self.groups.answer(working.frame)


def _plan_product(problem: FractionProblem, frame: Frame, first: MixedNumber, second: MixedNumber) -> ProductPlan:
    above = first.whole * first.denominator + first.numerator
    by_above = second.whole * second.denominator + second.numerator
    by_below = second.denominator
    if problem.operation == "÷":
        by_above, by_below = by_below, by_above
    result = above * by_above // (first.denominator * by_below)
    groups = lay_out_groups(
        str(problem),
        frame,
        max(first.whole, result),
        max(above, above * by_above),
        first.denominator * by_below,
    )
    return ProductPlan(groups, first, by_above, by_below, divides=problem.operation == "÷")


@dataclass(frozen=True, slots=True)
class ProductPlan:
    """Multiplying by an improper fraction, or dividing by multiplying by the reciprocal."""

    groups: Groups
    first: MixedNumber
    by_above: int
    by_below: int
    divides: bool

    @property
    def ones_column(self) -> Column:
        """The denominator's ones."""
        return Column(1)

    def work(self, working: Working) -> Answer:
        """Set the first number, make it improper, multiply above and below, reduce, regroup into the whole number."""
        working.owners = self.groups.owners
        self.groups.set_first(working, self.first)
        self._make_improper(working)
        topic = "reciprocal" if self.divides else "second-improper"
        working.say(topic, numerator=self.by_above, denominator=self.by_below)
        self._multiply(working, self.groups.numerator.value(working.frame), self.by_above, "numerator")
        self._multiply(working, self.first.denominator, self.by_below, "denominator")
        self.groups.reduce(working)
        self._regroup(working)
        return self.answer(working)

    def _make_improper(self, working: Working) -> None:
        whole, below = self.first.whole, self.first.denominator
        if self.first.numerator == 0:
            self.groups.denominator.replace(working, below)
        if whole > 0:
            working.say("make-improper", whole=whole, denominator=below, numerator=self.first.numerator)
            self.groups.numerator.work_product(working, Action.ADD, whole, below)
            self.groups.whole.replace(working, 0)

    def _multiply(self, working: Working, value: int, factor: int, part: str) -> None:
        group = self.groups.numerator if part == "numerator" else self.groups.denominator
        working.say("multiply-part", part=part, value=value, factor=factor)
        if factor != 1:
            group.replace(working, 0)
            group.work_product(working, Action.ADD, value, factor)

    def _regroup(self, working: Working) -> None:
        above, below = self.groups.numerator.value(working.frame), self.groups.denominator.value(working.frame)
        if above == 0 or above < below:
            return
        if below == 0:  # only after a slip, which then leads nowhere
            raise FrameError("no-denominator", "The denominator is 0", "Look for an earlier slip")
        whole, rest = divmod(above, below)
        working.say("regroup-all", numerator=above, denominator=below, whole=whole, rest=rest)
        self.groups.whole.add(working, whole)
        self.groups.numerator.replace(working, rest)
        if rest == 0:
            self.groups.denominator.replace(working, 0)

    def answer(self, working: Working) -> Answer:
        """The mixed number that stands."""
        return self.groups.answer(working.frame)
