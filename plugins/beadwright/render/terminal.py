"""What `beadwright work` prints: a walkthrough as text, with a frame in plain characters, or in its other forms."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from beadwright.engine import Column, Frame, Slipped
from beadwright.render.layout import find_window
from beadwright.render.numbers import format_number, format_problem
from beadwright.render.reading import name_frame
from beadwright.render.speech import find_named_ones, say_steps
from beadwright.render.svg import draw_svg
from beadwright.render.walkthroughs import Shown, build_walkthrough_data, find_lowest, find_right
from beadwright.render.words import Words

# Plain ASCII, so that every terminal has it.
BEAD, ROD, BAR, MARK, JOIN = "O", "|", "=", "+", "#"


class StepError(ValueError):
    """A step that the walkthrough does not have."""


def render_form(walkthrough: Shown, words: Words, *, form: str, step: int | None = None) -> str:
    """Give the walkthrough, or the worked example with a slip, in one of `FORMS`, without a line end at its end.

    `step` is the number of the step whose frame is drawn in `text` and `svg`, 0 being the frame at rest; the last one
    when left out. Raises `StepError` when there is no such step, `KeyError` for a form that is none.
    """
    number = len(walkthrough.steps) if step is None else step
    if not 0 <= number <= len(walkthrough.steps):
        raise StepError(f"there is no step {number}; the steps are 1 to {len(walkthrough.steps)}, and 0 is the start")
    return FORMS[form](walkthrough, words, number)


def _format_text(walkthrough: Shown, words: Words, number: int) -> str:
    """A heading, a line a step, and the frame after the step asked for, with what it reads."""
    right = find_right(walkthrough)
    frame, method = words.text(f"frame_kind.{right.start.name}"), words.text(f"method.{right.method}")
    problem = format_problem(right.problem, words)
    heading = [words.text("walkthrough.name", problem=problem, frame=frame, method=method)]
    if isinstance(walkthrough, Slipped):
        heading.append(_tell_slip(walkthrough, words))
    steps = [f"{at}. {said.full}" for at, said in enumerate(say_steps(walkthrough, words), start=1)]
    shown = _find_frames(walkthrough)[number]
    drawing = draw_frame(shown, columns=_find_columns(walkthrough))
    return "\n".join([*heading, "", *steps, "", _name(walkthrough, words, shown), "", drawing])


def _tell_slip(slipped: Slipped, words: Words) -> str:
    """Which slip is in the steps, and what its answer is and should be."""
    wrong, true = (format_number(answer.text, words) for answer in (slipped.answer, slipped.right.answer))
    slip = words.text(f"practice.slips.{slipped.slip}")
    return words.text("walkthrough.slipped", slip=slip, step=slipped.first_wrong_step, wrong=wrong, true=true)


def _find_frames(walkthrough: Shown) -> tuple[Frame, ...]:
    """The frame at rest, and the one after each step."""
    return (find_right(walkthrough).start, *(step.after for step in walkthrough.steps))


def _format_speech(walkthrough: Shown, words: Words, number: int) -> str:
    """The sentences alone, a line a step."""
    return "\n".join(said.full for said in say_steps(walkthrough, words))


def _format_json(walkthrough: Shown, words: Words, number: int) -> str:
    """The whole data of schema `beadwright/walkthrough/1`, or `beadwright/slipped/1`."""
    return json.dumps(build_walkthrough_data(walkthrough, words), ensure_ascii=False, indent=2)


def _draw_svg(walkthrough: Shown, words: Words, number: int) -> str:
    """The frame after the step asked for, as a picture that stands by itself, with what the step moved."""
    frame = _find_frames(walkthrough)[number]
    return draw_svg(
        frame,
        name=_name(walkthrough, words, frame),
        columns=_find_columns(walkthrough),
        moves=walkthrough.steps[number - 1].moves if number > 0 else (),
        labels="digits",
        ones_column=find_right(walkthrough).ones_column,
        standalone=True,
    )


FORMS: Mapping[str, Callable[[Shown, Words, int], str]] = {
    "text": _format_text,
    "speech": _format_speech,
    "json": _format_json,
    "svg": _draw_svg,
}
"""The forms by name."""


def _name(walkthrough: Shown, words: Words, frame: Frame) -> str:
    ones_column = find_named_ones(find_right(walkthrough))
    return name_frame(frame, words, ones_column=ones_column, lowest=find_lowest(walkthrough))


def _find_columns(walkthrough: Shown) -> tuple[int, int]:
    """The columns that the whole work uses and one more, so that frames of different steps can be laid side by side."""
    return find_window(_find_frames(walkthrough), lowest=find_right(walkthrough).ones_column)


class _Line(NamedTuple):
    """What one line of a drawing has in each column, leftmost first, and what stands left of a column."""

    cells: Iterable[str]
    gap: Callable[[Frame, Column], str]


def draw_frame(frame: Frame, *, columns: tuple[int, int] | None = None) -> str:
    """Draw a frame in characters: upper beads, the bar with its unit marks, lower beads, the digit of each column.

    A set bead touches the bar; a frame without upper beads has its set beads at the top. `columns` are the highest and
    lowest drawn, all by default. Where two frames lie side by side, `#` stands between them.

    >>> from beadwright.engine import build_frame
    >>> print(draw_frame(build_frame("five-and-four", columns=4).with_number(1362)))
    O O | O
    | | O |
    =+=====
    O O O O
    | O | O
    O O O |
    O | O O
    O O O O
    1 3 6 2
    """
    highest, lowest = columns or (frame.columns, 1)
    shown = range(highest, lowest - 1, -1)
    lines = [_Line(cells, _gap) for cells in zip(*(_draw_upper(frame, column) for column in shown), strict=True)]
    lines.append(_Line(BAR * len(shown), _gap_of_bar))
    lines += [_Line(cells, _gap) for cells in zip(*(_draw_lower(frame, column) for column in shown), strict=True)]
    lines.append(_Line(frame.digits(highest, lowest), _gap))
    return "\n".join(_draw_line(frame, shown, line) for line in lines)


def _draw_line(frame: Frame, shown: range, line: _Line) -> str:
    cells = zip(shown, line.cells, strict=True)
    return "".join(("" if at == shown[0] else line.gap(frame, Column(at))) + cell for at, cell in cells)


def _draw_upper(frame: Frame, column: int) -> str:
    """A column above the bar, from the top: beads at rest, the bare rod, set beads; empty where there are no beads."""
    count, (up, _) = frame.shape.upper, frame.beads_in(column)
    return BEAD * (count - up) + ROD + BEAD * up if count > 0 else ""


def _draw_lower(frame: Frame, column: int) -> str:
    """A column below the bar, from the bar: set beads, the bare rod, beads at rest."""
    _, low = frame.beads_in(column)
    return BEAD * low + ROD + BEAD * (frame.shape.lower - low)


def _gap(frame: Frame, column: Column) -> str:
    """What stands just left of a column, above and below the bar."""
    return JOIN if column == frame.joined else " "


def _gap_of_bar(frame: Frame, column: Column) -> str:
    """What stands just left of a column on the bar."""
    return MARK if column in frame.marks else BAR
