"""`beadwright check`, from the outside."""

import re
from pathlib import Path

import pytest

from beadwright.cli import main
from tests.support import ROOT


@pytest.fixture
def course(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """A new course, with nothing of what `start` said left to read."""
    assert main(["start", str(tmp_path / "spring")]) == 0
    capsys.readouterr()
    return tmp_path / "spring"


def test_a_new_course_has_nothing_to_put_right(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status = main(["check", str(course)])
    assert (capsys.readouterr().out, status) == ("2 lessons checked, nothing to put right.\n", 0)


def test_the_course_that_ships_has_nothing_to_put_right(capsys: pytest.CaptureFixture[str]) -> None:
    status = main(["check", str(ROOT)])
    assert status == 0, capsys.readouterr().out


def test_it_checks_the_folder_it_stands_in(
    course: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(course)
    assert main(["check"]) == 0
    monkeypatch.chdir(course / "content")
    assert main(["check"]) == 0


def test_each_mistake_has_its_place_and_the_status_says_so(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lesson = course / "content" / "modules" / "01-set-and-read.lesson.yml"
    text = lesson.read_text(encoding="utf-8")
    lesson.write_text(text.replace("minutes: 30", "minutes: soon", 1), encoding="utf-8")
    line = text[: text.index("minutes: 30")].count("\n") + 1
    assert main(["check", str(course)]) == 1
    assert f"content/modules/01-set-and-read.lesson.yml:{line}:10: minutes: " in capsys.readouterr().out


def test_a_folder_without_a_course_is_no_traceback(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(tmp_path / "nowhere")]) == 1
    assert "course.yml" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (
            "id: second",
            "id: first",
            'spring.yml:4:10: levels › id: should be used once, found "first" in line 3 already',
        ),
        ("[2, 2]", "[2, 2], pin: [12 - 48]", "spring.yml:1:1: file: should be problems that exist"),
        ("[2, 2]", "[2, 2], pin: [48 + 37, 28 + 5]", "spring.yml:3:106: levels › draws › pin: should be no more"),
    ],
)
def test_it_checks_contests_too(
    course: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, said: str
) -> None:
    contest = course / "content" / "contest" / "spring.yml"
    contest.parent.mkdir()
    level = "  - {id: %s, title: Level, minutes: 5, sections: [ueb], draws: [{operation: add, digits: [2, 2]}]}\n"
    text = f"title: Spring\nlevels:\n{level % 'first'}{level % 'second'}"
    contest.write_text(text, encoding="utf-8")
    assert main(["check", str(course)]) == 0
    capsys.readouterr()
    contest.write_text(text.replace(old, new, 1), encoding="utf-8")
    assert main(["check", str(course)]) == 1
    told = capsys.readouterr().out
    assert f"content/contest/{said}" in told
    assert "1 thing to put right in 1 file." in told


def test_a_problem_of_a_sheet_that_no_frame_here_has_room_for_is_told(
    course: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = course / "content" / "contest" / "sheet.yml"
    sheet.parent.mkdir()
    sheet.write_text("title: T\nproblems: [9999999999999 + 1]\n", encoding="utf-8")
    assert main(["check", str(course)]) == 1
    told = capsys.readouterr().out
    assert "content/contest/sheet.yml:1:1: file: should be problems that exist" in told
    assert "1 more column" in told


def test_commands_follow_the_settings_to_the_content(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (course / "other").mkdir()
    (course / "content").rename(course / "other" / "en")
    settings = course / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(text.replace("docs_dir: content", "docs_dir: other/en"), encoding="utf-8")
    assert main(["check", str(course)]) == 0
    (course / "records").mkdir()
    options = [str(course / "records"), "--course", str(course), "--out", str(course / "report")]
    assert main(["cohort", *options]) == 0, capsys.readouterr().err


def test_it_lists_what_is_drawn_with_the_techniques_needed(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lesson = course / "content" / "modules" / "01-set-and-read.lesson.yml"
    text = lesson.read_text(encoding="utf-8")
    objective = re.search(r"objectives:\s+- id: ([a-z0-9-]+)", text)
    assert objective
    drawn = "{operation: add, digits: [2, 2], needs: partner-of-10, count: 2, pool: 3, pin: [48 + 37]}"
    practice = f"\n  - practice: {{id: tens, title: Tens, objective: {objective[1]}, items: [{{draw: {drawn}}}]}}\n"
    lesson.write_text(text.rstrip() + practice, encoding="utf-8")
    assert main(["check", str(course), "--drawn"]) == 0
    lines = capsys.readouterr().out.splitlines()
    lines = lines[lines.index("content/modules/01-set-and-read.lesson.yml: tens") + 1 :]
    lines = lines[: next((at for at, line in enumerate(lines) if line.startswith("content/")), None)]
    own = [line for line in lines if line.startswith("  tens-")]
    others = [line for line in lines if line.startswith("    or ")]
    assert len(own) == 2
    assert len(others) == 4
    assert own[0].endswith("(answer): 48 + 37 is 85: partner-of-5, partner-of-10")
    for line in own + others:
        assert "partner-of-10" in line
        assert "both-partners" not in line
