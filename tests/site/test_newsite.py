"""A site is built beside the old one: whatever happens, there is the old one or the new one, whole."""

import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from beadwright import whole
from beadwright.site.newsite import NewSite
from tests.support.building import run_mkdocs
from tests.support.small_course import write_content, write_course


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """A course in a folder with a space and letters that are not Latin."""
    return write_course(tmp_path / "курс ö 課")


def build(course: Path) -> "subprocess.CompletedProcess[str]":
    return run_mkdocs(course / "mkdocs.yml", course / "site", "--strict")


def read_all(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def list_left(course: Path) -> set[str]:
    """What stands beside the course's own files."""
    return {path.name for path in course.iterdir()} - {"content", "mkdocs.yml", "site", ".cache"}


def make_site(folder: Path, text: str) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "index.html").write_text(text, encoding="utf-8")


@pytest.mark.parametrize("at_once", [True, False])
def test_the_new_one_takes_the_old_ones_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at_once: bool) -> None:
    if not at_once:
        monkeypatch.setattr(whole, "_exchange", lambda *_: False)
    site = tmp_path / "site"
    for text in ("first", "second"):
        new = NewSite(site)
        assert new.folder.parent == site.parent
        make_site(new.folder, text)
        (new.folder / text).write_text(text, encoding="utf-8")
        new.finish()
        assert read_all(site) == {"index.html": text.encode(), text: text.encode()}
        assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_one_that_is_dropped_leaves_the_old_one(tmp_path: Path) -> None:
    make_site(tmp_path / "site", "old")
    new = NewSite(tmp_path / "site")
    make_site(new.folder, "new")
    new.drop()
    assert read_all(tmp_path / "site") == {"index.html": b"old"}
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_move_that_fails_puts_the_old_one_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(whole, "_exchange", lambda *_: False)
    make_site(tmp_path / "site", "old")
    new = NewSite(tmp_path / "site")
    make_site(new.folder, "new")
    rename = Path.rename

    def fail(self: Path, target: Path) -> Path:
        if self == new.folder:
            raise OSError(5, "Input/output error")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", fail)
    with pytest.raises(OSError, match="Input/output"):
        new.finish()
    monkeypatch.undo()
    assert read_all(tmp_path / "site") == {"index.html": b"old"}


def test_hidden_files_stay_and_hidden_folders_are_built_around(tmp_path: Path) -> None:
    site = tmp_path / "site"
    make_site(site, "old")
    (site / ".keep").write_text("mine", encoding="utf-8")
    new = NewSite(site)
    make_site(new.folder, "new")
    new.finish()
    assert read_all(site) == {"index.html": b"new", ".keep": b"mine"}
    (site / ".git").mkdir()
    (site / ".git" / "HEAD").write_text("mine", encoding="utf-8")
    (site / "gone.html").write_text("old", encoding="utf-8")
    held = (site / ".git").stat().st_ino
    new = NewSite(site)
    make_site(new.folder, "newer")
    make_site(new.folder / "modules", "newer")
    (new.folder / ".keep").write_text("a hook's", encoding="utf-8")
    assert read_all(site)["index.html"] == b"new"
    new.finish()
    assert read_all(site) == {
        "index.html": b"newer",
        "modules/index.html": b"newer",
        ".keep": b"a hook's",
        ".git/HEAD": b"mine",
    }
    assert (site / ".git").stat().st_ino == held
    assert {path.name for path in site.iterdir()} == {"index.html", "modules", ".keep", ".git"}


@pytest.mark.parametrize("fails_at", range(4))
def test_an_exchange_inside_a_site_that_fails_half_way_is_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails_at: int
) -> None:
    site = tmp_path / "site"
    make_site(site, "old")
    make_site(site / "modules", "old")
    (site / ".well-known").mkdir()
    new = NewSite(site)
    make_site(new.folder, "new")
    make_site(new.folder / "modules", "new")
    rename, moved = Path.rename, []

    def fail(self: Path, target: Path) -> Path:
        moved.append(self)
        if len(moved) == fails_at + 1:
            raise OSError(5, "Input/output error")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", fail)
    with pytest.raises(OSError, match="Input/output"):
        new.finish()
    monkeypatch.undo()
    new.drop()
    assert read_all(site) == {"index.html": b"old", "modules/index.html": b"old"}
    assert {path.name for path in site.iterdir()} == {"index.html", "modules", ".well-known"}


def test_what_an_ended_build_has_left_is_cleared_and_another_builds_is_not(tmp_path: Path) -> None:
    site = tmp_path / "site"
    make_site(site, "old")
    left = whole.make_beside(site, "new")
    os.utime(left, (time.time() - 3600, time.time() - 3600))
    running = NewSite(site)
    os.utime(running.folder, (time.time() - 3600, time.time() - 3600))
    NewSite(site).drop()
    assert not left.exists()
    assert running.folder.exists()
    running.drop()


