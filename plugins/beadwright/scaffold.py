"""A first course for a trainer: copies the files that ship under `scaffold` into a folder of hers."""

import json
import re
import secrets
import unicodedata
from pathlib import Path

from beadwright.paths import templates_dir


class StartError(Exception):
    """A folder that a new course cannot be written into; the message says why and what to do."""


def start_course(folder: Path, *, title: str) -> tuple[Path, ...]:
    """Write a small course that builds into `folder`, and give the files written.

    Nothing is ever overwritten: when one of the files is there already, none is written.

    Raises:
        StartError: the folder is no folder, or holds one of the files.
        OSError: the folder cannot be written to.
    """
    from beadwright.course.values import LONGEST_LINE

    if not title.strip():
        raise StartError("a course needs a title; give one with --title")
    if not title.isprintable():
        raise StartError(f"a title is one line of letters and signs, not {title!a:.80}; give another with --title")
    if len(title.strip()) > LONGEST_LINE:
        raise StartError(
            f"a title has at most {LONGEST_LINE} letters, not {len(title.strip())}; give another with --title"
        )
    if folder.exists() and not folder.is_dir():
        raise StartError(f"{folder} is a file; name a folder")
    files = {folder / name: path for name, path in find_scaffold().items()}
    taken = [path for path in files if path.exists() or path.is_symlink()]
    if taken:
        raise StartError(f"{taken[0]} is there already, and nothing was written; name another folder")
    marks = {"@id@": _name_course(folder), "@title@": json.dumps(title.strip(), ensure_ascii=False)}
    for target, path in files.items():
        target.parent.mkdir(parents=True, exist_ok=True)
        with target.open("x", encoding="utf-8") as file:
            file.write(_fill(path.read_text(encoding="utf-8"), marks))
    return tuple(files)


def find_scaffold() -> dict[Path, Path]:
    """Give what a new course is made of: the place of each file in the course, and where it is copied from.

    Beside the scaffold's own files go the JSON Schemas of the lesson language, so that an editor completes and checks,
    and the template of a certificate.
    """
    scaffold, schema = templates_dir() / "scaffold", templates_dir() / "schema"
    files = {path.relative_to(scaffold): path for path in scaffold.rglob("*") if path.is_file()}
    files |= {Path("schema", path.name): path for path in schema.glob("*.json")}
    files[Path("certificate.typ")] = templates_dir() / "print" / "certificate.typ"
    return dict(sorted(files.items()))


def _name_course(folder: Path) -> str:
    """Give an id that no other course has: progress is kept under it, and all courses on a device share a store."""
    plain = unicodedata.normalize("NFKD", folder.resolve().name).encode("ascii", "ignore").decode().lower()
    words = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:32].strip("-")
    return f"{words or 'course'}-{secrets.token_hex(3)}"


def _fill(text: str, marks: dict[str, str]) -> str:
    """Put the course's own id and title where the scaffold leaves room for them."""
    return re.sub("|".join(marks), lambda found: marks[found[0]], text)
