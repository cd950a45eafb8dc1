"""What a command writes into a folder: nothing that somebody else made or changed there is lost, all or nothing."""

import json
import os
from pathlib import Path

import pytest

from beadwright.cli import main
from beadwright.whole import InTheWayError, write_made

CONTEST = """\
title: Spring
seed: %d
levels:
"""
LEVEL = """\
  - {id: %s, title: Level %s, minutes: 5, sections: [nemeth, ueb], draws: [{operation: add, digits: [2, 2], count: 2}]}
"""


def read_all(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def list_shown(folder: Path) -> set[str]:
    return {name for name in read_all(folder) if not name.startswith(".")}


def write_contest(path: Path, seed: int, *levels: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(CONTEST % seed + "".join(LEVEL % (level, level) for level in levels), encoding="utf-8")
    return path


def test_what_was_made_is_made_again_and_what_is_no_longer_made_goes(tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert write_made(out, "sheet", {"a.txt": b"1", "first/b.txt": b"1", "second/b.txt": b"1"}) == 0
    (out / "mine.txt").write_bytes(b"mine")
    assert write_made(out, "sheet", {"a.txt": b"2", "first/b.txt": b"2"}) == 1
    assert list_shown(out) == {"a.txt", "first/b.txt", "mine.txt"}
    assert not (out / "second").exists()
    assert (out / "a.txt").read_bytes() == b"2"


def spoil_file(out: Path) -> None:
    (out / "a.txt").write_bytes(b"by hand")


def spoil_old_file(out: Path) -> None:
    (out / "old" / "b.txt").write_bytes(b"by hand")


def put_file(out: Path) -> None:
    (out / "new.txt").write_bytes(b"mine")


def put_link(out: Path) -> None:
    (out / "new.txt").symlink_to("mine.txt")


def put_folder(out: Path) -> None:
    (out / "new.txt").mkdir()
    (out / "new.txt" / "mine.txt").write_bytes(b"mine")


def put_file_for_folder(out: Path) -> None:
    (out / "first").write_bytes(b"mine")


def spoil_list(out: Path) -> None:
    (out / ".beadwright-made.json").write_bytes(b"[")


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (spoil_file, "a.txt was changed since it was made"),
        (spoil_old_file, "b.txt was changed since it was made"),
        (put_file, "new.txt was not made by `beadwright sheet`"),
        (put_link, "new.txt was not made by `beadwright sheet`"),
        (put_folder, "new.txt is a folder, where a file is to go"),
        (put_file_for_folder, "first is a file, where a folder is to be"),
        (spoil_list, "a.txt was not made by `beadwright sheet`"),
    ],
)
def test_what_is_somebody_elses_is_kept_and_nothing_is_written(tmp_path: Path, spoil: object, said: str) -> None:
    out = tmp_path / "out"
    write_made(out, "sheet", {"a.txt": b"1", "old/b.txt": b"1"})
    (out / "mine.txt").write_bytes(b"mine")
    assert callable(spoil)
    spoil(out)
    before = read_all(out)
    with pytest.raises(InTheWayError, match=said) as raised:
        write_made(out, "sheet", {"a.txt": b"2", "new.txt": b"2", "first/b.txt": b"2"})
    assert "--out" in str(raised.value)
    assert read_all(out) == before
    assert {path.name for path in out.iterdir() if path.is_dir()} <= {"old", "new.txt"}


def test_a_folder_in_the_place_of_an_old_file_is_nobodys_but_the_trainers(tmp_path: Path) -> None:
    write_made(tmp_path, "sheet", {"a.txt": b"1"})
    (tmp_path / "a.txt").unlink()
    (tmp_path / "a.txt").mkdir()
    (tmp_path / "a.txt" / "mine.txt").write_bytes(b"mine")
    write_made(tmp_path, "sheet", {"b.txt": b"1"})
    assert (tmp_path / "a.txt" / "mine.txt").read_bytes() == b"mine"


def test_a_list_from_elsewhere_leads_nowhere_else(tmp_path: Path) -> None:
    out, mine = tmp_path / "out", tmp_path / "mine.txt"
    mine.write_bytes(b"")
    empty = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"  # SHA-256 of no bytes, FIPS 180
    made = {"sheet": {"../mine.txt": empty, str(mine): empty, "": empty, ".": empty}}
    out.mkdir()
    (out / ".beadwright-made.json").write_text(json.dumps({"made": made}), encoding="utf-8")
    write_made(out, "sheet", {"a.txt": b"1"})
    assert mine.exists()


def test_a_move_that_fails_half_way_is_taken_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "out"
    write_made(out, "sheet", {"a.txt": b"1", "old/b.txt": b"1"})
    before = read_all(out)
    rename = Path.rename
    moved: list[Path] = []

    def fail(self: Path, target: Path) -> Path:
        moved.append(self)
        if len(moved) == fails_at:
            raise OSError(5, "Input/output error")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", fail)
    # Two files and the list take the place of two, one comes, one goes.
    for fails_at in range(1, 7):
        moved.clear()
        with pytest.raises(OSError, match="Input/output"):
            write_made(out, "sheet", {"a.txt": b"2", "new/c.txt": b"2"})
        assert read_all(out) == before, fails_at
        assert {path.name for path in out.iterdir()} == {".beadwright-made.json", "a.txt", "old"}
    moved.clear()
    fails_at = 0
    write_made(out, "sheet", {"a.txt": b"2", "new/c.txt": b"2"})
    assert len(moved) == 6
    assert list_shown(out) == {"a.txt", "new/c.txt"}


def test_what_cannot_be_moved_back_either_is_not_lost(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_made(tmp_path, "sheet", {"a.txt": b"1"})
    rename = Path.rename
    moved: list[Path] = []

    def fail(self: Path, target: Path) -> Path:
        moved.append(self)
        if len(moved) > 1:
            raise OSError(5, "Input/output error")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", fail)
    with pytest.raises(OSError, match="Input/output"):
        write_made(tmp_path, "sheet", {"a.txt": b"2"})
    assert [path.read_bytes() for path in tmp_path.rglob("old-*")] == [b"1"]
    assert list(tmp_path.rglob("new-*")) == []


def test_papers_corrected_by_hand_are_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spec = write_contest(tmp_path / "spring.yml", 1, "first", "second")
    command = ["sheet", str(spec), "--no-sound"]
    assert main(command) == 0
    write_contest(spec, 2, "first")
    assert main(command) == 0
    assert "Removed" in capsys.readouterr().out
    assert not (tmp_path / "spring" / "second").exists()
    corrected = tmp_path / "spring" / "first" / "nemeth-1.brf"
    corrected.write_bytes(b"by hand")
    write_contest(spec, 3, "first")
    before = read_all(tmp_path)
    assert main(command) == 1
    assert "nemeth-1.brf was changed since it was made" in capsys.readouterr().err
    assert read_all(tmp_path) == before
    assert main([*command, "--out", str(tmp_path / "other")]) == 0


@pytest.mark.parametrize("where", [".", "content", "content/contest"])
def test_papers_of_a_contest_in_a_course_are_made_outside_its_content(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], where: str
) -> None:
    spec = write_contest(tmp_path / "content" / "contest" / "spring.yml", 1, "first")
    (tmp_path / "content" / "course.yml").write_text("id: a-course\n", encoding="utf-8")
    before = read_all(tmp_path / "content")
    monkeypatch.chdir(tmp_path / where)
    assert main(["sheet", os.path.relpath(spec), "--no-sound"]) == 0
    assert (tmp_path / "spring" / "first" / "nemeth-1.brf").is_file()
    assert os.path.relpath(tmp_path / "spring") in capsys.readouterr().out
    assert read_all(tmp_path / "content") == before


def test_a_file_whose_name_is_only_an_end_has_a_folder_too(tmp_path: Path) -> None:
    assert main(["sheet", str(write_contest(tmp_path / ".round.yml", 1, "first")), "--no-sound"]) == 0
    assert (tmp_path / "round" / "first" / "nemeth-1.brf").is_file()


def test_a_file_without_an_end_needs_a_folder_of_another_name(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = write_contest(tmp_path / "round", 1, "first")
    assert main(["sheet", str(spec), "--no-sound"]) == 1
    told = capsys.readouterr().err
    assert f"{spec} is a file, where a folder is to be" in told
    assert "--out" in told
    assert main(["sheet", str(spec), "--no-sound", "--out", str(tmp_path / "papers")]) == 0
