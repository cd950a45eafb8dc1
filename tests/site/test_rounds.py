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
