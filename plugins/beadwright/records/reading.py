"""A folder of learners' files -> records, and every file that is none, by name with the reason."""

from __future__ import annotations

import gc
import os
import re
import stat
from collections import defaultdict
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import blake2b
from pathlib import Path
from typing import Any, Literal, Protocol

from pydantic import ValidationError
from pydantic_core import from_json

from beadwright.records.schema import MOST_BYTES, OWNERS, RECORDS, SCHEMA, Record

Reason = Literal["damaged", "shape", "newer", "foreign", "big", "twice", "unreadable", "other"]
"""Why a file is set aside; `report.reasons` has the words."""

_NUMBER = re.compile(r"beadwright/record/(\d{1,6})")
_ENDING = ".json"
_BYTE_ORDER = b"\xef\xbb\xbf"


@dataclass(frozen=True, slots=True)
class SetAside:
    """A file that was not counted: `file` is its path below the folder, `detail` says where or what if known."""

    file: str
    reason: Reason
    detail: str = ""


Files = tuple[tuple[str, Record], ...]
"""The records of one learner, each beside the file it came from, in order of file name."""


class Progress(Protocol):
    """Hears how many of how many files have been read."""

    def __call__(self, done: int, total: int, /) -> None:
        """Take note of `done` of `total`."""


def read_folder(folder: Path, course: str, progress: Progress | None = None) -> Iterator[Files | SetAside]:
    """Learner after learner the records of the course with this id, and every file that was set aside, in any order.

    Files below the folder are gone through twice, links are not followed: first for whose they are, then learner by
    learner, so that the answers of one alone are held at a time. Raises `OSError` when the folder cannot be listed.
    """
    names = list_files(folder)
    owned: dict[str, list[str]] = defaultdict(list)
    seen: dict[bytes, str] = {}
    done, total = 0, 2 * len(names)
    for name in names:
        found = _find_learner(folder, name, seen)
        if isinstance(found, SetAside):
            yield found
        else:
            owned[found].append(name)
        done += 1 if isinstance(found, str) else 2
        if progress is not None:
            progress(done, total)
    for learner, files in owned.items():
        records: list[tuple[str, Record]] = []
        for name in files:
            again = _read_again(folder, name, course, learner)
            if isinstance(again, SetAside):
                yield again
            else:
                records.append((name, again))
            done += 1
            if progress is not None:
                progress(done, total)
        if len(records) > 0:
            yield tuple(records)


@contextmanager
def pause_collection() -> Iterator[None]:
    """Look for no garbage meanwhile: nothing that is made refers to itself, and searching takes longer."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def list_files(folder: Path) -> Sequence[str]:
    """Every file below a folder by its path there, in order of name, hidden ones left out. Raises `OSError`."""
    os.scandir(folder).close()  # os.walk would pass a missing folder over in silence
    found: list[str] = []
    for parent, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        within = Path(parent).relative_to(folder).as_posix()
        before = "" if within == "." else f"{within}/"
        found += [f"{before}{name}" for name in names if not name.startswith(".")]
    return sorted(found, key=sort_name)


def sort_name(name: str) -> list[str]:
    """What puts files in order: a folder's stand together, whatever signs sort before the slash."""
    return name.split("/")


def _find_learner(folder: Path, name: str, seen: dict[bytes, str]) -> str | SetAside:
    """Whose record a file says that it is, empty for nobody's; a copy of one that was seen already is set aside."""
    if not name.lower().endswith(_ENDING):
        return SetAside(name, "other")
    path = folder / name
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
    try:
        return OWNERS.validate_json(data.removeprefix(_BYTE_ORDER)).learner.id
    except ValidationError:
        return ""


def _read_again(folder: Path, name: str, course: str, learner: str) -> Record | SetAside:
    """The record in a file that was this learner's a moment ago, and may have changed or gone since."""
    try:
        found = read_record((folder / name).read_bytes(), name, course)
    except OSError as error:
        return SetAside(name, "unreadable", error.strerror or "")
    return found if isinstance(found, SetAside) or found.learner.id == learner else SetAside(name, "unreadable")


def read_record(data: bytes, name: str, course: str) -> Record | SetAside:
    """A file's bytes as a record of this course, or why they are none. Nothing in the bytes can make it raise."""
    text = data.removeprefix(_BYTE_ORDER)
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
