"""What keeps a course from a web host on a learner's device: a worker, and the manifest of an installed course.

Both are made from the site's files alone, so two builds of the same content leave the same.
"""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path

from beadwright.paths import templates_dir
from beadwright.render import SOURCES_FILE
from beadwright.site.cache import hash_parts

WORKER = "offline-worker.js"
MANIFEST = "course.webmanifest"
_NOT_KEPT = {WORKER, SOURCES_FILE, "404.html", "sitemap.xml", "sitemap.xml.gz"}
_PAPER, _BAR = "#fbf8f4", "#3b1530"  # as in tokens.css


def write_offline(site: Path, *, name: str, language: str) -> None:
    """Write worker and manifest into a finished site. Raises `OSError`."""
    (site / MANIFEST).write_text(_format(_describe_course(name, language)), encoding="utf-8")
    files = {
        path.relative_to(site).as_posix(): sha256(path.read_bytes()).hexdigest()
        for path in sorted(site.rglob("*"))
        if path.is_file() and not _is_left_out(path.relative_to(site))
    }
    kept = {"version": hash_parts(files)[:16], "files": files}
    worker = (templates_dir() / "offline" / "worker.js").read_text(encoding="utf-8")
    (site / WORKER).write_text(f"const KEPT = {_format(kept)};\n{worker}", encoding="utf-8")


def _is_left_out(path: Path) -> bool:
    return path.as_posix() in _NOT_KEPT or any(part.startswith(".") for part in path.parts)


def _describe_course(name: str, language: str) -> dict[str, object]:
    """The manifest: with its back key and address, because a page may lead out of the course."""
    return {
        "name": name,
        "lang": language,
        "start_url": "index.html",
        "scope": "./",
        "display": "minimal-ui",
        "background_color": _PAPER,
        "theme_color": _BAR,
        "icons": [{"src": "assets/bw/icon.svg", "sizes": "any", "type": "image/svg+xml"}],
    }


def _format(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
