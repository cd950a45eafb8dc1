"""A frame in words, against readings written by hand."""

import pytest

from beadwright.engine import build_frame
from beadwright.render.reading import name_frame, read_frame
from beadwright.render.words import load_words

WORDS = load_words("en")


READINGS = [
    (
        ("five-and-four", 305, 1),
        (
            "305: hundreds 3, tens 0, ones 5. "
            "On the hundreds 3 lower beads, on the tens no bead, on the ones the upper bead."
        ),
    ),
    (("five-and-four", 9, 1), "9: ones 9. On the ones the upper bead and 4 lower beads."),
    (("five-and-four", 60, 1), "60: tens 6, ones 0. On the tens the upper bead and 1 lower bead, on the ones no bead."),
    (("nine-bead", 37, 1), "37: tens 3, ones 7. On the tens 3 beads, on the ones 7 beads."),
    (
        ("five-and-four", 12500, 4),
        (
            "12.5: tens 1, ones 2, tenths 5. "
            "On the tens 1 lower bead, on the ones 2 lower beads, on the tenths the upper bead."
        ),
    ),
    (
        ("five-and-four", 50, 4),
        (
            "0.05: ones 0, tenths 0, hundredths 5. "
            "On the ones no bead, on the tenths no bead, on the hundredths the upper bead."
        ),
    ),
    (("five-and-four", 301, None), "Column 3: 3, column 1: 1. In column 3: 3 lower beads, in column 1: 1 lower bead."),
    (("five-and-four", 0, 1), "Nothing is set; every column is at rest."),
]


@pytest.mark.parametrize(("shown", "said"), READINGS)
def test_a_frame_is_read_whole(shown: tuple[str, int, int | None], said: str) -> None:
    name, number, ones_column = shown
    frame = build_frame(name, columns=9).with_number(number)
    assert read_frame(frame, WORDS, ones_column=ones_column) == said


def test_a_thousand_is_grouped() -> None:
    assert read_frame(build_frame().with_number(1048), WORDS).startswith(
        "1,048: thousands 1, hundreds 0, tens 4, ones 8."
    )


def test_a_reading_can_keep_the_number_back() -> None:
    said = read_frame(build_frame().with_number(407), WORDS, digits=False)
    assert said == "On the hundreds 4 lower beads, on the tens no bead, on the ones the upper bead and 2 lower beads."


def test_a_reading_goes_down_to_the_place_wanted() -> None:
    said = read_frame(build_frame().with_number(12500), WORDS, ones_column=4, lowest=2)
    assert said.startswith("12.50: tens 1, ones 2, tenths 5, hundredths 0.")


def test_a_picture_has_a_short_name() -> None:
    assert name_frame(build_frame().with_number(85), WORDS) == "Frame: tens 8, ones 5"
    assert name_frame(build_frame().with_number(805), WORDS, ones_column=None) == "Frame: column 3: 8, column 1: 5"
    assert name_frame(build_frame(), WORDS) == "Frame: every column at rest"
