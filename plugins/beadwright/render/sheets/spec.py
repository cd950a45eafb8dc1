"""What a practice sheet or a contest is made from: a file of keys, checked like a course's own files."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal, Self, TypeVar

from pydantic import Field, model_validator

from beadwright.course import Draw, Finding, FrameChoice, HouseStyleFile
from beadwright.course.binding import bind
from beadwright.course.drafts import Draft
from beadwright.course.models_base import AFrame, AProblem, Flag, Id, Line, Minutes, Prose, Strict
from beadwright.course.parts import check_doubled
from beadwright.course.sources import Source, load_tree
from beadwright.course.values import Choice, Language, Listed, Whole, fail

Medium = Literal["print", "nemeth", "ueb", "heard"]
Conditions = Literal["frame", "head"]
MEDIA: tuple[Medium, ...] = ("print", "nemeth", "ueb", "heard")
S = TypeVar("S", bound=Strict)
MOST_PROBLEMS = 5_000
"""Of a whole contest; one of ten levels with five sections of thirty has 1,500."""
_GRADED = 50  # as many as a section of any grade has at most


class DrawMany(Draw):
    """Problems drawn for a sheet; `ask`, `slip` and `pool` mean nothing here."""

    places: Annotated[int, Whole(0, 6)] = 0
    """Decimal places of the numbers of a sum, of the first factor, or of the dividend."""
    quotient: Annotated[int, Whole(1, 15)] | None = None
    """In division: how many digits the quotient has; with the digits of the dividend it says which ones are meant."""


class Base(Strict):
    """What both kinds of file say."""

    title: Line
    """What it is called."""
    language: Annotated[str, Language()] = "en"
    """The language of its words."""
    frame: AFrame = FrameChoice.model_validate({"five-and-four": {}})
    """The frame that problems are worked on."""
    house_style: HouseStyleFile = HouseStyleFile()
    """How they are worked; the techniques that a problem needs hang on it."""
    seed: Annotated[int, Whole(0, 999_999_999)] = 0
    """Another number gives other problems."""
    vertical: Flag = False
    """Whether problems stand in columns, where they can."""


class SheetSpec(Base):
    """A practice sheet."""

    problems: Annotated[tuple[AProblem, ...], Field(max_length=200), Listed()] = ()
    """Problems as given; they come first."""
    draws: tuple[DrawMany, ...] = Field(default=(), max_length=40)
    """Problems to draw."""
    note: Prose | None = None
    """Words for whoever works it, below the title."""


class LevelSpec(Strict):
    """One level of a contest."""

    id: Id
    """Its name in the names of files."""
    title: Line
    """What it is called."""
    minutes: Minutes
    """How long a section takes."""
    conditions: Annotated[Conditions, Choice()] = "frame"
    """Worked on the frame, or in the head."""
    grade: Annotated[int, Whole(1, 9)] | None = None
    """A level of the table of grades, whose draws come before its own."""
    draws: tuple[DrawMany, ...] = Field(default=(), max_length=40)
    """Problems to draw; `count` is for one section."""
    sections: Annotated[tuple[Annotated[Medium, Choice()], ...], Field(min_length=1, max_length=12), Listed()] = MEDIA
    """In which medium each section reads its problems."""
    pause: Annotated[int, Whole(1, 60)] = 3
    """Seconds of pause after each number of a heard problem."""
    answer_pause: Annotated[int, Whole(1, 600)] = 20
    """Seconds for writing the answer of a heard problem down."""
    tie_break: Annotated[int, Whole(0, 60)] = 3
    """How many further problems are kept for a tie."""

    @property
    def most_problems(self) -> int:
        """At most so many problems are drawn for it."""
        section = sum(draw.count for draw in self.draws) + (0 if self.grade is None else _GRADED)
        return section * len(self.sections) + self.tie_break


class ContestSpec(Base):
    """A contest."""

    levels: tuple[LevelSpec, ...] = Field(min_length=1, max_length=20)
    """Its levels."""
    example: Flag = False
    """Whether the site shows all its papers, keys and sound; a round that is still to be held keeps them to itself."""
    entrants: Annotated[int, Whole(1, 500)] = 24
    """How many rows the score sheet has for each level."""

    @model_validator(mode="after")
    def _check_size(self) -> Self:
        count = sum(level.most_problems for level in self.levels)
        if count > MOST_PROBLEMS:
            raise fail("sheet-problems", at="levels", most=MOST_PROBLEMS, count=count)
        return self


class SpecError(Exception):
    """A file that is no sheet and no contest; `findings` say what to put right."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(f"{len(findings)} to put right")
        self.findings = findings


def load_spec(path: Path) -> SheetSpec | ContestSpec:
    """The sheet or contest in a file: one with `levels` is a contest. Raises `SpecError`."""
    source = Source(path, path.name)
    located, findings = load_tree(source, path.parent)
    if located is None or findings:
        raise SpecError(findings)
    model: type[SheetSpec | ContestSpec] = ContestSpec if located.root.entry("levels") else SheetSpec
    bound = bind(model, located)
    if bound.model is None:
        raise SpecError(bound.findings)
    levels = bound.model.levels if isinstance(bound.model, ContestSpec) else ()
    ids = ((("levels", i, "id"), level.id) for i, level in enumerate(levels))
    doubled = tuple(check_doubled(Draft(bound.model, located), ids))
    if doubled:
        raise SpecError(doubled)
    return bound.model
