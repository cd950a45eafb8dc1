"""A line of the proof of products and quotients: a frame, a house style and a method; and how problems are proved."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from beadwright.engine import Frame, FrameError, HouseStyle, Problem, build_frame, work_problem
from tests.prove.tally import Tally
from tests.referee import RuleError, check_seen, see_value


class Line(NamedTuple):
    """How and where the problems of a line are worked. `said` tells the house style in a few words."""

    frame: str
    columns: int
    method: str
    house: HouseStyle
    said: str

    def __str__(self) -> str:
        return f"{self.frame} {self.columns}, {self.method}, {self.said}"

    def build(self) -> Frame:
        """The frame at rest."""
        return build_frame(self.frame, columns=self.columns)


BELOW_ZERO = -1
"""Stands for how many columns are missing where no column would help: the result is below zero."""


class Due(NamedTuple):
    """A problem, the house style it is worked in, and the answer due, or how many columns are missing (0: none)."""

    problem: Problem
    house: HouseStyle
    answer: str
    missing: int


def prove(line: Line, problems: Iterable[Due]) -> Tally:
    """Work each problem and have it judged; what fails is kept as text."""
    tally = Tally()
    frame = line.build()
    for due in problems:
        try:
            _prove_one(due, frame, line.method, tally)
        except Exception as error:  # noqa: BLE001  a proof reports whatever happens, and goes on
            tally.faults.append(f"{due.problem} ({line}): {type(error).__name__}: {error}")
    return tally


def _prove_one(due: Due, frame: Frame, method: str, tally: Tally) -> None:
    try:
        walkthrough = work_problem(due.problem, frame, house=due.house, method=method)
    except FrameError as error:
        refusal = ("below-zero", 0) if due.missing == BELOW_ZERO else ("frame-too-short", due.missing)
        if (error.code, error.missing) != refusal or due.missing == 0:
            raise
        tally.refused += 1
        return
    answer = walkthrough.answer
    told = answer.text if answer.remainder is None else f"{answer.text} r {answer.remainder.text}"
    if due.missing != 0 or told != due.answer:
        raise RuleError(f"worked to {told}; integers give {due.answer}, {due.missing} columns missing")
    check_seen(see_value(walkthrough))
    tally.worked += 1
    tally.steps += len(walkthrough.steps)


def count_refused(pairs: Iterable[tuple[int, int]], find_missing: Callable[[int, int], int]) -> tuple[int, int]:
    """How many pairs can be worked and how many must be refused."""
    worked = refused = 0
    for first, second in pairs:
        if find_missing(first, second) > 0:
            refused += 1
        else:
            worked += 1
    return worked, refused
