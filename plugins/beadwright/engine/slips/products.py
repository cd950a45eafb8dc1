"""Slips in partial products, wherever they are added or taken away, and in clearing the multiplicand.

Source: PROCEDURES §5, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import (
    Action,
    FromProduct,
    FromQuotient,
    FromRoot,
    FromTerm,
    Hand,
    Source,
    Work,
    Worked,
)
from beadwright.engine.slips.occurrence import NOTHING, Occurrence, ShiftSteps, SkipSteps, keep_below
from beadwright.engine.walkthrough import Step, Walkthrough


class Pair(NamedTuple):
    """The steps, one or two, of one product of two digits. `limit`: no bead moves in this column or left of it."""

    steps: tuple[Step, ...]
    source: FromProduct
    tens_column: Column
    limit: int | None

    @property
    def numbers(self) -> frozenset[int]:
        """The numbers of its steps."""
        return frozenset(step.number for step in self.steps)

    @property
    def first(self) -> int:
        """The number of its first step."""
        return self.steps[0].number

    @property
    def last(self) -> int:
        """The number of its last step."""
        return self.steps[-1].number


def find_pairs(walkthrough: Walkthrough) -> list[Pair]:
    """The products of two digits that move beads, in order; none reaches the digit of quotient or root in use."""
    pairs: list[Pair] = []
    limit: int | None = None
    before: Source | None = None
    for step in walkthrough.steps:
        source = None if step.work is None else step.work.source
        if isinstance(source, FromQuotient):
            limit = source.quotient_column
        if step.work is not None and step.work.action is Action.SET and isinstance(source, FromRoot):
            limit = step.work.column
        if step.work is not None and isinstance(source, FromProduct):
            # A ten of 0 is said between, so the tens of this product stand right before its ones or nowhere.
            if source.place == "ones" and before == source._replace(place="tens"):
                pairs[-1] = pairs[-1]._replace(steps=(*pairs[-1].steps, step))
            else:
                tens = step.work.column + (1 if source.place == "ones" else 0)
                pairs.append(Pair((step,), source, Column(tens), limit))
        before = source
    return pairs


def find_product_slips(walkthrough: Walkthrough, right: Hand) -> Iterator[Occurrence]:
    """Every slip in one product of two digits."""
    for pair in find_pairs(walkthrough):
        first, last, column = pair.first, pair.last, pair.tens_column
        yield Occurrence("product-skipped", "skipped", first, column, SkipSteps(right, pair.numbers), last)
        off = ShiftSteps(right, pair.numbers, -1, pair.limit)
        yield Occurrence("product-one-column-off", "right", first, column, off, last)
        if pair.source.product.startswith("0"):
            forward = ShiftSteps(right, pair.numbers, 1, pair.limit)
            yield Occurrence("no-0-held", "left", first, column, forward, last)
        for fact in find_wrong_facts(*pair.source.factors):
            yield _make_wrong_fact(pair, right, f"{fact:02d}")


_CONFUSED = {56: 54, 54: 56}
"""Facts that are taken for each other though they are no neighbours in the table: 7 × 8 and 6 × 9."""


def find_wrong_facts(first: int, second: int) -> list[int]:
    """Products that are taken for `first` × `second`: a neighbour in the table, or a fact often confused with it.

    Nobody mistakes a fact of 1.

    >>> find_wrong_facts(7, 8)
    [54, 48, 64, 49, 63]
    """
    if 1 in (first, second):
        return []
    right = first * second
    near = [(first - 1) * second, (first + 1) * second, first * (second - 1), first * (second + 1)]
    found = [_CONFUSED[right]] if right in _CONFUSED else []
    for fact in near:
        if fact not in (*found, right):
            found.append(fact)
    return found


def _make_wrong_fact(pair: Pair, right: Hand, fact: str) -> Occurrence:
    """The first wrong step is the ones' when the tens of fact and product are the same and both have a step."""
    later = len(pair.steps) == 2 and fact[0] == pair.source.product[0]
    step = pair.steps[-1 if later else 0]
    column = Column(pair.tens_column - (1 if later else 0))
    return Occurrence("table-fact-wrong", "other-fact", step.number, column, WrongFact(right, pair, fact), pair.last)


@dataclass(frozen=True, slots=True)
class WrongFact:
    """A hand that works another product of two digits in place of a pair's: each digit in its step, or both in one."""

    right: Hand
    pair: Pair
    fact: str

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The wrong product at the pair's steps, the right moves elsewhere."""
        if number not in self.pair.numbers:
            return self.right(frame, work, number)
        digits = list(enumerate(self.fact))
        if len(self.pair.steps) == 2:
            digits = digits[:1] if number == self.pair.first else digits[1:]
        worked = NOTHING
        for index, digit in digits:
            if digit == "0":
                continue
            part = work._replace(digit=int(digit), column=Column(self.pair.tens_column - index))
            next_one = self.right(frame.apply_all(worked.moves), part, number)
            worked = Worked(next_one.technique, next_one.runs_on or worked.runs_on, worked.moves + next_one.moves)
        return keep_below(self.pair.limit, worked)


def find_multiplicand_slips(walkthrough: Walkthrough, right: Hand) -> Iterator[Occurrence]:
    """A multiplicand digit that stays or is cleared before its last product; a multiplicand one column off."""
    pairs = find_pairs(walkthrough)
    for step in walkthrough.steps:
        work = step.work
        if work is None or work.action is not Action.CLEAR:
            continue
        left = SkipSteps(right, frozenset({step.number}))
        yield Occurrence("multiplicand-digit-left", "left", step.number, work.column, left, step.number)
        for pair in [pair for pair in pairs if pair.first < step.number][-1:]:
            early = ClearEarly(right, pair, work.column)
            yield Occurrence("multiplicand-digit-cleared-early", "cleared", pair.first, work.column, early, pair.last)
    yield from _drift(walkthrough, right)


@dataclass(frozen=True, slots=True)
class ClearEarly:
    """A hand that clears a multiplicand digit where its last product is due; the product is lost with it."""

    right: Hand
    pair: Pair
    column: Column

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The clearing at the first step of the product, nothing at the second, the right moves elsewhere."""
        if number == self.pair.first:
            return self.right(frame, Work(Action.CLEAR, frame.digit(self.column), self.column), number)
        if number in self.pair.numbers:
            return NOTHING
        return self.right(frame, work, number)


def _drift(walkthrough: Walkthrough, right: Hand) -> Iterator[Occurrence]:
    """The multiplicand is set one column off, and everything is worked from there."""
    cleared = [step.work for step in walkthrough.steps if step.work is not None and step.work.action is Action.CLEAR]
    if not cleared:
        return
    multiplicand = cleared[0].source
    first = next(step for step in walkthrough.steps if step.work is not None and step.work.source == multiplicand)
    if first.work is not None:
        for name, way in (("left", 1), ("right", -1)):
            hand = DriftAll(right, multiplicand, way)
            yield Occurrence("column-drift", name, first.number, first.work.column, hand)


@dataclass(frozen=True, slots=True)
class DriftAll:
    """A hand that works everything some columns off, a kept multiplier apart."""

    right: Hand
    multiplicand: object
    columns: int

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The right moves for the wrong column."""
        if not isinstance(work.source, FromTerm) or work.source == self.multiplicand:
            work = work._replace(column=Column(work.column + self.columns))
        return self.right(frame, work, number)
