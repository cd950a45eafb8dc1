"""What a slip takes over from the right work is what its own hand does there."""

from contextlib import suppress

import pytest

from beadwright.engine import FrameError, build_frame, parse_problem, work_problem
from beadwright.engine.slips.occurrences import find_occurrences
from beadwright.engine.slips.prediction import _plan_again
from beadwright.engine.working import Working

PROBLEMS = {
    "478 + 356 - 99": None,
    "3004 - 1678": None,
    "27 + 36": "counting",
    "34 * 27": None,
    "305 * 6": None,
    "1.2 * 0.6": None,
    "912 / 38": None,
    "624 / 6": None,
    "17 / 5": "repeated-taking-away",
    "1 1/2 + 3/4": None,
    "2/3 * 3/4": None,
    "√529": "odd-number",
    "√1444": "double-root",
}


@pytest.mark.parametrize("problem", PROBLEMS)
def test_a_hand_with_a_slip_works_rightly_before_it(problem: str) -> None:
    walkthrough = work_problem(parse_problem(problem), build_frame(), method=PROBLEMS[problem])
    plan, right = _plan_again(walkthrough)
    tried = 0
    for occurrence in find_occurrences(walkthrough, right):
        if occurrence.plan is not None:
            continue
        whole = Working(walkthrough.start, walkthrough.house, occurrence.hand)
        with suppress(FrameError):  # as far as it goes
            plan.work(whole)
        before = occurrence.step - 1
        assert tuple(whole.steps[:before]) == walkthrough.steps[:before], occurrence
        tried += 1
    assert tried > 10
