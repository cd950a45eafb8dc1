"""What a build leaves besides pages."""

from __future__ import annotations

import gzip
from pathlib import Path

from beadwright.site.settings import SEARCH_INDEX


def write_search_script(site: Path) -> None:
    """Turn the search index into a script that sets `__index`; nothing when the course has no search."""
    index = site / "search" / "search_index.json"
    if index.is_file():
        (site / SEARCH_INDEX).write_text(f"var __index = {index.read_text(encoding='utf-8')}", encoding="utf-8")
        index.unlink()


def pack_sitemap(site: Path) -> None:
    """Pack the list of pages anew without the day of the build, so that another day's build is the same."""
    pages = site / "sitemap.xml"
    if pages.is_file():
        (site / "sitemap.xml.gz").write_bytes(gzip.compress(pages.read_bytes(), mtime=0))
