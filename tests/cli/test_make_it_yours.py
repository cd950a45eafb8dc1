"""The page of a new course on making it one's own: followed step by step as it is written."""

import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from beadwright.cli import main
from beadwright.course import load_course

PAGE = "make-it-yours.md"
CORNERS = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 8"><path d="M0 0h8v8z"/></svg>'


def list_steps(page: str) -> Iterator[tuple[str, str, str]]:
    """Each block of the page: the file named last before it, its language, its lines."""
    file = ""
    for text, language, block in re.findall(r"(.*?)^```(\w+)\n(.*?)^```$", page, re.DOTALL | re.MULTILINE):
        named = [name for name in re.findall(r"`([^`\s]+)`", text) if re.search(r"\.(yml|css|md|typ)$", name)]
        file = named[-1] if named else file
        yield file, language, block


def follow(folder: Path) -> None:
    """Do what the page says, step by step: keys of a YAML file replaced, other files written or added to."""
    for file, language, block in list_steps((folder / PAGE).read_text(encoding="utf-8")):
        path = folder / file
        if file == "facilitators.yml" and not path.exists():
            shutil.copy(folder / "mkdocs.yml", path)
        if language == "yaml" and path.exists():
            kept = yaml.safe_load(path.read_text(encoding="utf-8")) | yaml.safe_load(block)
            path.write_text(yaml.safe_dump(kept, sort_keys=False), encoding="utf-8")
        elif language != "text":
            old = path.read_text(encoding="utf-8") if path.exists() else ""
            path.write_text(old + block, encoding="utf-8")


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("own") / "course"
    assert main(["start", str(folder)]) == 0
    (folder / "content" / "logo.svg").write_text(CORNERS, encoding="utf-8")
    follow(folder)
    return folder


def test_a_course_made_ones_own_has_nothing_to_put_right(course: Path) -> None:
    loaded = load_course(course / "content")
    assert loaded.findings == ()
    assert loaded.course is not None
    assert loaded.course.title == "Frames for the spring term"
    assert [lesson.id for lesson in loaded.lessons] == ["set-and-read", "partner-of-10", "small-exchanges"]


def test_each_file_that_the_page_names_is_there(course: Path) -> None:
    page = (course / PAGE).read_text(encoding="utf-8")
    named = {name for name in re.findall(r"`([\w/.-]+)`", page) if "/" in name or name.endswith((".yml", ".typ"))}
    assert named >= {"content/course.yml", "content/looks.css", "certificate.typ", "mkdocs.yml"}
    assert [name for name in sorted(named) if not (course / name).exists()] == []


def test_what_is_ones_own_shows_in_the_pages(course: Path) -> None:
    for config, site in (("mkdocs.yml", "site"), ("facilitators.yml", "facilitators-site")):
        command = [sys.executable, "-m", "mkdocs", "build", "-q", "--strict", "-f", config, "-d", site]
        done = subprocess.run(command, cwd=course, capture_output=True, text=True, check=False)
        assert (done.returncode, done.stdout) == (0, ""), done.stderr
    home = (course / "site" / "index.html").read_text(encoding="utf-8")
    assert '<img src="logo.svg" alt=""><span class="bw-brand-name">Frames for the spring term' in home
    assert '<link rel="stylesheet" href="looks.css">' in home
    assert "--bw-accent: #0b4f3a;" in (course / "site" / "looks.css").read_text(encoding="utf-8")
    assert "nell.lund@alderhill.example" in home
    assert "Nell Lund" in (course / "site" / "meetings.html").read_text(encoding="utf-8")
    assert "Nine is ten less one" in (course / "site" / "modules" / "small-exchanges.html").read_text(encoding="utf-8")
    lesson = "modules/partner-of-10.html"
    assert (course / "facilitators-site" / lesson).read_text() != (course / "site" / lesson).read_text()


def test_every_command_of_the_page_is_one(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = (course / PAGE).read_text(encoding="utf-8")
    names = set(
        re.findall(r"beadwright (\w+)", "".join(block for _, kind, block in list_steps(page) if kind == "text"))
    )
    assert names == {"certificates", "pack"}
    for name in names:
        with pytest.raises(SystemExit, match="0"):
            main([name, "--help"])
    assert "--template" in capsys.readouterr().out
