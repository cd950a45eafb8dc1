"""Causes of a wrong answer."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import Any, NamedTuple

from beadwright.engine.frame import Column
from beadwright.engine.slips.table import SLIPS, find_weight


class Prediction(NamedTuple):
    """A cause of a wrong answer: the slip, the column and the step it happened in (None: in reading the answer).

    `variant` names which way of making the slip it is, one of the slip's `variants`.
    """

    slip: str
    column: Column
    step: int | None
    weight: int
    variant: str


_new: Any = tuple.__new__  # what a named tuple is made by in the end; every problem has a dozen

Cause = tuple[str, Prediction]
"""A wrong answer's text and one cause of it."""


def build_prediction(slip: str, variant: str, column: Column, step: int | None, method: str = "") -> Prediction:
    """A cause, with the weight that the table gives its slip in work by this method."""
    made: Prediction = _new(Prediction, (slip, column, step, find_weight(slip, method), variant))
    return made


def likelihood(cause: Prediction) -> tuple[int, int, float, int, str]:
    """What causes of one answer are sorted by: the likeliest first, tied ones as the table has them, then by step."""
    step = inf if cause.step is None else cause.step
    return (-cause.weight, _TABLE_PLACES[cause.slip], step, cause.column, cause.variant)


_TABLE_PLACES = {name: place for place, name in enumerate(SLIPS)}


def rank_causes(causes: Sequence[Prediction]) -> tuple[Prediction, ...]:
    """The causes of one wrong answer, the likeliest first, tied where no bead tells them apart.

    Slips in one digit that lead to one answer from the same step have set the same beads there: a partner of 1 taken as
    0 is a partner not cleared at all. So they share the weight of the likeliest of them.
    """
    if len(causes) == 1:
        return tuple(causes)
    found = set(causes)
    shared: dict[int | None, int] = {}
    for cause in found:
        if _lies_in_one_digit(cause):
            shared[cause.step] = max(cause.weight, shared.get(cause.step, 0))
    tied = (cause._replace(weight=shared[cause.step]) if _lies_in_one_digit(cause) else cause for cause in found)
    return tuple(sorted(tied, key=likelihood))


def _lies_in_one_digit(cause: Prediction) -> bool:
    return cause.step is not None and SLIPS[cause.slip].work_digit is not None
