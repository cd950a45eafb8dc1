"""Texts that others have written, made safe to show: one line, no signs that hide or turn what stands beside them."""

from __future__ import annotations

import re
import unicodedata
from datetime import date
from functools import lru_cache

LONGEST_NAME = 120
"""As many signs as the record page takes."""
_BLANKS = frozenset("\u115f\u1160\u2800\u3164\uffa0")
"""Letters and cells that show nothing: the fillers of Hangul and the blank cell of braille."""


@lru_cache(maxsize=65_536)
def clean_line(text: str, longest: int = LONGEST_NAME) -> str:
    r"""A text as one line without control, format or unassigned signs, white space made single, cut with an ellipsis.

    Letters are composed (NFC), so that what two keyboards make of the same letter is the same text. A text that shows
    nothing, of blanks and marks alone, is empty.

    Format signs include those that turn the direction of writing and the joiners that some scripts need; a name loses
    its joiners here, which is seen, rather than letting a text pass itself off as another.

    >>> clean_line("Oda\x00 \u202e Pell\n"), clean_line("\u3164 \u2800")
    ('Oda Pell', '')
    """
    shown = "".join(" " if _is_blank(sign) else sign for sign in text if not _is_hidden(sign))
    line = unicodedata.normalize("NFC", " ".join(shown.split()))
    if all(unicodedata.category(sign)[0] in "MZ" for sign in line):
        return ""
    return line if len(line) <= longest else f"{line[: longest - 1].rstrip()}…"


def fold_name(text: str) -> str:
    """What texts have to share to be the same name or group: no matter in capitals or not.

    >>> fold_name("Oda  Pell") == fold_name("ODA PELL")
    True
    """
    return unicodedata.normalize("NFC", clean_line(text).casefold())


def read_day(text: str) -> date | None:
    """The day that a text such as 2026-11-25 names; None for one in any other form, such as that of a week.

    >>> read_day("2026-11-25"), read_day("20261125"), read_day("2026-W48-3"), read_day("2026-11-31")
    (datetime.date(2026, 11, 25), None, None, None)
    """
    if re.fullmatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", text) is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _is_blank(sign: str) -> bool:
    return sign.isspace() or sign in _BLANKS


def _is_hidden(sign: str) -> bool:
    return not sign.isspace() and unicodedata.category(sign) in {"Cc", "Cf", "Cn", "Co", "Cs"}
