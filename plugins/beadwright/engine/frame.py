"""The instrument: column shapes, frames and moves. A frame is a value; a move gives a new frame.

Columns are numbered from the right, column 1 being the rightmost. Source: PROCEDURES §2, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from functools import cache
from typing import Any, NamedTuple, NewType, Self

from beadwright.engine.errors import FrameError

Column = NewType("Column", int)
"""A column's number, counted from the right; column 1 is the rightmost."""

Beads = tuple[int, int]
"""How many upper and how many lower beads of one column are set."""


class Bead(StrEnum):
    """The two kinds of bead: the upper one is worth 5, a lower one is worth 1."""

    UPPER = "upper"
    LOWER = "lower"


class Move(NamedTuple):
    """Beads of one kind moved together in one column: `change` > 0 sets that many, < 0 clears them."""

    column: Column
    bead: Bead
    change: int


class _Counts(NamedTuple):
    upper: int
    lower: int


class ColumnShape(_Counts):
    """How many upper (worth 5) and lower (worth 1) beads a column has. A column holds one digit, 0 to 9, exactly."""

    __slots__ = ()

    def __new__(cls, upper: int, lower: int) -> Self:
        """Raises `FrameError` for a column that does not hold the digits."""
        if upper < 0 or lower < 0 or 5 * upper + lower != 9:
            raise FrameError(
                "column-shape",
                f"A column with {upper} upper and {lower} lower beads does not hold the digits 0 to 9",
                "Use one upper and four lower beads, or no upper and nine lower beads",
            )
        return super().__new__(cls, upper, lower)

    def split(self, digit: int) -> Beads:
        """The upper and lower beads that show `digit` (0–9)."""
        return divmod(digit, 5) if self.upper > 0 else (0, digit)


FIVE_AND_FOUR = ColumnShape(upper=1, lower=4)
"""The column of a five-and-four frame: one bead worth 5 above the bar, four beads worth 1 below it."""

NINE_BEAD = ColumnShape(upper=0, lower=9)
"""The column of a starter frame: nine beads worth 1."""

_BEADS: tuple[tuple[Beads, ...], ...] = tuple(tuple((upper, lower) for lower in range(10)) for upper in range(2))
"""Every pair of upper and lower beads once. Frames share them, so that comparing two frames mostly meets the same."""

_show_digit = {beads: str(5 * beads[0] + beads[1]) for row in _BEADS for beads in row}.__getitem__
_AT_REST = _BEADS[0][0]
_UPPER = Bead.UPPER  # looked up once: every move asks for it
_new: Any = tuple.__new__  # what a named tuple is made by in the end; every step makes a frame

MARK_EVERY = 3
FRAME_COLUMNS = 13
MOST_COLUMNS = 104


class Frame(NamedTuple):
    """A frame at one moment: `beads` holds [upper set, lower set] of each column, leftmost first.

    `joined` is the column just right of the join when two frames lie side by side, else None.
    """

    name: str
    shape: ColumnShape
    beads: tuple[Beads, ...]
    joined: Column | None = None

    @property
    def columns(self) -> int:
        """How many columns the frame has."""
        return len(self.beads)

    @property
    def marks(self) -> tuple[Column, ...]:
        """Columns with a unit mark on their left side: every third one, counted from the right end of each frame.

        Of two frames side by side the left one keeps its own marks, which then do not stand where commas do.
        """
        ends = (0,) if self.joined is None else (0, self.joined)
        frames = zip(ends, (*ends[1:], self.columns), strict=True)
        return tuple(Column(c) for end, last in frames for c in range(end + MARK_EVERY, last, MARK_EVERY))

    def is_left_of_mark(self, column: int) -> bool:
        """Whether `column` stands just left of a unit mark, so that the mark can be the decimal marker."""
        return column - 1 in self.marks

    def beads_in(self, column: int) -> Beads:
        """The (upper, lower) beads set in `column`; raises `FrameError` when there is no such column."""
        if not 0 < column <= len(self.beads):
            raise no_column(len(self.beads), column)
        return self.beads[-column]

    def digit(self, column: int) -> int:
        """The digit that `column` holds, 0 to 9."""
        upper, lower = self.beads_in(column)
        return 5 * upper + lower

    def digits(self, highest: int, lowest: int) -> str:
        """The digits of the columns from `highest` down to `lowest`, as text; raises `FrameError` off the frame."""
        beads = self.beads
        columns = len(beads)
        if not 0 < lowest <= highest <= columns:
            if lowest > highest:
                return ""
            raise no_column(columns, lowest if 0 < highest <= columns else highest)
        # Every step is read, so the columns are taken at once and not one by one.
        return "".join(map(_show_digit, beads[columns - highest : columns - lowest + 1]))

    @property
    def value(self) -> int:
        """The whole frame read as one number, column 1 being the ones."""
        return int("".join(map(_show_digit, self.beads)))

    @property
    def is_at_rest(self) -> bool:
        """Whether every column is at rest."""
        return self.beads.count(_AT_REST) == len(self.beads)

    def cleared(self) -> Frame:
        """The same frame with every column at rest."""
        return self if self.is_at_rest else self._replace(beads=(_AT_REST,) * len(self.beads))

    def apply(self, move: Move) -> Frame:
        """The frame after `move`; raises `FrameError` before anything changes when the beads are not there."""
        return self.apply_all((move,))

    def apply_all(self, moves: Iterable[Move]) -> Frame:
        """The frame after all `moves` in turn; raises `FrameError` at the first that the beads do not allow."""
        name, shape, beads, joined = self
        moves = tuple(moves)
        after = list(beads)
        try:
            for place, becomes in find_effect(shape, moves).columns:
                after[place] = becomes[after[place]]
        except LookupError:
            raise find_fault(beads, shape, moves) from None
        frame: Frame = _new(Frame, (name, shape, tuple(after), joined))
        return frame

    def with_number(self, number: int, *, ones_column: int = 1) -> Frame:
        """The frame at rest with `number` set on it, its ones in `ones_column`."""
        text = str(number)
        missing = len(text) + ones_column - 1 - self.columns
        if missing > 0:
            raise too_wide(text, self, missing)
        rest = self.columns - len(text) - ones_column + 1
        shown = [self.shape.split(int(digit)) for digit in text]
        return self._replace(beads=(_AT_REST,) * rest + tuple(shown) + (_AT_REST,) * (ones_column - 1))


