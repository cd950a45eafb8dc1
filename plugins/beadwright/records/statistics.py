"""Statistics of items and of paired ratings, each with the conditions under which it says something.

Published examples in tests/published/test_statistics.py; independent libraries in tests/records.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import erfc, sqrt

MOST_EXACT = 60
"""So many pairs that differ have their exact p; beyond, the normal approximation is as good."""


@dataclass(frozen=True, slots=True)
class Reliability:
    """Cronbach's alpha (KR-20 where scores are 0 and 1), with the confidence interval of Feldt (1965)."""

    alpha: float
    low: float
    high: float
    people: int
    items: int


@dataclass(frozen=True, slots=True)
class Paired:
    """A Wilcoxon signed-rank test of paired values (1945), pairs that do not differ left out.

    `plus` and `minus` are the sums of ranks of rises and falls, ties at their mean rank; `p` is two-sided; `effect` is
    the matched-pairs rank-biserial correlation of Kerby (2014): the share of ranks that rise less the share that fall.
    """

    pairs: int
    differing: int
    plus: float
    minus: float
    p: float
    exact: bool
    effect: float


class Scores:
    """Scores of people who have one for each item, kept as sums alone: a million people take no more room than two.

    Sums of whole numbers are exact, so the order of people changes nothing.
    """

    def __init__(self, rows: Iterable[Sequence[float]] = ()) -> None:
        self.people = 0
        self.total: float = 0
        self.total_squares: float = 0
        self.sums: list[float] = []
        self.squares: list[float] = []
        self.crossed: list[float] = []
        """Of each item the sum of score by total."""
        for row in rows:
            self.add(row)

    def add(self, row: Sequence[float]) -> None:
        """One person's scores, one for each item."""
        if self.people == 0:
            nothing: list[float] = [0] * len(row)
            self.sums, self.squares, self.crossed = nothing[:], nothing[:], nothing
        total = sum(row)
        self.people += 1
        self.total += total
        self.total_squares += total * total
        for item, score in enumerate(row):
            self.sums[item] += score
            self.squares[item] += score * score
            self.crossed[item] += score * total


def _find_spread(people: int, total: float, squares: float) -> float:
    """The sum of squared distances from the mean, times the number of people."""
    return people * squares - total * total


def find_reliability(scores: Scores, *, confidence: float = 0.95) -> Reliability | None:
    """Alpha of complete scores; None with fewer than two items or people, or when everybody has the same total.

    Feldt (1965): (1 - alpha) / (1 - estimate) follows F with people - 1 and (people - 1)(items - 1) degrees of freedom.
    """
    people, items = scores.people, len(scores.sums)
    if people < 2 or items < 2:
        return None
    totals = _find_spread(people, scores.total, scores.total_squares)
    if totals == 0:
        return None
    each = sum(_find_spread(people, one, square) for one, square in zip(scores.sums, scores.squares, strict=True))
    alpha = items / (items - 1) * (1 - each / totals)
    low, high = _find_feldt(alpha, people, items, confidence)
    return Reliability(alpha, low, high, people, items)


def _find_feldt(alpha: float, people: int, items: int, confidence: float) -> tuple[float, float]:
    from scipy.special import fdtri  # loaded here, because the import takes longer than most cohorts

    upper = 1 - (1 - confidence) / 2
    first, second = people - 1, (people - 1) * (items - 1)
    low = 1 - (1 - alpha) * float(fdtri(first, second, upper))
    high = 1 - (1 - alpha) * float(fdtri(first, second, 1 - upper))
    return low, high


def find_item_total(scores: Scores, item: int) -> float | None:
    """The corrected discrimination of an item: Pearson's r of it and the total of the others.

    None where either is constant or fewer than two people stand there.
    """
    if scores.people < 2:
        return None
    own, square, crossed = scores.sums[item], scores.squares[item], scores.crossed[item]
    rest, rest_squares = scores.total - own, scores.total_squares - 2 * crossed + square
    spread = _find_spread(scores.people, own, square) * _find_spread(scores.people, rest, rest_squares)
    return None if spread <= 0 else (scores.people * (crossed - square) - own * rest) / sqrt(spread)


def compare_pairs(changes: Iterable[float]) -> Paired | None:
    """The test of these changes (after less before); None when no pair differs.

    Up to `MOST_EXACT` differing pairs the p is exact, from all ways to give the ranks signs, ties included; beyond that
    it is the normal approximation with the correction for ties.
    """
    every = [round(change, 9) for change in changes]  # 0.3 - 0.1 and 0.2 are the same change
    differing = [change for change in every if change != 0]
    if differing == []:
        return None
    ranks = rank_sizes([abs(change) for change in differing])
    plus = sum(rank for rank, change in zip(ranks, differing, strict=True) if change > 0)
    minus = sum(ranks) - plus
    exact = len(differing) <= MOST_EXACT
    p = _find_exact_p(ranks, min(plus, minus)) if exact else _find_normal_p(ranks, plus)
    effect = (plus - minus) / (plus + minus)
    return Paired(len(every), len(differing), plus, minus, p, exact, effect)


def rank_sizes(sizes: Sequence[float]) -> list[float]:
    """The rank of each value, 1 for the least; equal values share the mean of their ranks.

    >>> rank_sizes([3, 1, 3])
    [2.5, 1.0, 2.5]
    """
    order = sorted(range(len(sizes)), key=lambda index: sizes[index])
    ranks = [0.0] * len(sizes)
    before = 0
    for _, group in groupby(order, key=lambda index: sizes[index]):
        tied = list(group)
        for index in tied:
            ranks[index] = before + (len(tied) + 1) / 2
        before += len(tied)
    return ranks


def _find_exact_p(ranks: Sequence[float], smaller: float) -> float:
    """Of all ways to give the ranks signs, the share with a smaller sum no larger than this one."""
    doubled = [round(2 * rank) for rank in ranks]  # mean ranks are halves
    ways = [1] + [0] * sum(doubled)
    reach = 0
    for rank in doubled:
        reach += rank
        for total in range(reach, rank - 1, -1):
            ways[total] += ways[total - rank]
    below = sum(ways[: round(2 * smaller) + 1])
    return min(1.0, 2 * below / (1 << len(ranks)))


def _find_normal_p(ranks: Sequence[float], plus: float) -> float:
    mean = sum(ranks) / 2
    deviation = sqrt(sum(rank * rank for rank in ranks) / 4)
    return min(1.0, erfc(abs(plus - mean) / deviation / sqrt(2)))


def correct_for_many(ps: Sequence[float]) -> list[float]:
    """Holm's (1979) correction of several p, in their own order.

    >>> correct_for_many([0.01, 0.04, 0.03])
    [0.03, 0.06, 0.06]
    """
    order = sorted(range(len(ps)), key=lambda index: ps[index])
    corrected = [0.0] * len(ps)
    least = 0.0
    for place, index in enumerate(order):
        least = max(least, min(1.0, (len(ps) - place) * ps[index]))
        corrected[index] = least
    return corrected
