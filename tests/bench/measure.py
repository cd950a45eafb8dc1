"""How something is measured here: contenders take turns in the same run, so that a busy machine slows them alike."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from statistics import median
from typing import NamedTuple

ROUNDS = 9
ROUND_SECONDS = 0.15


class Contender(NamedTuple):
    """`run` does a fixed piece of work in this process and gives how many units it was."""

    name: str
    run: Callable[[], int]


class Table(NamedTuple):
    """What is printed: a title, column heads and rows of text; the first column is left-aligned, others right."""

    title: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]

    def __str__(self) -> str:
        every = (self.heads, *self.rows)
        widths = [max(len(row[place]) for row in every) for place in range(len(self.heads))]
        lines = ["  ".join(self._align(row, widths)).rstrip() for row in every]
        return "\n".join([self.title, *(f"  {line}" for line in lines)])

    def _align(self, row: Sequence[str], widths: Sequence[int]) -> list[str]:
        first, *rest = row
        return [first.ljust(widths[0]), *(cell.rjust(width) for cell, width in zip(rest, widths[1:], strict=True))]


def measure_rates(contenders: Sequence[Contender]) -> dict[str, float]:
    """Units a second of processor time, the median over rounds in which every contender had its turn."""
    repeats = {contender.name: _find_repeats(contender) for contender in contenders}
    rates: dict[str, list[float]] = {contender.name: [] for contender in contenders}
    for _ in range(ROUNDS):
        for contender in contenders:
            rates[contender.name].append(_time(contender, repeats[contender.name]))
    return {name: median(found) for name, found in rates.items()}


def _find_repeats(contender: Contender) -> int:
    """How often to run so that a round takes about `ROUND_SECONDS`; warms up on the way."""
    contender.run()
    started = time.process_time()
    contender.run()
    return max(1, round(ROUND_SECONDS / max(time.process_time() - started, 1e-6)))


def _time(contender: Contender, repeats: int) -> float:
    started = time.process_time()
    units = sum(contender.run() for _ in range(repeats))
    return units / (time.process_time() - started)
