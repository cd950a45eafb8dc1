"""Every a ÷ b with b below a tenth of the limit in one house style, and a sample in every house style.

The sample is divided to one place too, cut and rounded, so that the marker is worked. Also on a frame that is too
short for some of them, with the divisor set, where those must be refused; and by taking away again and again on a
nine-bead frame of three columns. Answers from integers.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import product

from beadwright.engine import HouseStyle, Inner, KeptFactor, Number, Order, Quotient, Rounding, Trial
from tests.prove.lines import Due, Line, count_refused, prove
from tests.prove.tally import Counts, Job, Proof, Tally

SHARE = 25  # dividends a job
SAMPLE_A = 37
SAMPLE_B = 7
METHOD = "trial-digits"

WHOLE = Line("five-and-four", 13, METHOD, HouseStyle(), "divisor remembered")
SHORT = Line("five-and-four", 6, METHOD, HouseStyle(kept_factor=KeptFactor.SET), "divisor set")
REPEATED = Line("nine-bead", 3, "repeated-taking-away", HouseStyle(), "by partners")


def build_styles() -> list[Line]:
    """A line for every house style that a quotient follows; rounding stands for one that is taken to a place."""
    lines = []
    for add, take, inner, kept, trial, rounding in product(Order, Order, Inner, KeptFactor, Trial, Rounding):
        house = HouseStyle(
            add_order=add, take_order=take, inner=inner, kept_factor=kept, trial=trial, rounding=rounding
        )
        said = f"add {add}, take {take}, {inner}, {kept}, {trial}, {rounding}"
        lines.append(Line("five-and-four", 13, METHOD, house, said))
    return lines


STYLES = build_styles()
STYLED = f"five-and-four 13, trial-digits, a sample in each of {len(STYLES)} house styles"


def build_proof(below: int) -> Proof:
    """The proof for dividends from 0 to less than `below`, divisors from 1 to less than a tenth of it."""
    shares = [range(first, min(first + SHARE, below)) for first in range(0, below, SHARE)]
    divisors = range(1, max(2, below // 10))
    jobs = [Job(str(line), prove_pairs, (line, share, divisors)) for line in (WHOLE, SHORT) for share in shares]
    sample = range(0, below, SAMPLE_A), range(1, divisors.stop, SAMPLE_B)
    jobs += [Job(STYLED, prove_sample, (line, *sample)) for line in STYLES]
    jobs += [Job(str(REPEATED), prove_pairs, (REPEATED, share[::SAMPLE_B], divisors)) for share in shares]
    counts = {str(line): count_pairs(line, range(below), divisors) for line in (WHOLE, SHORT)}
    counts[STYLED] = Counts(2 * len(STYLES) * len(sample[0]) * len(sample[1]), 0)
    counts[str(REPEATED)] = Counts(sum(len(share[::SAMPLE_B]) for share in shares) * len(divisors), 0)
    return Proof(jobs, counts)


def find_missing(line: Line, dividend: int, divisor: int) -> int:
    """How many columns the line's frame lacks for a whole quotient with remainder (PROCEDURES §3.4, §3.7)."""
    k, n = len(str(dividend)), len(str(divisor))
    if line.method != METHOD:
        return max(0, k - line.columns)
    first = int(str(dividend).ljust(n, "0")[:n])
    needed = max(n + 2, k + 1 if divisor > first else k + 2)
    return max(0, needed + (n + 1 if line.house.kept_factor is KeptFactor.SET else 0) - line.columns)


def count_pairs(line: Line, dividends: Iterable[int], divisors: Iterable[int]) -> Counts:
    """How many of all quotients of two ranges can be worked, and how many not."""
    return Counts(*count_refused(product(dividends, divisors), lambda a, b: find_missing(line, a, b)))


def prove_pairs(line: Line, dividends: Iterable[int], divisors: Iterable[int]) -> Tally:
    """Work and judge every whole quotient with remainder of two ranges."""
    return prove(line, _build_dues(line, dividends, divisors))


def prove_sample(line: Line, dividends: Iterable[int], divisors: Iterable[int]) -> Tally:
    """The same, and every quotient to one place besides."""
    pairs = list(product(dividends, divisors))
    tenths = [_build_due(line, a, b, 1) for a, b in pairs]
    return prove(line, [*[_build_due(line, a, b, 0) for a, b in pairs], *tenths])


def _build_dues(line: Line, dividends: Iterable[int], divisors: Iterable[int]) -> Iterator[Due]:
    for a, b in product(dividends, divisors):
        yield _build_due(line, a, b, 0)


def _build_due(line: Line, a: int, b: int, places: int) -> Due:
    units, left = divmod(a * 10**places, b)
    house = line.house
    if house.trial is Trial.GIVEN:
        tried = len(str(units).replace("0", ""))
        house = replace(house, trial_digits=tuple((a + 3 * b + index) % 11 for index in range(tried)))
    rounded = house.rounding is Rounding.HALF_UP and places > 0
    if rounded:
        units += 2 * left >= b
    quotient = f"{units // 10}.{units % 10}" if places else str(units)
    rest = f"{left // 10}.{left % 10}" if places else str(left)
    answer = quotient if rounded or left == 0 else f"{quotient} r {rest}"
    missing = find_missing(line, a, b) if places == 0 else 0
    return Due(Quotient(Number(a), Number(b), places), house, answer, missing)
