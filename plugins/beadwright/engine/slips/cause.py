"""Causes of a wrong answer."""

from __future__ import annotations

from typing import NamedTuple

from beadwright.engine.frame import Column
from beadwright.engine.slips.table import SLIPS


class Prediction(NamedTuple):
    """A cause of a wrong answer: the slip, the column and the step it happened in (None: in reading the answer).

    `variant` names which way of making the slip it is, one of the slip's `variants`.
    """

    slip: str
    column: Column
    step: int | None
    weight: int
    variant: str


Cause = tuple[str, Prediction]
"""A wrong answer's text and one cause of it."""


def build_prediction(slip: str, variant: str, column: Column, step: int | None) -> Prediction:
    """A cause, with the weight that the table gives its slip."""
    return Prediction(slip, column, step, SLIPS[slip].weight, variant)


def likelihood(cause: Prediction) -> tuple[int, int, str, int, str]:
    """What causes of one answer are sorted by: the likeliest first, then the earliest step."""
    return (-cause.weight, 10**6 if cause.step is None else cause.step, cause.slip, cause.column, cause.variant)
