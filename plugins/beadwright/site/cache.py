"""What builds keep for the next one, in a folder that anybody may delete at any time.

An entry is one file. Its name is a hash of all that it was made from, so an entry is right or is not there; it is
written under another name first and then moved, so it is whole or is not there; and each part of it carries a hash, so
a damaged one is not there either.
"""

from __future__ import annotations

import json
import os
import platform
import shutil
import subprocess
import tempfile
import zlib
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any

import beadwright
from beadwright.paths import templates_dir
from beadwright.render.braille import find_liblouis

MOST_BYTES = 512 * 1024 * 1024
"""What entries that this build had no use for may take together; the oldest go first."""
_END = ".entry"
_PACKAGES = ("jinja2", "markdown", "markupsafe", "pydantic", "pyyaml", "typst", "espeakng-loader", "soundfile", "numpy")


class EntryLostError(Exception):
    """An entry that was there a moment ago and is gone, or is damaged."""


def hash_parts(*parts: object) -> str:
    """A name for all that something is made from: texts, numbers, truth values, None, and lists of them."""
    return sha256(json.dumps(parts, ensure_ascii=True).encode()).hexdigest()


@cache
def describe_program() -> str:
    """A name for all that makes entries: our code, templates and fonts, Python, packages and liblouis."""
    package = Path(beadwright.__file__).resolve().parent
    templates = templates_dir()
    files = [path for path in sorted(package.rglob("*.py")) if not path.is_relative_to(templates)]
    # The theme is what MkDocs puts around a page; no entry holds anything of it.
    files += [
        path
        for folder in sorted(templates.iterdir())
        if folder.name != "theme"
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    ]
    code = [sha256(path.read_bytes()).hexdigest() for path in files]
    versions = [_find_version(name) for name in _PACKAGES]
    return hash_parts(code, platform.python_version(), versions, _describe_liblouis())


def _find_version(package: str) -> str | None:
    try:
        return version(package)
    except PackageNotFoundError:
        return None


def _describe_liblouis() -> list[str]:
    """The command's path and what it says of its version; its tables come with it."""
    command = find_liblouis()
    if command is None:
        return []
    try:
        said = subprocess.run([command, "--version"], capture_output=True, check=False, timeout=60)  # noqa: S603
    except (OSError, subprocess.SubprocessError) as error:
        return [command, str(error)]
    return [command, said.stdout.decode("utf-8", "replace")]


@dataclass(frozen=True, slots=True)
class Entry:
    """What is kept under one key: `about`, which is small, and files by name, read one by one."""

    path: Path
    about: Any
    files: Mapping[str, Sequence[Any]]
    """By name: where the file starts, how many bytes it takes there, its SHA-256."""

    def read(self, name: str) -> bytes:
        """A file's bytes. Raises `EntryLostError`."""
        start, size, digest = self.files[name]
        try:
            with self.path.open("rb") as stream:
                stream.seek(start)
                data = zlib.decompress(stream.read(size))
        except (OSError, zlib.error) as error:
            raise EntryLostError(f"{self.path}: {error}") from None
        if sha256(data).hexdigest() != digest:
            raise EntryLostError(f"{self.path}: {name} is damaged")
        return data


class Cache:
    """Entries in a folder, by key. Where the folder cannot be written to, one for this build alone takes its place."""

    def __init__(self, folder: Path) -> None:
        self._used: set[str] = set()
        self._passing: Path | None = None
        try:
            folder.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryFile(dir=folder):
                pass
            self.folder = folder
        except OSError:
            self.folder = self._passing = Path(tempfile.mkdtemp(prefix="beadwright-"))

    @property
    def lasts(self) -> bool:
        """Whether entries are there for the next build."""
        return self._passing is None

    def load(self, key: str) -> Entry | None:
        """The entry of a key; None when nothing is kept under it, or it is damaged."""
        self._used.add(key)
        path = self._name(key)
        try:
            with path.open("rb") as stream:
                line = stream.readline()
                start = stream.tell()
            digest, _, head = line.rstrip(b"\n").partition(b" ")
            if sha256(head).hexdigest().encode() != digest:
                return None
            about, files = json.loads(head)
            os.utime(path)
        except (OSError, ValueError):
            return None
        return Entry(path, about, {name: (start + at, size, digest) for name, (at, size, digest) in files.items()})

    def store(self, key: str, about: object, files: Mapping[str, bytes]) -> Entry:
        """Keep something under a key. Raises `OSError`."""
        table: dict[str, tuple[int, int, str]] = {}
        packed: list[bytes] = []
        at = 0
        for name, data in files.items():
            packed.append(zlib.compress(data, 1))
            table[name] = (at, len(packed[-1]), sha256(data).hexdigest())
            at += len(packed[-1])
        head = json.dumps([about, table]).encode()
        self.folder.mkdir(parents=True, exist_ok=True)  # whoever deletes the folder may do so now
        handle, written = tempfile.mkstemp(prefix=".", dir=self.folder)
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.writelines((sha256(head).hexdigest().encode(), b" ", head, b"\n", *packed))
            Path(written).replace(self._name(key))
        except BaseException:
            Path(written).unlink(missing_ok=True)
            raise
        entry = self.load(key)
        if entry is None:
            raise EntryLostError(f"{self._name(key)} is gone again")
        return entry

    def drop_old(self, most_bytes: int = MOST_BYTES) -> None:
        """Remove what this build had no use for, the oldest first, until the rest takes no more than `most_bytes`."""
        kept = 0
        for _, size, path in sorted(self._list_unused(), reverse=True):
            kept += size
            if kept > most_bytes:
                path.unlink(missing_ok=True)

    def _list_unused(self) -> list[tuple[float, int, Path]]:
        """When each entry that this build had no use for was used last, its size, and where it is."""
        found = []
        with suppress(OSError):  # whoever deletes them may be faster
            # What a build that was cut short has left counts like an entry, and goes in its turn.
            for item in os.scandir(self.folder):
                path = Path(item)
                if item.is_file() and not (path.suffix == _END and path.stem in self._used):
                    found.append((item.stat().st_mtime, item.stat().st_size, path))
        return found

    def close(self) -> None:
        """Remove what was for this build alone."""
        if self._passing is not None:
            shutil.rmtree(self._passing, ignore_errors=True)

    def _name(self, key: str) -> Path:
        return self.folder / f"{key}{_END}"
