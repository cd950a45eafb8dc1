"""Text in braille, by liblouis where it is installed: English in UEB, contracted or not; Spanish uncontracted.

Without it a booklet still has its arithmetic in braille, and `MISSING` says in a line what to install.
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from beadwright.render.braille.cells import BLANK, BrailleError

MISSING = (
    "Braille has its arithmetic only: text needs liblouis, whose command lou_translate was not found. "
    "On Debian or Ubuntu: apt-get install liblouis-bin"
)
_TABLES = {"en": ("en-ueb-g1.ctb", "en-ueb-g2.ctb"), "es": ("es-g1.ctb", "es-g1.ctb")}
"""By language: the tables of uncontracted and contracted text. Spanish is uncontracted (common practice, no source)."""
_NAMES = {"en": "UEB", "es": "Spanish braille"}
# What the tables have no cells for, in the words of print that they have.
_PLAIN = str.maketrans({"−": "-", "…": "...", "\u00a0": " ", "\u202f": " ", "\u2011": "-", "\\": "\\\\"})


@cache
def find_liblouis() -> str | None:
    """The path of liblouis' command; None where it is not installed."""
    return shutil.which("lou_translate")


@dataclass(frozen=True, slots=True)
class Literary:
    """Text in braille, by text; `is_whole` is False where liblouis is missing and text comes out empty."""

    cells: Mapping[str, str]
    is_whole: bool = True

    def write(self, text: str) -> str:
        """The cells of a text that was translated, with a blank cell where it begins or ends with a space."""
        plain = clean_text(text)
        start = BLANK if text[:1].isspace() else ""
        end = BLANK if text[-1:].isspace() and plain != "" else ""
        return f"{start}{self.cells.get(plain, '')}{end}"


def clean_text(text: str) -> str:
    """A text on one line, with the characters that the tables know."""
    return " ".join(text.translate(_PLAIN).split())


def translate(texts: Iterable[str], *, contracted: bool, language: str = "en") -> Literary:
    """All of these texts in their language's braille, in one run of liblouis; nothing where it is missing.

    Raises `BrailleError` when there is no table for the language, when liblouis cannot be run, or when it has no cells
    for a character, naming the text.
    """
    if language not in _TABLES:
        raise BrailleError(f"There is no braille table for texts in {language!r}, only for {' and '.join(_TABLES)}")
    plain = sorted({clean_text(text) for text in texts} - {""})
    command = find_liblouis()
    if command is None:
        return Literary({}, is_whole=False)
    if not plain:
        return Literary({})
    table = _TABLES[language][contracted]
    lines = _run(command, plain, table)
    if len(lines) != len(plain):
        raise BrailleError(f"liblouis gave {len(lines)} lines for {len(plain)} texts")
    cells = {text: line.rstrip(BLANK) for text, line in zip(plain, lines, strict=True)}
    for text, written in cells.items():
        if not _is_braille(written):
            signs = " ".join(sign for sign in dict.fromkeys(text) if not _has_cells(sign, command, table))
            where = f"{signs} in {text[:60]!r}"
            raise BrailleError(f"{_NAMES[language]} has no cells for {where}; say it in words or leave it out")
    return Literary(cells)


def _run(command: str, texts: list[str], table: str) -> list[str]:
    done = subprocess.run(  # noqa: S603 - the installed command, and a table's name of ours
        [command, "--forward", f"unicode.dis,{table}"],
        input="\n".join(texts) + "\n",
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    if done.returncode != 0:
        raise BrailleError(f"liblouis could not translate: {done.stderr.strip()[:200]}")
    return done.stdout.splitlines()


def _has_cells(sign: str, command: str, table: str) -> bool:
    """Whether liblouis knows a character; it knows all of ASCII, where a backslash alone would be half of its own."""
    return sign.isascii() or _is_braille("".join(_run(command, [sign], table)))


def _is_braille(cells: str) -> bool:
    """Whether all cells have six dots: for a character that liblouis does not know it writes others."""
    return all("\u2800" <= cell <= "\u283f" for cell in cells)
