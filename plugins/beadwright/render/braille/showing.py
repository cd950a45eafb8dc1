"""A problem as a page shows it in braille: on one line, in the course's code, from the same row as its braille file."""

from __future__ import annotations

from beadwright.engine import Problem
from beadwright.render.braille.codes import build_code
from beadwright.render.braille.lines import write_row
from beadwright.render.braille.rows import Row, build_number_row, build_problem_row
from beadwright.render.words import Words


def show_problem(problem: Problem, code: str, words: Words) -> str:
    """The cells of a problem in a code (`nemeth` or `ueb`); what is no arithmetic, such as places wanted, is not in it.

    >>> from beadwright.engine import parse_problem
    >>> from beadwright.render.words import load_words
    >>> show_problem(parse_problem("48 + 37"), "nemeth", load_words("en"))
    '⠼⠲⠦⠬⠒⠶'
    """
    return _write(build_problem_row(problem, of=words.text("problem.of")), code)


def show_number(text: str, code: str) -> str:
    """The cells of a number as data writes it.

    >>> show_number("1305", "ueb")
    '⠼⠁⠂⠉⠚⠑'
    """
    return _write(build_number_row(text), code)


def _write(row: Row, code: str) -> str:
    return write_row(row, build_code(code))
