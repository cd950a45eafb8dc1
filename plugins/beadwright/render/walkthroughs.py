"""A walkthrough for a page: its data with a sentence a step, and an ordered list of steps that is complete as text."""

from __future__ import annotations

from typing import Any, NamedTuple

from markupsafe import Markup

from beadwright.engine import Slipped, Step, Walkthrough
from beadwright.render.braille import show_problem
from beadwright.render.layout import find_window
from beadwright.render.numbers import format_problem
from beadwright.render.reading import name_frame
from beadwright.render.speech import find_named_ones, say_steps
from beadwright.render.svg import draw_svg
from beadwright.render.templates import render_part
from beadwright.render.words import Words

Shown = Walkthrough | Slipped
"""What a page can show: a walkthrough, or a worked example with a slip in it."""


def find_right(walkthrough: Shown) -> Walkthrough:
    """The walkthrough itself, or the right one that a slipped example departs from."""
    return walkthrough.right if isinstance(walkthrough, Slipped) else walkthrough


def build_walkthrough_data(walkthrough: Shown, words: Words) -> dict[str, Any]:
    """The whole data of schema `beadwright/walkthrough/1` (or `beadwright/slipped/1`), language and sentences included.

    Each step has `say`, its sentence in full, and `short`, without reasons. Columns count from the right.
    """
    data = walkthrough.to_data()
    for step, said in zip(data["steps"], say_steps(walkthrough, words), strict=True):
        step["say"], step["short"] = said.full, said.short
    return {"schema": data.pop("schema"), "language": words.language, **data}


class StepPart(NamedTuple):
    """One step as its part of the page shows it."""

    number: int
    say: str
    figure: Markup


def render_walkthrough(
    walkthrough: Shown,
    words: Words,
    *,
    walkthrough_id: str,
    braille_code: str = "nemeth",
    with_figures: bool = True,
    with_data: bool = True,
) -> Markup:
    """The walkthrough as a part of a page, which also needs `render_shapes` for its frame once.

    Ids start with `walkthrough_id`; step 4 of `w1` is `w1-step-4`. Its data stands in it once, for the stepper and for
    items that refer to it by id. `braille_code` is the code its problem is shown in when a reader asks for braille.
    """
    right = find_right(walkthrough)
    frame = words.text(f"frame_kind.{right.start.name}")
    method = words.text(f"method.{right.method}")
    return render_part(
        "walkthrough",
        words=words,
        id=walkthrough_id,
        name=words.text("walkthrough.name", problem="{problem}", frame=frame, method=method).partition("{problem}"),
        problem=format_problem(right.problem, words),
        code=braille_code,
        braille=show_problem(right.problem, braille_code, words),
        steps=_build_steps(walkthrough, words, with_figures=with_figures),
        data=build_walkthrough_data(walkthrough, words) if with_data else None,
    )


def _build_steps(walkthrough: Shown, words: Words, *, with_figures: bool) -> list[StepPart]:
    right = find_right(walkthrough)
    window = find_window([step.after for step in walkthrough.steps], lowest=right.ones_column)
    ones_column, lowest = find_named_ones(right), find_lowest(walkthrough)

    def draw(step: Step) -> Markup:
        if not with_figures:
            return Markup("")
        name = name_frame(step.after, words, ones_column=ones_column, lowest=lowest)
        return draw_svg(step.after, name=name, columns=window, moves=step.moves, ones_column=right.ones_column)

    said = say_steps(walkthrough, words)
    return [StepPart(step.number, say.full, draw(step)) for step, say in zip(walkthrough.steps, said, strict=True)]


def find_lowest(walkthrough: Shown) -> int:
    """The lowest column that any part of the problem owns at any step."""
    columns = [owner.lowest for step in walkthrough.steps for owner in step.owners]
    return min(columns, default=1)
