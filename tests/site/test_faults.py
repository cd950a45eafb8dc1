"""Disks, files and clocks that are not as they should be: the old site or the new one, whole, and a next step."""

import ctypes
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.support.small_course import write_course

DROP_FROM_BOUNDING_SET = 24
OVERRIDE, READ_SEARCH = 1, 2


def obey_modes() -> None:
    """Make the administrator, as whom tests often run, obey the modes of files like everybody else (Linux)."""
    library = ctypes.CDLL(None)
    for power in (OVERRIDE, READ_SEARCH):
        library.prctl(DROP_FROM_BOUNDING_SET, power, 0, 0, 0)


def build(course: Path, *, clock: Path | None = None, site: str = "site") -> "subprocess.CompletedProcess[str]":
    path = {} if clock is None else {"PYTHONPATH": str(clock)}
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "-q", "-d", site],
        cwd=course,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1", **path},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        preexec_fn=obey_modes,
    )


def read_all(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A course that was built, to be spoilt in copies."""
    course = write_course(tmp_path_factory.mktemp("built"))
    with (course / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write("site_url: https://frames.example/\n")  # so that there is a list of pages with their days
    assert build(course).returncode == 0
    assert "https://frames.example/modules/one.html" in (course / "site" / "sitemap.xml").read_text(encoding="utf-8")
    return course


@pytest.fixture
def course(built: Path, tmp_path: Path) -> Path:
    subprocess.run(["cp", "-a", str(built), str(tmp_path / "course")], check=True)
    return tmp_path / "course"


def close_page(course: Path) -> None:
    (course / "content" / "index.md").chmod(0)


def close_picture(course: Path) -> None:
    (course / "content" / "a.png").write_bytes(b"x")
    (course / "content" / "a.png").chmod(0)


def close_lesson(course: Path) -> None:
    (course / "content" / "modules" / "01-one.lesson.yml").chmod(0)


def close_content(course: Path) -> None:
    (course / "content").chmod(0)


def close_site(course: Path) -> None:
    (course / "site").chmod(0o555)
    course.chmod(0o555)


def lead_out(course: Path) -> None:
    (course / "content" / "passwd.md").symlink_to("/etc/passwd")


def go_round(course: Path) -> None:
    (course / "content" / "again").symlink_to(".")


def wait_for_ever(course: Path) -> None:
    os.mkfifo(course / "content" / "page.md")


def spoil_letters(course: Path) -> None:
    (course / "content" / "page.md").write_bytes(b"caf\xe9\n")


@pytest.mark.parametrize(
    ("spoil", "named", "step"),
    [
        (close_page, "index.md", "permission"),
        (close_picture, "a.png", "permission"),
        (close_lesson, "01-one.lesson.yml", "permissions"),
        (close_content, "course.yml", "permission"),
        (close_site, "site", "build into another folder"),
        (lead_out, "passwd.md", "Copy the file in"),
        (go_round, "again", "Copy the folder in"),
        (wait_for_ever, "page.md", "not a plain file"),
        (spoil_letters, "page.md:1:4", "UTF-8"),
    ],
)
def test_the_old_site_stays_and_what_to_do_is_said(
    course: Path, spoil: Callable[[Path], None], named: str, step: str
) -> None:
    before = read_all(course / "site")
    spoil(course)
    done = build(course)
    for path in (course, course / "content", course / "site"):
        path.chmod(0o755)
    told = done.stdout + done.stderr
    assert done.returncode != 0
    assert "Traceback" not in told
    assert named in told
    assert step.lower() in told.lower()
    assert read_all(course / "site") == before
    assert {path.name for path in course.iterdir()} == {".cache", "content", "mkdocs.yml", "site"}


@pytest.mark.parametrize(
    ("setting", "said"),
    [
        ("plugins: [search, beadwright, beadwright]", "lists beadwright twice"),
        ("theme: readthedocs", "should be material, found readthedocs"),
    ],
)
def test_settings_that_nothing_whole_can_come_of_build_nothing(course: Path, setting: str, said: str) -> None:
    with (course / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write(f"{setting}\n")  # of two keys the later one counts
    before = read_all(course / "site")
    done = build(course)
    assert done.returncode == 1
    assert said in done.stdout + done.stderr
    assert "Traceback" not in done.stdout + done.stderr
    assert read_all(course / "site") == before


@pytest.mark.parametrize("name", ["record", "modules/one", "own"])
def test_a_trainers_own_page_may_ask_for_a_part_wherever_it_stands(course: Path, name: str) -> None:
    (course / "content" / f"{name}.md").write_text("# Mine\n\n<!-- bw:begin -->\n", encoding="utf-8")
    done = build(course)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "<bw-begin" in (course / "site" / f"{name}.html").read_text(encoding="utf-8")


CODE = """\
# Mine

```html
<!-- bw:begin -->
```

~~~~
~~~
<!-- bw:begin -->
~~~~

    <!-- bw:begin -->

<!-- bw:lessons -->

```

<!-- bw:contact -->
"""


def test_a_part_in_code_is_shown_as_it_is_written(course: Path) -> None:
    (course / "content" / "own.md").write_text(CODE, encoding="utf-8")
    done = build(course)
    assert done.returncode == 0, done.stdout + done.stderr
    html = (course / "site" / "own.html").read_text(encoding="utf-8")
    page = BeautifulSoup(html, "html.parser")
    code = [block.get_text().strip() for block in page.select("main pre code")]
    assert code == ["<!-- bw:begin -->", "~~~\n<!-- bw:begin -->", "<!-- bw:begin -->"]
    # What stands outside is filled, below a fence that is never closed too, because that is none.
    assert len(page.select("main .bw-lessons")) == 1
    assert "<!-- bw:" not in html


def test_a_file_where_the_site_should_be_is_not_lost(course: Path) -> None:
    (course / "mine").write_text("my notes", encoding="utf-8")
    done = build(course, site="mine")
    assert done.returncode != 0
    assert "Traceback" not in done.stderr
    assert "Move that file" in done.stdout + done.stderr
    assert (course / "mine").read_text(encoding="utf-8") == "my notes"


@pytest.mark.parametrize(
    "name",
    [
        "modules/one.html",
        "modules/one-data.js",
        "editions/one/mine.txt",
        "search/search_index.js",
        "assets/bw/js/all.js",
        "assets/bw/css/all.css",
    ],
)
def test_a_trainers_own_file_is_never_written_over(course: Path, name: str) -> None:
    before = read_all(course / "site")
    mine = course / "content" / name
    mine.parent.mkdir(parents=True, exist_ok=True)
    mine.write_text("mine", encoding="utf-8")
    done = build(course)
    assert done.returncode == 1
    assert f"content/{name}: the course makes this file" in done.stdout
    assert "another name" in done.stdout
    assert read_all(course / "site") == before


@pytest.mark.parametrize(
    "name", ["index-data.js", "modules/three-data.js", "editions/mine.txt", "assets/bw/mine.js", "one.html"]
)
def test_files_of_other_names_stand_where_they_are_put(course: Path, name: str) -> None:
    mine = course / "content" / name
    mine.parent.mkdir(parents=True, exist_ok=True)
    mine.write_text("mine", encoding="utf-8")
    done = build(course)
    assert done.returncode == 0, done.stdout + done.stderr
    assert (course / "site" / name).read_text(encoding="utf-8") == "mine"


VANISH = """\
from pathlib import Path

def on_files(files, config):
    (Path(config.docs_dir) / "later.md").unlink()
"""


def test_a_page_that_vanishes_while_it_builds_is_told(course: Path) -> None:
    before = read_all(course / "site")
    (course / "content" / "later.md").write_text("# Later\n", encoding="utf-8")
    (course / "vanish.py").write_text(VANISH, encoding="utf-8")
    with (course / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write("hooks: [vanish.py]\n")
    done = build(course)
    assert done.returncode != 0
    assert "Traceback" not in done.stderr
    assert "later.md" in done.stderr
    assert "Put back what is missing, then build again" in done.stdout + done.stderr
    assert read_all(course / "site") == before


# Loaded by Python itself at its start; the whole process then lives in another year.
CLOCK = """\
import datetime, time
SHIFT = %d
now, ns = time.time, time.time_ns
time.time = lambda: now() + SHIFT
time.time_ns = lambda: ns() + SHIFT * 10**9
class Shifted(datetime.datetime):
    @classmethod
    def now(cls, tz=None):
        return cls.fromtimestamp(time.time(), tz)
    @classmethod
    def utcnow(cls):
        return cls.fromtimestamp(time.time(), datetime.timezone.utc).replace(tzinfo=None)
    @classmethod
    def today(cls):
        return cls.now()
datetime.datetime = Shifted
"""
YEAR = 366 * 86_400


@pytest.mark.parametrize("years", [-50, 60])
def test_a_wrong_clock_changes_nothing(course: Path, years: int) -> None:
    before = read_all(course / "site")
    clock = course.parent / "clock"
    clock.mkdir()
    (clock / "sitecustomize.py").write_text(CLOCK % (years * YEAR), encoding="utf-8")
    asked = [sys.executable, "-c", "import datetime; print(datetime.datetime.now().year)"]
    environment = {**os.environ, "PYTHONPATH": str(clock)}
    told = subprocess.run(asked, env=environment, capture_output=True, text=True, check=True)
    assert not 2000 < int(told.stdout) < 2060
    for path in [*course.rglob("*.yml"), course / ".cache"]:
        os.utime(path, (max(0, path.stat().st_mtime + years * YEAR),) * 2)
    done = build(course, clock=clock)
    assert done.returncode == 0, done.stderr
    assert read_all(course / "site") == before
    (course / ".cache").rename(course / ".gone")
    assert build(course, clock=clock).returncode == 0
    assert read_all(course / "site") == before
