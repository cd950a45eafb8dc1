"""Carries the data of a page's examples and items out of it, into a script beside the page.

More than half of a long lesson is this data, which nobody sees: without it the page is there so much sooner. The script
puts it back into the page's own elements before any other of ours runs, so nothing else knows that it was away. It is a
script, since a page that is opened from a folder can read no other kind of file.
"""

from __future__ import annotations

import re

# Data have no “<” of their own, and both patterns begin with a text that can be looked for: a page is a megabyte long.
_DATA = re.compile(
    r'(<script type="application/json" (?:class="(?:walkthrough|practice)-data"|id="bw-practice")>)([^<]+)(</script>)'
)
_WAITING = re.compile(r'<script src="[^"]+" defer></script>')

_SCRIPT = """\
"use strict";

// What the examples and items of the page beside this know, in the order of the page.
{{
  const places = document.querySelectorAll("script:is(.walkthrough-data, .practice-data, #bw-practice)");
  const texts = [
{texts}
  ];
  texts.forEach((text, index) => (places[index].textContent = text));
}}
"""


def name_data(page: str) -> str:
    """What the script beside a page is called."""
    return f"{page.removesuffix('.html')}-data.js"


def carry_data(page: str, name: str) -> tuple[str, str]:
    """A page that asks for the script of this name, and that script; a page without data as it is, and no script."""
    texts: list[str] = []

    def take(found: re.Match[str]) -> str:
        texts.append(found[2])
        return found[1] + found[3]

    emptied = _DATA.sub(take, page)
    waiting = _WAITING.search(emptied)
    if not texts or waiting is None:
        return page, ""
    asked = f'<script src="{name}" defer></script>\n    '
    emptied = emptied[: waiting.start()] + asked + emptied[waiting.start() :]
    return emptied, _SCRIPT.format(texts="\n".join(f"    {_quote(text)}," for text in texts))


def _quote(text: str) -> str:
    """A text as a script writes it. In single quotes, since data are full of double ones."""
    return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"
