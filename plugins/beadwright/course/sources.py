"""Files of a course -> located trees. Whatever is wrong with a file as a file is a finding."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from beadwright.course.binding import Located
from beadwright.course.findings import Finding, Where, build_finding, quote
from beadwright.course.values import ODD_CHARACTER, is_id, name_character
from beadwright.course.yamltree import Lines, MapNode, Place, TextNode, parse_tree

MOST_KB = 512
LESSON_END = ".lesson.yml"
_BYTE_ORDER_MARKS = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}


@dataclass(frozen=True, slots=True)
class Source:
    """A file of the course: where it is, and its path in findings."""

    path: Path
    file: str


def name_source(path: Path, content_dir: Path) -> Source:
    """A file of a content folder, named from the folder that holds it, with `/`, as findings do."""
    below = path.relative_to(content_dir).as_posix()
    name = f"{content_dir.resolve().name}/{below}"
    return Source(path, name.encode("utf-8", "replace").decode("utf-8"))


def find_lesson_id(name: str) -> str | None:
    """The id in a lesson's file name; None when the name is not a lesson's.

    >>> find_lesson_id("04-partner-of-10.lesson.yml")
    'partner-of-10'
    """
    stem = re.sub("^[0-9]+-", "", name.removesuffix(LESSON_END))
    return stem if name.endswith(LESSON_END) and is_id(stem) else None


def list_lessons(content_dir: Path) -> Iterator[Source]:
    """The files in `modules/` that are lessons or look as if they should be, by name."""
    try:
        paths = sorted((content_dir / "modules").iterdir())
    except OSError:
        return
    for path in paths:
        if path.suffix in (".yml", ".yaml") and not path.name.startswith("."):
            yield name_source(path, content_dir)


class _Notes:
    """Collects the findings of one file."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.findings: list[Finding] = []

    def __call__(self, code: str, place: Place, /, **fields: str | int) -> None:
        self.findings.append(build_finding(code, Where(self.file, place.line, place.column), **fields))


_START = Place(1, 1)


def load_tree(
    source: Source, content_dir: Path, *, most_kb: int = MOST_KB
) -> tuple[Located | None, tuple[Finding, ...]]:
    """The tree of a file, and what is wrong with it; no tree where it is no file of keys with values."""
    notes = _Notes(source.file)
    data = _read_bytes(source, content_dir, notes, most_kb)
    text = None if data is None else _decode(data, notes)
    root = None if text is None else parse_tree(text, notes)
    if data is not None and isinstance(root, MapNode):
        return Located(source.file, root, sha256(data).hexdigest()), tuple(notes.findings)
    if not notes.findings and (root is None or (isinstance(root, TextNode) and root.is_nothing)):
        notes("file-empty", _START)
    elif root is not None:
        notes("file-keys", root.place)
    return None, tuple(notes.findings)


def check_text(source: Source, content_dir: Path, *, most_kb: int) -> tuple[Finding, ...]:
    """What is wrong with a file that should be text."""
    notes = _Notes(source.file)
    data = _read_bytes(source, content_dir, notes, most_kb)
    if data is not None:
        _decode(data, notes)
    return tuple(notes.findings)


def check_place(source: Source, content_dir: Path) -> tuple[Finding, ...]:
    """What is wrong with where a file is, or with its being a file; it is not read."""
    notes = _Notes(source.file)
    try:
        _check_plain(source, content_dir, notes)
    except (OSError, RuntimeError) as error:
        _note_unreadable(error, notes)
    return tuple(notes.findings)


def _check_plain(source: Source, content_dir: Path, notes: _Notes) -> bool:
    """Whether it is a plain file in the content folder. Raises as `Path.resolve` does."""
    if not source.path.resolve(strict=True).is_relative_to(content_dir.resolve(strict=True)):
        notes("file-outside", _START)
    elif not source.path.is_file():  # a folder, or a pipe that would be waited for without end
        notes("file-unreadable", _START, reason="not a plain file")
    return not notes.findings


def _note_unreadable(error: OSError | RuntimeError, notes: _Notes) -> None:
    """RuntimeError: a link that leads to itself, before Python 3.13."""
    reason = getattr(error, "strerror", None) or "a link that leads to itself"
    notes("file-unreadable", _START, reason=str(reason).lower())


def _read_bytes(source: Source, content_dir: Path, notes: _Notes, most_kb: int) -> bytes | None:
    try:
        if not _check_plain(source, content_dir, notes):
            return None
        size = source.path.stat().st_size
        if size > most_kb * 1024:
            notes("file-big", _START, most=most_kb, found=-(-size // 1024))
            return None
        return source.path.read_bytes()
    except (OSError, RuntimeError) as error:
        _note_unreadable(error, notes)
        return None


def _decode(data: bytes, notes: _Notes) -> str | None:
    if data[:2] in _BYTE_ORDER_MARKS:
        notes("file-encoding", _START, found=_BYTE_ORDER_MARKS[data[:2]])
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode("utf-8")
        found = f"a byte that is none (0x{error.object[error.start]:02X})"
        notes("file-encoding", Lines(before).place(len(before)), found=found)
        return None
    odd = ODD_CHARACTER.search(text)
    if odd is not None:
        notes("file-character", Lines(text).place(odd.start()), found=name_character(odd.group()))
        return None
    return text


def check_names(sources: list[Source]) -> tuple[dict[str, Source], list[Finding]]:
    """Lessons by id, and findings for files whose name is no lesson's or whose id another lesson has."""
    lessons: dict[str, Source] = {}
    findings = []
    for source in sources:
        lesson_id = find_lesson_id(source.path.name)
        if lesson_id is None:
            found = quote(source.file.rpartition("/")[2])
            findings.append(build_finding("file-name", Where(source.file), found=found))
        elif lesson_id in lessons:
            other = lessons[lesson_id].file.rpartition("/")[2]
            findings.append(build_finding("file-doubled", Where(source.file), id=quote(lesson_id), other=other))
        else:
            lessons[lesson_id] = source
    return lessons, findings
