"""Walkthroughs: a problem worked bead by bead, as a value that cannot exist unless it has been replayed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, NamedTuple

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Bead, Column, Frame, Move, build_frame, find_effect, find_fault
from beadwright.engine.hand import (
    Action,
    FromNothing,
    FromOddNumber,
    FromProduct,
    FromQuotient,
    FromRoot,
    FromTerm,
    Source,
    Technique,
    Work,
)
from beadwright.engine.house import HouseStyle
from beadwright.engine.problem import Problem, parse_problem
from beadwright.engine.solution import solve

SCHEMA = "beadwright/walkthrough/1"

_new: Any = tuple.__new__  # what a named tuple is made by in the end; each step may be read


class Purpose(StrEnum):
    """Why a step is made."""

    SET = "set"
    ADD = "add"
    TAKE = "take"
    COUNT = "count"
    CLEAR = "clear"
    SAY = "say"
    PRODUCT = "product"
    QUOTIENT = "quotient"
    LOWER = "lower"
    GIVE_BACK = "give-back"
    RAISE = "raise"


class Reading(NamedTuple):
    """What a group of columns means now: `columns` are the highest and the lowest of the group."""

    part: str
    text: str
    columns: tuple[int, int]

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `reads`."""
        return {"part": self.part, "text": self.text, "columns": list(self.columns)}


class Owner(NamedTuple):
    """A part of the problem that owns the columns from `highest` to `lowest`, its ones in column `ones`."""

    part: str
    highest: int
    lowest: int
    ones: int

    def read(self, frame: Frame) -> Reading:
        """What the owned columns hold, without leading zeros."""
        part, most, lowest, ones = self
        digits = frame.digits(most, lowest)
        places = ones - lowest
        text = digits.lstrip("0").rjust(places + 1, "0")
        highest = lowest + len(text) - 1
        if places > 0:
            text = f"{text[:-places]}.{text[-places:]}"
        reading: Reading = _new(Reading, (part, text, (highest if highest < most else most, lowest)))
        return reading


class Remark(NamedTuple):
    """What a step without moves says: a topic of the language table and its facts."""

    topic: str
    facts: tuple[tuple[str, str | int], ...] = ()

    def to_data(self) -> dict[str, Any]:
        """Plain data for a step's `remark`."""
        return {"topic": self.topic} | dict(self.facts)


class Step(NamedTuple):
    """One digit worked in one column, or something said. `after` is the frame when the step is done.

    `owners` are the parts of the problem that then own columns, leftmost first.
    """

    number: int
    purpose: Purpose
    work: Work | None
    technique: Technique | None
    runs_on: bool
    moves: tuple[Move, ...]
    after: Frame
    owners: tuple[Owner, ...]
    remark: Remark | None = None

    @property
    def reads(self) -> tuple[Reading, ...]:
        """What each part reads when the step is done."""
        return tuple([owner.read(self.after) for owner in self.owners])

    def to_data(self) -> dict[str, Any]:
        """Plain data of one step, without its sentence."""
        data: dict[str, Any] = {
            "number": self.number,
            "purpose": str(self.purpose),
            "work": None if self.work is None else self.work.to_data(),
            "technique": None if self.technique is None else str(self.technique),
            "runs_on": self.runs_on,
            "moves": [{"column": m.column, "bead": str(m.bead), "change": m.change} for m in self.moves],
            "after": [list(beads) for beads in self.after.beads],
            "reads": [reading.to_data() for reading in self.reads],
        }
        return data if self.remark is None else data | {"remark": self.remark.to_data()}


class Remainder(NamedTuple):
    """What is left of a quotient or root, and the columns that hold it."""

    text: str
    columns: tuple[int, int]


