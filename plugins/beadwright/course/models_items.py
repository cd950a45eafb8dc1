"""The kinds of practice item, told apart by `ask`, or by `draw` or `mix` where problems are drawn."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import Discriminator, Field, Tag, model_validator

from beadwright.course.models_base import AFrame, AProblem, Flag, FrameIs, Id, Manner, Prose, Strict
from beadwright.course.models_draw import Draw, Drawn, Mix
from beadwright.course.tags import tag_for
from beadwright.course.values import Choice, Listed, Whole, fail
from beadwright.course.values_frame import BeadPairs, NumberText
from beadwright.engine import Bead, Column, Frame, Move, Number, place_number

MOST_OPTIONS = 12
MOST_STEPS = 999

Beads = tuple[tuple[int, int], ...]


class Item(Strict):
    """What every item can carry."""

    id: Id | None = None
    """A lasting name for this item, so that records keep their meaning; made from its content when left out."""
    objective: Id | None = None
    """The objective it shows, where that is not the practice's."""
    note: Prose | None = None
    """A note for the trainer's edition."""


class Settings(Strict):
    """How an item meets the learner; what an item leaves out its practice decides."""

    frame: AFrame | None = None
    """The frame to work on, where it is not the lesson's."""
    frame_is: Annotated[FrameIs, Choice()] | None = None
    """Whether the frame is shown, shown at the start only, or hidden."""
    hints: Flag | None = None
    """Whether hints are offered; yes when left out."""
    timed: Flag | None = None
    """Whether time is measured; no when left out."""
    other_way: Flag | None = None
    """Whether a right answer (answer, heard) is followed by “now the other way”; no when left out."""


class FrameItem(Item, Settings):
    """An item about a frame."""

    prompt: Prose | None = None
    """Words in place of the usual prompt."""


class ProblemItem(FrameItem, Manner):
    """An item about one problem."""

    problem: AProblem
    """The problem, such as 48 + 37."""


class Shows(Strict):
    """What a frame shows: a number, or beads column by column."""

    reads: Annotated[Number, NumberText()] | None = None
    """The number that the frame reads."""
    beads: Annotated[Beads, BeadPairs()] | None = None
    """Upper and lower beads set, a pair for each column, leftmost first."""

    @model_validator(mode="after")
    def _check_one(self) -> Self:
        if (self.reads is None) is (self.beads is None):
            raise fail("figure-shows", found="neither" if self.reads is None else "both")
        return self

    @property
    def columns(self) -> tuple[Column, Column]:
        """The columns of the last place and of the ones of what is shown; beads count from column 1."""
        return (Column(1), Column(1)) if self.reads is None else place_number(self.reads)

    def show(self, frame: Frame) -> Frame:
        """`frame` with this on it; raises `FrameError` when it does not fit."""
        return show_beads(frame, self.beads or ()) if self.reads is None else show_number(frame, self.reads)


def show_number(frame: Frame, number: Number) -> Frame:
    """`frame` at rest with a number set on it; raises `FrameError`.

    The ones of a decimal number stand in column 1, 4, 7, …, just left of a unit mark (PROCEDURES §3.8).
    """
    lowest, _ = place_number(number)
    return frame.with_number(number.units, ones_column=lowest)


def show_beads(frame: Frame, beads: Beads) -> Frame:
    """`frame` at rest with these beads set in its rightmost columns; raises `FrameError`."""
    moves = [
        Move(Column(column), bead, count)
        for column, pair in enumerate(reversed(beads), start=1)
        for bead, count in zip((Bead.UPPER, Bead.LOWER), pair, strict=True)
        if count > 0
    ]
    return frame.cleared().apply_all(moves)


class AnswerItem(ProblemItem):
    """Type the number."""

    ask: Literal["answer"] = "answer"
    """The kind of item."""
    accept: Annotated[Literal["value", "form"], Choice()] = "value"
    """Whether an equal value is right (value), or only the answer in the problem's own form (form)."""


class ReadItem(FrameItem, Shows):
    """A frame is described and drawn; type what it reads."""

    ask: Literal["read"] = "read"
    """The kind of item."""


class SetItem(FrameItem):
    """Put a number on the frame."""

    ask: Literal["set"] = "set"
    """The kind of item."""
    reads: Annotated[Number, NumberText()]
    """The number that the frame should read in the end."""


class NextMoveItem(ProblemItem):
    """The frame stands before one step: say which beads move now."""

    ask: Literal["next-move"] = "next-move"
    """The kind of item."""
    at: Annotated[int, Whole(1, MOST_STEPS)]
    """The number of the step asked for, as the walkthrough counts them from 1; the frame stands as before it."""


class OrderMovesItem(ProblemItem):
    """Bring moves into order: those of one step, or the steps of the whole problem."""

    ask: Literal["order-moves"] = "order-moves"
    """The kind of item."""
    at: Annotated[int, Whole(1, MOST_STEPS)] | None = None
    """The number of the step whose moves are ordered; the whole problem's steps when left out."""


class FindSlipItem(ProblemItem):
    """A worked example with one slip in it: say which step goes wrong first, and which slip it is."""

    ask: Literal["find-slip"] = "find-slip"
    """The kind of item."""
    slip: Id
    """The slip that is made, such as exchange-dropped."""
    at: Annotated[int, Whole(1, MOST_STEPS)] | None = None
    """The number of the step it is made in; the first where it can be when left out."""


