"""Files and folders that are there as they were, or as they shall be, and never in between.

Everything is written beside its place and then moved there, which needs no room on the disk and cannot stop half way.
"""

from __future__ import annotations

import ctypes
import json
import os
import shutil
import sys
import tempfile
from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import suppress
from hashlib import sha256
from pathlib import Path, PurePosixPath

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
_MADE, _MADE_SCHEMA = ".beadwright-made.json", "beadwright/made/1"
_STEP = "Name another folder with --out, or move it away"


class InTheWayError(OSError):
    """Something stands where files are to go, and is kept; the message says what, and what to do."""


def write_made(folder: Path, command: str, files: Mapping[str, bytes], *, stays: Collection[str] = ()) -> int:
    """Put what a command makes into a folder, with a hidden list of it; what it made there before goes, but `stays`.

    Gives how many files went. Raises `InTheWayError` where a file that would be written over or go is none that this
    command made there, or was changed since, and `OSError`; everything is then as it was.
    """
    made = _load_made(folder)
    before = made.get(command, {})
    goes = [name for name in before if name not in files and name not in stays and (folder / name).is_file()]
    check_made(folder, command, (*files, *goes), files=files)
    kept = {name: digest for name, digest in before.items() if name in stays}
    made = {by: {name: digest for name, digest in of.items() if name not in files} for by, of in made.items()}
    made[command] = kept | {name: _digest(data) for name, data in files.items()}
    listed = json.dumps({"schema": _MADE_SCHEMA, "made": made}, ensure_ascii=True, indent=1)
    write_together(folder, {**files, _MADE: f"{listed}\n".encode()}, goes=goes)
    return len(goes)


def check_made(folder: Path, command: str, names: Iterable[str], *, files: Mapping[str, bytes] | None = None) -> None:
    """Raise `InTheWayError` where one of the names in a folder is no file that a command made there, unchanged.

    One that has the very bytes of `files` is in nobody's way.
    """
    before = _load_made(folder).get(command, {})
    for name in names:
        path = folder / name
        if path.is_dir() or not os.path.lexists(path):
            continue  # folders stop `write_together`
        data = path.read_bytes() if path.is_file() and not path.is_symlink() else None
        known = (before.get(name), None if files is None or name not in files else _digest(files[name]))
        if data is None or _digest(data) not in known:
            how = "was changed since it was made" if name in before else f"was not made by `beadwright {command}`"
            raise InTheWayError(f"{path} {how}, so it is kept, and nothing was written. {_STEP}")


def _digest(data: bytes) -> str:
    return sha256(data).hexdigest()


def _load_made(folder: Path) -> dict[str, dict[str, str]]:
    """What commands made in a folder: by command the SHA-256 of each file by name. A list that is none says nothing."""
    try:
        made = json.loads((folder / _MADE).read_bytes())["made"]
        return {str(by): {str(name): str(of[name]) for name in of if _is_inside(str(name))} for by, of in made.items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}


def _is_inside(name: str) -> bool:
    """Whether a name of a list, which may come from anywhere, leads nowhere else."""
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts and path.parts != ()


def write_together(folder: Path, files: Mapping[str, bytes], *, goes: Collection[str] = ()) -> None:
    """Put files, by their paths with `/`, into a folder, made when missing; of others in it only those of `goes` go.

    All are written before the first is moved to its place. Raises `InTheWayError` where a folder stands in the place of
    a file, or a file in the place of a folder, and `OSError`; all is then as it was.
    """
    _check_places(folder, files)
    missing = sorted({parent for name in files for parent in (folder / name).parents if not parent.exists()})
    try:
        for parent in missing:
            parent.mkdir(exist_ok=True)
        _exchange_files(folder, files, goes)
    except BaseException:
        _drop_empty(missing)
        raise
    _drop_empty([parent for name in goes for parent in (folder / name).parents if folder in parent.parents])


def _exchange_files(folder: Path, files: Mapping[str, bytes], goes: Collection[str]) -> None:
    made = Path(tempfile.mkdtemp(prefix=".beadwright-", dir=folder))
    try:
        moves = []
        for number, (name, data) in enumerate(files.items()):
            written = made / f"new-{number}"
            written.write_bytes(data)
            moves += _move_aside(folder / name, made / f"old-{number}")
            moves.append((written, folder / name))
        for number, name in enumerate(goes):
            moves += _move_aside(folder / name, made / f"gone-{number}")
        _move_all(moves)
    except BaseException:
        for written in made.glob("new-*"):
            written.unlink()
        with suppress(OSError):
            made.rmdir()  # what could not be moved back is still in it, and not lost
        raise
    shutil.rmtree(made, ignore_errors=True)


def _move_aside(path: Path, aside: Path) -> list[tuple[Path, Path]]:
    return [(path, aside)] if os.path.lexists(path) else []


def _check_places(folder: Path, names: Iterable[str]) -> None:
    """Raise `InTheWayError` unless folders are folders and files no folders."""
    for name in names:
        path = folder / name
        if path.is_dir():
            raise InTheWayError(f"{path} is a folder, where a file is to go; nothing was written. {_STEP}")
        for parent in path.parents:
            if parent.exists() and not parent.is_dir():
                raise InTheWayError(f"{parent} is a file, where a folder is to be; nothing was written. {_STEP}")


def _drop_empty(folders: Iterable[Path]) -> None:
    """Remove folders with nothing in them, the inner ones first."""
    for folder in sorted(set(folders), reverse=True):
        with suppress(OSError):
            folder.rmdir()


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
    try:
        _move_all(moves)
    except BaseException:
        aside.rmdir()
        raise
    for emptied in (aside, made):
        shutil.rmtree(emptied, ignore_errors=True)


def _move_all(moves: Sequence[tuple[Path, Path]]) -> None:
    """Move each to its place, in order; where one cannot be moved, all are moved back. Raises `OSError`."""
    done: list[tuple[Path, Path]] = []
    try:
        for source, target in moves:
            source.rename(target)
            done.append((source, target))
    except BaseException:
        for source, target in reversed(done):
            target.rename(source)
        raise


def _exchange(one: Path, other: Path) -> bool:
    """Let two folders change places; False where the system cannot do that in one step."""
    if sys.platform != "linux":
        return False
    with suppress(OSError, AttributeError):
        library = ctypes.CDLL(None, use_errno=True)
        paths = (_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other))
        return bool(library.renameat2(*paths, _RENAME_EXCHANGE) == 0)
    return False
