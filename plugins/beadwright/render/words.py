"""The language table: every word that a learner reads or hears, by key. A second language is a second table.

A table is `words/<language>.yml` in the templates folder: mappings of keys down to patterns, lists of patterns, and
plurals (a mapping of exactly `one` and `other`, chosen by the field `count`). `{name}` in a pattern is a field. A table
has no other logic.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from pathlib import Path
from string import Formatter
from types import MappingProxyType
from typing import Any, NamedTuple

import yaml

from beadwright.paths import templates_dir

_KEY = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*")
_FIELD = re.compile(r"[a-z][a-z0-9_]*")
# The parser in C is some fifteen times as fast; the one in Python is always there.
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


class WordsError(Exception):
    """A language table that is missing, malformed, or without the words asked for; the message names table and key."""


class Plural(NamedTuple):
    """Two patterns; `count` chooses: 1 takes `one`, every other number `other`."""

    one: str
    other: str


Entry = str | Plural | tuple[str, ...]
Tree = dict[str, "Tree | Entry"]


@dataclass(frozen=True, slots=True, eq=False)
class Words:
    """One language's table. Strict: what is missing raises `WordsError` with its key, never an empty text.

    `entries` holds each pattern, plural or list under its dotted key, such as `stepper.next`. Tables are equal only to
    themselves, so that what is worked out from one can be kept beside it.
    """

    language: str
    entries: Mapping[str, Entry]
    number_words: str = "plain"
    """How numbers are said: `plain` (one hundred five) or `with-and` (one hundred and five)."""

    def text(self, key: str, **fields: str | int) -> str:
        """The words of `key` with its fields filled in; a plural is chosen by the field `count`.

        >>> load_words("en").text("stepper.place", number=2, count=8)
        'Step 2 of 8'
        """
        return self.fill(key, fields)

    def fill(self, key: str, fields: Mapping[str, str | int]) -> str:
        """The same, for fields that are in a mapping already."""
        entry = self.entries.get(key)
        pattern = entry if type(entry) is str else self.pattern(key, fields.get("count"))
        try:
            return pattern.format_map(fields)
        except KeyError as missing:
            raise WordsError(f"{self.language}.yml: {key} needs the field {missing}") from None

    def pattern(self, key: str, count: str | int | None = None) -> str:
        """The pattern of `key`, its fields not yet filled in; a plural needs a `count`."""
        entry = self.entries.get(key)
        if isinstance(entry, Plural):
            if not isinstance(count, int):
                raise WordsError(f"{self.language}.yml: {key} needs the field 'count', a whole number")
            return entry.one if count == 1 else entry.other
        if not isinstance(entry, str):
            raise WordsError(f"{self.language}.yml has no text for {key}")
        return entry

    def items(self, key: str) -> tuple[str, ...]:
        """The list of patterns under `key`."""
        entry = self.entries.get(key)
        if not isinstance(entry, tuple) or isinstance(entry, Plural):
            raise WordsError(f"{self.language}.yml has no list for {key}")
        return entry

    def names(self, key: str) -> tuple[str, ...]:
        """The keys directly below `key`, in the table's order; empty when there is nothing below it."""
        return _find_names(self, key)

    def section(self, key: str) -> dict[str, object]:
        """Everything below `key` as plain data, for a template or for scripts; raises when there is nothing."""
        names = self.names(key)
        if names == ():
            raise WordsError(f"{self.language}.yml has no section {key}")
        return {name: self._plain(f"{key}.{name}") for name in names}

    def _plain(self, key: str) -> object:
        entry = self.entries.get(key)
        if entry is None:
            return self.section(key)
        if isinstance(entry, Plural):
            return entry._asdict()
        return list(entry) if isinstance(entry, tuple) else entry


@lru_cache(maxsize=4096)
def _find_names(words: Words, key: str) -> tuple[str, ...]:
    """The keys directly below `key`; number words ask for the same few again and again."""
    start = f"{key}."
    found = dict.fromkeys(name[len(start) :].partition(".")[0] for name in words.entries if name.startswith(start))
    return tuple(found)


@cache
def load_words(language: str, number_words: str = "plain") -> Words:
    """The table of a language such as `en`, read once; raises `WordsError` when there is none or it is malformed.

    `number_words` is the house style's way to say numbers: `plain`, or `with-and` where the language knows it.
    """
    if number_words != "plain":
        return replace(load_words(language), number_words=number_words)
    path = templates_dir() / "words" / f"{language}.yml"
    if _KEY.fullmatch(language) is None or not path.is_file():
        raise WordsError(f"There is no language table for {language!r} ({path.name} is missing)")
    return parse_words(language, path)


def parse_words(language: str, path: Path) -> Words:
    """The table in the file at `path`; raises `WordsError` with the line of what is wrong."""
    try:
        root = yaml.compose(path.read_text(encoding="utf-8"), Loader=_LOADER)
    except yaml.YAMLError as error:
        raise WordsError(f"{path.name} is not YAML: {error}") from error
    if not isinstance(root, yaml.MappingNode):
        raise WordsError(f"{path.name} should be a mapping of sections")
    entries: dict[str, Entry] = {}
    _gather(path.name, root, "", entries)
    return Words(language, MappingProxyType(entries))


def _gather(file: str, node: yaml.MappingNode, before: str, entries: dict[str, Entry]) -> None:
    """Put every entry below a mapping into `entries`, under its dotted key."""
    seen: set[str] = set()
    for key_node, value in node.value:
        name = key_node.value
        place = f"{file}:{key_node.start_mark.line + 1}: {before}{name}"
        if not isinstance(name, str) or _KEY.fullmatch(name) is None:
            raise WordsError(f"{place} is not a key: small letters, digits, - and _ only")
        if name in seen:
            raise WordsError(f"{place} stands twice")
        seen.add(name)
        if isinstance(value, yaml.MappingNode) and not _is_plural(value):
            _gather(file, value, f"{before}{name}.", entries)
        else:
            entries[f"{before}{name}"] = _build_entry(place, value)


def _is_plural(node: yaml.MappingNode) -> bool:
    return {key.value for key, _ in node.value} == {"one", "other"}


def _build_entry(place: str, node: yaml.Node) -> Entry:
    if isinstance(node, yaml.MappingNode):
        patterns = {key.value: _check_pattern(place, value) for key, value in node.value}
        return Plural(patterns["one"], patterns["other"])
    if isinstance(node, yaml.SequenceNode):
        return tuple(_check_pattern(place, item) for item in node.value)
    return _check_pattern(place, node)


def _check_pattern(place: str, node: yaml.Node) -> str:
    """The text of one pattern, whose fields are plain `{name}`s."""
    if not isinstance(node, yaml.ScalarNode):
        raise WordsError(f"{place} should be text")
    text: str = node.value
    try:
        fields = [part[1:] for part in Formatter().parse(text) if part[1] is not None]
    except ValueError as error:
        raise WordsError(f"{place} has braces that do not match ({error})") from None
    for name, spec, conversion in fields:
        if name is None or _FIELD.fullmatch(name) is None or spec or conversion:
            raise WordsError(f"{place} has a field that is not a plain name: {{{name}}}")
    return text
