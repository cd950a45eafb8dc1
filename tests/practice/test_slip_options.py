"""The slips offered beside the one that was made: never a second one that is as true of the same beads."""

import pytest

from beadwright.engine import build_frame, parse_problem, work_problem
from beadwright.practice.entries import build_find_slip

SEEDS = [str(number) for number in range(12)]


def offer(problem: str, slip: str, seed: str, *, frame: str = "five-and-four", step: int | None = None) -> set[str]:
    """The options of a worked example with this slip."""
    walkthrough = work_problem(parse_problem(problem), build_frame(frame))
    return set(build_find_slip(walkthrough, slip, step, seed=seed).options)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize(
    ("problem", "slip", "as_true"),
    [
        # 8 − 3 is 5, and 3 with the partner of 8 is 5 as well: turned round or not exchanged, the beads are the same.
        ("43 - 18", "wrong-way-round", "exchange-dropped"),
        ("43 - 18", "exchange-dropped", "wrong-way-round"),
        # The 1 was not set: half of the exchange is missing, and one bead too few was moved.
        ("48 + 37", "exchange-dropped", "partner-off-by-one"),
        ("2998 + 7", "runs-out-at-nine", "exchange-dropped"),
        ("102 - 4", "borrow-through-zero", "exchange-dropped"),
        # 3 + 4: the one lower bead that is left is the one bead too few.
        ("3 + 4", "lower-beads-left", "partner-off-by-one"),
    ],
)
def test_no_second_answer_is_right(problem: str, slip: str, as_true: str, seed: str) -> None:
    options = offer(problem, slip, seed)
    assert slip in options
    assert as_true not in options
    assert len(options) == 4


def test_where_the_beads_differ_both_may_be_offered() -> None:
    """43 − 17: turned round the ones hold 4, without the exchange they hold 6."""
    assert any("exchange-dropped" in offer("43 - 17", "wrong-way-round", seed) for seed in SEEDS)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_frame_without_upper_beads_has_no_slips_of_them(seed: str) -> None:
    options = offer("6 + 0", "column-drift", seed, frame="nine-bead")
    assert options.isdisjoint({"upper-bead-as-one", "lower-beads-left", "five-for-ten"})


@pytest.mark.parametrize("seed", SEEDS)
def test_a_number_that_is_only_set_is_not_beset_with_exchanges(seed: str) -> None:
    options = offer("5 + 0", "upper-bead-as-one", seed)
    assert options.isdisjoint({"exchange-dropped", "wrong-neighbour", "runs-out-at-nine", "borrow-through-zero"})