class Answer(NamedTuple):
    """Where the answer stands at the end: `columns` are its highest and lowest, `decimals` its places.

    `columns` is None where the answer stands in no column: the count that a learner keeps.
    """

    text: str
    columns: tuple[int, int] | None
    decimals: int = 0
    remainder: Remainder | None = None
    quotient_ones_column: Column | None = None
    parts: tuple[tuple[str, tuple[int, int]], ...] = ()

    @property
    def full_text(self) -> str:
        """The answer with its remainder: `41 r 11`; the text alone when nothing is left."""
        return self.text if self.remainder is None else f"{self.text} r {self.remainder.text}"

    def to_data(self) -> dict[str, Any]:
        """Plain data for a walkthrough's `answer`."""
        left = self.remainder
        data: dict[str, Any] = {
            "text": self.text,
            "columns": None if self.columns is None else list(self.columns),
            "decimals": self.decimals,
            "remainder": None if left is None else {"text": left.text, "columns": list(left.columns)},
        }
        if self.quotient_ones_column is not None:
            data["quotient_ones_column"] = self.quotient_ones_column
        if self.parts:
            data["parts"] = {part: list(columns) for part, columns in self.parts}
        return data


class ReplayError(Exception):
    """A walkthrough that does not hold: a fault in the procedure that made it, never in a problem."""


_WAYS = {Action.SET: 1, Action.ADD: 1, Action.TAKE: -1, Action.CLEAR: -1}


def replay(start: Frame, steps: Iterable[Step], *, rightly: bool = True) -> Frame:
    """Move every bead again from `start` and compare; gives the last frame, raises `ReplayError`.

    What is worked `rightly` changes the frame at each step by just the digit that the step works.
    """
    name, shape, beads, joined = now = start
    held = list(beads)
    for number, (given, _, work, _, _, moves, now, _, _) in enumerate(steps, 1):
        if given != number:
            raise ReplayError(f"step {given} stands at place {number}")
        moved = due = 0
        if moves:
            columns, moved = find_effect(shape, moves)
            try:
                for place, becomes in columns:
                    held[place] = becomes[held[place]]
            except LookupError:
                raise ReplayError(f"step {number}: {find_fault(beads, shape, moves).reason}") from None
            beads = tuple(held)
        if now != (name, shape, beads, joined):
            raise ReplayError(f"step {number} gives {beads}, not {now.beads}")
        if work is not None:
            action, digit, column, _ = work
            due = _WAYS[action] * digit * 10 ** (column - 1)
        if rightly and (moved != due or (moves and work is None)):
            raise ReplayError(f"step {number} changes the frame by {moved}, its work by {due}")
    return now


def check_standing(frame: Frame, text: str, columns: tuple[int, int]) -> None:
    """Raise `ReplayError` unless the columns hold the digits of `text` (marker and leading zeros apart)."""
    try:
        held = frame.digits(*columns)
    except FrameError as error:
        raise ReplayError(error.reason) from error
    if held.lstrip("0") != text.replace(".", "").lstrip("0"):
        raise ReplayError(f"columns {columns} hold {held}, the answer says {text}")


def check_answer(frame: Frame, answer: Answer) -> None:
    """Raise `ReplayError` unless the answer, part by part, and its remainder stand in their columns."""
    if answer.parts == () and answer.columns is not None:
        check_standing(frame, answer.text, answer.columns)
    for part, columns in answer.parts:
        check_standing(frame, _part_text(answer.text, part), columns)
    if answer.remainder is not None:
        check_standing(frame, answer.remainder.text, answer.remainder.columns)


