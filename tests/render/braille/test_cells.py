"""Cells as Braille ASCII, against another maker of the same table."""

import subprocess

import pytest

from beadwright.render.braille import BrailleError, to_ascii, to_cells

ALL_CELLS = "".join(chr(0x2800 + place) for place in range(64))


def test_all_cells_are_written_as_the_system_writes_them() -> None:
    """The C library's own character map BRF, through iconv."""
    done = subprocess.run(["iconv", "-f", "UTF-8", "-t", "BRF"], input=ALL_CELLS.encode(), capture_output=True)
    assert done.returncode == 0, done.stderr
    assert to_ascii(ALL_CELLS) == done.stdout.decode("ascii")


def test_every_cell_comes_back() -> None:
    assert to_cells(to_ascii(ALL_CELLS)) == ALL_CELLS


def test_small_letters_are_read_as_capitals_are() -> None:
    assert to_cells("`ab{c|d}~") == to_cells("@AB[C\\D]^")


@pytest.mark.parametrize("text", ["é", "\n", "⠁"])
def test_what_is_not_braille_ascii_is_refused(text: str) -> None:
    with pytest.raises(BrailleError, match="Braille ASCII"):
        to_cells(text)


@pytest.mark.parametrize("text", ["a", " ", "⡀"])
def test_what_is_no_cell_of_six_dots_is_refused(text: str) -> None:
    with pytest.raises(BrailleError, match="six dots"):
        to_ascii(text)
