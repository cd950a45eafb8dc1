"""Every a/b + − × ÷ c/d with small parts in one house style, a sample of mixed numbers in every house style.

Answers from `Fraction`; results below zero must be refused.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import product

from beadwright.engine import FractionProblem, HouseStyle, Inner, MixedNumber, Order
from tests.prove.lines import BELOW_ZERO, Due, Line, prove
from tests.prove.tally import Counts, Job, Proof, Tally

LARGEST = 12
METHOD = "fractions"
OPERATIONS = ("+", "-", "×", "÷")
Parts = tuple[int, int]

WHOLE = Line("five-and-four", 13, METHOD, HouseStyle(), "usual style")
MIXED = ((0, 2, 3), (1, 1, 2), (2, 5, 6), (7, 3, 10), (0, 11, 4), (3, 9, 8))


def build_styles() -> list[Line]:
    """A line for every house style that fractions follow."""
    lines = []
    for add, take, inner in product(Order, Order, Inner):
        house = HouseStyle(add_order=add, take_order=take, inner=inner)
        lines.append(Line("five-and-four", 20, METHOD, house, f"add {add}, take {take}, {inner}"))
    return lines


STYLES = build_styles()
STYLED = f"five-and-four 20, fractions, mixed numbers in each of {len(STYLES)} house styles"


def build_proof(below: int) -> Proof:
    """The proof for numerators and denominators from 1 to 12, or to a tenth of `below` where that is less."""
    largest = min(LARGEST, max(1, below // 10))
    pairs = list(product(range(1, largest + 1), repeat=2))
    jobs = [Job(str(WHOLE), prove_pairs, (WHOLE, [first], pairs)) for first in pairs]
    jobs += [Job(STYLED, prove_mixed, (line,)) for line in STYLES]
    mixed = [_compute(first, sign, second) for first, second, sign in product(MIXED, MIXED, OPERATIONS)]
    counts = {str(WHOLE): count_results(_compute((0, *a), s, (0, *b)) for a, b, s in product(pairs, pairs, OPERATIONS))}
    counts[STYLED] = Counts(*(len(STYLES) * count for count in count_results(mixed)))
    return Proof(jobs, counts)


def count_results(results: Iterable[Fraction]) -> Counts:
    """How many results a frame can hold, and how many are below zero."""
    found = [result >= 0 for result in results]
    return Counts(found.count(True), found.count(False))


def _compute(first: tuple[int, int, int], sign: str, second: tuple[int, int, int]) -> Fraction:
    a, b = (whole + Fraction(above, below) for whole, above, below in (first, second))
    if sign in "+-":
        return a + b if sign == "+" else a - b
    return a * b if sign == "×" else a / b


def prove_pairs(line: Line, firsts: Iterable[Parts], seconds: Iterable[Parts]) -> Tally:
    """Work and judge every operation on the fractions of two lists."""
    return prove(line, _build_dues(line, [(0, *first) for first in firsts], [(0, *second) for second in seconds]))


def prove_mixed(line: Line) -> Tally:
    """Work and judge every operation on the sample of mixed numbers."""
    return prove(line, _build_dues(line, MIXED, MIXED))


def _build_dues(
    line: Line, firsts: Iterable[tuple[int, int, int]], seconds: Iterable[tuple[int, int, int]]
) -> Iterator[Due]:
    for first, second, sign in product(firsts, seconds, OPERATIONS):
        result = _compute(first, sign, second)
        whole, rest = divmod(result.numerator, result.denominator)
        fraction = f"{rest}/{result.denominator}" if rest else ""
        answer = f"{whole} {fraction}".strip() if whole or not rest else fraction
        problem = FractionProblem(MixedNumber(*first), sign, MixedNumber(*second))  # type: ignore[arg-type]
        yield Due(problem, line.house, answer, BELOW_ZERO if result < 0 else 0)
