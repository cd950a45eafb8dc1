"""What a room brings along when it is imported, seen in a fresh interpreter."""

import ast
import subprocess
import sys
import tomllib
from importlib.metadata import packages_distributions

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.support import ROOT

# Imports every module of the room and prints each top-level package that is neither Beadwright's nor the standard
# library's. Without site-packages (-S) nothing third-party could be there; -I keeps the surroundings out.
ENGINE = """
import importlib, pkgutil, sys
sys.path.insert(0, sys.argv[1])
import beadwright.engine
for module in pkgutil.walk_packages(beadwright.engine.__path__, "beadwright.engine."):
    importlib.import_module(module.name)
found = {name.partition(".")[0] for name in sys.modules}
print(sorted(found - set(sys.stdlib_module_names) - {"__main__", "beadwright"}))
ours = {".".join(name.split(".")[:2]) for name in sys.modules if name.startswith("beadwright.")}
print(sorted(ours - {"beadwright.engine"}))
"""

COMMAND = """
import sys
import beadwright.cli
print(sorted({"mkdocs", "material", "jinja2", "pydantic", "yaml"} & set(sys.modules)))
"""


def test_the_engine_needs_the_standard_library_alone() -> None:
    command = [sys.executable, "-I", "-S", "-c", ENGINE, str(ROOT / "plugins")]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "[]\n[]\n", "")


def test_the_command_loads_no_room_before_it_is_asked_to() -> None:
    done = subprocess.run([sys.executable, "-c", COMMAND], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "[]\n", "")


def find_imports(text: str) -> set[str]:
    """The top-level packages that a module imports anywhere in it."""
    found = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            found |= {name.name.partition(".")[0] for name in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module is not None:
            found.add(node.module.partition(".")[0])
    return found


def test_what_is_imported_is_what_the_project_asks_for() -> None:
    modules = (ROOT / "plugins" / "beadwright").rglob("*.py")
    imported = set().union(*(find_imports(path.read_text(encoding="utf-8")) for path in modules))
    owners = packages_distributions()
    outside = imported - set(sys.stdlib_module_names) - {"beadwright"}
    used = {canonicalize_name(owner) for name in outside for owner in owners[name]}
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = {canonicalize_name(Requirement(text).name) for text in project["dependencies"]}
    extra = {
        canonicalize_name(Requirement(text).name)
        for texts in project["optional-dependencies"].values()
        for text in texts
    }
    # The theme is named in mkdocs.yml, and pydantic's core comes with pydantic; neither is asked for by an import.
    assert used - {"pydantic-core"} - extra == asked - {"mkdocs-material"}
