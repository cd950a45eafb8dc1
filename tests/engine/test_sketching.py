"""A sketch from digits alone says what the worked sum says."""

from random import Random

import pytest

from beadwright.engine import (
    Frame,
    FrameError,
    Operation,
    Sum,
    Technique,
    Want,
    build_frame,
    draw_walkthroughs,
    find_techniques,
    parse_problem,
    work_problem,
)
from beadwright.engine.sketching import sketch_sum

FRAMES = (build_frame(), build_frame("nine-bead", columns=13))
NUMBERS = ("0", "9", "99", "999", "100", "500", "445", "45", "5", "12.5", "0.75", "3.05")


@pytest.mark.parametrize("frame", FRAMES, ids=lambda frame: frame.name)
def test_sketch_and_work_agree(frame: Frame) -> None:
    chance = Random(11)
    for _ in range(1500):
        numbers = [chance.choice([*NUMBERS, str(chance.randrange(1000))]) for _ in range(chance.choice([2, 3]))]
        problem = parse_problem(numbers[0] + "".join(f" {chance.choice('+-')} {n}" for n in numbers[1:]))
        assert isinstance(problem, Sum)
        sketch = sketch_sum(problem, frame.shape)
        if sketch is None:
            with pytest.raises(FrameError) as refused:
                work_problem(problem, frame)
            assert refused.value.code == "below-zero"
            continue
        worked = work_problem(problem, frame)
        assert sketch.techniques == find_techniques(worked), str(problem)
        assert sketch.runs_on == any(step.runs_on for step in worked.steps), str(problem)


def test_as_many_as_there_are() -> None:
    want = Want(operation=Operation.ADD, digits=(1, 1), needs=frozenset({Technique.BOTH_PARTNERS}))
    drawn = draw_walkthroughs(want, 500, frame=build_frame(), seed="all")
    # Both partners to add one digit to one digit, by the rule of PROCEDURES §3.1: the ones hold the upper bead and too
    # few lower beads to clear 10 - d of them.
    by_rule = {
        f"{held} + {digit}"
        for held in range(1, 10)
        for digit in range(1, 10)
        if held + digit > 9 and 10 - digit <= 4 and held % 5 < 10 - digit
    }
    assert {str(walkthrough.problem) for walkthrough in drawn} == by_rule
