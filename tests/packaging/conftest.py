"""The wheel, built once a run, and an environment that has it and nothing of the checkout."""

import os
import site
import subprocess
import sys
import venv
from pathlib import Path

import pytest

from tests.support import ROOT
from tests.support.building import hold_lock


@pytest.fixture(scope="session")
def shared_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that all workers of one run have in common."""
    folder = tmp_path_factory.getbasetemp()
    return folder.parent if "PYTEST_XDIST_WORKER" in os.environ else folder


@pytest.fixture(scope="session")
def wheel(shared_folder: Path) -> Path:
    """The wheel of the checkout as `make wheel` builds it."""
    folder = shared_folder / "wheel"
    with hold_lock(shared_folder / "wheel.lock"):
        if not folder.exists():
            command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
            subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    (path,) = folder.glob("*.whl")
    return path


@pytest.fixture(scope="session")
def elsewhere(wheel: Path, shared_folder: Path) -> Path:
    """The `bin` folder of another environment with the wheel installed: what a trainer has who has no checkout."""
    folder = shared_folder / "elsewhere"
    with hold_lock(shared_folder / "elsewhere.lock"):
        if not (folder / "done").exists():
            venv.create(folder, with_pip=False)
            packages = folder / "lib" / f"python{sys.version_info.major}.{sys.version_info.minor}" / "site-packages"
            # The packages that the wheel depends on are borrowed; the file that makes the checkout importable is not
            # followed from here, so `beadwright` can only be the wheel's.
            (packages / "borrowed.pth").write_text("\n".join(site.getsitepackages()), encoding="utf-8")
            install = ["install", "--quiet", "--no-deps", "--no-index", "--ignore-installed", str(wheel)]
            command = [sys.executable, "-m", "pip", "--python", str(folder / "bin" / "python"), *install]
            subprocess.run(command, check=True, capture_output=True)
            (folder / "done").touch()
    return folder / "bin"
