"""An author's own trial digits for one quotient."""

from pathlib import Path

import pytest

from beadwright.engine import HouseStyle, Trial
from tests.course.writing import load_lesson, write_lesson


def load_house(folder: Path, digits: str) -> tuple[list[str], HouseStyle | None]:
    """The codes of what is found, and the house style of a walkthrough with these trial digits."""
    body = f"- walkthrough: {{problem: 3588 ÷ 46, trial_digits: {digits}}}\n"
    loaded = load_lesson(folder, write_lesson(body=body))
    examples = [block for lesson in loaded.lessons for block in lesson.body if hasattr(block, "walkthrough")]
    house = examples[0].walkthrough.house(HouseStyle()) if examples else None
    return [finding.code for finding in loaded.findings], house


@pytest.mark.parametrize(("digits", "tried"), [("[6, 8]", (6, 8)), ("[6]", (6,)), ("6", (6,))])
def test_digits_are_given_in_their_order(tmp_path: Path, digits: str, tried: tuple[int, ...]) -> None:
    found, house = load_house(tmp_path, digits)
    assert found == []
    assert house == HouseStyle(trial=Trial.GIVEN, trial_digits=tried)


@pytest.mark.parametrize("digits", ["[6, 10]", "[0]", "[six]", "[6, 8, 1]"])
def test_what_is_no_trial_digit_is_found(tmp_path: Path, digits: str) -> None:
    """3588 ÷ 46 = 78 tries two digits; a third is one too many."""
    found, _ = load_house(tmp_path, digits)
    assert found != []
