"""Our styles and scripts, each joined into one file: a page then asks its host for two files instead of forty.

From a folder it makes no difference; over a slow line it is a second or two before anything is seen. Comments that have
lines of their own, and what lines begin with, stay behind: a quarter of what a line has to carry.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from beadwright.paths import templates_dir
from beadwright.render import SCRIPTS, format_script_data

STYLE = "assets/bw/css/all.css"
SCRIPT = "assets/bw/js/all.js"
STYLES = (
    *("fonts", "tokens", "base", "shell", "lesson", "course", "figure", "forced-colours", "print"),
    *("stepper", "practice"),
)
SHELL_SCRIPTS = ("words", "shell", "display", "figures", "search-engine", "search")
_SPARED = re.compile(r"^[ \t]*(?:/\*(?:(?!\*/).)*\*/[ \t]*\n|//[^\n]*\n|\n)|^[ \t]+", re.DOTALL | re.MULTILINE)
_PART = "try {{\n{text}\n}} catch (error) {{\n  reportError(error);\n}}\n"


def join_styles() -> str:
    """The styles, in the order in which a page took them one by one."""
    return "\n".join(_read(f"assets/bw/css/{name}.css") for name in STYLES)


def join_scripts(words: Mapping[str, object], lessons: Sequence[Mapping[str, object]]) -> str:
    """The scripts, in their order, after the words that they say and the lessons that they lead to (`list_lessons`).

    One that fails is reported and stops none after it, as if it were a file.
    """
    parts = (_read(f"assets/bw/js/{name}.js") for name in (*SHELL_SCRIPTS, *SCRIPTS))
    known = f"window.bwWords = {format_script_data(words)};\nwindow.bwLessons = {format_script_data(lessons)};\n"
    return f'"use strict";\n{known}' + "".join(_PART.format(text=text.strip()) for text in parts)


def _read(path: str) -> str:
    return _SPARED.sub("", (templates_dir() / "theme" / path).read_text(encoding="utf-8"))
