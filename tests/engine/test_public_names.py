"""The engine's public names: each says in its source what it gives, and each is used by a test."""

import ast
import dataclasses
import importlib
import pkgutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import beadwright.engine as engine
from tests.support import ROOT

TESTS = (ROOT / "tests" / "engine", ROOT / "tests" / "published", ROOT / "tests" / "prove")


def find_docstrings(source: str) -> Iterator[tuple[str, str | None]]:
    """Each name that a module defines at its top, and the docstring in or just below it."""
    body = ast.parse(source).body
    for node, after in zip(body, [*body[1:], None], strict=True):
        if isinstance(node, ast.ClassDef | ast.FunctionDef):
            yield node.name, ast.get_docstring(node)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            told = after.value.value if isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant) else None
            for target in targets:
                if isinstance(target, ast.Name):
                    yield target.id, told if isinstance(told, str) else None


@cache
def find_definitions() -> dict[str, str | None]:
    """The docstring of each public name, found in the module that defines it."""
    found: dict[str, str | None] = {}
    for module in pkgutil.walk_packages(engine.__path__, "beadwright.engine."):
        file = importlib.import_module(module.name).__file__
        assert file is not None
        found |= {n: told for n, told in find_docstrings(Path(file).read_text("utf-8")) if n in engine.__all__}
    return found


@cache
def find_used_names() -> set[str]:
    """Names that tests take from the engine and use."""
    used: set[str] = set()
    for path in (path for folder in TESTS for path in folder.glob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        imported = {
            alias.name
            for node in ast.walk(tree)
            if isinstance(node, ast.ImportFrom) and node.module == "beadwright.engine"
            for alias in node.names
        }
        used |= imported & {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)}
    return used


def test_the_list_of_public_names_is_whole() -> None:
    assert len(set(engine.__all__)) == len(engine.__all__)
    bound = {name for name, value in vars(engine).items() if not name.startswith("_") and not _is_module(value)}
    assert bound == set(engine.__all__)


def _is_module(value: object) -> bool:
    return isinstance(value, type(ast))


@pytest.mark.parametrize("name", engine.__all__)
def test_a_public_name_says_what_it_gives(name: str) -> None:
    assert find_definitions()[name], f"{name} has no docstring"


@pytest.mark.parametrize("name", engine.__all__)
def test_a_public_name_is_used_by_a_test(name: str) -> None:
    assert name in find_used_names()


def find_classes() -> list[type]:
    """Every class that a module of the engine defines."""
    found = []
    for module in pkgutil.walk_packages(engine.__path__, "beadwright.engine."):
        inside = vars(importlib.import_module(module.name)).values()
        found += [value for value in inside if isinstance(value, type) and value.__module__ == module.name]
    return found


def test_every_value_of_the_engine_is_frozen() -> None:
    """A value that could be changed could be changed after it was proved."""
    values = [kind for kind in find_classes() if dataclasses.is_dataclass(kind)]
    assert len(values) > 10
    assert [kind.__name__ for kind in values if not kind.__dataclass_params__.frozen] == []  # type: ignore[attr-defined]
    assert [kind.__name__ for kind in values if "__slots__" not in vars(kind)] == []
