"""A round to work alone for each file in `contest/`: a page, papers, findings where the file is wrong."""

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.support.building import run_mkdocs
from tests.support.small_course import write_course

SPEC = """\
title: Small round
seed: 3
levels:
  - id: sums
    title: Sums
    minutes: 4
    draws:
      - {operation: add, digits: [2, 1], needs: partner-of-10, count: 3}
"""
TOO_FEW = "content/contest/spring.yml:1:1: file: should be problems that exist"


@pytest.fixture
def course(tmp_path: Path) -> Path:
    write_course(tmp_path, editions="{sound: false}")
    (tmp_path / "content" / "contest").mkdir()
    (tmp_path / "content" / "contest" / "spring.yml").write_text(SPEC, encoding="utf-8")
    return tmp_path


def test_each_file_gives_a_page_whose_papers_are_there(course: Path) -> None:
    done = run_mkdocs(course / "mkdocs.yml", course / "site", "--strict")
    assert done.returncode == 0, done.stdout + done.stderr
    page = course / "site" / "rounds" / "spring.html"
    soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html5lib")
    links = [str(link["href"]) for link in soup.select(".bw-round a[href]")]
    papers = [link for link in links if link.rpartition(".")[2] in ("brf", "pdf", "txt")]
    assert {link.rpartition(".")[2] for link in papers} == {"brf", "pdf", "txt"}
    for link in papers:
        assert (page.parent / link).is_file(), link
    assert not (course / "site" / "contest" / "spring.yml").exists()


def test_papers_are_not_made_again_until_the_file_changes(course: Path) -> None:
    def build() -> set[str]:
        assert run_mkdocs(course / "mkdocs.yml", course / "site", "--strict").returncode == 0
        return {path.name for path in (course / ".cache" / "beadwright").iterdir()}

    first = build()
    assert build() == first
    (course / "content" / "contest" / "spring.yml").write_text(SPEC.replace("seed: 3", "seed: 4"), encoding="utf-8")
    assert len(build() - first) == 1


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("seed: 3", "seed: many", "content/contest/spring.yml:2:7: seed:"),
        ("[2, 1], needs: partner-of-10, count: 3", "[1, 1], needs: partner-of-10, count: 60", TOO_FEW),
    ],
)
def test_what_is_wrong_is_told_with_its_place_and_the_old_site_stays(
    course: Path, old: str, new: str, said: str
) -> None:
    assert run_mkdocs(course / "mkdocs.yml", course / "site", "--strict").returncode == 0
    before = (course / "site" / "rounds" / "spring.html").read_bytes()
    (course / "content" / "contest" / "spring.yml").write_text(SPEC.replace(old, new), encoding="utf-8")
    done = run_mkdocs(course / "mkdocs.yml", course / "site", "--strict")
    assert done.returncode != 0
    assert said in done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert (course / "site" / "rounds" / "spring.html").read_bytes() == before


def test_an_example_shows_all_its_papers_and_any_other_round_none(course: Path) -> None:
    other = course / "content" / "contest" / "autumn.yml"
    other.write_text(SPEC.replace("seed: 3", "seed: 5\nexample: yes"), encoding="utf-8")
    done = run_mkdocs(course / "mkdocs.yml", course / "site", "--strict")
    assert done.returncode == 0, done.stdout + done.stderr
    assert not list((course / "site").rglob("spring-papers*"))
    page = course / "site" / "rounds" / "autumn-papers.html"
    soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html5lib")
    files = {str(link["href"]) for link in soup.select("main li a[href*='autumn-papers/']")}
    assert {(page.parent / file).is_file() for file in files} == {True}
    made = {path.relative_to(page.parent).as_posix() for path in (page.parent / "autumn-papers").rglob("*.*")}
    assert files == made
    # Four sections with a key in four forms, three papers, a script and a tie-break set in three and four, and figures.
    assert len(files) == 4 * 4 + 3 + 3 + 4 + 2 + 1
    # The paper in Nemeth Code, as its braille file has it.
    cells = soup.select_one("[id^=sums-nemeth] ~ .bw-cells-pages")
    assert cells is not None
    brf = (page.parent / "autumn-papers" / "sums" / "nemeth-1.brf").read_bytes()
    brf_lines = brf.replace(b"\f", b"").decode("ascii").split("\r\n")
    shown = [line for pre in cells.select("pre") for line in pre.get_text().split("\n")]
    assert [len(line) for line in shown if line] == [len(line) for line in brf_lines if line]
    assert any("⠼⠂⠸⠲" in line for line in shown)  # 1. in Nemeth Code: indicator, 1, punctuation indicator, full stop


def test_each_file_has_a_page_of_its_own_and_hidden_ones_have_none(course: Path) -> None:
    contest = course / "content" / "contest"
    (contest / "spring.b.yml").write_text(SPEC.replace("Small round", "Second round"), encoding="utf-8")
    (contest / ".#spring.yml").write_text("an editor's own", encoding="utf-8")
    done = run_mkdocs(course / "mkdocs.yml", course / "site", "--strict")
    assert done.returncode == 0, done.stdout + done.stderr
    pages = {path.name: path.read_text(encoding="utf-8") for path in (course / "site" / "rounds").glob("*.html")}
    titles = {name: BeautifulSoup(text, "html.parser").select_one("h1") for name, text in pages.items()}
    found = {name: title and title.get_text().partition(":")[0] for name, title in titles.items()}
    assert found == {"spring.html": "Small round", "spring.b.html": "Second round"}
