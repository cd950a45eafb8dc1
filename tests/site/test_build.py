"""Building a course: what a build leaves, what it refuses, what it never does. Small courses from the scaffold."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from beadwright.scaffold import start_course
from tests.referee import check_data
from tests.support.building import build_site, run_mkdocs
from tests.support.carried import read_whole

NOTE = "Only a trainer reads this sentence."
BROKEN = """
title: A broken lesson
minutes: ten
objectives: [{id: one, text: Do one thing}]
body:
  - walkthrough: 99 + 1
    frame: {nine-bead: {columns: 2}}
  - txt: Hello
"""


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """A new course of a trainer's own, in a folder whose name has a space and other than Latin letters."""
    folder = tmp_path / "Meine Kurse ö 数"
    start_course(folder, title="A small course")
    return folder


def read_site(site: Path) -> dict[str, bytes]:
    """Every file of a site by its path."""
    return {str(path.relative_to(site)): path.read_bytes() for path in sorted(site.rglob("*")) if path.is_file()}


def add_lesson(course: Path, name: str, text: str) -> None:
    """Put another lesson file beside those of the course, and list it."""
    (course / "content" / "modules" / f"{name}.lesson.yml").write_text(text, encoding="utf-8")


def test_a_faulty_lesson_leaves_the_old_site_whole(course: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    build_site(course / "mkdocs.yml", site)
    before = read_site(site)
    add_lesson(course, "90-broken", BROKEN)
    done = run_mkdocs(course / "mkdocs.yml", site)
    printed = done.stdout + done.stderr
    assert done.returncode != 0
    assert "content/modules/90-broken.lesson.yml:3:10: minutes: should be" in printed
    assert "90-broken.lesson.yml:8:5" in printed  # all findings at once, each at its place
    assert "Traceback" not in printed
    assert read_site(site) == before


def test_two_builds_are_equal_byte_for_byte(course: Path, tmp_path: Path) -> None:
    settings = course / "mkdocs.yml"
    kept = settings.read_text(encoding="utf-8").replace("  - beadwright", "  - beadwright:\n      offline: true")
    settings.write_text(kept, encoding="utf-8")  # the version that devices keep then hangs on every file
    sites = []
    for name, seed, zone in (("one", "1", "UTC"), ("two", "77", "Pacific/Auckland")):
        site = tmp_path / name / "site"
        command = [sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(settings), "-d", str(site)]
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "NO_MKDOCS_2_WARNING": "1"}
        subprocess.run(command, env=environment, check=True, capture_output=True)
        files = read_site(site)
        files.pop("sitemap.xml.gz", None)  # MkDocs' own; it holds the time of the build
        sites.append(files)
    assert sites[0] == sites[1]
    assert "offline-worker.js" in sites[0]
    assert len(sites[0]) > 10


def test_the_facilitators_edition_alone_has_the_notes(course: Path, tmp_path: Path) -> None:
    lesson = next((course / "content" / "modules").glob("*.lesson.yml"))
    lesson.write_text(f"{lesson.read_text(encoding='utf-8')}\n  - facilitator: {NOTE}\n", encoding="utf-8")
    learners, facilitators = tmp_path / "learners", tmp_path / "facilitators"
    build_site(course / "mkdocs.yml", learners)
    settings = course / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(
        text.replace("  - beadwright", "  - beadwright:\n      edition: facilitators"), encoding="utf-8"
    )
    build_site(settings, facilitators)
    assert not any(NOTE.encode() in data for data in read_site(learners).values())
    # Nor has the learners' edition a page of the trainer's: timings, keys, slips to expect, sheets.
    assert not [name for name in read_site(learners) if name.startswith("facilitators/")]
    assert len([name for name in read_site(facilitators) if name.startswith("facilitators/")]) >= 6
    assert any(NOTE.encode() in data for data in read_site(facilitators).values())


def test_a_site_has_pages_and_what_they_need_and_no_sources(built_site: Path) -> None:
    files = read_site(built_site)
    kinds = {Path(name).suffix for name in files}
    assert not kinds & {".yml", ".yaml", ".py", ".md", ".map", ".ts"}
    assert not [name for name in files if name.startswith(("assets/stylesheets", "assets/javascripts/bundle"))]
    assert "search/search_index.js" in files


def test_sources_and_what_is_left_of_them_are_not_published(course: Path, tmp_path: Path) -> None:
    content = course / "content"
    secret = [
        "course.yml~",
        "course.yml.bak",
        "modules/01-set-and-read.lesson.yml~",
        "modules/#01-set-and-read.lesson.yml#",
        "old/modules/01-set-and-read.lesson.yaml",
        "old/GLOSSARY.YML",
        "contest/spring.yml~",
        "contest/r4.yaml",
        "contest/spring/first/nemeth-1.brf",
        "contest/spring/first/print-1-key.pdf",
        "contest/spring/first/tie-break.txt",
        "contest/spring/scores.xlsx",
    ]
    shown = ["contest/room.png", "contest/spring/plan.SVG", "handouts/rules.pdf"]
    for name in (*secret, *shown):
        (content / name).parent.mkdir(parents=True, exist_ok=True)
        (content / name).write_text(NOTE, encoding="utf-8")
    (content / "contest" / "how.md").write_text("# How\n\n![The room](room.png)\n", encoding="utf-8")
    build_site(course / "mkdocs.yml", tmp_path / "site")
    site = read_site(tmp_path / "site")
    assert {name for name, data in site.items() if NOTE.encode() in data} == set(shown)
    assert "contest/how.html" in site


