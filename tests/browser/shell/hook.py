"""What the site plugin does for the shell, and no more: tests of the shell need no lesson and no course."""

import re
from pathlib import Path
from typing import Any

import yaml
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

WORDS = Path(__file__).resolve().parents[3] / "site_templates" / "words" / "en.yml"
FIGURES = Path(__file__).resolve().parent / "figures"
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
    """Put a drawing where a page says FRAME(number), and the shared parts of all drawings at its end."""
    drawn = re.sub(r"FRAME\((\d+)\)", lambda found: read_figure(found[1]), markdown)
    return drawn if drawn == markdown else f"{drawn}\n\n<div>{read_figure('shapes')}</div>\n"


def read_figure(name: str) -> str:
    """A drawing as the course draws it; kept as files, so that the shell can be tested on its own."""
    return (FIGURES / f"{name}.svg").read_text(encoding="utf-8").strip()
