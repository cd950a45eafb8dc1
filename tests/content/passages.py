"""Every piece of prose in a content folder, with the place it comes from."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import yaml

from tests.support import ROOT

CONTENT = ROOT / "content"
PROSE_KEYS = frozenset(
    {
        *("title", "summary", "text", "caption", "note", "prompt", "question", "because", "model", "caution"),
        *("facilitator", "reflect", "meaning", "send", "keep"),  # “reflect” may hold its question alone
    }
)
_TABLE = re.compile(r"^\|.*\|\n\|[ |-]*\|\n(?:\|.*\|(?:\n|\Z))+", re.MULTILINE)


class Passage(NamedTuple):
    """Some prose. `keys` lead to it in its file, outermost first; `wrong` is set for an option that is not right."""

    file: str
    line: int
    keys: tuple[str, ...]
    text: str
    wrong: bool = False

    @property
    def key(self) -> str:
        """The innermost key: what kind of prose it is."""
        return self.keys[-1] if self.keys else "page"

    @property
    def place(self) -> str:
        """Where it stands, for a message."""
        return f"{self.file}:{self.line}"


@lru_cache(maxsize=1)
def list_passages() -> tuple[Passage, ...]:
    """All prose of the course that ships, file by file."""
    return tuple(find_passages(CONTENT))


def find_passages(content: Path) -> Iterator[Passage]:
    """All prose below a content folder: Markdown pages whole, YAML files value by value."""
    for path in sorted(content.rglob("*")):
        name = path.relative_to(content.parent).as_posix()
        if path.suffix == ".md":
            yield Passage(name, 1, (), path.read_text(encoding="utf-8"))
        elif path.suffix == ".yml":
            yield from _walk(name, yaml.compose(path.read_text(encoding="utf-8"), Loader=yaml.SafeLoader), ())


def _walk(file: str, node: yaml.Node | None, keys: tuple[str, ...], wrong: bool = False) -> Iterator[Passage]:
    if isinstance(node, yaml.SequenceNode):
        for entry in node.value:
            yield from _walk(file, entry, keys)
    elif isinstance(node, yaml.MappingNode):
        named = {key.value: value for key, value in node.value}
        an_option = "because" in named and "text" in named
        lacks_right = an_option and getattr(named.get("right"), "value", "false") != "true"
        for key, value in named.items():
            yield from _walk(file, value, (*keys, key), wrong=lacks_right and key == "text")
    elif isinstance(node, yaml.ScalarNode) and keys and (keys[-1] in PROSE_KEYS or "cautions" in keys):
        block = 1 if node.style == "|" else 0  # the text of a block begins on the next line
        yield Passage(file, node.start_mark.line + 1 + block, keys, node.value, wrong)


def find_tables(text: str) -> Iterator[list[list[str]]]:
    """The tables in Markdown: rows of cells, the heads first, without the line of dashes."""
    for table in _TABLE.findall(text):
        rows = [[cell.strip() for cell in line.strip().strip("|").split("|")] for line in table.strip().split("\n")]
        yield [rows[0], *rows[2:]]
