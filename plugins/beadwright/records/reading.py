"""A folder of learners' files -> records, and every file that is none, by name with the reason."""

from __future__ import annotations

import gc
import os
import re
import stat
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import blake2b
from pathlib import Path
from typing import Any, Literal, Protocol

from pydantic import ValidationError
from pydantic_core import from_json

from beadwright.records.schema import MOST_BYTES, RECORDS, SCHEMA, Record

Reason = Literal["damaged", "shape", "newer", "foreign", "big", "twice", "unreadable", "other"]
"""Why a file is set aside; `report.reasons` has the words."""

_NUMBER = re.compile(r"beadwright/record/(\d{1,6})")
_ENDING = ".json"


@dataclass(frozen=True, slots=True)
class SetAside:
    """A file that was not counted: `file` is its path below the folder, `detail` says where or what if known."""

    file: str
    reason: Reason
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a folder held, in order of file name: records beside the file each came from, and what was set aside."""

    records: tuple[tuple[str, Record], ...]
    set_aside: tuple[SetAside, ...]


class Progress(Protocol):
    """Hears how many of how many files have been read."""

    def __call__(self, done: int, total: int, /) -> None:
        """Take note of `done` of `total`."""


def read_folder(folder: Path, course: str, progress: Progress | None = None) -> Reading:
    """Every record of the course with this id in a folder and the folders in it; links are not followed.

    Raises `OSError` when the folder itself cannot be listed.
    """
    with pause_collection():
        return _read_files(folder, list_files(folder), course, progress)


@contextmanager
def pause_collection() -> Iterator[None]:
    """Look for no garbage meanwhile: the many small values that are made all stay, and searching them takes longer."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _read_files(folder: Path, files: Sequence[Path], course: str, progress: Progress | None) -> Reading:
    seen: dict[bytes, str] = {}
    records: list[tuple[str, Record]] = []
    aside: list[SetAside] = []
    for done, path in enumerate(files, start=1):
        name = path.relative_to(folder).as_posix()
        found = _read_once(path, name, course, seen)
        if isinstance(found, SetAside):
            aside.append(found)
        else:
            records.append((name, found))
        if progress is not None:
            progress(done, len(files))
    return Reading(tuple(records), tuple(aside))


def list_files(folder: Path) -> Sequence[Path]:
    """Every file below a folder in order of name, hidden ones left out. Raises `OSError` for the folder itself."""
    os.scandir(folder).close()  # os.walk would pass a missing folder over in silence
    found: list[Path] = []
    for parent, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        found += [Path(parent, name) for name in names if not name.startswith(".")]
    return sorted(found)


def _read_once(path: Path, name: str, course: str, seen: dict[bytes, str]) -> Record | SetAside:
    """One file's record; a copy of a file that has been read already is set aside."""
    if path.suffix.lower() != _ENDING:
        return SetAside(name, "other")
    try:
        about = path.lstat()
        if not stat.S_ISREG(about.st_mode):
            return SetAside(name, "other")
        if about.st_size > MOST_BYTES:
            return SetAside(name, "big")
        data = path.read_bytes()
    except OSError as error:
        return SetAside(name, "unreadable", error.strerror or "")
    mark = blake2b(data, digest_size=16).digest()
    if mark in seen:
        return SetAside(name, "twice", seen[mark])
    seen[mark] = name
    return read_record(data, name, course)


def read_record(data: bytes, name: str, course: str) -> Record | SetAside:
    """A file's bytes as a record of this course, or why they are none. Nothing in the bytes can make it raise."""
    text = data.removeprefix(b"\xef\xbb\xbf")
    try:
        record = RECORDS.validate_json(text)
    except ValidationError as error:
        return _explain(text, name, course, error)
    reason = _judge(record.schema, record.course.id, course)
    return record if reason is None else SetAside(name, reason)


def _judge(schema: object, belongs: object, course: str) -> Reason | None:
    """Why a record with this schema and course does not count; None when it does."""
    number = _NUMBER.fullmatch(schema) if isinstance(schema, str) else None
    if schema != SCHEMA:
        return "newer" if number is not None and int(number[1]) > 1 else "shape"
    return None if belongs == course else "foreign"


def _explain(text: bytes, name: str, course: str, error: ValidationError) -> SetAside:
    """Why a file is none: it is no JSON, it is of another kind, or one of its values is not what it should be."""
    first = error.errors(include_url=False, include_context=False, include_input=False)[0]
    if first["type"] == "json_invalid":
        return SetAside(name, "damaged")
    try:
        data: Any = from_json(text)
    except ValueError:
        return SetAside(name, "damaged")
    if not isinstance(data, dict):
        return SetAside(name, "shape")
    belongs = data.get("course")
    reason = _judge(data.get("schema"), belongs.get("id") if isinstance(belongs, dict) else None, course)
    return SetAside(name, reason or "shape", ".".join(_show_path(first["loc"])) if reason is None else "")


def _show_path(path: Sequence[str | int]) -> Iterator[str]:
    """The keys that lead to a value; they are our own names, never the file's, and entries count from 1."""
    for key in path:
        yield str(key + 1) if isinstance(key, int) else key
