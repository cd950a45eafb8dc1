"""What all models of a course's files share: strictness, the common kinds of value, frames and ways of working."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, GetCoreSchemaHandler, GetJsonSchemaHandler, model_validator
from pydantic_core import CoreSchema, core_schema

from beadwright.course.nearness import name_choices, suggest_near
from beadwright.course.values import (
    LONGEST_PROSE,
    Choice,
    Identifier,
    Json,
    Listed,
    Whole,
    Words,
    YesNo,
    fail,
)
from beadwright.course.values_frame import ProblemText
from beadwright.engine import (
    FRAME_NAMES,
    ColumnShape,
    EngineError,
    Frame,
    HouseStyle,
    Order,
    Problem,
    Trial,
    Wording,
    build_frame,
)

MOST_COLUMNS = 104

Line = Annotated[str, Words()]
"""One line of text."""
Prose = Annotated[str, Words(LONGEST_PROSE, lines=True)]
"""Text of several lines; where it is shown on a page it is Markdown."""
Id = Annotated[str, Identifier()]
Flag = Annotated[bool, YesNo()]
Minutes = Annotated[int, Whole(1, 600)]
Columns = Annotated[int, Whole(1, MOST_COLUMNS)]
AProblem = Annotated[Problem, ProblemText()]

FrameIs = Literal["shown", "start", "hidden"]
"""Whether the learner has the frame: all the time, at the start only, or not at all (PROCEDURES §3.11)."""


class Strict(BaseModel):
    """A model that takes no unknown key and never changes."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=True)


class Exchange(Strict):
    """Which column of an exchange is worked first, apart for adding and for taking away."""

    add: Annotated[Order, Choice()] = Order.LEFT_FIRST
    """When adding."""
    take: Annotated[Order, Choice()] = Order.LEFT_FIRST
    """When taking away."""


@dataclass(frozen=True, slots=True)
class BothOrders:
    """Lets one order stand for adding and taking away alike."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """A text becomes both keys."""
        return core_schema.no_info_before_validator_function(
            lambda value: {"add": value, "take": value} if isinstance(value, str) else value, handler(source)
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> Json:
        """One order or the keys."""
        return {"anyOf": [{"enum": [str(order) for order in Order]}, handler(schema)]}


AnExchange = Annotated[Exchange, BothOrders()]


class FrameSize(Strict):
    """How long a frame is."""

    columns: Columns | None = None
    """Number of columns; the usual number of its kind when left out."""


class FrameChoice(Strict):
    """A frame named in one of three ways.

    By name (`five-and-four`, or `nine-bead: {columns: 3}`), by length alone (`columns: 26`), or by its beads
    (`upper: 1, lower: 4, columns: 26`).
    """

    five_and_four: FrameSize | None = Field(default=None, alias="five-and-four")
    """One upper bead worth 5 and four lower beads a column; 13 columns unless said otherwise."""
    nine_bead: FrameSize | None = Field(default=None, alias="nine-bead")
    """Nine beads worth 1 a column; 2 columns unless said otherwise."""
    columns: Columns | None = None
    """Number of columns, for the course's usual kind of frame or for the beads given."""
    upper: Annotated[int, Whole(0, 9)] | None = None
    """Upper beads a column, each worth 5."""
    lower: Annotated[int, Whole(0, 9)] | None = None
    """Lower beads a column, each worth 1."""

    @model_validator(mode="after")
    def _check_way(self) -> Self:
        ways = [self.five_and_four is not None, self.nine_bead is not None, self._by_beads or self.columns is not None]
        if ways.count(True) != 1 or (self._by_beads and None in (self.upper, self.lower)):
            raise fail("frame-kind")
        try:
            self.build()
        except EngineError as error:
            raise fail("frame-shape", reason=error.reason, next_step=error.next_step) from None
        return self

    @property
    def _by_beads(self) -> bool:
        return self.upper is not None or self.lower is not None

    def build(self, usual: str = "five-and-four") -> Frame:
        """The frame at rest; `usual` is the kind meant where only a length is given. Raises `FrameError`."""
        if self.nine_bead is not None:
            return build_frame("nine-bead", columns=self.nine_bead.columns)
        if self.five_and_four is not None:
            return build_frame("five-and-four", columns=self.five_and_four.columns)
        if self.upper is None or self.lower is None:
            return build_frame(usual, columns=self.columns)
        shape = ColumnShape(self.upper, self.lower)
        return build_frame("five-and-four" if shape.upper > 0 else "nine-bead", columns=self.columns)


@dataclass(frozen=True, slots=True)
class FrameName:
    """Lets a frame's name alone stand for the frame of its usual length."""

    def spread(self, value: object) -> object:
        """The keys that a name stands for; raises the error `value-choice` for a name that is none."""
        if not isinstance(value, str):
            return value
        if value in FRAME_NAMES:
            return {value: {}}
        near = 'Did you mean "frame_is"?' if value in ("shown", "start", "hidden") else suggest_near(value, FRAME_NAMES)
        raise fail("value-choice", choices=name_choices(FRAME_NAMES), near=near)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """A name is spread before the keys are read."""
        return core_schema.no_info_before_validator_function(self.spread, handler(source))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> Json:
        """A name or the keys."""
        return {"anyOf": [{"enum": list(FRAME_NAMES)}, handler(schema)]}


AFrame = Annotated[FrameChoice, FrameName()]


class Manner(Strict):
    """How one problem is worked, where it differs from the course's house style."""

    method: Id | None = None
    """The method by name, such as counting; the house style's when left out."""
    wording: Annotated[Wording, Choice()] | None = None
    """Told by reasons, by rules, or both."""
    exchange: AnExchange | None = None
    """Which column of an exchange is worked first."""
    trial: Annotated[Trial, Choice(but=("given",))] | None = None
    """How the trial digit of a quotient is found."""
    trial_digits: Annotated[tuple[Annotated[int, Whole(1, 9)], ...], Field(max_length=30), Listed()] = ()
    """The author's own trial digits for one quotient, in the order in which they are tried, such as [6, 8]."""

    def house(self, usual: HouseStyle) -> HouseStyle:
        """The house style with what is set here in place of the usual."""
        house = usual
        if self.wording is not None:
            house = replace(house, wording=self.wording)
        if self.exchange is not None:
            house = replace(house, add_order=self.exchange.add, take_order=self.exchange.take)
        if self.trial is not None:
            house = replace(house, trial=self.trial)
        if self.trial_digits != ():
            house = replace(house, trial=Trial.GIVEN, trial_digits=self.trial_digits)
        return house
