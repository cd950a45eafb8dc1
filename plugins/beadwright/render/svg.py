"""A frame as a picture: SVG by classes alone, so that one drawing serves every scheme, paper and forced colours.

A set bead is full and broad and lies at the bar; one at rest is hollow, narrow and lies away from it. What a step has
moved stands in a pocket, with an arrow in the way it went. Columns are drawn once a page (`render_shapes`) and used by
reference within the page, so that a page of many figures stays small.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Literal

from markupsafe import Markup

from beadwright.engine import Bead, ColumnShape, Frame, Move
from beadwright.paths import templates_dir
from beadwright.render.layout import (
    BAR,
    JOIN,
    PITCH,
    SIDE,
    SLOT,
    Changed,
    RodLayout,
    find_changed_beads,
    find_slots,
    find_window,
)

Labels = Literal["none", "digits", "columns"]

_LABEL_HEIGHT = 30
_TAIL = 16
"""How far the sides run on where the frame has more columns than are shown."""
_BEAD = "M-17 0C-16-7-11-9.5-6-9.5H6C11-9.5 16-7 17 0C16 7 11 9.5 6 9.5H-6C-11 9.5-16 7-17 0Z"
_HOLLOW = "M-14 0C-13-6-9-8-5-8H5C9-8 13-6 14 0C13 6 9 8 5 8H-5C-9 8-13 6-14 0Z"

_SHARED = (
    f'<g id="bw-bead-set"><path class="bw-bead bw-bead-set" d="{_BEAD}"/>'
    '<path class="bw-bead-pip" d="M-6 0H6"/></g>'
    f'<path id="bw-bead-rest" class="bw-bead bw-bead-rest" d="{_HOLLOW}"/>'
    '<path id="bw-arrow" class="bw-arrow" d="M0-9L9 1H3.5V9H-3.5V1H-9Z"/>'
)


def render_shapes(shapes: Iterable[ColumnShape]) -> Markup:
    """The parts that all figures of a page share, once a page: beads, arrows, and every state of these columns.

    The ids are the same on every page: `bw-bead-set`, `bw-bead-rest`, `bw-arrow` and a column's `bw-rod-…`.
    """
    return Markup('<svg class="bw-shapes" width="0" height="0" aria-hidden="true" focusable="false">{}</svg>').format(
        _build_shapes(shapes)
    )


def _build_shapes(shapes: Iterable[ColumnShape]) -> Markup:
    parts = [_SHARED]
    for shape in shapes:
        states = [(upper, lower) for upper in range(shape.upper + 1) for lower in range(shape.lower + 1)]
        parts.extend(_build_column(shape, upper, lower) for upper, lower in states)
    return Markup("<defs>{}</defs>").format(Markup("").join(map(Markup, parts)))


def _name_column(shape: ColumnShape, upper: int, lower: int) -> str:
    return f"bw-rod-{shape.upper}{shape.lower}-{upper}{lower}"


def _build_column(shape: ColumnShape, upper: int, lower: int) -> str:
    """One column in one state, its rod at x = 0."""
    layout = RodLayout(shape)
    beads = []
    for bead, count in ((Bead.UPPER, upper), (Bead.LOWER, lower)):
        at_bar, at_rest = find_slots(shape, bead, count)
        beads += [f'<use href="#bw-bead-set" y="{layout.place(bead, slot)}"/>' for slot in at_bar]
        beads += [f'<use href="#bw-bead-rest" y="{layout.place(bead, slot)}"/>' for slot in at_rest]
    rod = f'<path class="bw-frame-rod" d="M0 {SIDE}V{layout.height - SIDE}"/>'
    return f'<g id="{_name_column(shape, upper, lower)}">{rod}{"".join(beads)}</g>'


def draw_svg(
    frame: Frame,
    *,
    name: str,
    columns: tuple[int, int] | None = None,
    moves: Sequence[Move] = (),
    labels: Labels = "none",
    ones_column: int = 1,
    figure_id: str = "",
    standalone: bool = False,
) -> Markup:
    """The frame as an SVG picture called `name`.

    `columns` are the highest and lowest to show; by default those in use and one more. `moves` are what the step before
    it moved, marked where the beads lie now. `labels` writes each column's digit, or its number, below it. With
    `ones_column` above 1 the unit mark right of it is drawn as the decimal marker. A `standalone` picture brings its
    parts and colours along; any other needs `render_shapes` in its page.
    """
    drawing = _Drawing(frame, columns or find_window([frame]))
    changed = [beads for beads in find_changed_beads(frame, moves) if drawing.shows(beads.column)]
    parts = [
        f"<style>{load_style()}</style>{_build_shapes([frame.shape])}" if standalone else "",
        drawing.build_ground(),
        *map(drawing.build_pocket, changed),
        drawing.build_columns(),
        drawing.build_bar(ones_column),
        *map(drawing.build_arrow, changed),
        drawing.build_labels(labels),
    ]
    height = drawing.layout.height + (0 if labels == "none" else _LABEL_HEIGHT)
    return Markup(
        '<svg{id}{xmlns} class="bw-frame" viewBox="0 0 {width} {height}" width="{width}" height="{height}"'
        ' role="img" aria-label="{name}">{parts}</svg>'
    ).format(
        id=Markup(' id="{}"').format(figure_id) if figure_id else "",
        xmlns=Markup(' xmlns="http://www.w3.org/2000/svg"') if standalone else "",
        width=drawing.width,
        height=height,
        name=name,
        parts=Markup("".join(parts)),  # noqa: S704 - built here from numbers alone
    )


class _Drawing:
    """The parts of one picture, each as markup. Columns are drawn from `highest` (left) to `lowest` (right)."""

    def __init__(self, frame: Frame, columns: tuple[int, int]) -> None:
        self.frame = frame
        self.layout = RodLayout(frame.shape)
        self.highest, self.lowest = columns
        self.starts = SIDE if self.highest == frame.columns else _TAIL
        ends = SIDE if self.lowest == 1 else _TAIL
        self.width = self.x(self.lowest) + PITCH // 2 + ends

    def shows(self, column: int) -> bool:
        """Whether the column is among those shown."""
        return self.lowest <= column <= self.highest

    def x(self, column: int) -> int:
        """The middle of a column."""
        joined = self.frame.joined
        gap = JOIN if joined is not None and column <= joined < self.highest else 0
        return self.starts + PITCH * (self.highest - column) + PITCH // 2 + gap

    def _spans(self) -> list[tuple[int, int, bool, bool]]:
        """Left and right edge of each frame shown, and whether each side closes there (True) or runs on."""
        joined = self.frame.joined
        closes = self.highest == self.frame.columns, self.lowest == 1
        if joined is None or not self.lowest <= joined < self.highest:
            return [(0, self.width, *closes)]
        middle = self.x(joined) - PITCH // 2 - JOIN // 2
        return [(0, middle - 1, closes[0], True), (middle + 1, self.width, True, closes[1])]

    def build_ground(self) -> str:
        """The frame's sides, and the ground that the beads lie on."""
        parts = []
        for left, right, closes_left, closes_right in self._spans():
            parts.append(_build_body(left, right, self.layout.height, closes_left, closes_right))
            inner_left, inner_right = (left + SIDE if closes_left else left), (right - SIDE if closes_right else right)
            foot = self.layout.height - SIDE
            parts.append(f'<path class="bw-frame-ground" d="M{inner_left} {SIDE}H{inner_right}V{foot}H{inner_left}Z"/>')
            if not closes_left:
                parts.append(f'<path class="bw-frame-more" d="M{left + 2} {SIDE + 5}V{foot}"/>')
            if not closes_right:
                parts.append(f'<path class="bw-frame-more" d="M{right - 2} {SIDE + 5}V{foot}"/>')
        return "".join(parts)

    def build_columns(self) -> str:
        """The rods with their beads, by reference."""
        uses = []
        for column in range(self.highest, self.lowest - 1, -1):
            state = _name_column(self.frame.shape, *self.frame.beads_in(column))
            uses.append(f'<use href="#{state}" x="{self.x(column)}"/>')
        return "".join(uses)

    def build_bar(self, ones_column: int) -> str:
        """The bar with a mark a column, a long mark left of every third, one of which may be the decimal marker."""
        top, middle = self.layout.bar_top, self.layout.bar_top + BAR / 2
        # Where the bar is the upper side of the frame, it keeps clear of that side's round corners.
        inset = SIDE if top == 0 else 0
        parts = [
            f'<path class="bw-frame-bar" d="M{left + inset * goes_left} {top}H{right - inset * goes_right}v{BAR}'
            f'H{left + inset * goes_left}Z"/>'
            for left, right, goes_left, goes_right in self._spans()
        ]
        for column in range(self.highest, self.lowest - 1, -1):
            parts.append(f'<circle class="bw-frame-dot" cx="{self.x(column)}" cy="{middle:g}" r="2.5"/>')
            if column in self.frame.marks and self.shows(column + 1):
                kind = "bw-frame-marker" if ones_column == column + 1 else "bw-frame-mark"
                parts.append(self._build_mark(kind, self.x(column) - PITCH // 2))
        return "".join(parts)

    def _build_mark(self, kind: str, x: int) -> str:
        top, reach = self.layout.bar_top, (9 if kind == "bw-frame-marker" else 6)
        over = min(reach, top)
        return f'<path class="{kind}" d="M{x} {top - over}V{top + BAR + reach}"/>'

    def build_pocket(self, changed: Changed) -> str:
        """The pocket around the beads that were moved."""
        places = [self.layout.place(changed.bead, slot) for slot in changed.slots]
        top, bottom = min(places) - SLOT // 2, max(places) + SLOT // 2
        x = self.x(changed.column) - PITCH // 2 + 1
        size = f'width="{PITCH - 2}" height="{bottom - top - 1}" rx="11"'
        return f'<rect class="bw-pocket" x="{x}" y="{top + 0.5:g}" {size}/>'

    def build_arrow(self, changed: Changed) -> str:
        """The way the beads went, in the room they left: towards the bar when set, away from it when cleared."""
        y = self.layout.place(changed.bead, changed.gap)
        up = changed.was_set is (changed.bead is Bead.LOWER)
        turn = "" if up else ' transform="rotate(180)"'
        return f'<g transform="translate({self.x(changed.column)} {y})"><use href="#bw-arrow"{turn}/></g>'

    def build_labels(self, labels: Labels) -> str:
        """A row of text below the columns."""
        if labels == "none":
            return ""
        y = self.layout.height + 22
        texts = []
        for column in range(self.highest, self.lowest - 1, -1):
            label = self.frame.digit(column) if labels == "digits" else column
            texts.append(f'<text class="bw-frame-text" x="{self.x(column)}" y="{y}">{label}</text>')
        return "".join(texts)


def _build_body(left: int, right: int, height: int, closes_left: bool, closes_right: bool) -> str:
    """The frame's body, round at the corners it has."""
    near, far = (12 if closes_left else 0), (12 if closes_right else 0)
    return (
        f'<path class="bw-frame-edge" d="M{left + near} 0H{right - far}q{far} 0 {far} {far}V{height - far}'
        f'q0 {far}-{far} {far}H{left + near}q-{near} 0-{near}-{near}V{near}q0-{near} {near}-{near}Z"/>'
    )


@cache
def load_style() -> str:
    """The style sheet that a standalone picture carries: the page's own rules, in the light scheme's colours."""
    styles = templates_dir() / "theme" / "assets" / "bw" / "css"
    root = (styles / "tokens.css").read_text(encoding="utf-8").partition(":root {")[2].partition("}")[0]
    tokens = [
        line for line in map(str.strip, root.splitlines()) if line.startswith(("--bw-figure", "--bw-bead", "--bw-face"))
    ]
    rules = (styles / "figure.css").read_text(encoding="utf-8")
    return f".bw-frame{{{''.join(tokens)}}}{' '.join(re.sub(r'/[*].*?[*]/', '', rules, flags=re.DOTALL).split())}"
