"""The scripts behind `make`, on machines that lack something."""

import subprocess
from pathlib import Path

import pytest

from tests.support import ROOT


def lay_command(folder: Path, name: str, body: str) -> None:
    """Put a small command into a folder that stands in for a machine's PATH."""
    path = folder / name
    path.write_text(f"#!/bin/sh\n{body}\n", encoding="utf-8")
    path.chmod(0o755)


def find_python(path: Path) -> subprocess.CompletedProcess[str]:
    """Ask for a Python on a machine that has the commands of `path` and no others."""
    return subprocess.run(
        ["/bin/sh", str(ROOT / "tools" / "python.sh")],
        env={"PATH": str(path)},
        capture_output=True,
        text=True,
        check=False,
    )


# Each stands in for a Python: it is asked its version, whether it can make environments, or merely to run.
GOOD = "exit 0"
OLD = 'case "$2" in *version_info*) exit 1 ;; esac'
BARE = 'case "$2" in *ensurepip*) exit 1 ;; esac'
BROKEN = "echo 'no such version' >&2; exit 127"


@pytest.mark.parametrize(
    ("commands", "found"),
    [
        ({"python3": GOOD}, "python3"),
        ({"python3": GOOD, "python3.14": GOOD}, "python3"),
        ({"python3": OLD, "python3.12": GOOD}, "python3.12"),
        ({"python3": BARE, "python3.11": GOOD}, "python3.11"),
        ({"python3": BROKEN, "python3.13": BROKEN, "python": GOOD}, "python"),
    ],
    ids=["usual", "system's first", "system's too old", "system's without venv", "others do not run"],
)
def test_a_python_is_found(tmp_path: Path, commands: dict[str, str], found: str) -> None:
    for name, body in commands.items():
        lay_command(tmp_path, name, body)
    done = find_python(tmp_path)
    assert (done.returncode, done.stdout.strip(), done.stderr) == (0, found, "")


@pytest.mark.parametrize(
    ("commands", "said"),
    [
        ({}, "Beadwright needs Python 3.11 or newer."),
        ({"python3": OLD}, "Beadwright needs Python 3.11 or newer; too old here: python3."),
        ({"python3": BARE}, "Beadwright found python3, but it cannot make a virtual environment."),
    ],
    ids=["none", "too old", "without venv"],
)
def test_what_is_missing_is_said_with_a_next_step(tmp_path: Path, commands: dict[str, str], said: str) -> None:
    for name, body in commands.items():
        lay_command(tmp_path, name, body)
    done = find_python(tmp_path)
    assert done.returncode == 1
    assert done.stdout == ""
    assert done.stderr.splitlines()[0] == said
    assert "apt-get install" in done.stderr


def test_a_machine_without_chromium_hears_what_to_do(tmp_path: Path) -> None:
    for command in ("id", "dirname"):
        (tmp_path / command).symlink_to(f"/usr/bin/{command}")
    done = subprocess.run(
        ["/bin/sh", str(ROOT / "tools" / "browser.sh")],
        env={"PATH": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1
    assert "this is missing: chromium" in done.stderr
    assert "BEADWRIGHT_CHROMIUM=" in done.stderr


def test_a_named_browser_that_does_not_run_is_not_replaced(tmp_path: Path) -> None:
    done = subprocess.run(
        ["/bin/sh", str(ROOT / "tools" / "browser.sh")],
        env={"PATH": "/usr/bin:/bin", "BEADWRIGHT_CHROMIUM": str(tmp_path / "absent")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1
    assert "absent does not run" in done.stderr
