"""A built page -> one self-contained HTML file. Nothing of it is read from elsewhere, so it works wherever it lies.

It knows the markup of our own theme and nothing else; a page that still asks for a file afterwards raises `PackError`.
Everything in the data of scripts has its markup signs escaped, so that what looks like a tag here is one.
"""

from __future__ import annotations

import base64
import hashlib
import json
import mimetypes
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import unquote, urlsplit

MOST_BYTES = 16 * 1024 * 1024
"""What one picture or recording may add to a page."""

_STYLE = re.compile(r'<link rel="stylesheet" href="([^"]+)">')
_SCRIPT = re.compile(r'[ \t]*<script src="([^"]+)"( defer)?></script>\n?')
_ICON = re.compile(r'(<link rel="icon"[^>]* href=")([^"]+)(">)')
_MEDIA = re.compile(r'(<(?:img|audio|source|track)\b[^>]*?\ssrc=")([^"]+)(")')
_TURN = re.compile(r'[ \t]*<link rel="(?:prev|next|canonical)"[^>]*>\n?')
_URL = re.compile(r"""url\((["']?)([^)"']+)\1\)""")
_PAGE = re.compile(r'(<script type="application/json" id="bw-page">)(.*?)(</script>)', re.DOTALL)
_SEARCH = (
    re.compile(r'<dialog class="bw-dialog" id="bw-search".*?</dialog>', re.DOTALL),
    re.compile(r'<button class="bw-tool" id="bw-search-button".*?</button>', re.DOTALL),
)
_SHELL = (
    re.compile(r'<nav class="bw-nav" id="bw-nav".*?</ul>\s*</nav>(?=\s*<main)', re.DOTALL),
    re.compile(r'<nav class="bw-turn".*?</nav>', re.DOTALL),
    re.compile(r'<button class="bw-tool" id="bw-menu-button".*?</button>', re.DOTALL),
)
_LINK = re.compile(r'<a\b([^>]*?)\shref="([^"]+)"([^>]*)>(.*?)</a>', re.DOTALL)
_LEFT_OUT_SCRIPTS = ("offline.js",)
_LOADS = re.compile(r'<(?:script|img|audio|source|track|iframe|embed)\b[^>]*?\ssrc="(?!data:)|<link rel="stylesheet"')


class PackError(Exception):
    """A site that cannot be packed; the message says which file and why."""


@dataclass(frozen=True, slots=True)
class Site:
    """A built site: its folder, and the files already turned into what a page can hold."""

    folder: Path
    done: dict[Path, str]

    def read(self, page: Path, address: str) -> Path:
        """The file that a page means by an address of its own; raises `PackError` when it is not in the site."""
        found = (page.parent / unquote(urlsplit(address).path)).resolve()
        if not found.is_relative_to(self.folder.resolve()) or not found.is_file():
            raise PackError(f"{page.relative_to(self.folder)} asks for {address}, which is not in the site")
        return found


def open_site(folder: Path) -> Site:
    """The site in a folder; raises `PackError` where nothing was built."""
    if not (folder / "index.html").is_file() or not (folder / "assets" / "bw" / "js").is_dir():
        raise PackError(f"{folder} holds no built course; build it first with: mkdocs build")
    return Site(folder, {})


def inline_page(site: Site, page: Path, *, alone: bool = False, more: str = "") -> str:
    """A page as one file. `alone`: without the course's menu, its links to other pages turned into plain text.

    `more` is a script of ours that runs after all others.
    """
    text = page.read_text(encoding="utf-8")
    early: list[str] = []
    late: list[str] = []
    text = _SCRIPT.sub(lambda found: _take_script(site, page, found, early, late), text)
    text = _STYLE.sub(lambda found: f"<style>\n{_inline_style(site, site.read(page, found[1]))}\n</style>", text)
    text = _TURN.sub("", text)
    for pattern in (_ICON, _MEDIA):
        text = pattern.sub(lambda found: f"{found[1]}{_inline_media(site, page, found[2])}{found[3]}", text)
    for pattern in (*_SEARCH, *(_SHELL if alone else ())):
        text = pattern.sub("", text)
    text = _PAGE.sub(lambda found: f"{found[1]}{_drop_search(found[2])}{found[3]}", text)
    if alone:
        text = _LINK.sub(_unlink, text)
    late += [more] if more != "" else []
    before, end, after = text.rpartition("</body>")
    packed = "".join([_allow(before, [*early, *late]), *map(_write_script, late), end, after])
    rest = _LOADS.search(packed)
    if rest is not None:
        asked = packed[rest.start() : rest.end() + 80]
        raise PackError(f"{page.relative_to(site.folder)} still asks for a file: {asked}")
    return packed


def _take_script(site: Site, page: Path, found: re.Match[str], early: list[str], late: list[str]) -> str:
    """A script in its own place, or kept for the end of the page when it waits for the page to be whole."""
    path = site.read(page, found[1])
    if path.name in _LEFT_OUT_SCRIPTS:
        return ""
    text = _keep(site, path, lambda file: close_off(file.read_text(encoding="utf-8")))
    waits = found[2] is not None
    (late if waits else early).append(text)
    return "" if waits else _write_script(text)


def _write_script(text: str) -> str:
    return f"<script>\n{text}\n</script>\n"


def _allow(text: str, scripts: Sequence[str]) -> str:
    """A page whose policy allows these scripts, by their hashes, and fonts as data; no other script ever runs in it."""
    digests = [hashlib.sha256(f"\n{script}\n".encode()).digest() for script in scripts]
    allowed = " ".join(f"'sha256-{base64.b64encode(digest).decode('ascii')}'" for digest in digests)
    return text.replace("script-src 'self'", f"script-src {allowed}", 1).replace("font-src 'self'", "font-src data:", 1)


def close_off(script: str) -> str:
    """A script that may stand between tags: nothing in it ends the element or begins a comment."""
    return re.sub(r"<(/script|!--)", r"\\x3c\1", script, flags=re.IGNORECASE)


def _keep(site: Site, path: Path, work: Callable[[Path], str]) -> str:
    if path not in site.done:
        site.done[path] = work(path)
    return site.done[path]


def _inline_style(site: Site, path: Path) -> str:
    def build(file: Path) -> str:
        style = file.read_text(encoding="utf-8")
        return _URL.sub(lambda found: f'url("{_inline_media(site, file, found[2])}")', style)

    return _keep(site, path, build)


def _inline_media(site: Site, page: Path, address: str) -> str:
    """A file as a data address; what is one already stays."""
    if address.startswith(("data:", "#")):
        return address
    return _keep(site, site.read(page, address), _encode)


def _encode(path: Path) -> str:
    if path.stat().st_size > MOST_BYTES:
        raise PackError(f"{path.name} is too big to stand inside a page")
    kind = "font/woff2" if path.suffix == ".woff2" else mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    return f"data:{kind};base64,{base64.b64encode(path.read_bytes()).decode('ascii')}"


def _drop_search(data: str) -> str:
    page = json.loads(data)
    page["search"] = None
    return json.dumps(page, ensure_ascii=True).replace("<", "\\u003c")


def _unlink(found: re.Match[str]) -> str:
    """A link to a place of this page, to somebody's mail or to the web stays; one to another page becomes its text."""
    address = found[2]
    if address.startswith("#") or urlsplit(address).scheme != "":
        return found[0]
    return f"<span>{found[4]}</span>"
