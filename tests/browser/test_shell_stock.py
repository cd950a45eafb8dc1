"""What the shell takes from the stock theme and what it leaves: seen anew at every upgrade of that theme.

When a hash here no longer holds: read what changed in that file, carry over what a course needs, write the new hash.
"""

import hashlib
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import bs4
import material
import pytest
import yaml

from tests.support import ROOT
from tests.support.building import build_site

STOCK = Path(material.__file__).parent / "templates"
THEME = ROOT / "site_templates" / "theme"
SHELL = Path(__file__).resolve().parent / "shell"

WORKER = "assets/javascripts/workers/search.a7633da7.min.js"

# Templates that ours replace, the one that leads to ours, and the search engine whose messages search-engine.js speaks.
PINNED = {
    "404.html": "80c93494b5432b1bcdf292caeb67a0653c45b37372f49e08ad4a70ca695a7495",
    "base.html": "a919e32d2225e09ecbdeb8076ca6ce9ca0836329760bf7871a04172569b77842",
    "main.html": "9948b55a7bc979c35825df99baba9e6971fca4eb298dea3cdde61e990a2de5e0",
    WORKER: "da1b3df5e5f00cc73083c9e21ff0ec28bde85cd247057bdd05b7a167e5903bd4",
}


@pytest.mark.parametrize("name", PINNED)
def test_stock_file_is_the_one_that_was_read(name: str) -> None:
    assert hashlib.sha256((STOCK / name).read_bytes()).hexdigest() == PINNED[name]


def test_every_template_of_ours_that_replaces_a_stock_one_is_pinned() -> None:
    ours = {file.relative_to(THEME).as_posix() for file in THEME.rglob("*.html")}
    stock = {file.relative_to(STOCK).as_posix() for file in STOCK.rglob("*.html")}
    assert ours & stock == {name for name in PINNED if name.endswith(".html")} - {"main.html"}


def test_nothing_of_the_stock_page_is_left(shell_site: Path) -> None:
    for page in shell_site.rglob("*.html"):
        html = page.read_text(encoding="utf-8")
        assert "md-" not in re.sub(r"<article.*</article>", "", html, flags=re.S), page
        assert not re.search(r"(?:src|href)=\"(?:https?:)?//", html), page
        assert "assets/javascripts/bundle" not in html
        assert "assets/stylesheets" not in html


def test_every_word_of_the_shell_is_in_the_table() -> None:
    shell = yaml.safe_load((ROOT / "site_templates" / "words" / "en.yml").read_text(encoding="utf-8"))["shell"]
    templates = "".join(file.read_text(encoding="utf-8") for file in THEME.rglob("*.html"))
    scripts = "".join(file.read_text(encoding="utf-8") for file in (THEME / "assets" / "bw" / "js").glob("*.js"))
    used = set(re.findall(r"bw\.word\([\"'](\w+)[\"']\)", templates))
    used |= set(re.findall(r"[\"']shell\.(\w+)[\"']", scripts))
    for name, values in re.findall(r"choices\(\"(\w+)\", \[([^\]]+)\]", templates):
        used |= {name} | {f"{name}_{value}" for value in re.findall(r"\"(\w+)\"", values)}
    assert used == set(shell)


def test_a_missing_word_shows_its_key(tmp_path: Path) -> None:
    config = write_config(tmp_path, {"extra": {"bw": {"words": {"shell": {"menu": "Menu"}}}}})
    build_site(config, tmp_path / "site")
    assert "[shell.skip]" in (tmp_path / "site" / "index.html").read_text(encoding="utf-8")


def write_config(folder: Path, settings: dict[str, object]) -> Path:
    """A configuration that changes some settings of the small site."""
    config = folder / "mkdocs.yml"
    # MkDocs resolves what it inherits from the file that inherits, so the places are named anew.
    whole = {
        "INHERIT": str(SHELL / "mkdocs.yml"),
        "docs_dir": str(SHELL / "docs"),
        "theme": {"custom_dir": str(THEME)},
        "hooks": [str(SHELL / "hook.py")],
        **settings,
    }
    config.write_text(yaml.safe_dump(whole), encoding="utf-8")
    return config


