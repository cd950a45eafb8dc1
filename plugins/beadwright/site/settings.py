"""What the plugin sets in a trainer's MkDocs configuration, so that her `mkdocs.yml` can stay short."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort

from beadwright.course import Course
from beadwright.paths import templates_dir
from beadwright.render import SCRIPT_SECTIONS, Words
from beadwright.site.joining import SCRIPT, STYLE
from beadwright.site.offline import MANIFEST, WORKER

MARKDOWN_EXTENSIONS = ("attr_list", "md_in_html", "def_list", "sane_lists")
SEARCH_INDEX = "search/search_index.js"


def fill_settings(
    config: MkDocsConfig, course: Course, words: Words, *, sources: str, serving: bool, offline: bool
) -> None:
    """Put our theme before the stock one, and what pages and scripts need into `config.extra.bw`.

    `sources` is the digest of the course's files.
    """
    theme = templates_dir() / "theme"
    config.theme.dirs.insert(0, str(theme))
    config.use_directory_urls = False
    config.markdown_extensions.extend(name for name in MARKDOWN_EXTENSIONS if name not in config.markdown_extensions)
    config.extra["bw"] = {
        "course_id": course.id,
        "edition": course.edition,
        "language": course.language,
        "words": {
            name: words.section(name) for name in ("shell", *SCRIPT_SECTIONS, *(("offline",) if offline else ()))
        },
        "sources": sources,
        "serving": serving,
        "joined": {"style": STYLE, "script": SCRIPT},
        "offline": {"worker": WORKER, "manifest": MANIFEST} if offline else None,
        **_find_search(config),
    }


def _find_search(config: MkDocsConfig) -> dict[str, Any]:
    """Where the stock theme keeps its search engine; nothing when the search plugin is off.

    Raises `Abort` where the theme is another one.
    """
    if "search" not in config.plugins and "material/search" not in config.plugins:
        return {"search_worker": None, "search_index": None}
    workers = "assets/javascripts/workers"
    found = [path for folder in config.theme.dirs for path in sorted(Path(folder, workers).glob("search.*.min.js"))]
    if len(found) == 0:
        raise Abort(f"mkdocs.yml: theme › name: should be material, found {config.theme.name}.")
    return {"search_worker": f"{workers}/{found[0].name}", "search_index": SEARCH_INDEX}
