"""What the plugin sets in a trainer's MkDocs configuration, so that her `mkdocs.yml` can stay short."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig

from beadwright.course import Course
from beadwright.paths import templates_dir
from beadwright.render import SCRIPT_SECTIONS, SCRIPTS, Words, mark_paths
from beadwright.site.offline import MANIFEST, WORKER

STYLES = ("stepper", "practice")
MARKDOWN_EXTENSIONS = ("attr_list", "md_in_html", "def_list", "sane_lists")
ASSETS = "assets/bw"
SEARCH_INDEX = "search/search_index.js"


def fill_settings(config: MkDocsConfig, course: Course, words: Words, *, serving: bool, offline: bool) -> None:
    """Put our theme before the stock one, and what pages and scripts need into `config.extra.bw`."""
    theme = templates_dir() / "theme"
    config.theme.dirs.insert(0, str(theme))
    config.use_directory_urls = False
    config.markdown_extensions.extend(name for name in MARKDOWN_EXTENSIONS if name not in config.markdown_extensions)
    config.extra_css[:0] = [f"{ASSETS}/css/{name}.css" for name in STYLES]
    config.extra_javascript[:0] = [_defer(f"{ASSETS}/js/{name}.js") for name in SCRIPTS]
    config.extra["bw"] = {
        "course_id": course.id,
        "edition": course.edition,
        "language": course.language,
        "words": {
            name: words.section(name) for name in ("shell", *SCRIPT_SECTIONS, *(("offline",) if offline else ()))
        },
        "paths_of": mark_paths(course),
        "serving": serving,
        "offline": {"worker": WORKER, "manifest": MANIFEST} if offline else None,
        **_find_search(config),
    }


def _defer(path: str) -> ExtraScriptValue:
    script = ExtraScriptValue(path)
    script.defer = True
    return script


def _find_search(config: MkDocsConfig) -> dict[str, Any]:
    """Where the stock theme keeps its search engine; nothing when the search plugin is off."""
    if "search" not in config.plugins and "material/search" not in config.plugins:
        return {"search_worker": None, "search_index": None}
    workers = "assets/javascripts/workers"
    found = [path for folder in config.theme.dirs for path in sorted(Path(folder, workers).glob("search.*.min.js"))]
    return {"search_worker": f"{workers}/{found[0].name}", "search_index": SEARCH_INDEX}
