"""The other forms of a lesson: braille, large print, sound of its heard items, and the list of them for its page."""

from beadwright.render.editions.listing import render_editions
from beadwright.render.editions.making import (
    EditionFile,
    EditionStyle,
    LessonEditions,
    describe_inputs,
    list_missing,
    make_editions,
)

__all__ = [
    "EditionFile",
    "EditionStyle",
    "LessonEditions",
    "describe_inputs",
    "list_missing",
    "make_editions",
    "render_editions",
]
