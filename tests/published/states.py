"""How published examples are held against ours: as the states that a frame goes through, read as numbers."""

from collections.abc import Iterable
from itertools import groupby

from beadwright.engine import Frame, Move, Step, Walkthrough


def read_states_by_move(walkthrough: Walkthrough) -> list[int]:
    """What the frame reads once the first number is set, and after each move from then on; column 1 is the ones."""
    frame, steps = _set_first_number(walkthrough)
    return _read_states(frame, ((move,) for step in steps for move in step.moves))


def read_states_by_column(walkthrough: Walkthrough) -> list[int]:
    """The same, the moves that follow each other in one column of one step taken as one."""
    frame, steps = _set_first_number(walkthrough)
    groups = (moves for step in steps for _, moves in groupby(step.moves, key=lambda move: move.column))
    return _read_states(frame, groups)


def _set_first_number(walkthrough: Walkthrough) -> tuple[Frame, list[Step]]:
    """The frame with the first number set, and the steps after it that move beads."""
    frame, later = walkthrough.start, []
    for step in (step for step in walkthrough.steps if step.work is not None):
        if step.work is not None and step.work.to_data()["term"] == 1:
            frame = step.after
        else:
            later.append(step)
    return frame, later


def _read_states(frame: Frame, groups: Iterable[Iterable[Move]]) -> list[int]:
    states = [frame.value]
    for moves in groups:
        frame = frame.apply_all(moves)
        states.append(frame.value)
    return states
