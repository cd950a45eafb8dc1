"""`beadwright cohort`, from a folder of files to a page that can be read."""

import io
import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from beadwright.cli import main
from beadwright.cli.cohort import ProgressBar
from beadwright.course import load_course
from beadwright.records import build_outline
from tests.records.making import make_attempt, make_record, write_records
from tests.support import ROOT
from tests.support.axe import find_axe_findings
from tests.support.pages import Visitor

CONTENT = ROOT / "content"


def make_cohort(folder: Path) -> Path:
    """Twelve learners of the course that ships, who answered its items, some right, some not."""
    loaded = load_course(CONTENT)
    assert loaded.course is not None
    outline = build_outline(loaded.course, loaded.lessons)
    records = []
    for number in range(12):
        attempts = [
            make_attempt(
                f"{number}-{place}", item.id, (number + place) % 3 > 0, lesson=item.lesson, objective=item.objective,
                slip="exchange-dropped" if place % 2 else None, timed=place % 5 == 0, seconds=10, digits_right=2,
                at=f"2026-11-{1 + place % 28:02}T10:00:00.000Z",
            )
            for place, item in enumerate(outline.items.values())
        ]  # fmt: skip
        ratings = [
            {"when": when, "item": item, "value": value, "of": len(outline.points), "at": "2026-11-02"}
            for item in outline.rated
            for when, value in (("before", 1 + number % 3), ("after", 3 + number % 3))
        ]
        marks = [{"lesson": lesson.id, "finished": "2026-11-20", "minutes": 31.5} for lesson in outline.lessons]
        course = {"id": outline.id}
        records.append(make_record(f"l{number}", *attempts, course=course, ratings=ratings, lessons=marks))
    return write_records(folder, *records, "{")


@pytest.mark.browser
def test_the_report_is_readable_by_everybody(
    tmp_path: Path, chromium: Browser, capsys: pytest.CaptureFixture[str]
) -> None:
    folder, out = make_cohort(tmp_path / "in"), tmp_path / "out"
    assert main(["cohort", str(folder), "--course", str(CONTENT), "--out", str(out)]) == 0
    assert "Learners: 12. Files set aside: 1." in capsys.readouterr().out
    assert sorted(path.name for path in out.glob("[!.]*")) == ["cohort.json", "cohort.xlsx", "index.html"]
    visitor = Visitor(chromium, out)
    for scheme in ("light", "dark"):
        page = visitor.open("index.html", width=320, scheme=scheme)
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        assert find_axe_findings(page) == []
    # A picture has a name, sentences that say the same, and its table.
    pictures = page.locator("figure svg[role=img]")
    assert pictures.count() >= 5
    for number in range(pictures.count()):
        twin = str(pictures.nth(number).get_attribute("aria-describedby"))
        assert page.locator(f"#{twin}").inner_text() != ""
    assert page.locator("figure").count() == page.locator("section:has(figure) table").count()
    assert visitor.complaints == []


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["nowhere"], "nowhere"),
        (["in", "--course", "nowhere"], "nowhere"),
        (["in", "--visits", "bad.yml"], "bad.yml:1:58: visits › scores › sets: should be a number from 0 to 3"),
        (["in", "--visits", "none.yml"], "none.yml"),
        (["in", "--group", "Nobody"], "Nobody"),
    ],
)
def test_what_cannot_be_had_is_said(
    options: list[str], said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write_records(tmp_path / "in", make_record("ada"))
    (tmp_path / "bad.yml").write_text("visits: [{date: 2026-10-02, learner: Ada, scores: {sets: 7}}]")
    monkeypatch.chdir(tmp_path)
    course: list[Any] = [] if "--course" in options else ["--course", str(CONTENT)]
    assert main(["cohort", *options, *course, "--out", "out"]) == 1
    told = capsys.readouterr().err
    assert said in told
    assert "Traceback" not in told


def test_a_bar_moves_on_a_terminal_and_nowhere_else() -> None:
    class Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    terminal, file = Terminal(), io.StringIO()
    for bar in (ProgressBar(terminal), ProgressBar(file)):
        for done in range(1, 501):
            bar(done, 500)
    assert file.getvalue() == ""
    assert terminal.getvalue().count("\r") == 3
    assert terminal.getvalue().endswith("100 %\n")


def test_the_data_file_names_what_the_pages_name(tmp_path: Path) -> None:
    folder = make_cohort(tmp_path / "in")
    assert main(["cohort", str(folder), "--course", str(CONTENT), "--out", str(tmp_path / "out")]) == 0
    data = json.loads((tmp_path / "out" / "cohort.json").read_text(encoding="utf-8"))
    assert {row["slip"] for row in data["slips"]} == {"exchange-dropped", "none"}
    assert data["facts"] == {"learners": 12, "files": 13, "set_aside": 1, "answers": data["facts"]["answers"]}
    assert data["facts"]["answers"] == sum(row["answered"] for row in data["learners"])


def test_a_group_in_bytes_that_are_no_text_is_nobodys(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = make_cohort(tmp_path / "in")
    out = ["--out", str(tmp_path / "out")]
    assert main(["cohort", str(folder), "--course", str(CONTENT), *out, "--group", "Tarn\udcff"]) == 1
    assert "no record names the group 'Tarn?'" in capsys.readouterr().err


def test_a_disk_for_temporary_files_that_is_full_is_told_and_left_clean(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(*given: object) -> None:
        raise OSError(28, "No space left on device")

    (tmp_path / "temporary").mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "temporary"))
    monkeypatch.setattr("xlsxwriter.Workbook", fail)
    folder = make_cohort(tmp_path / "in")
    assert main(["cohort", str(folder), "--course", str(CONTENT), "--out", str(tmp_path / "out")]) == 1
    assert capsys.readouterr().err == "beadwright cohort: No space left on device\n"
    assert list((tmp_path / "temporary").iterdir()) == []
    assert not (tmp_path / "out").exists()


def test_a_report_takes_the_place_of_an_earlier_one_and_of_nothing_else(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_records(tmp_path / "in", make_record("ada"))
    out = tmp_path / "out"
    command = ["cohort", str(folder), "--course", str(CONTENT), "--out", str(out)]
    assert main(command) == 0
    write_records(folder, make_record("ada"), make_record("bo"))
    assert main(command) == 0
    assert json.loads((out / "cohort.json").read_text(encoding="utf-8"))["facts"]["files"] == 2
    site = tmp_path / "site"
    site.mkdir()
    (site / "index.html").write_text("the course's own", encoding="utf-8")
    capsys.readouterr()
    assert main([*command[:-1], str(site)]) == 1
    assert "index.html was not made by `beadwright cohort`" in capsys.readouterr().err
    assert [(path.name, path.read_text(encoding="utf-8")) for path in site.iterdir()] == [
        ("index.html", "the course's own")
    ]
