"""A lesson as a page: Markdown for what is read and searched, slots for what is put in afterwards.

A slot is one line of the Markdown (`slot_line`); its HTML is put in its place when the page is finished, so that heavy
markup passes neither through Markdown nor into the search index (practice with its folded answers least of all).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import singledispatchmethod
from html import escape

from beadwright.course import (
    Block,
    CautionBlock,
    Course,
    FacilitatorBlock,
    FigureBlock,
    Lesson,
    PartBlock,
    PracticeBlock,
    RatingBlock,
    ReflectBlock,
    TextBlock,
    WalkthroughBlock,
    show_figure,
    work_example,
)
from beadwright.render.templates import render_part
from beadwright.render.words import Words

_SLOT = re.compile(r'<div data-bw-slot="([a-z0-9-]+)"></div>')


@dataclass(frozen=True, slots=True)
class Page:
    """A page's Markdown, its front matter included, and the HTML of each slot in it."""

    markdown: str
    slots: Mapping[str, str]


def slot_line(name: str) -> str:
    """The line of Markdown that keeps a place for the slot `name`."""
    return f'<div data-bw-slot="{name}"></div>'


def fill_slots(html: str, slots: Mapping[str, str]) -> str:
    """A finished page with each slot's HTML in its place; raises `KeyError` for a slot that is not there."""
    return _SLOT.sub(lambda found: slots[found[1]], html)


def write_front_matter(title: str, **own: object) -> str:
    """Front matter that gives a page its title and, under `bw`, what the shell reads."""
    return f"---\n{json.dumps({'title': title, 'bw': own}, ensure_ascii=False)}\n---\n"
