"""The lock files: exact, hashed, free of addresses, and in step with pyproject.toml."""

import json
import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.support import ROOT

LOCKS = sorted((ROOT / "locks").glob("*.txt"))
NODE_LOCK = ROOT / "tests" / "node" / "package-lock.json"
GROUPS = {
    "site.txt": ("build",),
    "test.txt": ("build", "test"),
    "audit.txt": ("audit",),
    "bench.txt": ("bench",),
    "node.txt": ("node",),
}


def locked(path: Path) -> list[tuple[Requirement, int]]:
    """Each requirement of a lock with how many hashes it carries."""
    text = path.read_text(encoding="utf-8").replace("\\\n", " ")
    entries = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    return [
        (Requirement(entry.split(" --hash=")[0].strip()), len(re.findall(r"--hash=sha256:[0-9a-f]{64}\b", entry)))
        for entry in entries
    ]


def test_each_lock_is_made_from_known_groups() -> None:
    assert {path.name for path in LOCKS} == set(GROUPS)


@pytest.mark.parametrize("path", LOCKS, ids=lambda path: path.name)
def test_each_requirement_is_exact_and_hashed(path: Path) -> None:
    for requirement, hashes in locked(path):
        assert re.fullmatch(r"==[^*,]+", str(requirement.specifier)), requirement
        assert hashes > 0, requirement


@pytest.mark.parametrize("path", [*LOCKS, NODE_LOCK], ids=lambda path: path.name)
def test_no_lock_says_where_packages_come_from(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert "://" not in text
    assert not re.search(r"^\s*-|--(extra-)?index-url|--find-links|file:", re.sub(r"--hash=\S+", "", text), re.M)


@pytest.mark.parametrize("path", LOCKS, ids=lambda path: path.name)
def test_each_lock_meets_the_project_file(path: Path) -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = [text for group in GROUPS[path.name] for text in project["dependency-groups"][group]]
    if path.name in ("site.txt", "test.txt"):
        wanted += project["project"]["dependencies"]
        wanted += [text for extra in project["project"]["optional-dependencies"].values() for text in extra]
    pinned: dict[str, list[str]] = {}
    for requirement, _ in locked(path):
        pinned.setdefault(canonicalize_name(requirement.name), []).append(str(requirement.specifier)[2:])
    for text in wanted:
        requirement = Requirement(text)
        versions = pinned.get(canonicalize_name(requirement.name), [])
        assert versions, f"{path.name} lacks {text}"
        assert all(requirement.specifier.contains(version) for version in versions), text


def test_what_builds_the_course_is_the_same_in_both_environments() -> None:
    site = {str(requirement) for requirement, _ in locked(ROOT / "locks" / "site.txt")}
    assert site <= {str(requirement) for requirement, _ in locked(ROOT / "locks" / "test.txt")}


def test_each_package_for_node_is_exact_and_hashed() -> None:
    lock = json.loads(NODE_LOCK.read_text(encoding="utf-8"))
    wanted = json.loads((NODE_LOCK.parent / "package.json").read_text(encoding="utf-8"))["devDependencies"]
    packages = {name: entry for name, entry in lock["packages"].items() if name}
    for name, version in wanted.items():
        assert packages[f"node_modules/{name}"]["version"] == version
    for name, entry in packages.items():
        assert entry["integrity"].startswith("sha512-"), name
        assert "resolved" not in entry, name
