"""Pages of our own parts, styles and scripts alone, for browser tests that need no built course."""

import json
import shutil
from collections.abc import Iterable
from pathlib import Path

from beadwright.engine import FIVE_AND_FOUR, NINE_BEAD
from beadwright.paths import templates_dir
from beadwright.render import format_script_data, load_words, render_shapes

STYLES = ("fonts", "tokens", "base", "shell", "lesson", "figure", "stepper", "forced-colours", "print")
SCRIPTS = ("words", "arrival", "frame", "stepper")
SECTIONS = ("shell", "frame", "stepper")


def write_page(folder: Path, parts: Iterable[str], *, name: str = "index.html") -> Path:
    """A page in `folder` that shows the parts as a lesson would; gives the page's path."""
    assets = folder / "bw"
    if not assets.exists():
        shutil.copytree(templates_dir() / "theme" / "assets" / "bw", assets)
    words = load_words("en")
    facts = {"base": ".", "course": "test", "language": "en", "lesson": None, "search": None}
    page = folder / name
    # Joined as plain text: markup added to text would escape it.
    html = [
        '<!doctype html><html lang="en" data-bw-course="test"><head><meta charset="utf-8"><title>Parts</title>',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        *(f'<link rel="stylesheet" href="bw/css/{style}.css">' for style in STYLES),
        '</head><body><main class="bw-prose"><h1>Parts</h1>',
        render_shapes([FIVE_AND_FOUR, NINE_BEAD]),
        *parts,
        f'</main><script type="application/json" id="bw-page">{json.dumps(facts)}</script>',
        '<script type="application/json" id="bw-words">',
        format_script_data({section: words.section(section) for section in SECTIONS}),
        "</script>",
        *(f'<script src="bw/js/{script}.js" defer></script>' for script in SCRIPTS),
        "</body></html>",
    ]
    page.write_text("".join(html), encoding="utf-8")
    return page
