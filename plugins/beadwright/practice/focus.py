"""The step of a walkthrough that practice is about: the one that needs the hardest technique."""

from __future__ import annotations

from beadwright.engine import Step, Technique, Walkthrough

_HARDEST_FIRST = (
    Technique.BOTH_PARTNERS,
    Technique.PARTNER_OF_10,
    Technique.PARTNER_OF_5,
    Technique.COUNT,
    Technique.DIRECT,
    Technique.SET,
    Technique.CLEAR,
)
_RANKS = {technique: rank for rank, technique in enumerate(_HARDEST_FIRST)}


def find_focus(walkthrough: Walkthrough, *, least_moves: int = 1) -> Step | None:
    """The first of the hardest steps with so many moves at least; None where no step has them.

    An exchange that runs on is harder than the same technique without.
    """
    fitting = [step for step in walkthrough.steps if step.technique is not None and len(step.moves) >= least_moves]
    return min(fitting, key=_rank, default=None)


def find_like(walkthrough: Walkthrough, step: Step, *, least_moves: int = 1) -> Step | None:
    """The first step of this walkthrough that needs the technique of `step`, running on as it does."""
    for other in walkthrough.steps:
        alike = (other.technique, other.runs_on, other.purpose) == (step.technique, step.runs_on, step.purpose)
        if alike and len(other.moves) >= least_moves:
            return other
    return None


def _rank(step: Step) -> tuple[int, bool, int]:
    rank = len(_RANKS) if step.technique is None else _RANKS[step.technique]
    return rank, not step.runs_on, step.number
