"""Files and navigation: what of the content folder and of the stock theme becomes part of the site."""

from __future__ import annotations

from fnmatch import fnmatchcase
from pathlib import Path, PurePosixPath

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel

from beadwright.render import SCRIPTS, SOURCES_FILE, list_lessons
from beadwright.render.sheets import CONTEST_FOLDER
from beadwright.site.carrying import name_data
from beadwright.site.joining import SCRIPT, SHELL_SCRIPTS, STYLE, STYLES, join_scripts, join_styles
from beadwright.site.offline import MANIFEST, WORKER
from beadwright.site.pages import CoursePages
from beadwright.site.settings import SEARCH_INDEX

# The stock theme's own pages and scripts are not used, only its search engine; ours are joined.
_THEME_UNUSED = (
    "assets/javascripts/bundle.*",
    "assets/javascripts/*.map",
    "assets/javascripts/workers/*.map",
    "assets/stylesheets/*",
    "assets/images/*",
    "assets/bw/js/*.d.ts",
    *(f"assets/bw/css/{name}.css" for name in STYLES),
    *(f"assets/bw/js/{name}.js" for name in (*SHELL_SCRIPTS, *SCRIPTS)),
)
_OFFLINE = "assets/bw/js/offline.js"
_LUNR = "assets/javascripts/lunr/*"
# Lessons hold answers and notes for facilitators, and so does what an editor leaves of them (`.yml~`, `.yml.bak`).
_COURSE_SOURCES = ("*.yml*", "*.yaml*")
_PICTURES = (".svg", ".png", ".jpg", ".jpeg", ".gif", ".webp", ".avif")


def arrange_files(files: Files, pages: CoursePages | None, config: MkDocsConfig) -> Files:
    """The files of the site: the trainer's and ours, without course sources and what of the stock theme is unused.

    `pages` is None where none could be made yet.
    """
    own = config.extra["bw"]
    # English is what the search engine knows by itself; every other language needs the engine's own files for it.
    not_asked = (*((_LUNR,) if own["language"] == "en" else ()), *(() if own["offline"] else (_OFFLINE,)))
    unused = (*_THEME_UNUSED, *not_asked)
    of_theme = {folder for folder in config.theme.dirs if folder != config.theme.custom_dir}
    kept = [
        file for file in files if not (_matches(file.src_uri, unused) if file.src_dir in of_theme else _is_source(file))
    ]
    texts = {} if pages is None else {uri: pages.markdown(uri) for uri in pages.uris}
    made = [
        File.generated(config, uri, content=text, inclusion=InclusionLevel.INCLUDED)
        for uri, text in texts.items()
        if files.get_file_from_path(uri) is None
    ]
    lessons = [] if pages is None else list_lessons(pages.lessons.recipe.course, pages.lessons.links)
    common = [
        File.generated(config, uri, content=text, inclusion=InclusionLevel.INCLUDED)
        for uri, text in (
            (STYLE, join_styles()),
            (SCRIPT, join_scripts(own["words"], lessons)),
            (SOURCES_FILE, f"{own['sources']}\n"),
        )
    ]
    return Files([*kept, *made, *common])


def _matches(uri: str, patterns: tuple[str, ...]) -> bool:
    return any(fnmatchcase(uri, pattern) for pattern in patterns)


def _is_source(file: File) -> bool:
    """Whether a file is for the trainer alone: a source of the course, or what lies beside the sources of a contest.

    Papers and keys of a round that is still to be held may be there, in any form.
    """
    if file.is_documentation_page():
        return False
    uri = file.src_uri.lower()
    return _matches(uri, _COURSE_SOURCES) or (
        uri.startswith(f"{CONTEST_FOLDER}/") and PurePosixPath(uri).suffix not in _PICTURES
    )


def find_covered(files: Files, arranged: Files, pages: CoursePages, config: MkDocsConfig) -> list[str]:
    """The trainer's own files in whose place the site would have one of ours, by their paths as `mkdocs.yml` sees them.

    A page of hers in the place of one of ours is wanted, and none of these.
    """
    made = {file.dest_uri for file in arranged if file.generated_by is not None}
    made |= {name_data(f"{uri.removesuffix('.md')}.html") for uri in pages.uris}
    made |= {SEARCH_INDEX, *((WORKER, MANIFEST) if config.extra["bw"]["offline"] else ())}
    folders = {*pages.lessons.folders, *pages.rounds.folders}
    return [
        f"{Path(config.docs_dir).name}/{file.src_uri}"
        for file in files
        if file.generated_by is None
        and file.src_dir == config.docs_dir
        and (
            file.dest_uri in made
            or not folders.isdisjoint(str(folder) for folder in PurePosixPath(file.dest_uri).parents)
        )
    ]


def arrange_nav(config: MkDocsConfig, pages: CoursePages, files: Files) -> None:
    """List the pages when `mkdocs.yml` does not: the start, the lessons in order, then the other pages."""
    if config.nav is not None:
        return
    own = [file.src_uri for file in files.documentation_pages()]
    start = [{pages.start: "index.md"}] if "index.md" in own else []
    listed = {"index.md", *pages.uris}
    rest = [uri for uri in sorted(own) if uri not in listed]
    lessons = [{title: list(uris)} for title, uris in pages.groups] or pages.lessons.uris
    config.nav = [*start, *lessons, *pages.others, *rest]
