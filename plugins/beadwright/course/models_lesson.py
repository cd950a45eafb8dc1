"""A lesson file: `content/modules/NN-name.lesson.yml`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, NamedTuple

from pydantic import Discriminator, Field, Tag

from beadwright.course.models_base import AFrame, AProblem, Id, Line, Manner, Minutes, Prose, Strict
from beadwright.course.models_items import (
    AnyItem,
    DrawnItem,
    Item,
    RatingAsk,
    RatingItem,
    Reflection,
    Settings,
    Shows,
)
from beadwright.course.tags import tag_for
from beadwright.course.values import Listed, Short, is_id

MOST_ITEMS = 200
MOST_BLOCKS = 300


class Objective(Strict):
    """Something a learner can do afterwards that can be observed."""

    id: Id
    """Its lasting name in this lesson; records and items refer to it."""
    text: Line
    """What the learner can do, starting with a verb."""


class Part(Strict):
    """The start of a part: a place to stop and to come back to."""

    title: Line
    """What the part is called."""
    minutes: Minutes | None = None
    """How long it takes."""


class Figure(Shows):
    """A drawing of a frame, with its reading in words."""

    caption: Line | None = None
    """What the figure is there to show."""
    frame: AFrame | None = None
    """The frame, where it is not the lesson's."""


class Example(Manner):
    """A worked example that the engine works bead by bead."""

    problem: AProblem
    """The problem, such as 48 + 37."""
    note: Prose | None = None
    """What to look out for, shown with it."""
    frame: AFrame | None = None
    """The frame, where it is not the lesson's."""


class Practice(Settings):
    """A set of items; what it sets counts for each item that does not say otherwise."""

    id: Id
    """Its lasting name in this lesson; the ids of its items are built on it."""
    title: Line
    """What the practice is called."""
    objective: Id | None = None
    """The objective that its items show."""
    items: tuple[AnyItem, ...] = Field(min_length=1, max_length=MOST_ITEMS)
    """The items in order."""


class Block(Strict):
    """One block of a lesson's body: a key that says its kind, and what belongs to it."""


class PartBlock(Block):
    """Starts a part."""

    part: Annotated[Part, Short("title")]
    """The part that starts here."""


class TextBlock(Block):
    """Explanation."""

    text: Prose
    """Markdown."""


class FigureBlock(Block):
    """Shows a frame."""

    figure: Figure
    """The frame shown."""


class WalkthroughBlock(Block):
    """Shows a worked example."""

    walkthrough: Annotated[Example, Short("problem")]
    """The example; a problem alone will do."""


class PracticeBlock(Block):
    """Gives items to practise."""

    practice: Practice
    """The practice."""


class CautionBlock(Block):
    """A caution."""

    caution: Prose
    """The name of one of the course's standing cautions, or the text of a caution of its own."""

    @property
    def name(self) -> str | None:
        """The name of the standing caution; None when the caution's text stands here."""
        return self.caution if is_id(self.caution) else None


class FacilitatorBlock(Block):
    """Speaks to the trainer, in the trainer's edition only."""

    facilitator: Prose
    """Markdown."""


class ReflectBlock(Block):
    """Asks for reflection."""

    reflect: Annotated[Reflection, Short("question")]
    """What to think about."""


class RatingBlock(Block):
    """Asks the course's confidence items."""

    rating: Annotated[RatingAsk, Short("when")]
    """Before or after."""


BLOCK_KINDS: dict[str, type[Block]] = {
    "part": PartBlock,
    "text": TextBlock,
    "figure": FigureBlock,
    "walkthrough": WalkthroughBlock,
    "practice": PracticeBlock,
    "caution": CautionBlock,
    "facilitator": FacilitatorBlock,
    "reflect": ReflectBlock,
    "rating": RatingBlock,
}
"""The model of each kind of block by its key."""


def find_block_tag(value: Any) -> str | None:
    """The tag of the model that a block is read by: that of its first known key; None when it has none."""
    keys = type(value).model_fields if isinstance(value, Block) else value if isinstance(value, dict) else ()
    return next((tag_for(key) for key in keys if key in BLOCK_KINDS), None)


AnyBlock = Annotated[
    Annotated[PartBlock, Tag(tag_for("part"))]
    | Annotated[TextBlock, Tag(tag_for("text"))]
    | Annotated[FigureBlock, Tag(tag_for("figure"))]
    | Annotated[WalkthroughBlock, Tag(tag_for("walkthrough"))]
    | Annotated[PracticeBlock, Tag(tag_for("practice"))]
    | Annotated[CautionBlock, Tag(tag_for("caution"))]
    | Annotated[FacilitatorBlock, Tag(tag_for("facilitator"))]
    | Annotated[ReflectBlock, Tag(tag_for("reflect"))]
    | Annotated[RatingBlock, Tag(tag_for("rating"))],
    Discriminator(find_block_tag),
]

Path = tuple[str | int, ...]


class PlacedItem(NamedTuple):
    """An item, the practice it belongs to, and the keys and entries that lead to it in the file."""

    path: Path
    practice: Practice
    item: Item

    @property
    def asked(self) -> int:
        """How many items a learner meets here: several where problems are drawn."""
        return self.item.drawn.count if isinstance(self.item, DrawnItem) else 1


class LessonFile(Strict):
    """What a lesson file says."""

    title: Line
    """What the lesson is called."""
    summary: Line | None = None
    """One sentence for lists of lessons."""
    minutes: Minutes
    """How long the lesson takes in all."""
    needs: Annotated[tuple[Id, ...], Field(max_length=50), Listed()] = ()
    """Ids of the lessons that come before: file names without order number and .lesson.yml."""
    objectives: tuple[Objective, ...] = Field(min_length=1, max_length=20)
    """What a learner can do afterwards."""
    frame: AFrame | None = None
    """The frame of this lesson, where it is not the course's."""
    body: tuple[AnyBlock, ...] = Field(min_length=1, max_length=MOST_BLOCKS)
    """What the lesson is made of, in order."""

    def items(self) -> Iterator[PlacedItem]:
        """All practice items in order, draws among them once each."""
        for number, block in enumerate(self.body):
            if isinstance(block, PracticeBlock):
                for index, item in enumerate(block.practice.items):
                    yield PlacedItem(("body", number, "practice", "items", index), block.practice, item)

    def ratings(self) -> Iterator[tuple[Path, RatingAsk]]:
        """All places where confidence items are asked."""
        for number, block in enumerate(self.body):
            if isinstance(block, RatingBlock):
                yield ("body", number, "rating"), block.rating
        for placed in self.items():
            if isinstance(placed.item, RatingItem):
                yield placed.path, placed.item


class Lesson(LessonFile):
    """A lesson of the course: what its file says, its id, the file itself, and the lessons that it mixes items from."""

    id: str
    """The file's name without order number and `.lesson.yml`."""
    file: str
    """The file's path from the folder that holds the content folder, with `/`."""
    mixed: tuple[Lesson, ...] = ()
    """The lessons that items are mixed from, each once."""
