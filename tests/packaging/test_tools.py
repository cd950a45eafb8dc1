"""The scripts behind `make`, on machines that lack something."""

import os
import subprocess
import sys
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


SOUND = '{"dependencies": [{"name": "one", "version": "1.0", "vulns": []}], "fixes": []}'
WEAK = SOUND.replace("[]}],", '[{"id": "CVE-1", "fix_versions": ["1.1"]}]}],')
SKIPPED = '{"dependencies": [{"name": "one", "skip_reason": "not found"}], "fixes": []}'
NODE_SOUND = '{"auditReportVersion": 2, "vulnerabilities": {}}'
NODE_WEAK = '{"auditReportVersion": 2, "vulnerabilities": {"two": {"range": "<2.0.0", "severity": "high"}}}'
NODE_REFUSED = '{"message": "405 Method Not Allowed", "statusCode": 405}'


def audit(folder: Path, pip_audit: str, npm: str) -> subprocess.CompletedProcess[str]:
    """Run the audit with commands that stand in for those that ask the network."""
    lay_command(folder, "pip-audit", pip_audit)
    lay_command(folder, "npm", npm)
    environment = {"PATH": f"{folder}:{os.environ['PATH']}"}
    command = [sys.executable, str(ROOT / "tools" / "audit.py")]
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)


def say(text: str, status: int = 0) -> str:
    return f"echo '{text}'; exit {status}"


def test_the_audit_asks_about_every_lock(tmp_path: Path) -> None:
    asked = tmp_path / "asked"
    done = audit(tmp_path, f'echo "$@" >> {asked}; {say(SOUND)}', f'echo npm "$@" >> {asked}; {say(NODE_SOUND)}')
    assert (done.returncode, done.stderr) == (0, "")
    lines = asked.read_text(encoding="utf-8").splitlines()
    for lock in (ROOT / "locks").glob("*.txt"):
        assert any(line.endswith(f" locks/{lock.name}") for line in lines)
    assert any(line.startswith("npm --prefix tests/node ") for line in lines)


@pytest.mark.parametrize(
    ("pip_audit", "npm", "status", "said"),
    [
        (say(WEAK, 1), say(NODE_SOUND), 1, "one 1.0: CVE-1, mended in 1.1"),
        (say(SOUND), say(NODE_WEAK, 1), 1, "two <2.0.0: high"),
        (say(WEAK, 1), say(NODE_REFUSED, 1), 1, "one 1.0: CVE-1"),
        (say(SKIPPED), say(NODE_SOUND), 3, "NOT AUDITED"),
        (say(SOUND), say(NODE_REFUSED, 1), 3, "NOT AUDITED"),
        ("echo no route >&2; exit 1", say(NODE_SOUND), 3, "NOT AUDITED"),
        (say(SOUND), "exit 127", 3, "NOT AUDITED"),
    ],
    ids=["Python", "npm", "one of two answers", "skipped", "refused", "no network", "no npm"],
)
def test_what_is_known_fails_and_no_answer_is_told_apart(
    tmp_path: Path, pip_audit: str, npm: str, status: int, said: str
) -> None:
    done = audit(tmp_path, pip_audit, npm)
    assert (done.returncode, done.stdout) == (status, "")
    assert said in done.stderr
