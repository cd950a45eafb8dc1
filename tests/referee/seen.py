"""A walkthrough's facts in the referee's own terms, from plain data or from any value with the same names."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from tests.referee.beads import Board, Move, Shape
from tests.referee.rules import Style

Reads = tuple[tuple[str, str, tuple[int, int]], ...]


class SeenStep(NamedTuple):
    """One step. `work` is (action, digit, column) or None; `source` what the digit comes from."""

    number: int
    purpose: str
    work: tuple[str, int, int] | None
    source: Mapping[str, Any]
    technique: str | None
    runs_on: bool
    moves: tuple[Move, ...]
    after: Board
    reads: Reads


class Seen(NamedTuple):
    """One walkthrough. `house` is the plain data of the house style, `answer` that of the answer."""

    problem: str
    method: str
    frame: Mapping[str, Any]
    house: Mapping[str, Any]
    ones_column: int
    start: Board
    steps: tuple[SeenStep, ...]
    answer: Mapping[str, Any]

    @property
    def shape(self) -> Shape:
        """The shape of every column."""
        return Shape(self.frame["upper"], self.frame["lower"])

    @property
    def style(self) -> Style:
        """How digits are worked: by the method where it says so, else in the house's way."""
        named = self.method in ("partners", "counting")
        exchange = self.house["exchange"]
        return Style(self.method if named else self.house["inner"], exchange["add"], exchange["take"])

    @property
    def end(self) -> Board:
        """The board after the last step."""
        return self.steps[-1].after if self.steps else self.start


def see_data(data: Mapping[str, Any]) -> Seen:
    """The facts of a walkthrough's plain data."""
    return Seen(
        problem=data["problem"],
        method=data["method"],
        frame=data["frame"],
        house=data["house_style"],
        ones_column=data["ones_column"],
        start=_see_board(data["start"]),
        steps=tuple(_see_step(step) for step in data["steps"]),
        answer=data["answer"],
    )


def _see_board(columns: list[list[int]]) -> Board:
    return tuple((upper, lower) for upper, lower in columns)


def _see_step(step: Mapping[str, Any]) -> SeenStep:
    work = step["work"]
    source = {} if work is None else {k: v for k, v in work.items() if k not in ("action", "digit", "column")}
    return SeenStep(
        number=step["number"],
        purpose=step["purpose"],
        work=None if work is None else (work["action"], work["digit"], work["column"]),
        source=source,
        technique=step["technique"],
        runs_on=step["runs_on"],
        moves=tuple((move["column"], move["bead"], move["change"]) for move in step["moves"]),
        after=_see_board(step["after"]),
        reads=tuple((r["part"], r["text"], (r["columns"][0], r["columns"][1])) for r in step["reads"]),
    )


def see_value(walkthrough: Any) -> Seen:
    """The facts of a walkthrough value, without the way through plain data: millions of them are judged."""
    start = walkthrough.start
    return Seen(
        problem=str(walkthrough.problem),
        method=walkthrough.method,
        frame={
            "name": start.name,
            "columns": len(start.beads),
            "upper": start.shape.upper,
            "lower": start.shape.lower,
            "marks": list(start.marks),
            "joined": start.joined,
        },
        house=walkthrough.house.to_data(),
        ones_column=walkthrough.ones_column,
        start=start.beads,
        steps=tuple(_see_step_value(step) for step in walkthrough.steps),
        answer=walkthrough.answer.to_data(),
    )


def _see_step_value(step: Any) -> SeenStep:
    work = step.work
    return SeenStep(
        number=step.number,
        purpose=step.purpose,
        work=None if work is None else (work.action, work.digit, work.column),
        source={} if work is None else work.source.to_data(),
        technique=step.technique,
        runs_on=step.runs_on,
        moves=step.moves,
        after=step.after.beads,
        reads=step.reads,
    )
