"""What a code makes of a row: atoms, which lines are made of, and what codes share."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import Protocol

from beadwright.render.braille.rows import Row


class Kind(Enum):
    """How an atom meets its neighbours."""

    NUMERAL = "a numeral, whose indicator may depend on what stands before it"
    REST = "what is left of a numeral that was divided between lines"
    SIGN = "a sign of operation; a line may begin with it"
    MINUS = "a minus sign; at the start of a line the numeral after it has its own indicator"
    RELATION = "a sign of comparison, spaced; a line may begin with it"
    SPACED = "spaced, and no good place to begin a line"
    OTHER = "anything else, joined to its neighbours"


@dataclass(frozen=True, slots=True)
class Atom:
    """A piece of Braille ASCII that stays together on a line where it can."""

    text: str
    kind: Kind


class Code(Protocol):
    """A braille code for arithmetic. All texts are Braille ASCII in small letters."""

    name: str
    indicators: tuple[str, str] | None
    """What opens and closes arithmetic of this code in UEB text; None where the text's own code has it."""

    def spell(self, row: Row) -> tuple[Atom, ...]:
        """The atoms of a row."""

    def find_indicator(self, before: Atom | None, *, alone: bool) -> str:
        """The numeric indicator, if a numeral needs one here; `alone`: nothing, or a space, stands before `before`."""

    def write_digits(self, text: str) -> str:
        """A numeral's digits without indicator."""

    def end_line(self, before: Atom, after: Atom) -> str:
        """What stands at the end of a line that is broken between these two."""

    def split(self, atom: Atom, room: int) -> tuple[str, Atom]:
        """As much of a long atom as fits `room` cells with what marks the break (no indicator), and what is left."""


def find_split(text: str, room: int) -> int:
    """Where a long numeral is divided: after the last comma that fits, else where the room ends."""
    comma = text.rfind(",", 1, max(1, room))
    return comma + 1 if comma > 0 else max(1, room)
