"""What is made of a lesson besides its page: which forms, and the files of one lesson or of one level of a round."""

from __future__ import annotations

from dataclasses import dataclass, field

from beadwright.render.print import PrintStyle

Part = str
"""Which paper a file is: `lesson`, `sheet`, its `key`, a trainer's to fill in (`blank`), or its role in a contest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionStyle:
    """Which forms are made, and how: cells in a line (a braille file each), lines on a page, contraction, voice."""

    braille: bool = True
    large_print: bool = True
    sound: bool = True
    cells: tuple[int, ...] = (40,)
    lines: int = 25
    contracted: bool = True
    print_style: PrintStyle = field(default_factory=PrintStyle)
    pace: int = 140
    pause: float = 2.0

    @property
    def needs_anything(self) -> bool:
        """Whether any form is wanted at all."""
        return self.braille or self.large_print or self.sound


@dataclass(frozen=True, slots=True)
class EditionFile:
    """A file by its name, its kind, and for its label: cells, points, item, seconds.

    Kinds: `nemeth`, `ueb`, `print`, `text`, `xlsx`, `sound` (an item), `part` (of a problem). `said` is the text of a
    sound, or the cells of a sheet in braille as `read_cells` gives them; `of` is the section of a contest it is for.
    """

    name: str
    kind: str
    number: int
    data: bytes
    seconds: int = 0
    said: str = ""
    part: Part = "lesson"
    of: str = ""


@dataclass(frozen=True, slots=True)
class LessonEditions:
    """The files of one lesson, or of one level of a round, and lines that say what of it could not be made."""

    lesson: str
    files: tuple[EditionFile, ...]
    faults: tuple[str, ...] = ()
