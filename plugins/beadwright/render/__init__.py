"""Pure renderers: the language table, sentences, pictures and page parts, all from the same walkthrough values."""

from beadwright.render.course_pages import (
    LESSON_FOLDER,
    SOURCES_FILE,
    LessonLink,
    list_lessons,
    render_course_parts,
    write_glossary,
    write_record,
    write_review,
)
from beadwright.render.figures import render_figure, render_worked_frame
from beadwright.render.items import SCRIPT_SECTIONS, SCRIPTS
from beadwright.render.layout import find_window
from beadwright.render.lesson import write_lesson
from beadwright.render.numbers import format_number, format_problem, say_number, say_number_text, say_problem
from beadwright.render.occurrences import write_where
from beadwright.render.pages import Occurrence, Page, fill_slots, slot_line
from beadwright.render.places import ColumnName, name_column
from beadwright.render.reading import name_frame, read_frame
from beadwright.render.speech import Said, say_steps
from beadwright.render.svg import draw_svg, render_shapes
from beadwright.render.templates import format_script_data, render_part
from beadwright.render.trainer_pages import write_trainer_pages
from beadwright.render.walkthroughs import build_walkthrough_data, render_walkthrough
from beadwright.render.words import Words, WordsError, load_words

__all__ = [
    "LESSON_FOLDER",
    "SCRIPTS",
    "SCRIPT_SECTIONS",
    "SOURCES_FILE",
    "ColumnName",
    "LessonLink",
    "Occurrence",
    "Page",
    "Said",
    "Words",
    "WordsError",
    "build_walkthrough_data",
    "draw_svg",
    "fill_slots",
    "find_window",
    "format_number",
    "format_problem",
    "format_script_data",
    "list_lessons",
    "load_words",
    "name_column",
    "name_frame",
    "read_frame",
    "render_course_parts",
    "render_figure",
    "render_part",
    "render_shapes",
    "render_walkthrough",
    "render_worked_frame",
    "say_number",
    "say_number_text",
    "say_problem",
    "say_steps",
    "slot_line",
    "write_glossary",
    "write_lesson",
    "write_record",
    "write_review",
    "write_trainer_pages",
    "write_where",
]
