"""Items as data for scripts, in the shape of schema `beadwright/practice/1`.

A page holds each cause of a wrong answer, each sentence and each working once, in an island of its own
(`beadwright/practice-page/1`); items refer to causes and workings by place and by name.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from hashlib import sha256
from typing import Any

from beadwright.engine import Frame, HouseStyle, Prediction, Walkthrough
from beadwright.practice import PracticeItem
from beadwright.render.numbers import format_number
from beadwright.render.places import name_column
from beadwright.render.speech import say_steps
from beadwright.render.words import Words

SCHEMA = "beadwright/practice/1"
PAGE_SCHEMA = "beadwright/practice-page/1"
PLACES_ABOVE = 15
PLACES_BELOW = 6

Data = dict[str, Any]


@dataclass(slots=True)
class SharedData:
    """What the items of one page share: causes, sentences and workings, each once. It only grows.

    `braille_code` is the code that problems are shown in when a reader asks for braille.
    """

    words: Words
    braille_code: str = "nemeth"
    causes: dict[tuple[Prediction, str], int] = field(default_factory=dict)
    sentences: dict[str, int] = field(default_factory=dict)
    workings: dict[str, Data] = field(default_factory=dict)
    shown: dict[str, str] = field(default_factory=dict)

    def place_cause(self, cause: Prediction, say: str) -> int:
        """The place of a cause with its sentence in the island's list."""
        return self.causes.setdefault((cause, say), len(self.causes))

    def place_slips(
        self, causes: Mapping[Any, tuple[Prediction, ...]], say: Callable[[Prediction], str], name: Callable[[Any], str]
    ) -> dict[str, list[int]]:
        """An entry's `slips`: by wrong answer the places of its causes, the likeliest first."""
        return {name(wrong): [self.place_cause(c, say(c)) for c in found] for wrong, found in causes.items()}

    def place_sentences(self, sentences: Iterable[str]) -> list[int]:
        """The places of sentences in the island's list."""
        return [self.sentences.setdefault(sentence, len(self.sentences)) for sentence in sentences]

    def place_working(self, walkthrough: Walkthrough) -> str:
        """The name of a problem's working in this page; the same problem worked the same way has one name."""
        name = name_working(walkthrough)
        if name not in self.workings:
            said = [step.full for step in say_steps(walkthrough, self.words)]
            self.workings[name] = {"steps": self.place_sentences(said)}
        return name

    def show_working(self, walkthrough: Walkthrough, walkthrough_id: str) -> None:
        """Remember that the page itself shows this walkthrough, under this id."""
        self.shown.setdefault(name_working(walkthrough), walkthrough_id)

    def build(self) -> Data:
        """The island's data. A cause is `slip`, `column`, `step` (or none), `say`, `weight`."""
        return {
            "schema": PAGE_SCHEMA,
            "causes": [
                {"slip": c.slip, "column": c.column, "step": c.step, "say": say, "weight": c.weight}
                for c, say in self.causes
            ],
            "sentences": list(self.sentences),
            "workings": {
                name: {**working, "id": self.shown[name]} if name in self.shown else working
                for name, working in self.workings.items()
            },
            "places": _name_places(self.words),
            "marker": self.words.pattern("numbers.marker"),
            "grouping": self.words.pattern("numbers.grouping"),
        }


def name_working(walkthrough: Walkthrough) -> str:
    """A name that is the same for the same problem on the same kind of frame, by the same method and house style."""
    house = _write_settings(walkthrough.house)
    start = walkthrough.start
    made_of = f"{walkthrough.problem}|{walkthrough.method}|{start.name}|{start.columns}|{house}"
    return f"w{sha256(made_of.encode()).hexdigest()[:10]}"


@lru_cache(maxsize=64)
def _write_settings(house: HouseStyle) -> str:
    return str(sorted(house.to_data().items(), key=lambda pair: pair[0]))


def _name_places(words: Words) -> dict[str, str]:
    """Names of places by power of ten, for what scripts say of single digits."""
    above = {str(power): name_column(1 + power, 1, words).place for power in range(PLACES_ABOVE)}
    below = {str(-power): name_column(1, 1 + power, words).place for power in range(1, PLACES_BELOW + 1)}
    return above | below


def build_item_data(item: PracticeItem, lesson: str, pool: list[Data]) -> Data:
    """The whole data of an item around its pool."""
    data: Data = {
        "schema": SCHEMA,
        "id": item.id,
        "lesson": lesson,
        "objective": item.objective,
        "ask": item.ask,
        "frame_is": item.frame_is,
        "timed": item.timed,
    }
    if item.frame is not None:
        data["frame"] = build_frame_data(item.frame)
    return data | {"pool": pool}


def build_frame_data(frame: Frame) -> Data:
    """A frame at rest, as in a walkthrough's data."""
    return {
        "name": frame.name,
        "columns": frame.columns,
        "upper": frame.shape.upper,
        "lower": frame.shape.lower,
        "marks": list(frame.marks),
        "joined": frame.joined,
    }


def list_beads(frame: Frame) -> list[list[int]]:
    """The beads set on a frame, [upper, lower] a column, leftmost first."""
    return [list(beads) for beads in frame.beads]


def find_form(walkthrough: Walkthrough) -> str:
    """Which fields the answer is typed into: one number, a quotient with its remainder, or a mixed number."""
    answer = walkthrough.answer
    if answer.remainder is not None:
        return "remainder"
    return "fraction" if answer.parts else "number"


def show_answer(walkthrough: Walkthrough, words: Words) -> str:
    """The answer as a reader sees it."""
    answer = walkthrough.answer
    number = format_number(answer.text, words)
    if answer.remainder is None:
        return number
    return words.text("practice.remainder", number=number, remainder=format_number(answer.remainder.text, words))