class CarryOutItem(ProblemItem):
    """Do the whole problem on the frame, checked at the end of each digit."""

    ask: Literal["carry-out"] = "carry-out"
    """The kind of item."""


class HeardItem(ProblemItem):
    """The problem is read aloud; answer it from the frame or the head."""

    ask: Literal["heard"] = "heard"
    """The kind of item."""


class Option(Strict):
    """One answer to choose."""

    text: Prose
    """What the option says."""
    right: Flag = False
    """Whether it is right."""
    because: Prose
    """Why it is right or not, read by whoever chose it."""


class ChoiceItem(Item):
    """Choose the right answer, or all right answers where several are."""

    ask: Literal["choice"] = "choice"
    """The kind of item."""
    question: Prose
    """What is asked."""
    options: tuple[Option, ...] = Field(min_length=2, max_length=MOST_OPTIONS)
    """The answers to choose from, in the order shown."""

    @model_validator(mode="after")
    def _check_right(self) -> Self:
        right = [option.right for option in self.options]
        if True not in right:
            raise fail("choice-right", at="options")
        if False not in right:
            raise fail("choice-all-right", at="options")
        return self

    @property
    def has_several(self) -> bool:
        """Whether more than one option is right."""
        return [option.right for option in self.options].count(True) > 1


class Reflection(Strict):
    """Something to think about and write down."""

    question: Prose
    """What to think about."""
    model: Prose | None = None
    """What a practised teacher might answer, shown afterwards."""


class ReflectItem(Item, Reflection):
    """A question for reflection among the items; nothing is graded."""

    ask: Literal["reflect"] = "reflect"
    """The kind of item."""


class RatingAsk(Strict):
    """The course's confidence items, asked before or after."""

    when: Annotated[Literal["before", "after"], Choice()]
    """Before the lesson or after it."""
    items: Annotated[tuple[Id, ...], Field(min_length=1, max_length=40), Listed()] | None = None
    """The confidence items to ask, by id; all of the course when left out."""


class RatingItem(Item, RatingAsk):
    """Confidence items among the practice."""

    ask: Literal["rating"] = "rating"
    """The kind of item."""


class DrawnItem(FrameItem):
    """Items whose problems are drawn, in one way or the other."""

    @property
    def drawn(self) -> Drawn:
        """What is drawn."""
        raise NotImplementedError


class DrawItem(DrawnItem):
    """Items whose problems are drawn; what is set beside `draw` counts for each of them."""

    draw: Draw
    """What is drawn."""

    @property
    def drawn(self) -> Draw:
        """What is drawn."""
        return self.draw


class MixItem(DrawnItem):
    """Items mixed from several lessons; what is set beside `mix` counts for each of them."""

    mix: Mix
    """What is mixed."""

    @property
    def drawn(self) -> Mix:
        """What is mixed."""
        return self.mix


ITEM_KINDS: dict[str, type[Item]] = {
    "answer": AnswerItem,
    "read": ReadItem,
    "set": SetItem,
    "next-move": NextMoveItem,
    "order-moves": OrderMovesItem,
    "find-slip": FindSlipItem,
    "carry-out": CarryOutItem,
    "heard": HeardItem,
    "choice": ChoiceItem,
    "reflect": ReflectItem,
    "rating": RatingItem,
}
"""The model of each kind of item by what it asks; those whose problems are drawn are known by their key."""

DRAWN_KINDS: dict[str, type[DrawnItem]] = {"draw": DrawItem, "mix": MixItem}
"""The model of each kind of item whose problems are drawn, by its key."""


def find_item_tag(value: Any) -> str | None:
    """The tag of the model that an item is read by; None when it says neither `ask` nor how to draw."""
    if isinstance(value, DrawnItem):
        return next(tag_for(key) for key, kind in DRAWN_KINDS.items() if isinstance(value, kind))
    if isinstance(value, Item):
        return tag_for(str(getattr(value, "ask", "")))
    if not isinstance(value, dict):
        return None
    return tag_for(next((key for key in DRAWN_KINDS if key in value), str(value.get("ask"))))


AnyItem = Annotated[
    Annotated[AnswerItem, Tag(tag_for("answer"))]
    | Annotated[ReadItem, Tag(tag_for("read"))]
    | Annotated[SetItem, Tag(tag_for("set"))]
    | Annotated[NextMoveItem, Tag(tag_for("next-move"))]
    | Annotated[OrderMovesItem, Tag(tag_for("order-moves"))]
    | Annotated[FindSlipItem, Tag(tag_for("find-slip"))]
    | Annotated[CarryOutItem, Tag(tag_for("carry-out"))]
    | Annotated[HeardItem, Tag(tag_for("heard"))]
    | Annotated[ChoiceItem, Tag(tag_for("choice"))]
    | Annotated[ReflectItem, Tag(tag_for("reflect"))]
    | Annotated[RatingItem, Tag(tag_for("rating"))]
    | Annotated[DrawItem, Tag(tag_for("draw"))]
    | Annotated[MixItem, Tag(tag_for("mix"))],
    Discriminator(find_item_tag),
]
