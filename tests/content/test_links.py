"""No link of the course leads nowhere: in the sources, and on every page of the built site."""

import re
from collections import defaultdict
from pathlib import Path
from urllib.parse import unquote, urlsplit

import yaml
from bs4 import BeautifulSoup

from tests.content.lessons import list_taught, load_shipped
from tests.content.passages import CONTENT, list_passages

MADE = {
    "record.md",
    "glossary.md",
    "rounds/friendly-round.md",
    "rounds/friendly-round-papers.md",
}  # pages that the build makes beside the lessons'
LINK = re.compile(r"\]\(([^)\s]+)\)")


def list_sources() -> set[str]:
    """The source paths of all pages, those included that the build makes."""
    own = {path.relative_to(CONTENT).as_posix() for path in CONTENT.rglob("*.md")}
    return own | MADE | {f"modules/{lesson.id}.md" for lesson in load_shipped()[1]}


def find_links() -> list[tuple[str, str, str]]:
    """(place, folder of the page that it ends on, target) of each link in prose."""
    links = []
    for passage in list_passages():
        folder = Path(passage.file).relative_to("content").parent.as_posix()
        links += [(passage.place, folder, target) for target in LINK.findall(passage.text)]
    return links


def test_links_in_prose_name_pages_that_are_there() -> None:
    sources = list_sources()
    dead = []
    for place, folder, target in find_links():
        path = (CONTENT / folder / urlsplit(target).path).resolve()
        if not target.startswith("#") and path.relative_to(CONTENT.resolve()).as_posix() not in sources:
            dead.append(f"{place}: {target}")
    assert dead == []
    assert len(find_links()) >= 10


def test_links_to_the_glossary_name_terms_that_are_there() -> None:
    glossary = yaml.safe_load((CONTENT / "glossary.yml").read_text(encoding="utf-8"))
    known = {f"term-{entry['term'].replace(' ', '-')}" for entry in glossary["terms"]}
    asked = [(place, urlsplit(target)) for place, _, target in find_links() if "glossary" in target]
    assert [f"{place}: {link.fragment}" for place, link in asked if link.fragment and link.fragment not in known] == []
    for lesson in list_taught():
        assert sum(place.startswith(lesson.file) for place, _ in asked) >= 2, lesson.id


def test_every_page_of_our_own_is_linked_to() -> None:
    linked = {
        (CONTENT / folder / urlsplit(target).path).resolve().relative_to(CONTENT.resolve()).as_posix()
        for _, folder, target in find_links()
    }
    own = {path.relative_to(CONTENT).as_posix() for path in CONTENT.rglob("*.md")}
    assert own - {"index.md"} <= linked


def test_marks_for_parts_are_all_filled(built_site: Path) -> None:
    """A mark `<!-- bw:name -->` that no part answers to would stay behind and show nothing."""
    left = [page.name for page in built_site.rglob("*.html") if "<!-- bw:" in page.read_text(encoding="utf-8")]
    assert left == []


def test_links_of_the_built_site_lead_somewhere(built_site: Path) -> None:
    names: dict[Path, set[str]] = defaultdict(set)
    links: list[tuple[Path, str]] = []
    for page in sorted(built_site.rglob("*.html")):
        soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
        names[page.resolve()] = {str(tag["id"]) for tag in soup.find_all(id=True)}
        links += [(page, str(tag["href"])) for tag in soup.find_all("a", href=True)]
    dead = [
        f"{page.relative_to(built_site)}: {href}" for page, href in links if not _leads(page, href, built_site, names)
    ]
    assert dead == []
    assert len(links) > 100


def _leads(page: Path, href: str, site: Path, names: dict[Path, set[str]]) -> bool:
    parts = urlsplit(href)
    if parts.scheme in ("mailto", "tel"):
        return True
    if parts.scheme or parts.netloc:
        return False  # nothing in a course that works from a folder leads to the web
    root = site if parts.path.startswith("/") else page.parent
    target = (root / unquote(parts.path).lstrip("/")).resolve() if parts.path else page.resolve()
    if target.is_dir():
        target = target / "index.html"
    return target.is_file() and (not parts.fragment or target not in names or unquote(parts.fragment) in names[target])