def test_an_old_site_that_was_moved_aside_comes_back(tmp_path: Path) -> None:
    aside = whole.make_beside(tmp_path / "site", "old")
    make_site(aside, "old")
    NewSite(tmp_path / "site").drop()
    assert read_all(tmp_path / "site") == {"index.html": b"old"}


def test_a_build_in_a_folder_of_any_name(course: Path) -> None:
    done = build(course)
    assert done.returncode == 0, done.stderr
    assert (course / "site" / "modules" / "two.html").is_file()
    assert list_left(course) == set()


def test_with_something_to_put_right_the_old_site_stays(course: Path) -> None:
    assert build(course).returncode == 0
    before = read_all(course / "site")
    (course / "content" / "modules" / "02-two.lesson.yml").write_text("title: [", encoding="utf-8")
    done = build(course)
    assert done.returncode != 0
    assert "02-two.lesson.yml" in done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert read_all(course / "site") == before


@pytest.mark.parametrize("hidden", [(), (".well-known",)])
def test_a_full_disk_leaves_the_old_site_and_says_what_to_do(course: Path, hidden: tuple[str, ...]) -> None:
    assert build(course).returncode == 0
    for name in hidden:
        (course / "site" / name).mkdir()
        (course / "site" / name / "mine.txt").write_text("mine", encoding="utf-8")
    before = read_all(course / "site")
    write_content(course / "content", second="joy")
    # No file may be larger than 64 blocks of 512 bytes: what a file system says that has no room for more.
    script = f"ulimit -f 64; trap '' XFSZ; exec {sys.executable} -m mkdocs build -q -f mkdocs.yml -d site"
    done = subprocess.run(["sh", "-c", script], cwd=course, capture_output=True, text=True, check=False)
    assert done.returncode != 0
    assert "Traceback" not in done.stderr, done.stderr
    assert "The site was not replaced." in done.stdout + done.stderr
    assert "then build again" in done.stdout + done.stderr
    assert read_all(course / "site") == before
    assert list_left(course) == set()
    assert build(course).returncode == 0
    assert read_all(course / "site") != before
    assert {path.name for path in (course / "site").glob(".*")} == set(hidden)


def test_a_build_in_the_sites_own_place_does_not_say_that_it_was_kept(course: Path) -> None:
    assert build(course).returncode == 0
    write_content(course / "content", second="joy")
    script = f"ulimit -f 64; trap '' XFSZ; exec {sys.executable} -m mkdocs build -q --dirty -f mkdocs.yml -d site"
    done = subprocess.run(["sh", "-c", script], cwd=course, capture_output=True, text=True, check=False)
    assert done.returncode != 0
    assert "then build again" in done.stdout + done.stderr
    assert "not replaced" not in done.stdout + done.stderr


def test_a_hook_that_fails_leaves_the_old_site_with_its_hidden_folder(course: Path) -> None:
    assert build(course).returncode == 0
    (course / "site" / ".well-known").mkdir()
    (course / "site" / ".well-known" / "mine.txt").write_text("mine", encoding="utf-8")
    before = read_all(course / "site")
    (course / "fail.py").write_text("def on_post_page(*_, **__):\n    raise RuntimeError('mine')\n", encoding="utf-8")
    with (course / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write("hooks: [fail.py]\n")
    assert build(course).returncode != 0
    assert read_all(course / "site") == before


def test_a_build_that_is_killed_leaves_a_whole_site_at_every_moment(course: Path) -> None:
    assert build(course).returncode == 0
    old = read_all(course / "site")
    write_content(course / "content", second="joy")
    assert run_mkdocs(course / "mkdocs.yml", course / "other", "--strict").returncode == 0
    new = read_all(course / "other")
    for moment in (0.3, 0.6, 0.9, 1.2, 1.5):
        shutil.rmtree(course / ".cache", ignore_errors=True)
        command = [sys.executable, "-m", "mkdocs", "build", "-q", "-d", "site"]
        with subprocess.Popen(command, cwd=course, stderr=subprocess.DEVNULL, start_new_session=True) as building:
            time.sleep(moment)
            os.killpg(building.pid, signal.SIGKILL)
        assert read_all(course / "site") in (old, new), moment
    assert build(course).returncode == 0
    assert read_all(course / "site") == new


def test_two_builds_at_once_leave_a_whole_site(course: Path) -> None:
    command = [sys.executable, "-m", "mkdocs", "build", "-q", "-d", "site"]
    running = [subprocess.Popen(command, cwd=course, stderr=subprocess.PIPE, text=True) for _ in range(3)]
    said = [building.communicate()[1] for building in running]
    assert [building.returncode for building in running] == [0, 0, 0], said
    site = read_all(course / "site")
    assert run_mkdocs(course / "mkdocs.yml", course / "other").returncode == 0
    assert site == read_all(course / "other")
    assert list_left(course) == {"other"}
