"""√n for n below a hundred times the limit, by both methods, and a sample in every house style.

Also on a frame that is too short for some of them, where those must be refused. Answers from `isqrt`.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product
from math import isqrt

from beadwright.engine import HouseStyle, Inner, Number, Order, Root
from tests.prove.lines import Due, Line, count_refused, prove
from tests.prove.tally import Counts, Job, Proof, Tally

SHARE = 500  # radicands a job
SAMPLE = 97
METHODS = ("odd-number", "double-root")
BESIDE = {"odd-number": 1, "double-root": 2}

WHOLE = [Line("five-and-four", 13, method, HouseStyle(), "usual style") for method in METHODS]
SHORT = Line("five-and-four", 8, "double-root", HouseStyle(), "usual style")


def build_styles() -> list[Line]:
    """A line for every method and house style that a root follows."""
    lines = []
    for method, add, take, inner in product(METHODS, Order, Order, Inner):
        house = HouseStyle(add_order=add, take_order=take, inner=inner)
        lines.append(Line("five-and-four", 13, method, house, f"add {add}, take {take}, {inner}"))
    return lines


STYLES = build_styles()
STYLED = f"five-and-four 13, roots, a sample by both methods in {len(STYLES) // 2} house styles"


def build_proof(below: int) -> Proof:
    """The proof for radicands from 0 to less than a hundred times `below`."""
    end = 100 * below
    shares = [range(first, min(first + SHARE, end)) for first in range(0, end, SHARE)]
    jobs = [Job(str(line), prove_roots, (line, share)) for line in (*WHOLE, SHORT) for share in shares]
    sample = range(0, end, SAMPLE)
    jobs += [Job(STYLED, prove_roots, (line, sample)) for line in STYLES]
    counts = {str(line): count_roots(line, range(end)) for line in (*WHOLE, SHORT)}
    counts[STYLED] = Counts(len(STYLES) * len(sample), 0)
    return Proof(jobs, counts)


def find_missing(line: Line, radicand: int) -> int:
    """How many columns the line's frame lacks for a root (PROCEDURES §3.10)."""
    r = len(str(radicand))
    return max(0, r + (r + 1) // 2 + BESIDE[line.method] - line.columns)


def count_roots(line: Line, radicands: Iterable[int]) -> Counts:
    """How many of these roots can be worked, and how many not."""
    return Counts(*count_refused(((n, 0) for n in radicands), lambda n, _: find_missing(line, n)))


def prove_roots(line: Line, radicands: Iterable[int]) -> Tally:
    """Work and judge the root of every one of these numbers."""
    return prove(line, [_build_due(line, n) for n in radicands])


def _build_due(line: Line, n: int) -> Due:
    root = isqrt(n)
    left = n - root * root
    answer = f"{root} r {left}" if left else str(root)
    return Due(Root(Number(n)), line.house, answer, find_missing(line, n))
