"""Statistics against SciPy, which works them out in another way, over invented data."""

import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from beadwright.records.statistics import (
    Scores,
    compare_pairs,
    correct_for_many,
    find_item_total,
    find_reliability,
    rank_sizes,
)

changes = st.lists(st.integers(-4, 4), min_size=1, max_size=11)


@settings(max_examples=40, deadline=None)
@given(changes)
def test_exact_p_is_that_of_all_sign_flips(values: list[int]) -> None:
    found = compare_pairs(values)
    kept = np.array([value for value in values if value != 0])
    if len(kept) == 0:
        assert found is None
        return
    # Every way to give the sizes their signs, counted one by one.
    ranks = stats.rankdata(abs(kept))
    signs = (np.arange(2 ** len(kept))[:, None] >> np.arange(len(kept))) & 1
    sums = np.minimum(signs @ ranks, (1 - signs) @ ranks)
    seen = min(ranks[kept > 0].sum(), ranks[kept < 0].sum())
    assert found is not None
    assert found.p == pytest.approx((sums <= seen).mean())
    assert found.plus == ranks[kept > 0].sum()
    assert found.effect == pytest.approx((ranks[kept > 0].sum() - ranks[kept < 0].sum()) / ranks.sum())


def test_normal_p_is_scipys() -> None:
    chance = random.Random(4)
    values = [chance.choice((-2, -1, 1, 1, 2, 3)) for _ in range(90)]
    found = compare_pairs(values)
    assert found is not None
    assert not found.exact
    assert found.p == pytest.approx(stats.wilcoxon(values, method="asymptotic", correction=False).pvalue)


def test_exact_and_normal_p_agree_where_one_follows_the_other() -> None:
    chance = random.Random(5)
    values = [chance.gauss(0.3, 1) for _ in range(60)]
    found = compare_pairs(values)
    assert found is not None
    assert found.exact
    assert found.p == pytest.approx(stats.wilcoxon(values, method="exact").pvalue)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(0, 5), min_size=1, max_size=20))
def test_ranks_are_scipys(values: list[int]) -> None:
    assert rank_sizes(values) == pytest.approx(stats.rankdata(values))


def make_scores(people: int, items: int) -> list[list[float]]:
    chance = random.Random(6)
    able = [chance.gauss(0, 1) for _ in range(people)]
    return [[float(chance.gauss(a, 1) > item / items - 0.5) for item in range(items)] for a in able]


def test_alpha_is_that_of_the_covariances() -> None:
    scores = make_scores(60, 9)
    found = find_reliability(Scores(scores))
    covariances = np.cov(np.array(scores).T)
    alpha = 9 / 8 * (1 - np.trace(covariances) / covariances.sum())
    assert found is not None
    assert found.alpha == pytest.approx(alpha)
    assert found.low == pytest.approx(1 - (1 - alpha) * stats.f.ppf(0.975, 59, 59 * 8))
    assert found.high == pytest.approx(1 - (1 - alpha) * stats.f.ppf(0.025, 59, 59 * 8))


def test_discrimination_leaves_the_item_out_of_the_total() -> None:
    scores = np.array(make_scores(60, 9))
    for item in range(9):
        rest = np.delete(scores, item, axis=1).sum(axis=1)
        assert find_item_total(Scores(scores.tolist()), item) == pytest.approx(stats.pearsonr(scores[:, item], rest)[0])


@pytest.mark.parametrize("scores", [[], [[1, 0]], [[1], [0]], [[1, 0], [1, 0]], [[1, 0], [0, 1]]])
def test_no_alpha_where_there_is_none(scores: list[list[float]]) -> None:
    assert find_reliability(Scores(scores)) is None


def test_no_correlation_with_what_is_constant() -> None:
    assert find_item_total(Scores([[1, 0], [1, 1], [1, 0]]), 0) is None
    assert find_item_total(Scores([[1, 0], [1, 1], [1, 0]]), 1) is None
    assert find_item_total(Scores([[1, 1]]), 0) is None


@settings(max_examples=40, deadline=None)
@given(st.lists(st.lists(st.integers(0, 1), min_size=4, max_size=4), min_size=2, max_size=30), st.randoms())
def test_the_order_of_people_changes_no_bit(rows: list[list[int]], chance: random.Random) -> None:
    shuffled = rows[:]
    chance.shuffle(shuffled)
    one, other = Scores(rows), Scores(shuffled)
    assert find_reliability(one) == find_reliability(other)
    assert [find_item_total(one, item) for item in range(4)] == [find_item_total(other, item) for item in range(4)]


def test_no_test_where_nobody_changed() -> None:
    assert compare_pairs([0, 0.0, 0]) is None


def test_correction_of_many_is_holms() -> None:
    # Holm's own procedure on four p, worked by hand: 4 × 0.01, 3 × 0.02, then never less than before, at most 1.
    assert correct_for_many([0.04, 0.01, 0.02, 0.9]) == pytest.approx([0.08, 0.04, 0.06, 0.9])
