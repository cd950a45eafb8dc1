"""The wheel, and a course made with it where there is no checkout."""

import configparser
import os
import subprocess
import zipfile
from pathlib import Path

import pytest

from tests.support import ROOT


def shipped(folder: Path, prefix: str) -> set[str]:
    """What a folder of the checkout should put into the wheel; what Python leaves lying about is not shipped."""
    return {
        prefix + path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def run(command: list[str | Path], cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run a command as a trainer's terminal would, with none of the checkout's settings."""
    environment = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    environment["NO_MKDOCS_2_WARNING"] = "1"
    return subprocess.run(command, cwd=cwd, env=environment, capture_output=True, text=True, check=False)


def test_it_holds_the_package_and_every_template_and_no_more(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = {name for name in archive.namelist() if ".dist-info/" not in name}
    expected = shipped(ROOT / "plugins" / "beadwright", "beadwright/")
    expected |= shipped(ROOT / "site_templates", "beadwright/site_templates/")
    assert names == expected
    assert "beadwright/py.typed" in names
    assert "beadwright/site_templates/scaffold/mkdocs.yml" in names


def test_it_carries_its_licence_and_both_entry_points(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        (points,) = [name for name in archive.namelist() if name.endswith("entry_points.txt")]
        (licence,) = [name for name in archive.namelist() if name.endswith("licenses/LICENSE")]
        parser = configparser.ConfigParser(delimiters=("=",))
        parser.read_string(archive.read(points).decode())
        assert b"MIT License" in archive.read(licence)
    assert parser["console_scripts"]["beadwright"] == "beadwright.cli:main"
    assert parser["mkdocs.plugins"]["beadwright"] == "beadwright.site:BeadwrightPlugin"


def test_elsewhere_it_is_the_wheel_that_runs(elsewhere: Path, tmp_path: Path) -> None:
    code = "import beadwright, beadwright.paths; print(beadwright.__file__, beadwright.paths.templates_dir())"
    done = run([elsewhere / "python", "-c", code], tmp_path)
    assert done.returncode == 0, done.stderr
    assert all(path.startswith(str(elsewhere.parent)) for path in done.stdout.split())


@pytest.fixture
def started(elsewhere: Path, tmp_path: Path) -> Path:
    """A course that `beadwright start` wrote, elsewhere."""
    done = run([elsewhere / "beadwright", "start", "spring", "--title", "Frames at Alder Hill"], tmp_path)
    assert done.returncode == 0, done.stderr
    return tmp_path / "spring"


def test_a_new_course_builds_elsewhere(elsewhere: Path, started: Path) -> None:
    done = run([elsewhere / "python", "-m", "mkdocs", "build", "--strict", "--quiet"], started)
    assert (done.returncode, done.stderr) == (0, "")
    home = (started / "site" / "index.html").read_text(encoding="utf-8")
    assert "Frames at Alder Hill" in home
    pages = {page.stem: page.read_text(encoding="utf-8") for page in (started / "site" / "modules").glob("*.html")}
    assert set(pages) == {"set-and-read", "partner-of-10"}
    assert all('class="practice-data"' in page for page in pages.values())
    assert 'class="walkthrough-data"' in pages["partner-of-10"]
