"""Files and folders that are there as they were, or as they shall be, and never in between.

Everything is written beside its place and then moved there, which needs no room on the disk and cannot stop half way.
"""

from __future__ import annotations

import ctypes
import os
import shutil
import sys
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2


def write_together(folder: Path, files: Mapping[str, bytes]) -> None:
    """Put files, by their paths with `/`, into a folder, made when missing; others in it stay. Raises `OSError`.

    All are written before the first is moved to its place.
    """
    folder.mkdir(parents=True, exist_ok=True)
    made = Path(tempfile.mkdtemp(prefix=".beadwright-", dir=folder))
    try:
        for name, data in files.items():
            path = made / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        for name in files:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (made / name).replace(folder / name)
    finally:
        shutil.rmtree(made, ignore_errors=True)


def make_beside(folder: Path, kind: str) -> Path:
    """A new folder beside `folder`, with its mode where it is there already. Raises `OSError`."""
    made = Path(tempfile.mkdtemp(prefix=name_beside(folder, kind), dir=folder.parent))
    if folder.is_dir():
        made.chmod(folder.stat().st_mode & 0o777)
    else:
        mask = os.umask(0)
        os.umask(mask)
        made.chmod(0o777 & ~mask)
    return made


def name_beside(folder: Path, kind: str) -> str:
    """How the names of folders begin that `make_beside` makes: hidden, and told apart from what a trainer has there.

    >>> name_beside(Path("course/site"), "new")
    '.site-new-'
    """
    return f".{folder.name}-{kind}-"


def put_in_place(made: Path, folder: Path) -> None:
    """Let a folder take the place of another, which goes, in one step where the system has one. Raises `OSError`."""
    if not folder.exists():
        made.rename(folder)
        return
    if not _exchange(made, folder):
        aside = make_beside(folder, "old")
        folder.rename(aside)  # an empty folder gives way
        try:
            made.rename(folder)
        except OSError:
            aside.rename(folder)
            raise
        made = aside
    shutil.rmtree(made, ignore_errors=True)


def put_inside(made: Path, folder: Path, prefix: str) -> None:
    """Let what is in a hidden folder inside `folder` take the place of all that is there and not hidden.

    Hidden ones give way to their own like alone. What goes waits in another hidden folder, whose name begins with
    `prefix`, until all is in its place. Raises `OSError`; all is then as it was.
    """
    aside = Path(tempfile.mkdtemp(prefix=prefix, dir=folder))
    goes = [path for path in folder.iterdir() if not path.name.startswith(".") or os.path.lexists(made / path.name)]
    moves = [(path, aside / path.name) for path in goes] + [(path, folder / path.name) for path in made.iterdir()]
    done: list[tuple[Path, Path]] = []
    try:
        for source, target in moves:
            source.rename(target)
            done.append((source, target))
    except BaseException:
        for source, target in reversed(done):
            target.rename(source)
        aside.rmdir()
        raise
    for emptied in (aside, made):
        shutil.rmtree(emptied, ignore_errors=True)


def _exchange(one: Path, other: Path) -> bool:
    """Let two folders change places; False where the system cannot do that in one step."""
    if sys.platform != "linux":
        return False
    with suppress(OSError, AttributeError):
        library = ctypes.CDLL(None, use_errno=True)
        paths = (_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other))
        return bool(library.renameat2(*paths, _RENAME_EXCHANGE) == 0)
    return False
