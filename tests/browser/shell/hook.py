"""What the site plugin does for the shell, and no more: tests of the shell need no lesson, engine or course."""

from pathlib import Path
from typing import Any

import yaml
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

WORDS = Path(__file__).resolve().parents[3] / "site_templates" / "words" / "en.yml"
STOCK = ("assets/javascripts/bundle.", "assets/stylesheets/", "assets/images/")


def on_config(config: MkDocsConfig) -> None:
    """Tell the theme who the course is, which words it has and where the search engine lies."""
    given: dict[str, Any] = config.extra.get("bw", {})
    config.extra["bw"] = {
        "course_id": "shell-tests",
        "language": "en",
        "words": yaml.safe_load(WORDS.read_text(encoding="utf-8")),
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
