"""Everything else in a content folder: what MkDocs would copy or read, and must neither leave the folder nor wait."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from beadwright.course.findings import Finding, Where, build_finding, quote
from beadwright.course.sources import check_place, check_text, name_source

PAGES = (".md", ".markdown", ".mdown", ".mkdn", ".mkd")
HOMES = ("index.md", *(f"{name}{end}" for end in PAGES for name in ("index", "README")), "index.html")
"""What MkDocs makes the home page of, first the usual one."""
SOURCES = (".yml", ".yaml")
MOST_PAGE_KB = 8 * 1024


def check_files(content_dir: Path) -> list[Finding]:
    """What is wrong with files and folders as such.

    Links that lead out of the folder would publish what lies there, links to folders can go round, a pipe would be
    waited for without end, and a page has to be text. Hidden files are nobody's, as in MkDocs.
    """
    return [finding for path in _list_paths(content_dir) for finding in _check_path(path, content_dir)]


def _list_paths(content_dir: Path) -> Iterator[Path]:
    """Files and folders in order, links to folders among them and not followed."""
    for parent, folders, files in os.walk(content_dir):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        yield from (Path(parent, name) for name in sorted((*folders, *files)) if not name.startswith("."))


def _check_path(path: Path, content_dir: Path) -> Iterator[Finding]:
    source = name_source(path, content_dir)
    if path.suffix in SOURCES:  # the course's own, which are looked at when they are read
        return
    if path.name != path.name.encode("utf-8", "replace").decode("utf-8"):
        found = quote(source.file.rpartition("/")[2])
        yield build_finding("file-letters", Where(source.file), found=found)
    elif path.is_dir():
        if path.is_symlink():
            yield build_finding("file-link", Where(source.file))
    elif path.suffix in PAGES:
        yield from check_text(source, content_dir, most_kb=MOST_PAGE_KB)
    else:
        yield from check_place(source, content_dir)
