"""The whole course in one file, so that a browser that keeps storage apart for each file keeps one record.

Each page stands in the file once, as text; what pages share (styles, fonts, scripts) stands there once for all. The
page that is shown is put together in a frame, which is of the same origin as the file, so that all pages share one
store.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from beadwright.course import Course
from beadwright.pack.pages import Site, inline_page
from beadwright.paths import templates_dir
from beadwright.render import Words, render_part

_SHARED = re.compile(r"<style>\n(.*?)\n</style>|<script>\n(.*?)\n</script>", re.DOTALL)
_TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)
_LEFT_OUT = ("404.html",)


def render_whole(site: Site, course: Course, order: Sequence[str], words: Words) -> str:
    """The file: the start page first, the lessons in this order, then the other pages."""
    names = [page.relative_to(site.folder).as_posix() for page in sorted(site.folder.rglob("*.html"))]
    listed = ["index.html", *order]
    ordered = [*listed, *(name for name in names if name not in listed and name not in _LEFT_OUT)]
    shared: dict[str, int] = {}
    pages: dict[str, dict[str, Any]] = {}
    for name in ordered:
        text = inline_page(site, site.folder / name)
        title = _TITLE.search(text)
        parts, last = [], 0
        for found in _SHARED.finditer(text):
            parts += [text[last : found.start()], shared.setdefault(found[0], len(shared))]
            last = found.end()
        pages[name] = {"title": title[1] if title is not None else name, "parts": [*parts, text[last:]]}
    script = (templates_dir() / "pack" / "whole.js").read_text(encoding="utf-8")
    return render_part(
        "pack-whole",
        course=course,
        data={"pages": pages, "shared": list(shared), "order": ordered},
        script=Markup(script),  # noqa: S704 - our own script
        words=words,
    )