def test_a_trainers_own_files_stand_beside_those_of_the_theme(course: Path, tmp_path: Path) -> None:
    mine = [
        "assets/images/logo.png",
        "assets/images/favicon.png",  # the theme has one of this name
        "assets/stylesheets/mine.css",
        "assets/javascripts/bundle.mine.js",
        "assets/javascripts/lunr/mine.js",
    ]
    for name in mine:
        (course / "content" / name).parent.mkdir(parents=True, exist_ok=True)
        (course / "content" / name).write_text(NOTE, encoding="utf-8")
    looks = course / "looks" / "assets" / "images" / "badge.png"
    looks.parent.mkdir(parents=True)
    looks.write_text(NOTE, encoding="utf-8")
    settings = course / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(text.replace("name: material", "name: material\n  custom_dir: looks"), encoding="utf-8")
    build_site(settings, tmp_path / "site")
    site = read_site(tmp_path / "site")
    assert {name for name, data in site.items() if data == NOTE.encode()} == {*mine, "assets/images/badge.png"}
    assert {name for name in site if name.startswith(("assets/images/", "assets/stylesheets/"))} == {
        *mine[:3],
        "assets/images/badge.png",
    }


def test_nothing_is_loaded_from_elsewhere(built_site: Path) -> None:
    for page in built_site.rglob("*.html"):
        soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
        for element in soup.find_all(["script", "img", "iframe", "source", "audio", "link", "object", "embed"]):
            address = element.get("src") or element.get("href") or element.get("data") or ""
            assert not re.match(r"(?i)(https?:)?//", str(address)), f"{page.name}: {address}"


def test_answers_are_not_in_the_search_index(built_site: Path) -> None:
    script = (built_site / "search" / "search_index.js").read_text(encoding="utf-8")
    docs = json.loads(script.removeprefix("var __index = "))["docs"]
    assert any("partner" in doc["text"] for doc in docs)
    found = " ".join(doc["text"] for doc in docs)
    pages = [
        BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser") for page in built_site.glob("modules/*.html")
    ]
    steps = {step.get_text(" ", strip=True) for page in pages for step in page.select("bw-item .bw-fold-steps li")}
    for item in [item for page in pages for item in page.select("bw-item")]:
        item.decompose()
    told = " ".join(page.get_text(" ", strip=True) for page in pages)  # a text may end like an answer
    assert len(steps) > 100
    assert [step for step in steps if step in found and step not in told] == []
    assert not [doc for doc in docs if "bw-" in doc["text"]]


def test_every_walkthrough_of_the_site_is_replayed_by_the_referee(built_site: Path) -> None:
    judged = 0
    for page in built_site.glob("modules/*.html"):
        soup = BeautifulSoup(read_whole(page), "html.parser")
        for script in soup.select("script.walkthrough-data"):
            data = json.loads(script.get_text())
            check_data(data)
            assert all(step["say"] for step in data["steps"])
            judged += 1
    assert judged >= 50


def test_every_lesson_teaches_as_text(built_site: Path) -> None:
    """What stands in the page without a script: each step's sentence, each problem, and the answer folded below it."""
    for page in built_site.glob("modules/*.html"):
        soup = BeautifulSoup(read_whole(page), "html.parser")
        for walkthrough in soup.select(".bw-walkthrough"):
            data = json.loads(walkthrough.select_one("script.walkthrough-data").get_text())  # type: ignore[union-attr]
            said = [say.get_text() for say in walkthrough.select(".bw-step .bw-say")]
            assert said == [step["say"] for step in data["steps"]]
        for item in soup.select("bw-item"):
            assert item.select_one(".bw-prompt") is not None, item.get("id")
            if item["data-bw-ask"] != "rating":
                assert item.select_one("details.bw-fold") is not None, item.get("id")


def test_the_record_page_knows_how_many_items_show_each_objective(built_site: Path) -> None:
    record = BeautifulSoup((built_site / "record.html").read_text(encoding="utf-8"), "html.parser")
    island = record.select_one("bw-record > script")
    assert island is not None
    told = json.loads(island.get_text())["lessons"]
    assert len(told) == len(list(built_site.glob("modules/*.html")))
    for lesson, objectives in told.items():
        soup = BeautifulSoup((built_site / "modules" / f"{lesson}.html").read_text(encoding="utf-8"), "html.parser")
        items = [item for item in soup.select("bw-item") if item["data-bw-ask"] not in ("reflect", "rating")]
        shows = [item.get("data-bw-shows") for item in items]
        written = {line["data-bw-objective"]: line.get_text() for line in soup.select("[data-bw-objective]")}
        assert {name: (text, count) for name, text, count in objectives} == {
            name: (text, shows.count(name)) for name, text in written.items() if name in shows
        }, lesson
