"""Builds the course that ships with the lowest and the newest release of each requirement: python tools/versions.py.

Each pair of Python and releases gets an environment of its own in a temporary folder, filled by pip from whichever
index this machine uses, with the package built from this checkout and no extra. Pythons are named as arguments;
without any, all of the supported ones that this machine has. `--with PACKAGE` adds a package and its command builds the
course, to try another builder that knows MkDocs' plugins.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
NAMES = ("python3.11", "python3.12", "python3.13", "python3.14")
TOLD = ("mkdocs", "mkdocs-material", "pydantic", "jinja2")


def main() -> int:
    """Try every pair and say how it went; 1 when one failed or there was none to try."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("pythons", nargs="*", help=f"commands or paths ({', '.join(NAMES)})")
    parser.add_argument("--with", dest="builder", metavar="PACKAGE", help="another builder")
    options = parser.parse_args()
    pythons = options.pythons or [name for name in NAMES if runs(name)]
    tried = [try_pair(python, end, options.builder) for python in pythons for end in ("lowest", "newest")]
    return 0 if tried and all(tried) else 1


def runs(python: str) -> bool:
    """Whether a command is there and more than a version manager's stand-in."""
    found = shutil.which(python)
    return found is not None and subprocess.run([found, "-c", ""], capture_output=True, check=False).returncode == 0  # noqa: S603


def try_pair(python: str, end: str, builder: str | None) -> bool:
    """Make an environment, build the course strictly in it, and say what came of it."""
    with tempfile.TemporaryDirectory() as folder:
        bin_dir = Path(folder, "env", "bin")
        wanted = [str(ROOT), *(list_lowest() if end == "lowest" else []), *([builder] if builder else [])]
        config = write_config(Path(folder))
        environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": ""}
        for command in (
            [python, "-m", "venv", str(bin_dir.parent)],
            [bin_dir / "python", "-m", "pip", "--disable-pip-version-check", "install", "-q", "--upgrade", *wanted],
            [bin_dir / (builder or "mkdocs"), "build", "-q", "--strict", "-f", str(config), "-d", f"{folder}/site"],
        ):
            done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)  # noqa: S603
            if done.returncode != 0:
                print(f"{python}, {end}: failed\n{(done.stdout + done.stderr)[-2000:]}", flush=True)
                return False
        pages = len(list(Path(folder, "site").rglob("*.html")))
        asked = f"from importlib.metadata import version as v; print(*(f'{{n}} {{v(n)}}' for n in {TOLD!r}), sep=', ')"
        told = subprocess.run([bin_dir / "python", "-c", asked], capture_output=True, text=True, check=True)  # noqa: S603
        print(f"{python}, {end}: {pages} pages with {builder or 'mkdocs'}; {told.stdout.strip()}", flush=True)
        return pages > 0


def list_lowest() -> list[str]:
    """The lowest release that each requirement allows."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    bounds = (re.match(r"([A-Za-z0-9-]+)>=([0-9.]+)", text) for text in project["dependencies"])
    return [f"{bound[1]}=={bound[2]}" for bound in bounds if bound is not None]


def write_config(folder: Path) -> Path:
    """The settings of the course that ships, without other forms of lessons, which need the extras; gives its path."""
    text = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    (folder / "mkdocs.yml").write_text(
        text.replace("- beadwright", "- beadwright: {editions: false}"), encoding="utf-8"
    )
    shutil.copytree(ROOT / "content", folder / "content")
    return folder / "mkdocs.yml"


if __name__ == "__main__":
    sys.exit(main())
