"""A plain page with a round to work alone on it, opened from a folder: our parts, scripts and styles, nothing else."""

import json
import shutil
from collections.abc import Mapping
from pathlib import Path

from markdown import markdown

from beadwright.render import format_script_data, load_words
from beadwright.render.editions import LessonEditions
from beadwright.render.items import SCRIPT_SECTIONS, SCRIPTS
from beadwright.render.pages import fill_slots
from beadwright.render.rounds import write_round
from beadwright.render.sheets import HomeRound, build_home_round, load_spec
from tests.support.practice_pages import ASSETS, STYLES


def load_round(folder: Path, spec: str) -> HomeRound:
    """The round that a file with this text gives."""
    path = folder / "small-test.yml"
    path.write_text(spec, encoding="utf-8")
    return build_home_round(str(path), load_spec(path))


def write_round_page(folder: Path, played: HomeRound, made: Mapping[str, LessonEditions], language: str = "en") -> Path:
    """The round as a page in `folder`, with the files of its levels beside it."""
    shutil.copytree(ASSETS, folder / "bw", dirs_exist_ok=True)
    words = load_words(language)
    page = write_round(played, made, ".", words)
    for editions in made.values():
        for file in editions.files:
            (folder / editions.lesson).mkdir(exist_ok=True)
            (folder / editions.lesson / file.name).write_bytes(file.data)
    island = {"base": ".", "course": "test-course", "language": language, "lesson": None, "search": None}
    table = {section: words.section(section) for section in SCRIPT_SECTIONS}
    styles = "".join(f'<link rel="stylesheet" href="bw/css/{style}.css">\n' for style in STYLES)
    scripts = "".join(f'<script src="bw/js/{script}.js" defer></script>\n' for script in ("words", *SCRIPTS))
    text = markdown(page.markdown.split("---\n", 2)[2], extensions=["attr_list", "md_in_html"])
    html = (
        f'<!doctype html>\n<html lang="{language}" data-bw-course="test-course">\n<head><meta charset="utf-8">'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"><title>Round</title>\n{styles}'
        f'<script src="bw/js/boot.js"></script></head>\n<body><main class="bw-prose" style="padding: 1rem">'
        f"{fill_slots(text, page.slots)}</main>\n"
        f'<script type="application/json" id="bw-page">{json.dumps(island)}</script>\n'
        f'<script type="application/json" id="bw-words">{format_script_data(table)}</script>\n{scripts}</body></html>\n'
    )
    path = folder / "round.html"
    path.write_text(html, encoding="utf-8")
    return path
