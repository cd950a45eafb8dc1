"""Licences: of each package of the lock, of each part that ships, and of what a built course holds of others."""

import re
import zipfile
from collections.abc import Iterator
from importlib.metadata import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.support import ROOT

NOTICES = (ROOT / "NOTICES.md").read_text(encoding="utf-8")
THEIRS = (".ttf", ".woff2", ".woff", ".otf", ".png", ".jpg")
"""Kinds of file that others have drawn; scripts of others say so with `@license`."""
OURS = {"braille-cells.woff2"}  # tools/braille-font.py draws it

# What a package's metadata may say, and the licences meant by it; the first that matches counts.
SAID = {
    r"MPL|Mozilla": {"MPL-2.0"},
    r"Apache": {"Apache-2.0"},
    r"Copyright \(c\).*Enthought": {"BSD-3-Clause"},
    r"BSD": {"BSD-2-Clause", "BSD-3-Clause"},
    r"MIT": {"MIT"},
}


def list_rows(heading: str) -> dict[str, str]:
    """The rows of the table under a heading: first cell and the one that says the licence."""
    section = NOTICES.partition(f"## {heading}\n")[2].partition("\n## ")[0]
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in section.splitlines() if line[:1] == "|"]
    place = rows[0].index("licence")
    return {row[0]: row[place] for row in rows[2:]}


PACKAGES = list_rows("Packages of the locked environment")


def list_locked() -> set[str]:
    text = (ROOT / "locks" / "site.txt").read_text(encoding="utf-8").replace("\\\n", " ")
    lines = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    return {canonicalize_name(Requirement(line.split(" --hash=")[0].strip()).name) for line in lines}


def test_each_package_of_the_lock_has_its_licence_and_no_other_stands_there() -> None:
    assert set(PACKAGES) == list_locked()


def find_said(package: str) -> set[str]:
    """The licences that a package's own metadata may mean; none where it says nothing."""
    found = metadata(package)
    expression = found["License-Expression"]
    if expression is not None:
        return {expression}
    classifiers = [text for text in found.get_all("Classifier") or () if text.startswith("License ::")]
    first = (found["License"] or "").splitlines()[:1]
    text = "\n".join([*first, *classifiers])
    return next((meant for pattern, meant in SAID.items() if re.search(pattern, text)), set())


@pytest.mark.parametrize("package", sorted(PACKAGES))
def test_it_is_the_licence_that_the_package_names(package: str) -> None:
    said = find_said(package)
    # Its wheel says nothing; that it holds eSpeak NG under the GPL is common knowledge of that project.
    expected = {"GPL-3.0-or-later"} if package == "espeakng-loader" else said
    assert (said == set()) == (package == "espeakng-loader")
    assert PACKAGES[package] in expected


def list_theirs() -> Iterator[Path]:
    """Files of others under `site_templates`."""
    return (path for path in sorted((ROOT / "site_templates").rglob("*")) if is_theirs(path))


def is_theirs(path: Path) -> bool:
    if path.suffix == ".js":
        return "@license" in path.read_text(encoding="utf-8")
    return path.suffix in THEIRS and path.name not in OURS


def test_each_file_of_others_is_listed_and_its_licence_is_beside_it_or_in_it() -> None:
    section = NOTICES.partition("## In the package")[2].partition("\n## ")[0]
    patterns = [cell for cell in re.findall(r"`([^`]+)`", section) if cell.endswith(("*", ".js"))]
    used = set()
    for path in list_theirs():
        (pattern,) = [each for each in patterns if path.match(each)]
        used.add(pattern)
        licences = [*path.parent.glob(f"{pattern.rstrip('*-')}-OFL.txt"), path]
        text = licences[0].read_bytes()
        assert b"SIL OPEN FONT LICENSE" in text.upper() or b"Permission is hereby granted" in text, path
    assert used == set(patterns)


def test_the_wheel_carries_the_notices(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
        (notices,) = [name for name in names if name.endswith("licenses/NOTICES.md")]
        assert archive.read(notices).decode() == NOTICES
    assert len([name for name in names if name.endswith("-OFL.txt")]) == 5
    assert "beadwright/site_templates/theme/assets/bw/notices.txt" in names


def test_a_built_course_tells_the_licence_of_everything_in_it(built_site: Path) -> None:
    notices = (built_site / "assets" / "bw" / "notices.txt").read_text(encoding="utf-8")
    listed = re.findall(r"^(assets/\S+)", notices, re.MULTILINE)
    for path in sorted((built_site / "assets").rglob("*")):
        name = path.relative_to(built_site).as_posix()
        if path.is_file():
            told = [each for each in listed if name.startswith(each.rstrip("*"))]
            assert set(told) - {"assets/bw/"} if is_theirs(path) else told, name
    (worker,) = (built_site / "assets" / "javascripts" / "workers").glob("search.*.js")
    assert "@license MIT" in worker.read_text(encoding="utf-8")  # Lunr, within it
    for holder in ("Martin Donath", "Oliver Nightingale", "Mihai Valentin", "The Beadwright authors"):
        assert holder in notices
    assert "Permission is hereby granted" in notices
