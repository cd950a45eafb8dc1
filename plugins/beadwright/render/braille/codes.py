"""The codes for arithmetic by their names."""

from __future__ import annotations

from beadwright.render.braille.atoms import Code
from beadwright.render.braille.nemeth import Nemeth
from beadwright.render.braille.ueb import Ueb

NEMETH = Nemeth()
UEB = Ueb()
CODES = ("nemeth", "ueb")
"""The names of the codes."""


def build_code(name: str, *, contracted: bool = True) -> Code:
    """The code `nemeth` or `ueb`; `contracted` says how UEB writes words in it. `ValueError` for any other name."""
    if name not in CODES:
        raise ValueError(f"the braille code for arithmetic is nemeth or ueb, not {name!r}")
    return NEMETH if name == "nemeth" else Ueb(contracted=contracted)
