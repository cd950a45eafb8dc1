"""What a proof is made of: jobs that can run in any process, and what they count."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, NamedTuple

MOST_FAULTS = 20


@dataclass(slots=True)
class Tally:
    """How many problems were worked and judged, how many steps they took, how many were refused, and what failed."""

    worked: int = 0
    steps: int = 0
    refused: int = 0
    faults: list[str] = field(default_factory=list)

    def add(self, other: Tally) -> None:
        """Count another tally in; only the first faults are kept."""
        self.worked += other.worked
        self.steps += other.steps
        self.refused += other.refused
        self.faults = [*self.faults, *other.faults][:MOST_FAULTS]


class Counts(NamedTuple):
    """How many problems must be worked and how many refused, as plain arithmetic has it."""

    worked: int
    refused: int


class Job(NamedTuple):
    """A share of one line of the proof, `work(*facts)`; both are sent to another process."""

    line: str
    work: Callable[..., Tally]
    facts: tuple[Any, ...]


class Proof(NamedTuple):
    """All jobs of one kind of problem, and what each of its lines must count."""

    jobs: list[Job]
    counts: dict[str, Counts]
