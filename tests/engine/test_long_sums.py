"""Longer sums, decimals and several numbers, drawn by hypothesis and judged by the referee."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beadwright.engine import FrameError, Walkthrough
from tests.referee import check_data, find_refusal
from tests.support.frames import COLUMNS, ORDERS, Way, work

WAYS = st.builds(
    Way,
    st.sampled_from(sorted(COLUMNS)),
    st.sampled_from(["partners", "counting"]),
    st.sampled_from(ORDERS),
    st.sampled_from(ORDERS),
)


def build_numbers(most_digits: int, most_places: int) -> st.SearchStrategy[str]:
    """Numbers as a problem's text has them."""
    whole = st.integers(0, 10**most_digits - 1).map(str)
    decimals = st.text("0123456789", max_size=most_places)
    return st.builds(lambda number, places: f"{number}.{places}" if places else number, whole, decimals)


def build_sums(most_digits: int, most_places: int, most_terms: int) -> st.SearchStrategy[str]:
    """Sums of up to so many numbers."""
    number = build_numbers(most_digits, most_places)
    further = st.lists(st.tuples(st.sampled_from("+-"), number), min_size=1, max_size=most_terms - 1)
    return st.builds(lambda first, rest: " ".join([first, *(f"{s} {n}" for s, n in rest)]), number, further)


def judge(text: str, way: Way, columns: int) -> None:
    """A sum is worked as the referee has it, or refused as the referee has it."""
    refusal = find_refusal(text, columns)
    if refusal is None:
        walkthrough = work(text, way, columns=columns)
        data = json.loads(json.dumps(walkthrough.to_data()))
        check_data(data)
        assert Walkthrough.from_data(data).to_data() == walkthrough.to_data()
        return
    with pytest.raises(FrameError) as refused:
        work(text, way, columns=columns)
    code = {"too-wide": "frame-too-short", "below-zero": "below-zero"}[refusal.why]
    assert (refused.value.code, refused.value.missing) == (code, refusal.missing)
    assert refused.value.reason.startswith(f"Number {refusal.at} of {text}")


@given(build_sums(7, 0, 6), WAYS)
def test_whole_numbers(text: str, way: Way) -> None:
    judge(text, way, 13)


@given(build_sums(6, 5, 5), WAYS)
def test_decimals(text: str, way: Way) -> None:
    judge(text, way, 26)


@given(build_sums(3, 2, 4), WAYS, st.integers(1, 6))
def test_frames_that_may_be_too_short(text: str, way: Way, columns: int) -> None:
    judge(text, way, columns)


@given(build_sums(40, 0, 3), WAYS)
def test_very_long_frames(text: str, way: Way) -> None:
    judge(text, way, 104)


@given(st.lists(build_numbers(4, 2), min_size=2, max_size=20), WAYS)
def test_columns_of_numbers(numbers: list[str], way: Way) -> None:
    judge(" + ".join(numbers), way, 13)
