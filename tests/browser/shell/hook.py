"""What the site plugin does for the shell, and no more: tests of the shell need no lesson and no course."""

import re
from pathlib import Path
from typing import Any

import yaml
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

from beadwright.engine import Bead, Frame, Move, build_frame
from beadwright.render.svg import draw_svg, render_shapes

WORDS = Path(__file__).resolve().parents[3] / "site_templates" / "words" / "en.yml"
STOCK = ("assets/javascripts/bundle.", "assets/stylesheets/", "assets/images/")


def on_config(config: MkDocsConfig) -> None:
    """Tell the theme who the course is, which words it has and where the search engine lies."""
    given: dict[str, Any] = config.extra.get("bw", {})
    config.extra["bw"] = {
        "course_id": "shell-tests",
        "language": "en",
        "words": {"shell": yaml.safe_load(WORDS.read_text(encoding="utf-8"))["shell"]},
        "search_index": "search/search_index.js",
        **given,
    }


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Leave out what only the stock shell needs, and find the search engine by its name."""
    for file in list(files):
        if file.src_uri.startswith(STOCK) or file.src_uri.endswith((".map", ".d.ts")):
            files.remove(file)
        if file.src_uri.startswith("assets/javascripts/workers/search."):
            config.extra["bw"].setdefault("search_worker", file.url)
    for number in range(1, 13):
        text = f"# Lamp {number}\n\nA page that only search leads to."
        files.append(File.generated(config, f"lamps/lamp-{number}.md", content=text))
    return files


def on_page_markdown(markdown: str, **_: Any) -> str:
    """Draw a frame where a page says FRAME(number)."""
    drawn = re.sub(r"FRAME\((\d+)\)", lambda found: draw_number(found[1]), markdown)
    return (
        drawn if drawn == markdown else f"{drawn}\n\n<div>{render_shapes([build_frame('five-and-four').shape])}</div>\n"
    )


def draw_number(digits: str) -> str:
    """The picture of a number; 85 shows what the last step of its walkthrough moved."""
    frame = build_frame("five-and-four")
    moves = [move for place, digit in enumerate(reversed(digits), start=1) for move in set_digit(place, int(digit))]
    for move in moves:
        frame = frame.apply(move)
    shown = [Move(2, Bead.LOWER, 1), Move(1, Bead.LOWER, -3)] if digits == "85" else []
    return draw_svg(frame, name=f"A frame that reads {digits}", columns=find_columns(frame, digits), moves=shown)


def find_columns(frame: Frame, digits: str) -> tuple[int, int]:
    """The whole frame for three digits, else the columns in use and one more."""
    return (frame.columns, 1) if len(digits) == 3 else (len(digits) + 1, 1)


def set_digit(column: int, digit: int) -> list[Move]:
    """The moves that set a digit on a column at rest."""
    upper, lower = divmod(digit, 5)
    return [Move(column, bead, count) for bead, count in ((Bead.UPPER, upper), (Bead.LOWER, lower)) if count]
