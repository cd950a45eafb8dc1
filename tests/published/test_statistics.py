"""Statistics against worked examples that others have published; each names its source."""

import pytest

from beadwright.records import Scores, compare_pairs, find_item_total, find_reliability

# Real Statistics, "KR-20 Example 1" (real-statistics.com, Kuder and Richardson Formula 20): 12 students, 11 items; the
# page gives KR-20 = 0.738. Pingouin's documentation of the same data gives 0.7380 after missing values are filled in.
KR20 = (
    "11111111111", "11111111010", "10111111100", "11101101100", "11111000100", "01101111000",
    "11110010000", "11111000000", "01011000010", "10010100000", "11100000000", "10010000000",
)  # fmt: skip
KR20_SCORES = Scores([[int(sign) for sign in row] for row in KR20])
# The corrected item-total correlations of the same matrix, worked out apart from this project with NumPy.
KR20_CORRECTED = [-0.0147, 0.1571, 0.5000, -0.0755, 0.5754, 0.4756, 0.5513, 0.7260, 0.4890, 0.3665, 0.5462]

# Darwin's plants, as in SciPy's documentation of scipy.stats.wilcoxon: statistic 24, p = 0.041259765625.
PLANTS = [6, 8, 14, 16, 23, 24, 28, 29, 41, -48, 49, 56, 60, -67, 75]


def test_kr20_of_real_statistics() -> None:
    found = find_reliability(KR20_SCORES)
    assert found is not None
    assert found.alpha == pytest.approx(0.738, abs=0.0005)
    assert (found.people, found.items) == (12, 11)


def test_kr20_is_not_that_of_the_wrong_variance() -> None:
    # With the sample variance of the totals beside p·q, a published trap, the same data would give 0.768182.
    found = find_reliability(KR20_SCORES)
    assert found is not None
    assert found.alpha == pytest.approx(0.738019, abs=1e-6)


@pytest.mark.parametrize("item", range(11))
def test_discrimination_of_the_same_items(item: int) -> None:
    assert find_item_total(KR20_SCORES, item) == pytest.approx(KR20_CORRECTED[item], abs=5e-5)


def test_wilcoxon_of_darwins_plants() -> None:
    found = compare_pairs(PLANTS)
    assert found is not None
    assert (found.plus, found.minus, found.exact) == (96, 24, True)
    assert found.p == 0.041259765625
    # (96 - 24) / 120, the matched-pairs rank-biserial correlation as Kerby (2014) defines it.
    assert found.effect == pytest.approx(0.6)


def test_wilcoxon_takes_equal_differences_for_equal() -> None:
    # From SciPy's documentation of wilcoxon: taken raw, these give the statistic 5; rounded as they should be, 6.
    before, after = (0.5, 0.825, 0.375, 0.5), (0.525, 0.775, 0.325, 0.55)
    found = compare_pairs(x - y for x, y in zip(before, after, strict=True))
    assert found is not None
    assert (found.plus, found.minus) == (6, 4)


def test_point_biserial_of_scipys_documentation() -> None:
    # SciPy's documentation of scipy.stats.pointbiserialr: 0.8660254 for these seven pairs.
    # Of two items, the total of the others is the other one.
    pairs = Scores(zip([0, 0, 0, 1, 1, 1, 1], range(7), strict=True))
    assert find_item_total(pairs, 0) == pytest.approx(0.8660254037844386)
