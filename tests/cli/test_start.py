"""`beadwright start`: a new course, and no file of anybody's lost."""

import json
import re
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest
import yaml

from beadwright.cli import main
from beadwright.paths import templates_dir
from beadwright.scaffold import find_scaffold


def files_below(folder: Path) -> set[str]:
    """Every file under a folder, named from it."""
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def course_of(folder: Path) -> dict[str, object]:
    """The course file that was written."""
    course: dict[str, object] = yaml.safe_load((folder / "content" / "course.yml").read_text(encoding="utf-8"))
    return course


def test_it_writes_every_file_of_the_scaffold_and_names_each(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "spring"
    assert main(["start", str(folder)]) == 0
    schemas = {"schema/course.schema.json", "schema/glossary.schema.json", "schema/lesson.schema.json"}
    assert files_below(folder) == files_below(templates_dir() / "scaffold") | schemas | {"certificate.typ"}
    said = capsys.readouterr().out
    for name in files_below(folder):
        assert str(folder / name) in said
    assert f"cd {folder}" in said


def test_an_editor_finds_the_schema_of_each_file(tmp_path: Path) -> None:
    main(["start", str(tmp_path / "spring")])
    written = sorted((tmp_path / "spring" / "content").rglob("*.yml"))
    assert len(written) > 1
    for path in written:
        found = re.search(r"^# yaml-language-server: \$schema=(\S+)$", path.read_text(encoding="utf-8"), re.MULTILINE)
        assert found, path
        schema = json.loads((path.parent / found[1]).read_text(encoding="utf-8"))
        jsonschema.validate(yaml.safe_load(path.read_text(encoding="utf-8")), schema)


def test_no_mark_of_the_scaffold_is_left(tmp_path: Path) -> None:
    main(["start", str(tmp_path / "spring")])
    for path in (tmp_path / "spring").rglob("*"):
        if path.is_file():
            assert not re.search("@[a-z]+@", path.read_text(encoding="utf-8")), path


@pytest.mark.parametrize(
    "title", ["Frames at Alder Hill", 'The "five" bead: a start', "Zählrahmen — für alle", "yes", "#1 @id@"]
)
def test_the_title_is_kept_to_the_letter(tmp_path: Path, title: str) -> None:
    assert main(["start", str(tmp_path / "spring"), "--title", title]) == 0
    assert course_of(tmp_path / "spring")["title"] == title


@pytest.mark.parametrize(
    ("name", "start"), [("Spring 2027", "spring-2027-"), ("Кадр", "course-"), ("x" * 80, "x" * 32 + "-")]
)
def test_the_id_comes_from_the_folder(tmp_path: Path, name: str, start: str) -> None:
    assert main(["start", str(tmp_path / name)]) == 0
    assert re.fullmatch(re.escape(start) + "[0-9a-f]{6}", str(course_of(tmp_path / name)["id"]))


def test_two_courses_in_folders_of_one_name_differ_in_id(tmp_path: Path) -> None:
    for parent in ("first", "second"):
        assert main(["start", str(tmp_path / parent / "course")]) == 0
    assert course_of(tmp_path / "first" / "course")["id"] != course_of(tmp_path / "second" / "course")["id"]


def test_a_folder_with_other_files_in_it_is_taken(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    assert main(["start", str(tmp_path)]) == 0
    assert (tmp_path / "notes.txt").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("name", [path.as_posix() for path in find_scaffold()])
def test_a_file_that_is_there_is_never_overwritten(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    mine = tmp_path / name
    mine.parent.mkdir(parents=True, exist_ok=True)
    mine.write_text("mine", encoding="utf-8")
    assert main(["start", str(tmp_path)]) == 1
    assert files_below(tmp_path) == {name}
    assert mine.read_text(encoding="utf-8") == "mine"
    assert f"{mine} is there already" in capsys.readouterr().err


def test_a_dangling_link_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").symlink_to(tmp_path / "elsewhere.yml")
    assert main(["start", str(tmp_path)]) == 1
    assert not (tmp_path / "elsewhere.yml").exists()


def test_a_file_is_no_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "spring").write_text("", encoding="utf-8")
    assert main(["start", str(tmp_path / "spring")]) == 1
    assert "is a file; name a folder" in capsys.readouterr().err


def test_an_empty_title_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["start", str(tmp_path / "spring"), "--title", " "]) == 1
    assert "give one with --title" in capsys.readouterr().err
    assert not (tmp_path / "spring").exists()


def test_a_title_is_as_long_as_check_takes_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["start", str(tmp_path / "spring"), "--title", " " + "a" * 301]) == 1
    assert "at most 300 letters, not 301; give another with --title" in capsys.readouterr().err
    assert not (tmp_path / "spring").exists()
    assert main(["start", str(tmp_path / "spring"), "--title", " " + "a" * 300]) == 0
    assert main(["check", str(tmp_path / "spring")]) == 0


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    assert main(["start", str(tmp_path / "file" / "spring")]) == 1
    said = capsys.readouterr().err
    assert said.startswith("beadwright start: ")
    assert "Traceback" not in said


def test_no_command_is_a_misuse(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit, match="2"):
        main([])
    assert "usage: beadwright" in capsys.readouterr().err


def test_it_runs_as_a_command(tmp_path: Path) -> None:
    command = Path(sys.executable).with_name("beadwright")
    done = subprocess.run([command, "start", tmp_path / "spring"], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "spring" / "mkdocs.yml").is_file()


@pytest.mark.parametrize("title", ["two\nlines", "bytes that are no text \udcff", "a\u202eb", "\x00"])
def test_a_title_that_is_no_line_of_text_is_refused(
    title: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["start", str(tmp_path / "spring"), "--title", title]) == 1
    assert "a title is one line of letters and signs" in capsys.readouterr().err
    assert not (tmp_path / "spring").exists()
