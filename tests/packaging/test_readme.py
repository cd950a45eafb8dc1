"""What the README shows is so."""

import re
import shlex
from pathlib import Path

import pytest

from beadwright.cli import main
from tests.support import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    """The README's blocks of code in a language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def lines(command: str) -> list[str]:
    """The README's command lines that start with a command, without what is said behind `#`."""
    return [
        line.partition("  #")[0].strip()
        for block in blocks("sh")
        for line in block.splitlines()
        if line.startswith(command + " ")
    ]


def test_the_lesson_it_shows_is_sound(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (lesson,) = blocks("yaml")
    assert main(["start", str(tmp_path)]) == 0
    (tmp_path / "content" / "modules" / "03-shown.lesson.yml").write_text(lesson, encoding="utf-8")
    course = tmp_path / "content" / "course.yml"
    text = course.read_text(encoding="utf-8")
    course.write_text(text.replace("modules:\n", "modules:\n  - shown\n"), encoding="utf-8")
    capsys.readouterr()
    status = main(["check", str(tmp_path)])
    assert (capsys.readouterr().out, status) == ("3 lessons checked, nothing to put right.\n", 0)


def test_every_command_it_shows_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    start, *others = lines("beadwright")
    assert main(shlex.split(start)[1:]) == 0
    monkeypatch.chdir(tmp_path / "my-course")
    assert len(others) > 1
    for command in others:
        assert main(shlex.split(command)[1:]) == 0, command


def test_every_make_target_it_shows_is_there() -> None:
    targets = set(re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.MULTILINE))
    code = [*blocks("sh"), *re.findall(r"`make [a-z]+`", README)]
    shown = set(re.findall(r"\bmake ([a-z]+)", "\n".join(code)))
    assert {"site", "serve", "test", "wheel"} <= shown
    assert shown <= targets


def test_every_file_it_names_in_a_new_course_is_written(tmp_path: Path) -> None:
    main(["start", str(tmp_path)])
    for name in re.findall(r"^\| `([^`]+)` \|", README, re.MULTILINE):
        assert list(tmp_path.glob(name.rstrip("/"))), name
