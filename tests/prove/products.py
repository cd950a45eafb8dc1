"""Every a × b with b below a tenth of the limit in one house style, and a sample in every house style.

Also on a frame that is too short for some of them, with the multiplier set, where those must be refused; and by adding
again and again on a nine-bead frame of three columns. Answers from integers.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import product

from beadwright.engine import FirstFactor, HouseStyle, Inner, KeptFactor, Number, Order, Product
from tests.prove.lines import Due, Line, count_refused, prove
from tests.prove.tally import Counts, Job, Proof, Tally

SHARE = 25  # first numbers a job
SAMPLE_A = 37
SAMPLE_B = 7
METHOD = "partial-products"
SET = HouseStyle(kept_factor=KeptFactor.SET)

WHOLE = Line("five-and-four", 13, METHOD, HouseStyle(), "multiplier remembered")
SHORT = Line("five-and-four", 7, METHOD, SET, "multiplier set")
REPEATED = Line("nine-bead", 3, "repeated-adding", HouseStyle(), "by partners")


def build_styles() -> list[Line]:
    """A line for every house style that a product follows."""
    lines = []
    for order, inner, kept, first in product(Order, Inner, KeptFactor, FirstFactor):
        house = HouseStyle(add_order=order, inner=inner, kept_factor=kept, first_factor=first)
        lines.append(Line("five-and-four", 13, METHOD, house, f"{order}, {inner}, {kept}, {first} first"))
    return lines


STYLES = build_styles()
STYLED = f"five-and-four 13, partial-products, a sample in each of {len(STYLES)} house styles"


def build_proof(below: int) -> Proof:
    """The proof for first factors from 0 to less than `below`, second ones to less than a tenth of it."""
    shares = [range(first, min(first + SHARE, below)) for first in range(0, below, SHARE)]
    seconds = range(max(1, below // 10))
    jobs = [Job(str(line), prove_pairs, (line, share, seconds)) for line in (WHOLE, SHORT) for share in shares]
    sample = range(0, below, SAMPLE_A), range(0, len(seconds), SAMPLE_B)
    jobs += [Job(STYLED, prove_pairs, (line, *sample)) for line in STYLES]
    jobs += [Job(str(REPEATED), prove_pairs, (REPEATED, seconds, seconds))]
    counts = {str(line): count_pairs(line, range(below), seconds) for line in (WHOLE, SHORT)}
    counts[STYLED] = Counts(len(STYLES) * len(sample[0]) * len(sample[1]), 0)
    counts[str(REPEATED)] = count_pairs(REPEATED, seconds, seconds)
    return Proof(jobs, counts)


def find_missing(line: Line, first: int, second: int) -> int:
    """How many columns the line's frame lacks for a product (PROCEDURES §3.4, §3.6)."""
    if line.method != METHOD:
        return max(0, len(str(first * second)) - line.columns)
    written = (first, second) if line.house.first_factor is FirstFactor.MULTIPLICAND else (second, first)
    m, n = (len(str(number)) for number in written)
    needed = m + 2 * n + 2 if line.house.kept_factor is KeptFactor.SET else m + n + 1
    return max(0, needed - line.columns)


def count_pairs(line: Line, firsts: Iterable[int], seconds: Iterable[int]) -> Counts:
    """How many of all products of two ranges can be worked, and how many not."""
    return Counts(*count_refused(product(firsts, seconds), lambda a, b: find_missing(line, a, b)))


def prove_pairs(line: Line, firsts: Iterable[int], seconds: Iterable[int]) -> Tally:
    """Work and judge every product of two ranges."""
    return prove(line, _build_dues(line, firsts, seconds))


def _build_dues(line: Line, firsts: Iterable[int], seconds: Iterable[int]) -> Iterator[Due]:
    for a, b in product(firsts, seconds):
        yield Due(Product(Number(a), Number(b)), line.house, str(a * b), find_missing(line, a, b))
