"""The course file `content/course.yml` and the glossary `content/glossary.yml`."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field

from beadwright.course.models_base import AFrame, AnExchange, Exchange, FrameChoice, Id, Line, Prose, Strict
from beadwright.course.values import Choice, Hours, Identifier, Language, Listed, Share, Short, Whole
from beadwright.engine import (
    FirstFactor,
    HouseStyle,
    Inner,
    KeptFactor,
    Rounding,
    Trial,
    Wording,
)

USUAL_POOL = 12
MOST_MODULES = 2000


class HouseStyleFile(Strict):
    """Every setting that moves a bead or changes a word (PROCEDURES §3)."""

    exchange: AnExchange = Exchange()
    """Which column of an exchange is worked first; one order for both, or add and take apart."""
    wording: Annotated[Wording, Choice()] = Wording.REASONS
    """Moves told by reasons, by rules, or both."""
    trial: Annotated[Trial, Choice(but=("given",))] = Trial.KNOWN
    """How the trial digit of a quotient is found."""
    kept_factor: Annotated[KeptFactor, Choice()] = KeptFactor.REMEMBERED
    """Whether multiplier and divisor are remembered or set at the far left."""
    first_factor: Annotated[FirstFactor, Choice()] = FirstFactor.MULTIPLICAND
    """What the first factor written is."""
    inner: Annotated[Inner, Choice()] = Inner.PARTNERS
    """How a digit is added or taken away in a column."""
    rounding: Annotated[Rounding, Choice()] = Rounding.CUT
    """What happens to a decimal quotient after its last place."""
    number_words: Annotated[Literal["plain", "with-and"], Choice()] = "plain"
    """Numbers said as “one hundred five” or as “one hundred and five”."""

    def build(self) -> HouseStyle:
        """The engine's house style; number words are the renderers' affair."""
        return HouseStyle(
            add_order=self.exchange.add,
            take_order=self.exchange.take,
            wording=self.wording,
            trial=self.trial,
            kept_factor=self.kept_factor,
            first_factor=self.first_factor,
            inner=self.inner,
            rounding=self.rounding,
        )


class Person(Strict):
    """Somebody a learner can ask."""

    name: Line
    """The person's name."""
    role: Line | None = None
    """What the person does in the course."""
    email: Line | None = None
    """Where to write."""
    phone: Line | None = None
    """Where to call, and when."""


class RecordWords(Strict):
    """The course's own words about learner records."""

    send: Prose
    """What a learner does with the saved record: whom it goes to, and how."""
    keep: Prose | None = None
    """Who keeps it, how long, and what for."""


class Module(Strict):
    """A lesson's place in the course."""

    lesson: Id
    """The lesson's id: its file name without order number and .lesson.yml."""
    credit: Annotated[Decimal, Hours()] | None = None
    """Hours of credit for finishing it; none when left out. How long it takes stands in the lesson."""


class PathFile(Strict):
    """A way through the course for one kind of learner."""

    id: Annotated[str, Identifier("paraprofessional")]
    """Its lasting name."""
    title: Line
    """What it is called."""
    text: Prose | None = None
    """Whom it is for. Markdown."""
    lessons: Annotated[tuple[Id, ...], Field(min_length=1, max_length=MOST_MODULES), Listed()]
    """Ids of its lessons, in order."""


class ConfidenceItem(Strict):
    """One thing a learner rates."""

    id: Annotated[str, Identifier("explain-a-slip")]
    """Its lasting name; records refer to it."""
    text: Line
    """What is rated, in the learner's own voice: “I can …”."""


class Confidence(Strict):
    """The confidence scale, asked in the same words before and after (PROCEDURES §6)."""

    question: Line
    """What is asked of each item."""
    points: tuple[Line, ...] = Field(min_length=2, max_length=7)
    """The labels of the scale, from least to most; the first counts 1."""
    items: tuple[ConfidenceItem, ...] = Field(min_length=1, max_length=40)
    """What is rated."""


class CertificateFile(Strict):
    """What is asked for a certificate, beside a name in the record."""

    lessons: Annotated[tuple[Id, ...], Field(max_length=MOST_MODULES), Listed()] | None = None
    """Ids of lessons that have to be finished; all of the course, or of one of its paths, when left out."""
    objectives: Annotated[tuple[Line, ...], Field(max_length=MOST_MODULES), Listed()] | None = None
    """Objectives that have to be shown, as lesson/objective; all of the lessons asked when left out."""
    hours: Annotated[Decimal, Hours()] | None = None
    """Hours of credit that finished lessons have to add up to; the certificate then has all of these lessons."""
    confidence: Annotated[Literal["none", "before", "after", "both"], Choice()] = "none"
    """Which ratings of confidence have to be given, whatever they say."""


class Course(Strict):
    """What `content/course.yml` says."""

    id: Annotated[str, Identifier("tamarow-frame-course")]
    """The course's lasting name; learner records belong to it, so it never changes."""
    title: Line
    """What the course is called."""
    edition: Line
    """Which edition this is, such as a term or a date."""
    language: Annotated[str, Language()] = "en"
    """The language of the course."""
    summary: Prose | None = None
    """What the course is and whom it is for. Markdown."""
    contact: tuple[Person, ...] = Field(min_length=1, max_length=40)
    """People to ask."""
    record: RecordWords
    """What learners do with their records."""
    modules: tuple[Annotated[Module, Short("lesson")], ...] = Field(min_length=1, max_length=MOST_MODULES)
    """The lessons in order, each with its credit."""
    paths: tuple[PathFile, ...] = Field(default=(), max_length=12)
    """Ways through the course for different learners."""
    frame: AFrame = FrameChoice.model_validate({"five-and-four": {}})
    """The frame where nothing else is said."""
    house_style: HouseStyleFile = HouseStyleFile()
    """How problems are worked and told."""
    braille_code: Annotated[Literal["nemeth", "ueb"], Choice()] = "nemeth"
    """The code for arithmetic in braille."""
    pass_mark: Annotated[Decimal, Share()] = Decimal("0.8")
    """The share of right answers that counts as passed."""
    pool: Annotated[int, Whole(1, 60)] = USUAL_POOL
    """How many problems each item has for “another one”, its own among them, where a draw does not say."""
    confidence: Confidence | None = None
    """What learners rate before and after."""
    certificate: CertificateFile = CertificateFile()
    """What is asked for a certificate."""
    cautions: dict[Annotated[str, Identifier("shared-frames")], Prose] = Field(default={}, max_length=100)
    """Standing cautions by name."""

    def lessons_in_order(self) -> tuple[str, ...]:
        """Ids of the lessons in the order of the course."""
        return tuple(module.lesson for module in self.modules)


class Term(Strict):
    """One entry of the glossary."""

    term: Line
    """The word or words."""
    meaning: Prose
    """What it means. Markdown."""
    see: Annotated[tuple[Line, ...], Field(max_length=20), Listed()] = ()
    """Other terms of the glossary to look up."""


class Glossary(Strict):
    """What `content/glossary.yml` says."""

    terms: tuple[Term, ...] = Field(min_length=1, max_length=1000)
    """The terms; pages show them in alphabetical order."""
