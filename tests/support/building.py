"""Building a course as its author would: by MkDocs, in a process of its own."""

import fcntl
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


def run_mkdocs(config: Path, site: Path, *options: str) -> subprocess.CompletedProcess[str]:
    """Build with the given `mkdocs.yml` into `site`, and give how that went, whether it succeeded or not."""
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "-f", str(config), "-d", str(site), *options]
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    return subprocess.run(command, cwd=config.parent, env=environment, capture_output=True, text=True, check=False)


def build_site(config: Path, site: Path) -> None:
    """Build strictly into `site`; what MkDocs printed is the message when that fails."""
    done = run_mkdocs(config, site, "--strict")
    assert done.returncode == 0, done.stdout + done.stderr


@contextmanager
def hold_lock(path: Path) -> Iterator[None]:
    """Hold a file lock for the length of a block, so that one worker of a test run works and the others wait."""
    with path.open("w") as file:
        fcntl.flock(file, fcntl.LOCK_EX)
        yield
