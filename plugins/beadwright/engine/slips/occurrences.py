"""Where a slip can happen in a problem: each occurrence is a hand that makes it once and works rightly besides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromTerm, Hand, Technique, Work, Worked
from beadwright.engine.house import HouseStyle
from beadwright.engine.methods.fractions import FRACTIONS
from beadwright.engine.methods.products import PARTIAL_PRODUCTS
from beadwright.engine.methods.quotients import TRIAL_DIGITS
from beadwright.engine.methods.roots import DOUBLE_ROOT, ODD_NUMBER
from beadwright.engine.slips.digits import DigitSlip, Moves, Place, Variant, build_place, find_variants, wrong_way_round
from beadwright.engine.slips.occurrence import Occurrence
from beadwright.engine.slips.products import find_multiplicand_slips, find_product_slips
from beadwright.engine.slips.quotients import find_quotient_slips
from beadwright.engine.slips.table import SLIPS
from beadwright.engine.walkthrough import Walkthrough


def find_occurrences(walkthrough: Walkthrough, right: Hand, *, step: int | None = None) -> Iterator[Occurrence]:
    """Every way in which the table's slips can happen in this walkthrough, in the order of its steps.

    Of those that lie in one digit only the ones at `step`, where it is given: there are many, and each is looked for.
    """
    for at, number in find_places(walkthrough, step=step):
        for slip, variant in find_digit_slips(at):
            hand = SlipOnce(right, number, variant.moves)
            yield Occurrence(slip, variant.name, number, at.work.column, hand, number)
    if walkthrough.method != PARTIAL_PRODUCTS.name:  # there the whole work drifts with the multiplicand
        yield from _in_a_whole_number(walkthrough, right, drifts=walkthrough.method not in _IN_GROUPS)
    yield from find_spanning_slips(walkthrough, right)


def find_spanning_slips(walkthrough: Walkthrough, right: Hand) -> Iterator[Occurrence]:
    """The slips that span several digits of a product, or lie in placing and checking a quotient digit."""
    yield from find_product_slips(walkthrough, right)
    if walkthrough.method == PARTIAL_PRODUCTS.name:
        yield from find_multiplicand_slips(walkthrough, right)
    if walkthrough.method == TRIAL_DIGITS.name:
        yield from find_quotient_slips(walkthrough, right)


def find_places(walkthrough: Walkthrough, *, step: int | None = None) -> Iterator[tuple[Place, int]]:
    """Each digit of a walkthrough about to be worked, and the number of its step; only that of `step`, where given."""
    before = walkthrough.start
    for each in walkthrough.steps:
        if each.work is not None and step in (None, each.number):
            right = Worked(each.technique, each.runs_on, each.moves)
            yield build_place(before, each.work, right, walkthrough.house), each.number
        before = each.after


def find_digit_slips(at: Place) -> list[tuple[str, Variant]]:
    """Every way in which a slip can be made in this one digit, by the slip's name."""
    possible = _BY_TECHNIQUE[at.right.technique]
    return [(name, variant) for name, work_digit in possible for variant in find_variants(work_digit, at)]


_BY_TECHNIQUE: dict[Technique | None, list[tuple[str, DigitSlip]]] = {
    technique: [
        (slip.name, slip.work_digit)
        for slip in SLIPS.values()
        if slip.work_digit is not None and technique in slip.techniques
    ]
    for technique in Technique
}


@dataclass(frozen=True, slots=True)
class SlipOnce:
    """A hand that makes these moves at one step."""

    right: Hand
    number: int
    moves: Moves

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The wrong moves at the step, the right ones elsewhere."""
        worked = self.right(frame, work, number)
        return worked._replace(moves=self.moves, runs_on=False) if number == self.number else worked


@dataclass(frozen=True, slots=True)
class DriftTerm:
    """A hand that works one term's digits some columns off."""

    right: Hand
    term: int
    columns: int

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The right moves for the wrong column in this term."""
        if work.source == FromTerm(self.term):
            work = work._replace(column=Column(work.column + self.columns))
        return self.right(frame, work, number)


@dataclass(frozen=True, slots=True)
class TurnRound:
    """A hand that takes the smaller digit from the larger in each column of one term."""

    right: Hand
    term: int
    house: HouseStyle

    def __call__(self, frame: Frame, work: Work, number: int) -> Worked:
        """The turned-round moves wherever the column holds less than the digit."""
        if work.source == FromTerm(self.term) and work.action is Action.TAKE and frame.digit(work.column) < work.digit:
            ((_, moves),) = wrong_way_round(build_place(frame, work, Worked(None, False, ()), self.house))
            return Worked(None, False, moves)
        return self.right(frame, work, number)


DRIFTS = {"left": 1, "right": -1}
"""The ways a number drifts and by how many columns; columns count from the right."""


_IN_GROUPS = frozenset({FRACTIONS.name, ODD_NUMBER.name, DOUBLE_ROOT.name})
"""Methods that read their numbers by groups of columns: one that stands off the groups is not worked on any more."""


def _in_a_whole_number(walkthrough: Walkthrough, right: Hand, *, drifts: bool) -> Iterator[Occurrence]:
    seen: set[int] = set()
    before = walkthrough.start
    turned: set[int] = set()
    for step in walkthrough.steps:
        if step.work is not None and isinstance(step.work.source, FromTerm):
            term, column = step.work.source.term, step.work.column
            if drifts and term not in seen:
                for name, way in DRIFTS.items():
                    yield Occurrence("column-drift", name, step.number, column, DriftTerm(right, term, way))
            seen.add(term)
            if step.work.action is Action.TAKE and before.digit(column) < step.work.digit and term not in turned:
                turned.add(term)
                hand = TurnRound(right, term, walkthrough.house)
                yield Occurrence("wrong-way-round", "turned", step.number, column, hand)
        before = step.after
