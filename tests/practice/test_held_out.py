"""Simulated learners with one slip, on fresh problems: does the page name the slip that was made?

The learners share no code with what made the page (`tests/support/learners.py`); what is judged is the page's own data.
"""

from pathlib import Path

import pytest

from tests.support.heldout import tally, write_items

SEED = 20_260_907
LEAST_SHARE = 0.9
LEAST_CASES = 500


@pytest.mark.parametrize("operation", write_items(SEED))
def test_the_slip_that_was_made_is_named_first_or_tied_first(tmp_path: Path, operation: str) -> None:
    told = tally(tmp_path, write_items(SEED)[operation])
    assert told.places.total() >= LEAST_CASES
    assert told.share >= LEAST_SHARE, (told.places, told.missed.most_common(5))
    # Hardly a wrong answer that the page knows nothing about.
    assert told.places["none"] <= 0.08 * told.places.total()


def test_a_page_that_names_another_slip_is_found_out(tmp_path: Path) -> None:
    """The judge can fail: with the heads of all answers changed, next to nothing is named rightly."""
    told = tally(tmp_path, write_items(SEED)["adding"], rename=lambda slip: f"not-{slip}")
    assert told.share == 0
