"""Frames drawn in characters, held against drawings made by hand."""

import pytest

from beadwright.engine import build_frame
from beadwright.render.terminal import draw_frame

FIVE_AND_FOUR_905 = """\
| O |
O | O
=====
O | |
O O O
O O O
O O O
| O O
9 0 5"""

NINE_BEAD_940 = """\
=====
O O |
O O O
O O O
O O O
O | O
O O O
O O O
O O O
O O O
| O O
9 4 0"""


@pytest.mark.parametrize(
    ("name", "number", "drawing"),
    [("five-and-four", 905, FIVE_AND_FOUR_905), ("nine-bead", 940, NINE_BEAD_940)],
)
def test_a_frame_is_drawn_bead_by_bead(name: str, number: int, drawing: str) -> None:
    assert draw_frame(build_frame(name, columns=3).with_number(number)) == drawing


def test_marks_stand_on_the_bar_after_every_third_column() -> None:
    bar = draw_frame(build_frame(columns=7)).splitlines()[2]
    assert bar == "=+=====+====="


def test_the_join_of_two_frames_is_drawn() -> None:
    lines = draw_frame(build_frame(columns=26)).splitlines()
    assert lines[0] == " ".join("O" * 13) + "#" + " ".join("O" * 13)
    assert len({len(line) for line in lines}) == 1


def test_only_the_columns_asked_for_are_drawn() -> None:
    drawing = draw_frame(build_frame(columns=13).with_number(4321), columns=(3, 2))
    assert drawing.splitlines()[-1] == "3 2"
    assert {len(line) for line in drawing.splitlines()} == {3}