@dataclass(frozen=True, slots=True)
class Walkthrough:
    """A problem worked on a frame from rest to answer. Making one replays it, so there is none that does not hold.

    `ones_column` is where the ones of the numbers stand. Raises `ReplayError`.
    """

    problem: Problem
    method: str
    start: Frame
    house: HouseStyle
    ones_column: Column
    steps: tuple[Step, ...]
    answer: Answer

    def __post_init__(self) -> None:
        if not self.start.is_at_rest:
            raise ReplayError("a walkthrough starts from a frame at rest")
        answer, left = self.answer, self.answer.remainder
        check_answer(replay(self.start, self.steps), answer)
        expected = solve(self.problem, self.house)
        if (answer.text, None if left is None else left.text) != expected:
            raise ReplayError(f"{self.problem}: the frame says {answer.text}, arithmetic {expected.text}")

    @property
    def frames(self) -> tuple[Frame, ...]:
        """The frame before the first step and after each step."""
        return (self.start, *(step.after for step in self.steps))

    def to_data(self) -> dict[str, Any]:
        """Plain data in the shape of schema `beadwright/walkthrough/1`, without language and sentences."""
        frame = self.start
        return {
            "schema": SCHEMA,
            "problem": str(self.problem),
            "method": self.method,
            "frame": {
                "name": frame.name,
                "columns": frame.columns,
                "upper": frame.shape.upper,
                "lower": frame.shape.lower,
                "marks": list(frame.marks),
                "joined": frame.joined,
            },
            "house_style": self.house.to_data(),
            "ones_column": self.ones_column,
            "start": [list(beads) for beads in frame.beads],
            "steps": [step.to_data() for step in self.steps],
            "answer": self.answer.to_data(),
        }

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Walkthrough:
        """The walkthrough of such data, replayed anew; unknown keys are passed over. Raises `ReplayError`.

        A part of the problem then owns the columns that it reads, and none at rest left of them.
        """
        start = build_frame(data["frame"]["name"], columns=data["frame"]["columns"])
        if [list(beads) for beads in start.beads] != data["start"]:
            raise ReplayError("a walkthrough starts from a frame at rest")
        steps, frame = [], start
        for item in data["steps"]:
            step = _step_from_data(item, frame)
            steps.append(step)
            frame = step.after
        return cls(
            problem=parse_problem(data["problem"]),
            method=data["method"],
            start=start,
            house=HouseStyle.from_data(data["house_style"]),
            ones_column=Column(data["ones_column"]),
            steps=tuple(steps),
            answer=_answer_from_data(data["answer"]),
        )


def _part_text(text: str, part: str) -> str:
    """The digits of one part of `1 7/8`."""
    whole, _, fraction = text.rpartition(" ") if "/" in text else (text, "", "0/1")
    above, _, below = fraction.partition("/")
    return {"whole": whole, "numerator": above, "denominator": below}[part]


def _step_from_data(item: Mapping[str, Any], before: Frame) -> Step:
    moves = tuple(Move(Column(m["column"]), Bead(m["bead"]), m["change"]) for m in item["moves"])
    after = Frame(before.name, before.shape, tuple((upper, lower) for upper, lower in item["after"]), before.joined)
    remark = item.get("remark")
    facts = () if remark is None else tuple((k, v) for k, v in remark.items() if k != "topic")
    return Step(
        number=item["number"],
        purpose=Purpose(item["purpose"]),
        work=None if item["work"] is None else _work_from_data(item["work"]),
        technique=None if item["technique"] is None else Technique(item["technique"]),
        runs_on=item["runs_on"],
        moves=moves,
        after=after,
        owners=tuple(_owner_from_data(read) for read in item["reads"]),
        remark=None if remark is None else Remark(remark["topic"], facts),
    )


def _owner_from_data(read: Mapping[str, Any]) -> Owner:
    """The owner that reads so; its ones stand left of its columns where the text has more places than those."""
    highest, lowest = read["columns"]
    return Owner(read["part"], highest, lowest, lowest + len(read["text"].partition(".")[2]))


def _work_from_data(work: Mapping[str, Any]) -> Work:
    source: Source = FromNothing()
    if "term" in work:
        source = FromTerm(work["term"])
    elif "factors" in work:
        source = FromProduct((work["factors"][0], work["factors"][1]), work["product"], work["place"])
    elif "odd_number" in work:
        source = FromOddNumber(int(work["odd_number"]), work["group"])
    elif "root_group" in work:
        source = FromRoot(work["root_group"])
    elif "quotient_column" in work:
        source = FromQuotient(Column(work["quotient_column"]), work["rule"])
    return Work(Action(work["action"]), work["digit"], Column(work["column"]), source)


def _answer_from_data(data: Mapping[str, Any]) -> Answer:
    left, columns = data["remainder"], data["columns"]
    marker = data.get("quotient_ones_column")
    return Answer(
        text=data["text"],
        columns=None if columns is None else (columns[0], columns[1]),
        decimals=data["decimals"],
        remainder=None if left is None else Remainder(left["text"], (left["columns"][0], left["columns"][1])),
        quotient_ones_column=None if marker is None else Column(marker),
        parts=tuple((part, (hi, lo)) for part, (hi, lo) in data.get("parts", {}).items()),
    )
