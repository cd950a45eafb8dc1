"""The other forms of a lesson: braille, large print, sound, a practice sheet; and the list of them for its page."""

from beadwright.render.editions.listing import label_file, render_editions, render_forms, split_cells
from beadwright.render.editions.making import list_missing, make_editions, make_example, make_level, make_trainer_sheets
from beadwright.render.editions.values import EditionFile, EditionStyle, LessonEditions

__all__ = [
    "EditionFile",
    "EditionStyle",
    "LessonEditions",
    "label_file",
    "list_missing",
    "make_editions",
    "make_example",
    "make_level",
    "make_trainer_sheets",
    "render_editions",
    "render_forms",
    "split_cells",
]
