"""Braille: arithmetic in Nemeth Code and in UEB, on a line and in columns; text by liblouis; pages.

Whole booklets are set by `beadwright.render.braille.edition`.
"""

from beadwright.render.braille.atoms import Code
from beadwright.render.braille.cells import BLANK, BrailleError, to_ascii, to_cells
from beadwright.render.braille.codes import CODES, NEMETH, UEB, build_code
from beadwright.render.braille.lines import break_row, write_row
from beadwright.render.braille.literary import MISSING, find_liblouis
from beadwright.render.braille.nemeth import Nemeth
from beadwright.render.braille.pages import BraillePages, Geometry, read_cells
from beadwright.render.braille.rows import (
    Row,
    build_answer_row,
    build_equation_row,
    build_number_row,
    build_problem_row,
)
from beadwright.render.braille.showing import show_number, show_problem
from beadwright.render.braille.spatial import can_stand, lay_out
from beadwright.render.braille.ueb import Ueb

__all__ = [
    "BLANK",
    "CODES",
    "MISSING",
    "NEMETH",
    "UEB",
    "BrailleError",
    "BraillePages",
    "Code",
    "Geometry",
    "Nemeth",
    "Row",
    "Ueb",
    "break_row",
    "build_answer_row",
    "build_code",
    "build_equation_row",
    "build_number_row",
    "build_problem_row",
    "can_stand",
    "find_liblouis",
    "lay_out",
    "read_cells",
    "show_number",
    "show_problem",
    "to_ascii",
    "to_cells",
    "write_row",
]
