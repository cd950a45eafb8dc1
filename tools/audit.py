"""Asks whether a weakness is known in any locked package: `make audit`, and first of all in continuous integration.

It asks the advisories of the Python index (pip-audit) and of npm about every lock, so it needs both and the network.
Exit status 0: every package was asked about and nothing is known. 1: something is known. 3: nothing is known, but not
every question was answered, and an answer that nobody gave is none.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
NODE_LOCK = "tests/node/package-lock.json"
KNOWN, UNANSWERED = 1, 3


def ask(command: list[str], seconds: int = 300) -> object:
    """What a command prints as JSON, whatever its exit status; None where that is nothing or it is not there."""
    # The commands of the machine, or of whoever tests this, come before those of the environment.
    path = os.pathsep.join([os.environ.get("PATH", ""), str(Path(sys.executable).parent)])
    found = shutil.which(command[0], path=path)
    if found is None:
        print(f"  {command[0]} is not on this machine", file=sys.stderr)
        return None
    try:
        done = subprocess.run([found, *command[1:]], cwd=ROOT, capture_output=True, timeout=seconds, check=False)  # noqa: S603
        return json.loads(done.stdout)
    except (subprocess.TimeoutExpired, ValueError):
        return None


def audit_python(lock: str) -> tuple[list[str], list[str]]:
    """What is known of a Python lock's packages, and what got no answer."""
    answer = ask(["pip-audit", "--disable-pip", "--no-deps", "--progress-spinner", "off", "-f", "json", "-r", lock])
    packages = answer.get("dependencies") if isinstance(answer, dict) else None
    if not packages:
        return [], [lock]
    known = [
        f"{package['name']} {package['version']}: {flaw['id']}"
        + (f", mended in {', '.join(flaw['fix_versions'])}" if flaw["fix_versions"] else "")
        for package in packages
        for flaw in package.get("vulns", ())
    ]
    return known, [package["name"] for package in packages if "skip_reason" in package]


def audit_node(lock: str) -> tuple[list[str], list[str]]:
    """What is known of an npm lock's packages, and the lock itself where npm got no answer."""
    answer = ask(["npm", "--prefix", str(Path(lock).parent), "audit", "--package-lock-only", "--json"])
    if not isinstance(answer, dict) or "vulnerabilities" not in answer:
        return [], [lock]
    return [f"{name} {flaw['range']}: {flaw['severity']}" for name, flaw in answer["vulnerabilities"].items()], []


def main() -> int:
    """Ask about every lock, and say what is known and what is not."""
    locks = sorted(path.relative_to(ROOT).as_posix() for path in (ROOT / "locks").glob("*.txt"))
    answers = [*map(audit_python, locks), audit_node(NODE_LOCK)]
    # A package may stand in several locks.
    known = sorted({line for one, _ in answers for line in one})
    unanswered = sorted({line for _, one in answers for line in one})
    for line in known:
        print(f"  {line}", file=sys.stderr)
    if known:
        print("Weaknesses are known. Raise those packages in pyproject.toml and run make locks.", file=sys.stderr)
        return KNOWN
    if unanswered:
        some = ", ".join(unanswered[:3]) + (", …" if len(unanswered) > 3 else "")
        print(f"NOT AUDITED: no answer about {len(unanswered)} packages or locks ({some}).", file=sys.stderr)
        return UNANSWERED
    print(f"No weakness is known in any package of {len(answers)} locks.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
