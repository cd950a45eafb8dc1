"""What a page of the site is made from: Markdown that is read and searched, and slots for what is put in afterwards.

A slot is one line of the Markdown; its HTML is put in its place when the page is finished, so that heavy markup passes
neither through Markdown nor into the search index (practice with its folded answers least of all).
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

_SLOT = re.compile(r'<div data-bw-slot="([a-z0-9-]+)"></div>')
_MARKDOWN_SIGNS = re.compile(r"([\\`*_{}\[\]<>#|&])")


class Occurrence(NamedTuple):
    """A worked example or an item of a page: its id there, what a link to it says, and what occurs in it.

    `topics` are techniques and slips by their names.
    """

    anchor: str
    name: str
    topics: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Page:
    """A page's Markdown, its front matter included, the HTML of each slot in it, and what occurs on it."""

    markdown: str
    slots: Mapping[str, str]
    occurrences: tuple[Occurrence, ...] = ()


def slot_line(name: str) -> str:
    """The line of Markdown that keeps a place for the slot `name`."""
    return f'<div data-bw-slot="{name}"></div>'


def fill_slots(html: str, slots: Mapping[str, str]) -> str:
    """A finished page with each slot's HTML in its place; raises `KeyError` for a slot that is not there."""
    return _SLOT.sub(lambda found: slots[found[1]], html)


def write_front_matter(title: str, **own: object) -> str:
    """Front matter that gives a page its title and, under `bw`, what the shell reads."""
    return f"---\n{json.dumps({'title': title, 'bw': own}, ensure_ascii=False)}\n---\n"


def escape_markdown(text: str) -> str:
    """One line of plain text as Markdown that says just that."""
    return _MARKDOWN_SIGNS.sub(r"\\\1", text)