def build_course(folder: Path, groups: int) -> str:
    """A course of `groups` groups of ten pages each, built; gives the HTML of one page in the first group."""
    docs = folder / "docs"
    for number in range(groups * 10):
        page = docs / f"group-{number // 10:03}" / f"page-{number:04}.md"
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(f"# Page {number}\n\nText.\n", encoding="utf-8")
    nav = [
        {f"Group {group}": [f"group-{group:03}/page-{group * 10 + page:04}.md" for page in range(10)]}
        for group in range(groups)
    ]
    build_site(write_config(folder, {"docs_dir": str(docs), "nav": nav}), folder / "site")
    return (folder / "site" / "group-000" / "page-0003.html").read_text(encoding="utf-8")


def find_menu(html: str) -> bs4.Tag:
    """The course menu of a page."""
    menu = bs4.BeautifulSoup(html, "html.parser").find(id="bw-nav")
    assert isinstance(menu, bs4.Tag)
    return menu


def test_small_courses_fold_each_group(tmp_path: Path) -> None:
    menu = find_menu(build_course(tmp_path, 3))
    folds = menu.find_all("details")
    assert [fold.has_attr("open") for fold in folds] == [True, False, False]
    assert len(menu.find_all("a")) == 30


def test_pages_of_large_courses_carry_one_group_only(tmp_path: Path) -> None:
    menu = find_menu(build_course(tmp_path, 9))
    assert len(menu.find_all("details")) == 1
    assert [link["href"] for link in menu.find_all("a")][:2] == ["page-0000.html", "page-0001.html"]
    assert len(menu.find_all("a")) == 10 + 8
    assert "../group-008/page-0080.html" in [link["href"] for link in menu.find_all("a")]


def test_live_reload_may_ask_its_server_and_a_built_page_may_not(tmp_path: Path, shell_site: Path) -> None:
    built = (shell_site / "index.html").read_text(encoding="utf-8")
    assert "connect-src 'none'" in built
    build_site(write_config(tmp_path, {"extra": {"bw": {"serving": True}}}), tmp_path / "site")
    assert "connect-src 'self'" in (tmp_path / "site" / "index.html").read_text(encoding="utf-8")


def test_titles_are_escaped_once(shell_site: Path) -> None:
    page = bs4.BeautifulSoup((shell_site / "signs.html").read_text(encoding="utf-8"), "html.parser")
    assert page.title is not None
    assert page.title.string == "Signs <in> text & more · Beads & Bars"
    island = page.find(id="bw-page")
    assert island is not None
    assert json.loads(island.get_text())["course"] == "shell-tests"


def test_404_needs_no_other_file(tmp_path: Path) -> None:
    config = write_config(tmp_path, {"theme": {"custom_dir": str(THEME), "static_templates": ["404.html"]}})
    build_site(config, tmp_path / "site")
    page = bs4.BeautifulSoup((tmp_path / "site" / "404.html").read_text(encoding="utf-8"), "html.parser")
    assert page.find_all(["script", "link", "img"]) == []
    assert page.h1 is not None


def test_two_builds_are_the_same_byte_for_byte(tmp_path: Path) -> None:
    for name in ("one", "two"):
        command = [
            sys.executable,
            "-m",
            "mkdocs",
            "build",
            "-q",
            "-f",
            str(SHELL / "mkdocs.yml"),
            "-d",
            str(tmp_path / name),
        ]
        subprocess.run(command, check=True, env={**os.environ, "NO_MKDOCS_2_WARNING": "1"})
    one, two = (
        {f.relative_to(tmp_path / n): f.read_bytes() for f in (tmp_path / n).rglob("*.html")} for n in ("one", "two")
    )
    assert one == two
