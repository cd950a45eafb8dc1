"""Booklets by typst: the template and the fonts that ship, and nothing of the machine it runs on.

Size, spacing and face follow what the guidelines for large print agree on: 18 point or more, sans-serif, left aligned,
no italics. Where they differ (spacing between lines, paper) it is a setting.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from importlib.util import find_spec
from typing import Literal

from beadwright.paths import templates_dir
from beadwright.render.booklet import Booklet
from beadwright.render.print.data import build_data
from beadwright.render.words import Words

MISSING = "Large print is not made: it needs typst. Install it with: pip install 'beadwright[print]'"
PaperName = Literal["us-letter", "a4"]
LEAST_SIZE = 18
MOST_SIZE = 36


class PrintError(Exception):
    """The typesetter refused a booklet; the message is its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintStyle:
    """Body text in points (18 to 36), from line to line as a multiple of it (1 to 2), paper; else `ValueError`."""

    size: int = LEAST_SIZE
    spacing: float = 1.25
    paper: PaperName = "us-letter"

    def __post_init__(self) -> None:
        if not LEAST_SIZE <= self.size <= MOST_SIZE:
            raise ValueError(f"large print is {LEAST_SIZE} to {MOST_SIZE} points, not {self.size}")
        if not 1 <= self.spacing <= 2:
            raise ValueError(f"lines stand 1 to 2 times their size apart, not {self.spacing:g}")


USUAL_STYLE = PrintStyle()


def find_typst() -> bool:
    """Whether the typesetter is installed."""
    return find_spec("typst") is not None


def print_booklet(booklet: Booklet, words: Words, style: PrintStyle = USUAL_STYLE) -> bytes:
    """The booklet as a tagged PDF that claims PDF/UA-1; the same bytes for the same booklet.

    Raises `PrintError` when the typesetter refuses it, `ModuleNotFoundError` where typst is not installed.
    """
    import typst

    folder = templates_dir() / "print"
    inputs = {
        "data": json.dumps(build_data(booklet, words), ensure_ascii=False),
        "size": str(style.size),
        "spacing": str(style.spacing),
        "paper": style.paper,
    }
    try:
        made = typst.compile(
            str(folder / "booklet.typ"),
            root=str(folder),
            font_paths=[str(folder / "fonts")],
            ignore_system_fonts=True,
            format="pdf",
            sys_inputs=inputs,
            pdf_standards=["ua-1"],
        )
    except typst.TypstError as error:
        raise PrintError(str(error)) from error
    if not isinstance(made, bytes):
        raise PrintError("typst gave no single file")
    return made
