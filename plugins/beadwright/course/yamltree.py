"""YAML text -> a tree in which every key and value knows its line and column.

Values stay the text that the author wrote: `no`, `010` and `1:30` are text until a model asks for more. The tree is
built from the parser's events with a list in place of recursion, so that depth is bounded, and an alias is refused
where it stands, so that nothing ever expands.
"""

from __future__ import annotations

import bisect
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, Protocol

import yaml

from beadwright.course.yamlfaults import find_fault

MOST_DEPTH = 24
_LINE_END = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something starts in a file: line and column, both counted from 1, columns in characters."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class TextNode:
    """A single value as written; `plain` when it stands without quotes and not as a block of text."""

    place: Place
    text: str
    plain: bool = True

    @property
    def is_nothing(self) -> bool:
        """Whether the author left the value out: `title:` and no more."""
        return self.plain and self.text == ""


@dataclass(frozen=True, slots=True)
class ListNode:
    """A list of values."""

    place: Place
    items: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """One key with its value."""

    key: str
    key_place: Place
    value: Node


@dataclass(frozen=True, slots=True)
class MapNode:
    """Keys with values, in the order written; no key stands twice."""

    place: Place
    entries: tuple[Entry, ...]

    def entry(self, key: str) -> Entry | None:
        """The entry of `key`, or None when there is none."""
        return next((entry for entry in self.entries if entry.key == key), None)


Node = TextNode | ListNode | MapNode


class Report(Protocol):
    """Takes note of something that is wrong at a place; `fields` fill the message of `code`."""

    def __call__(self, code: str, place: Place, /, **fields: str | int) -> None:
        """Note it."""


class Lines:
    """Turns positions in a text into places. Lines end where editors end them: LF, CR LF or CR."""

    def __init__(self, text: str) -> None:
        self._starts = [0, *(found.end() for found in _LINE_END.finditer(text))]

    def place(self, index: int) -> Place:
        """The place of the character at `index`, counted from 0."""
        line = bisect.bisect_right(self._starts, index)
        return Place(line, index - self._starts[line - 1] + 1)


# The parser in C is some fifteen times as fast; the one in Python is always there and says better what is wrong.
FAST: Any = getattr(yaml, "CSafeLoader", None)


def parse_tree(text: str, report: Report) -> Node | None:
    """The tree of the YAML document in `text`; None when it is empty or cannot be read on.

    Whatever is wrong goes to `report`; nothing is raised for any text.
    """
    lines = Lines(text)
    if FAST is not None and "\t" not in text:  # the two differ about tabs at the end of a line
        noted: list[tuple[str, Place, dict[str, str | int]]] = []
        try:
            root = build_tree(text, lines, lambda code, place, /, **fields: noted.append((code, place, fields)), FAST)
        except _PARSER_ERRORS:
            noted = []
        else:
            for code, place, fields in noted:
                report(code, place, **fields)
            return root
    try:
        return build_tree(text, lines, report, yaml.SafeLoader)
    except _PARSER_ERRORS as error:
        fault = find_fault(error, text)
        report(fault.code, lines.place(min(fault.index, len(text))), **fault.fields)
        return None


# The parsers raise bare ValueError or OverflowError for escapes such as "\\UFFFFFFFF".
_PARSER_ERRORS = (yaml.YAMLError, ValueError, OverflowError)


def build_tree(text: str, lines: Lines, report: Report, loader: Any) -> Node | None:
    """The tree that one of the parsers gives; raises what that parser raises."""
    builder = _Builder(lines, report)
    for event in _read_events(text, loader):
        if not builder.take(event):
            break
    return builder.root


def _read_events(text: str, loader_type: Any) -> Iterator[Any]:
    loader = loader_type(text)
    try:
        while loader.check_event():
            yield loader.get_event()
    finally:
        loader.dispose()


@dataclass(slots=True)
class _Open:
    """A list or mapping that is still being read. In a mapping, `key` waits for its value."""

    place: Place
    is_map: bool
    items: list[Node] = field(default_factory=list)
    entries: dict[str, Entry] = field(default_factory=dict)
    key: Node | None = None

    def close(self) -> Node:
        if self.is_map:
            return MapNode(self.place, tuple(self.entries.values()))
        return ListNode(self.place, tuple(self.items))


class _Builder:
    """Builds the tree from events; `root` is the finished tree."""

    def __init__(self, lines: Lines, report: Report) -> None:
        self.root: Node | None = None
        self._lines = lines
        self._report = report
        self._open: list[_Open] = []
        self._documents = 0

    def take(self, event: Any) -> bool:
        """Take one event; False when reading should stop here."""
        place = self._lines.place(event.start_mark.index)
        if isinstance(event, yaml.DocumentStartEvent):
            return self._start_document(place)
        if isinstance(event, yaml.NodeEvent):
            self._check_marks(event, place)
        if isinstance(event, yaml.AliasEvent):
            self._add(TextNode(place, f"*{event.anchor}"))
        elif isinstance(event, yaml.ScalarEvent):
            self._add(TextNode(place, event.value, plain=event.style in (None, "")))
        elif isinstance(event, yaml.CollectionStartEvent):
            return self._start(place, is_map=isinstance(event, yaml.MappingStartEvent))
        elif isinstance(event, yaml.CollectionEndEvent):
            self._add(self._open.pop().close())
        return True

    def _start_document(self, place: Place) -> bool:
        self._documents += 1
        if self._documents > 1:
            self._report("yaml-documents", place)
        return self._documents == 1

    def _check_marks(self, event: Any, place: Place) -> None:
        if isinstance(event, yaml.AliasEvent):
            self._report("yaml-alias", place, name=str(event.anchor))
        elif event.anchor is not None:
            self._report("yaml-anchor", place, name=event.anchor)
        tag = getattr(event, "tag", None)
        if tag is not None:
            self._report("yaml-tag", place, tag=tag)

    def _start(self, place: Place, *, is_map: bool) -> bool:
        if len(self._open) >= MOST_DEPTH:
            self._report("yaml-depth", place, most=MOST_DEPTH)
            return False
        self._open.append(_Open(place, is_map))
        return True

    def _add(self, node: Node) -> None:
        if not self._open:
            self.root = node
            return
        parent = self._open[-1]
        if not parent.is_map:
            parent.items.append(node)
        elif parent.key is None:
            parent.key = node
        else:
            self._add_entry(parent, parent.key, node)
            parent.key = None

    def _add_entry(self, parent: _Open, key: Node, value: Node) -> None:
        if not isinstance(key, TextNode) or not key.text.isprintable() or key.is_nothing:
            self._report("key-not-text", key.place)
        elif key.text in parent.entries:
            first = parent.entries[key.text].key_place
            self._report("key-doubled", key.place, key=key.text, line=first.line)
        else:
            parent.entries[key.text] = Entry(key.text, key.place, value)
