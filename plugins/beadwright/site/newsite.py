"""A site that is built beside the old one and then takes its place, so that there is always a whole one."""

from __future__ import annotations

import errno
import os
import shutil
import tempfile
from pathlib import Path
from typing import Any

from beadwright.whole import make_beside, name_beside, put_in_place, put_inside

fcntl: Any
try:
    import fcntl
except ModuleNotFoundError:  # not on Windows
    fcntl = None

_NEW, _OLD = "new", "old"
_MINUTE, _DAY = 60, 86_400


class NewSite:
    """The folder that a build writes into, and what becomes of it.

    It is inside the site where the site itself must stay: it is where another disk begins, the folder around it cannot
    be written to, or it has hidden folders, such as another checkout's, which MkDocs leaves alone. What is in the site
    is then exchanged name by name at the end.
    """

    def __init__(self, site: Path) -> None:
        """Raises `OSError` where nothing can be written at all."""
        self.site = site.resolve()
        self._lock: int | None = None
        if self.site.exists() and not self.site.is_dir():
            raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(self.site))
        self.site.parent.mkdir(parents=True, exist_ok=True)
        self._stays = _must_stay(self.site)
        self.folder = _make_inside(self.site) if self._stays else make_beside(self.site, _NEW)
        self._hold()
        self._clear_up()

    def _hold(self) -> None:
        """Show other builds that this folder is being worked on, as long as this process is there."""
        if fcntl is not None:
            self._lock = os.open(self.folder, os.O_RDONLY)
            fcntl.flock(self._lock, fcntl.LOCK_SH)

    def _clear_up(self) -> None:
        """Remove what builds have left that were ended; put the old site back where one was ended between two steps."""
        now = self.folder.stat().st_mtime  # by the clock of that disk, whatever ours says
        for kind in (_OLD, _NEW):
            for left in sorted(self.folder.parent.glob(f"{name_beside(self.site, kind)}*")):
                if left == self.folder or not left.is_dir() or left.is_symlink():
                    continue
                if kind == _OLD and not self.site.exists():
                    left.rename(self.site)
                elif _is_left(left, now):
                    shutil.rmtree(left, ignore_errors=True)

    def finish(self) -> None:
        """Put the new site in the old one's place. Raises `OSError`; the old one is then as it was."""
        if self._stays:
            put_inside(self.folder, self.site, name_beside(self.site, _OLD))
        else:
            for hidden in self.site.glob(".*"):  # MkDocs leaves hidden files alone, and so do we
                if not (self.folder / hidden.name).exists():
                    shutil.copy2(hidden, self.folder / hidden.name, follow_symlinks=False)
            put_in_place(self.folder, self.site)
        self._release()

    def drop(self) -> None:
        """Remove the new site, if it is not in its place."""
        if self.folder != self.site:
            shutil.rmtree(self.folder, ignore_errors=True)
        self._release()

    def _release(self) -> None:
        self.folder = self.site
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None


def _make_inside(site: Path) -> Path:
    """A new folder in a site, hidden, so that nothing there takes it for a part of the course."""
    return Path(tempfile.mkdtemp(prefix=name_beside(site, _NEW), dir=site))


def _must_stay(site: Path) -> bool:
    """Whether nothing can be put in this site's place."""
    if not site.is_dir():
        return False
    has_hidden = any(path.is_dir() for path in site.glob(".*"))
    return has_hidden or site.is_mount() or not os.access(site.parent, os.W_OK)


def _is_left(folder: Path, now: float) -> bool:
    """Whether nobody works on a folder any more."""
    age = now - folder.stat().st_mtime
    if fcntl is None:
        return age > _DAY
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    finally:
        os.close(handle)
    return age > _MINUTE  # one that was made this moment may not be held yet