class Effect(NamedTuple):
    """What moves made in turn do, whatever frame of their shape they are made on.

    `columns` are the columns they touch, each by its place in a frame's beads (-1 is column 1) with what becomes there
    of all that it can hold; what is not among it does not allow the moves. `change` is by how much they change what the
    whole frame reads.
    """

    columns: tuple[tuple[int, dict[Beads, Beads]], ...]
    change: int


@cache
def find_effect(shape: ColumnShape, moves: tuple[Move, ...]) -> Effect:
    """The effect of `moves`: each is made, bead by bead, from everything that a column can hold.

    >>> find_effect(FIVE_AND_FOUR, (Move(1, Bead.LOWER, 3),))
    Effect(columns=((-1, {(0, 0): (0, 3), (0, 1): (0, 4), (1, 0): (1, 3), (1, 1): (1, 4)}),), change=3)
    """
    columns: dict[int, dict[Beads, Beads]] = {}
    changed = 0
    for column, bead, change in moves:
        held = columns.get(-column)
        if held is None:
            held = {beads: beads for beads in map(shape.split, range(10))} if column > 0 else {}
        made = [(before, _move_bead(now, shape, bead, change)) for before, now in held.items()]
        columns[-column] = {before: now for before, now in made if now is not None}
        changed += change * (5 if bead is _UPPER else 1) * 10 ** (column - 1)
    return Effect(tuple(columns.items()), changed)


def _move_bead(beads: Beads, shape: ColumnShape, bead: Bead, change: int) -> Beads | None:
    """The beads of a column after a move in it; None when they do not allow it."""
    upper, lower = beads
    if bead is _UPPER:
        upper += change
    else:
        lower += change
    possible = change != 0 and 0 <= upper <= shape.upper and 0 <= lower <= shape.lower
    return _BEADS[upper][lower] if possible else None


def find_fault(beads: tuple[Beads, ...], shape: ColumnShape, moves: tuple[Move, ...]) -> FrameError:
    """The error for the first of moves that cannot all be made."""
    held = dict(enumerate(reversed(beads), start=1))
    for move in moves:
        if move.column not in held:
            return no_column(len(beads), move.column)
        moved = _move_bead(held[move.column], shape, move.bead, move.change)
        if moved is None:
            return _not_there(held[move.column], move)
        held[move.column] = moved
    raise AssertionError(f"{moves} can be made")


def _not_there(beads: Beads, move: Move) -> FrameError:
    return FrameError(
        "move-not-there",
        f"Column {move.column} has {beads[0]} upper and {beads[1]} lower beads set, so "
        f"{abs(move.change)} {move.bead} cannot be {'set' if move.change > 0 else 'cleared'}",
        "Choose a move that the beads at rest and the beads set allow",
    )


def no_column(columns: int, column: int) -> FrameError:
    """The error for a column that a frame of so many columns does not have."""
    return FrameError(
        "no-column",
        f"There is no column {column} on a frame of {columns} columns",
        "Use a longer frame or a smaller number",
        missing=max(0, column - columns),
    )


def too_wide(what: str, frame: Frame, missing: int) -> FrameError:
    """The error for work that needs `missing` more columns than the frame has."""
    more = "1 more column" if missing == 1 else f"{missing} more columns"
    return FrameError(
        "frame-too-short",
        f"{what} needs {more} than this frame of {frame.columns} has",
        "Use a longer frame or smaller numbers",
        missing=missing,
    )


_NAMED = {"five-and-four": (FIVE_AND_FOUR, FRAME_COLUMNS), "nine-bead": (NINE_BEAD, 2)}
FRAME_NAMES = tuple(_NAMED)
"""The frames that `build_frame` knows by name."""


def build_frame(name: str = "five-and-four", *, columns: int | None = None) -> Frame:
    """A frame at rest.

    `name` is `five-and-four` (13 columns unless said otherwise) or `nine-bead` (2 columns unless said otherwise).
    A five-and-four frame of 26 columns is two frames side by side, joined left of column 13. Raises `FrameError`.
    """
    if name not in _NAMED:
        raise FrameError("frame-name", f"There is no frame called {name!r}", f"Use one of {', '.join(FRAME_NAMES)}")
    shape, usual = _NAMED[name]
    count = usual if columns is None else columns
    if not 1 <= count <= MOST_COLUMNS:
        raise FrameError("frame-columns", f"A frame cannot have {count} columns", f"Use 1 to {MOST_COLUMNS} columns")
    joined = Column(FRAME_COLUMNS) if shape.upper > 0 and count == 2 * FRAME_COLUMNS else None
    return Frame(name, shape, (_AT_REST,) * count, joined)
