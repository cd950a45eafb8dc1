"""Practice as values: what is asked, the key, the predicted slips, the facts of hints. Renderers make the sentences.

An item holds a pool of entries of one kind; the first is shown, the others are for “another one”.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from beadwright.course import FrameIs
from beadwright.engine import Column, Frame, Move, Number, Prediction, Slipped, Step, Walkthrough
from beadwright.practice.other_ways import OtherWay
from beadwright.practice.readings import Causes

Ask = Literal[
    "answer",
    "read",
    "set",
    "next-move",
    "order-moves",
    "find-slip",
    "carry-out",
    "heard",
    "choice",
    "reflect",
    "rating",
]
Accept = Literal["value", "form"]
Codes = tuple[str, ...]
"""Moves by code, as `name_move` gives them."""


def name_move(move: Move) -> str:
    """A move's code in data: column, bead, change; the same move always has the same code.

    >>> from beadwright.engine import Bead
    >>> name_move(Move(Column(2), Bead.LOWER, 1)), name_move(Move(Column(1), Bead.UPPER, -1))
    ('2l+1', '1u-1')
    """
    return f"{move.column}{move.bead[0]}{move.change:+d}"


@dataclass(frozen=True, slots=True)
class AnswerEntry:
    """A problem whose answer is typed, after reading it or after hearing it.

    `focus` is the step that hints speak of, `other` the way to try after a right answer.
    """

    walkthrough: Walkthrough
    accept: Accept
    causes: Causes
    focus: Step | None
    other: OtherWay | None = None


@dataclass(frozen=True, slots=True)
class ReadEntry:
    """A frame to read. `lowest` is the column of the number's last place, `ones` that of its ones."""

    frame: Frame
    number: Number
    lowest: Column
    ones: Column
    causes: Causes


@dataclass(frozen=True, slots=True)
class SetEntry:
    """A number to set; `goal` is the frame with it. `lowest` and `ones` as when reading."""

    goal: Frame
    number: Number
    lowest: Column
    ones: Column
    causes: Causes


@dataclass(frozen=True, slots=True)
class NextMoveEntry:
    """The frame `before` a step: which of the `options` are its moves.

    `causes` go by the codes of the moves that a slip makes, in the order of the options.
    """

    walkthrough: Walkthrough
    before: Frame
    step: Step
    options: tuple[Move, ...]
    causes: Mapping[Codes, tuple[Prediction, ...]]


@dataclass(frozen=True, slots=True)
class OrderEntry:
    """The moves of one step, or the steps of the whole problem (`step` None), to be brought into order.

    `order` gives places in the right order, `shuffled` the same in the order shown.
    """

    walkthrough: Walkthrough
    before: Frame
    step: Step | None
    order: tuple[int, ...]
    shuffled: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class FindSlipEntry:
    """A worked example with a slip in it; `options` names the slips to choose from."""

    slipped: Slipped
    options: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Check:
    """The end of one digit: the step, what the frame reads then (column 1 being the ones), and slips by reading."""

    step: Step
    before: Frame
    reads: int
    causes: Mapping[int, tuple[Prediction, ...]]


@dataclass(frozen=True, slots=True)
class CarryOutEntry:
    """A whole problem to be worked on the frame. `causes` go by the final answer, for work on one's own frame."""

    walkthrough: Walkthrough
    checks: tuple[Check, ...]
    causes: Causes


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to choose. `text` and `because` are Markdown."""

    id: str
    text: str
    because: str
    right: bool


@dataclass(frozen=True, slots=True)
class ChoiceEntry:
    """A question with answers to choose from; `question` is Markdown."""

    question: str
    options: tuple[Option, ...]

    @property
    def has_several(self) -> bool:
        """Whether more than one option is right."""
        return [option.right for option in self.options].count(True) > 1


@dataclass(frozen=True, slots=True)
class ReflectEntry:
    """Something to think about, and what a practised teacher might answer. Both are Markdown."""

    question: str
    model: str | None


@dataclass(frozen=True, slots=True)
class Rated:
    """One thing a learner rates."""

    id: str
    text: str


@dataclass(frozen=True, slots=True)
class RatingEntry:
    """The course's confidence items, asked before or after. The first of `points` counts 1."""

    when: str
    question: str
    points: tuple[str, ...]
    items: tuple[Rated, ...]


Entry = (
    AnswerEntry
    | ReadEntry
    | SetEntry
    | NextMoveEntry
    | OrderEntry
    | FindSlipEntry
    | CarryOutEntry
    | ChoiceEntry
    | ReflectEntry
    | RatingEntry
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeItem:
    """One item as a learner meets it. `frame` is at rest; None where the item has nothing to do with a frame.

    `prompt` and `note` are the author's own Markdown, where there is any. Where the item is `drawn` the prompt goes
    before the problem, else it stands in place of the usual one, and the pool holds that one problem alone. `taught` is
    the id of the earlier lesson that an item of a mix comes from.
    """

    id: str
    ask: Ask
    objective: str | None
    frame: Frame | None
    frame_is: FrameIs
    hints: bool
    timed: bool
    drawn: bool
    prompt: str | None
    note: str | None
    pool: tuple[Entry, ...]
    taught: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeSet:
    """A practice of a lesson with its items in order."""

    id: str
    title: str
    lesson: str
    items: tuple[PracticeItem, ...]
