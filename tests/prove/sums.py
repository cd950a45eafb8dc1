"""Every a + b and a − b, on both frames, by both methods, in both orders; answers from integers.

A nine-bead frame has four columns here, so that every sum fits. On one of three columns the sums that need a fourth
must be refused. A house style that mixes the orders is proved on a sample of a + b − c, where both orders show.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product
from typing import NamedTuple

from beadwright.engine import Frame, FrameError, HouseStyle, Number, Order, Sum, Term, build_frame, work_problem
from tests.prove.tally import Counts, Job, Proof, Tally
from tests.referee import RuleError, check_seen, see_value

SHARE = 25  # first numbers a job
SAMPLE_EVERY = 137


class Line(NamedTuple):
    """One line of the proof: how and where its problems are worked."""

    frame: str
    columns: int
    method: str
    add_order: str
    take_order: str

    def __str__(self) -> str:
        mixed = f"add {self.add_order}, take {self.take_order}"
        order = self.add_order if self.add_order == self.take_order else mixed
        return f"{self.frame} {self.columns}, {self.method}, {order}"

    def build(self) -> tuple[Frame, HouseStyle]:
        """The frame at rest and the house style."""
        house = HouseStyle(add_order=Order(self.add_order), take_order=Order(self.take_order))
        return build_frame(self.frame, columns=self.columns), house


FRAMES = (("five-and-four", 13), ("nine-bead", 4))
METHODS = ("partners", "counting")
SAME_ORDER = (("left-first", "left-first"), ("right-first", "right-first"))
MIXED_ORDER = (("left-first", "right-first"), ("right-first", "left-first"))


def build_lines(orders: Iterable[tuple[str, str]]) -> list[Line]:
    """A line for each frame, method and pair of orders."""
    return [Line(*frame, method, add, take) for frame in FRAMES for method in METHODS for add, take in orders]


WHOLE = build_lines(SAME_ORDER)
MIXED = build_lines(MIXED_ORDER)
SHORT = Line("nine-bead", 3, "partners", "left-first", "left-first")


def build_proof(below: int) -> Proof:
    """The proof for all numbers from 0 to less than `below`."""
    shares = [range(first, min(first + SHARE, below)) for first in range(0, below, SHARE)]
    jobs = [Job(str(line), prove_pairs, (line, share, below)) for line in (*WHOLE, SHORT) for share in shares]
    jobs += [Job(str(line), prove_mixed, (line, share, below)) for line in MIXED for share in shares]
    counts = {str(line): count_pairs(below, 10**line.columns) for line in (*WHOLE, SHORT)}
    counts |= {str(line): count_mixed(below) for line in MIXED}
    return Proof(jobs, counts)


def count_pairs(below: int, full: int) -> Counts:
    """How many a + b are less than `full` and a − b are not below zero, and how many are."""
    adding = sum(max(0, min(below, full - a)) for a in range(below))
    taking = sum(a + 1 for a in range(below))
    return Counts(adding + taking, 2 * below * below - adding - taking)


def count_mixed(below: int) -> Counts:
    """The same for the sample of a + b − c."""
    sample = range(0, below, SAMPLE_EVERY)
    worked = sum(1 for a in range(below) for b in sample for c in sample if a + b >= c)
    return Counts(worked, below * len(sample) ** 2 - worked)


def prove_pairs(line: Line, share: Iterable[int], below: int) -> Tally:
    """Work and judge a + b and a − b for each a of a share and every b."""
    numbers = [Number(n) for n in range(below)]
    pairs = [Sum((Term("+", numbers[a]), Term(sign, b))) for a in share for sign in ("+", "-") for b in numbers]
    return prove(line, pairs)


def prove_mixed(line: Line, share: Iterable[int], below: int) -> Tally:
    """Work and judge a + b − c for each a of a share and a sample of b and c."""
    sample = [Number(n) for n in range(0, below, SAMPLE_EVERY)]
    triples = product(map(Number, share), sample, sample)
    return prove(line, [Sum((Term("+", a), Term("+", b), Term("-", c))) for a, b, c in triples])


def prove(line: Line, problems: Iterable[Sum]) -> Tally:
    """Work each problem and have it judged; what fails is kept as text."""
    tally = Tally()
    frame, house = line.build()
    for problem in problems:
        try:
            _prove_one(problem, frame, house, line, tally)
        except Exception as error:  # noqa: BLE001  a proof reports whatever happens, and goes on
            tally.faults.append(f"{problem} ({line}): {type(error).__name__}: {error}")
    return tally


def _prove_one(problem: Sum, frame: Frame, house: HouseStyle, line: Line, tally: Tally) -> None:
    total, refusal = 0, ""
    for term in problem.terms:
        total += term.number.units if term.sign == "+" else -term.number.units
        if not 0 <= total < 10**line.columns:
            refusal = "below-zero" if total < 0 else "frame-too-short"
    try:
        walkthrough = work_problem(problem, frame, house=house, method=line.method)
    except FrameError as error:
        if error.code != refusal or error.missing != (1 if refusal == "frame-too-short" else 0):
            raise
        tally.refused += 1
        return
    if refusal or walkthrough.answer.text != str(total):
        raise RuleError(f"worked to {walkthrough.answer.text}; integers give {total}, {refusal or 'no refusal'}")
    check_seen(see_value(walkthrough))
    tally.worked += 1
    tally.steps += len(walkthrough.steps)
