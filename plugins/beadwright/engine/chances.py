"""Chance that comes from a seed alone: the same seed gives the same order on every machine, in every release."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import TypeVar

T = TypeVar("T")


def shuffle(items: Sequence[T], seed: str) -> list[T]:
    """The items in drawn order; uses `Random.random` alone, whose sequence Python keeps from release to release."""
    chance, left = Random(seed), list(items)
    drawn = []
    while left:
        drawn.append(left.pop(int(chance.random() * len(left))))
    return drawn


def shuffle_apart(items: Sequence[T], seed: str) -> list[T]:
    """The items in drawn order that is not the order given, where they differ among themselves."""
    given = list(items)
    for attempt in range(20):
        drawn = shuffle(items, f"{seed}/{attempt}")
        if drawn != given:
            return drawn
    return given[::-1]
