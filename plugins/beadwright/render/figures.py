"""Figures of a frame: one to look at, with its twin in words, and one to work."""

from __future__ import annotations

from typing import Any, NamedTuple

from markupsafe import Markup

from beadwright.engine import Frame
from beadwright.render.layout import find_window
from beadwright.render.phrases import find_phrases
from beadwright.render.places import name_column
from beadwright.render.reading import read_frame
from beadwright.render.svg import draw_svg
from beadwright.render.templates import render_part
from beadwright.render.words import Words


def render_figure(
    frame: Frame,
    words: Words,
    *,
    figure_id: str,
    caption: str | Markup = "",
    digits: bool = True,
    columns: tuple[int, int] | None = None,
    ones_column: int = 1,
    by_number: bool = False,
) -> Markup:
    """A figure with its twin in words below it; its page needs `render_shapes` for the frame once.

    What it shows is in the words alone: a picture whose name told it too would be heard twice. Without `digits` they do
    not give the number away, for a reader who is to find it. `columns` are the highest and lowest shown, by default
    those in use and one more. Columns are named by place or `by_number`.
    """
    named_ones = None if by_number else ones_column
    window = columns or find_window([frame], lowest=ones_column)
    return render_part(
        "figure",
        id=figure_id,
        figure=draw_svg(frame, name=words.text("figure.told"), columns=window, ones_column=ones_column),
        caption=caption,
        said=read_frame(frame, words, ones_column=named_ones, digits=digits),
    )


class WorkedColumn(NamedTuple):
    """One column of a frame to work: its number from the right, its place, and each bead with whether it is set."""

    column: int
    place: str
    marked: bool
    digit: int
    upper: tuple[bool, ...]
    lower: tuple[bool, ...]


def render_worked_frame(
    frame: Frame,
    words: Words,
    *,
    frame_id: str,
    name: str = "",
    ones_column: int = 1,
    shown: int | None = None,
    digits: bool = False,
    by_number: bool = False,
) -> Markup:
    """A frame that a learner works, as `<bw-frame>`; its page needs `render_shapes` once and the words `frame`.

    `shown` columns are shown at first, by default those in use and one more; the rest on demand. `digits` writes each
    column's digit below it. Columns are named by place or `by_number`.
    Without scripts it is a picture with its reading.
    """
    named_ones = None if by_number else ones_column
    count = min(frame.columns, max(shown or 0, find_window([frame], lowest=ones_column)[0]))
    return render_part(
        "figure-worked",
        words=words,
        id=frame_id,
        name=name or words.text("frame.name"),
        reads=read_frame(frame, words, ones_column=named_ones),
        digits=digits,
        columns=[_build_column(frame, column, named_ones, words) for column in range(count, 0, -1)],
        more=count < frame.columns,
        data=_build_worked_data(frame, named_ones, words),
    )


def _build_column(frame: Frame, column: int, ones_column: int | None, words: Words) -> WorkedColumn:
    upper, lower = frame.beads_in(column)
    return WorkedColumn(
        column=column,
        place=name_column(column, ones_column, words).place,
        marked=column in frame.marks,
        digit=frame.digit(column),
        upper=tuple(at < upper for at in range(frame.shape.upper)),
        lower=tuple(at < lower for at in range(frame.shape.lower)),
    )


def _build_worked_data(frame: Frame, ones_column: int | None, words: Words) -> dict[str, Any]:
    """What the element needs to know: the frame, the places from column 1 up, and how each digit is said."""
    phrases = find_phrases(words, frame.shape, ones_column)
    values = []
    for digit in range(10):
        upper, lower = frame.shape.split(digit)
        values.append(words.text("frame.value", digit=digit, beads=phrases.beads(upper, lower)))
    return {
        "upper": frame.shape.upper,
        "lower": frame.shape.lower,
        "marks": list(frame.marks),
        "beads": [list(beads) for beads in frame.beads],
        "places": [name_column(column, ones_column, words).place for column in range(1, frame.columns + 1)],
        "values": values,
    }
