"""Drawn problems: just the wanted techniques according to the referee, and the same ones for the same seed."""

import os
import re
import subprocess
import sys
from itertools import product
from typing import Any, NamedTuple

import pytest

from beadwright.engine import (
    EASIEST_FIRST,
    RUNS_ON,
    MethodError,
    Operation,
    Technique,
    Walkthrough,
    Want,
    build_frame,
    draw_problems,
    draw_walkthroughs,
    drawing,
    find_techniques,
    parse_problem,
    work_problem,
)
from tests.referee import Needs, find_needs, find_refusal
from tests.referee.beads import Shape
from tests.referee.rules import Style
from tests.support import ROOT
from tests.support.frames import Way, work

DIRECT, OF_5, OF_10, BOTH, COUNT = (
    Technique.DIRECT,
    Technique.PARTNER_OF_5,
    Technique.PARTNER_OF_10,
    Technique.BOTH_PARTNERS,
    Technique.COUNT,
)


class Case(NamedTuple):
    """What is wanted, on which frame and how worked, and which techniques may then occur."""

    want: Want
    may_occur: set[Technique]
    way: Way = Way()
    columns: int | None = None


ADD, TAKE, MIXED = Operation.ADD, Operation.TAKE, Operation.ADD_TAKE
NINE = Way("nine-bead")
EVERY = {DIRECT, OF_5, OF_10, BOTH}

CASES = {
    "direct alone": Case(Want(operation=ADD, digits=(1, 1), allows=frozenset({DIRECT})), {DIRECT}),
    "partner of 5": Case(Want(operation=ADD, digits=(1, 1), needs=frozenset({OF_5})), {DIRECT, OF_5}),
    "partner of 10": Case(Want(operation=ADD, digits=(2, 1), needs=frozenset({OF_10})), {DIRECT, OF_5, OF_10}),
    "no easier ones": Case(
        Want(operation=TAKE, digits=(2, 1), needs=frozenset({OF_10}), allows=frozenset({OF_10})), {OF_10}
    ),
    "both partners": Case(Want(operation=TAKE, digits=(2, 1), needs=frozenset({BOTH})), EVERY),
    "two needs": Case(Want(operation=ADD, digits=(2, 2), needs=frozenset({OF_5, BOTH})), EVERY),
    "runs on": Case(Want(operation=ADD, digits=(2, 2), runs_on=True), EVERY),
    "runs on, taking": Case(Want(operation=TAKE, digits=(3, 1), runs_on=True), EVERY),
    "does not run on": Case(
        Want(operation=TAKE, digits=(3, 1), needs=frozenset({OF_10}), runs_on=False), {DIRECT, OF_5, OF_10}
    ),
    "with zeros": Case(Want(operation=ADD, digits=(2, 2), zeros=True), EVERY),
    "without zeros": Case(Want(operation=ADD, digits=(2, 2), zeros=False, needs=frozenset({OF_10})), EVERY - {BOTH}),
    "both signs": Case(Want(operation=MIXED, digits=(1, 1, 1), needs=frozenset({OF_5})), {DIRECT, OF_5}),
    "nine beads": Case(Want(operation=ADD, digits=(2, 1), needs=frozenset({OF_10})), {DIRECT, OF_5, OF_10}, NINE),
    "a short frame": Case(Want(operation=ADD, digits=(2, 2), needs=frozenset({OF_10})), EVERY - {BOTH}, NINE, 2),
    "counting": Case(Want(operation=TAKE, digits=(2, 1)), {*EVERY, COUNT}, Way(method="counting")),
    "counting that runs on": Case(
        Want(operation=ADD, digits=(2, 1), needs=frozenset({COUNT}), runs_on=True),
        {*EVERY, COUNT},
        Way("nine-bead", "counting"),
    ),
}


def find_all(case: Case) -> set[str]:
    """Every problem of the wanted kind, each judged by the referee."""
    want = case.want
    ranges = [range(10 ** (digits - 1), 10**digits) for digits in want.digits]
    signs = {ADD: "+", TAKE: "-", MIXED: "+-"}[want.operation]
    texts = (
        " ".join([str(first), *(f"{sign} {number}" for sign, number in zip(chosen, rest, strict=True))])
        for first, *rest in product(*ranges)
        for chosen in product(signs, repeat=len(rest))
    )
    return {text for text in texts if is_wanted(case, text)}


def ask_referee(case: Case, text: str) -> Needs | None:
    """What the problem needs; None when the frame cannot hold it."""
    frame = case.way.build(case.columns)
    if find_refusal(text, frame.columns) is not None:
        return None
    style = Style(case.way.method, case.way.add, case.way.take)
    return find_needs(text, Shape(frame.shape.upper, frame.shape.lower), frame.columns, style)


def is_wanted(case: Case, text: str) -> bool:
    want, needs = case.want, ask_referee(case, text)
    if needs is None or not set(want.needs) <= needs.techniques or not needs.techniques <= case.may_occur:
        return False
    if want.runs_on is not None and needs.runs_on is not want.runs_on:
        return False
    return want.zeros is None or ("0" in text) is want.zeros


def draw(case: Case, count: int, seed: str = "a seed") -> list[str]:
    problems = draw_problems(
        case.want,
        count,
        frame=case.way.build(case.columns),
        seed=seed,
        house=case.way.house,
        method=case.way.method,
    )
    return [str(problem) for problem in problems]


@pytest.mark.parametrize("case", CASES.values(), ids=CASES.keys())
def test_all_that_can_be_drawn_is_drawn_and_nothing_else(case: Case) -> None:
    """As many as there are, every one different; one more is refused, saying how many there are."""
    every = find_all(case)
    assert every, "a case that can be drawn"
    drawn = draw(case, len(every))
    assert len(drawn) == len(set(drawn))
    assert set(drawn) == every
    with pytest.raises(MethodError) as refused:
        draw(case, len(every) + 1)
    assert refused.value.code == "draw-too-few"
    assert refused.value.reason == f"Only {len(every)} of {len(every) + 1} problems of this kind can be drawn"


LARGE = {
    "long sums": Case(Want(operation=ADD, digits=(4, 4, 3), needs=frozenset({BOTH}), runs_on=True), EVERY),
    "long mixed sums": Case(Want(operation=MIXED, digits=(5, 3, 3, 2), needs=frozenset({OF_10})), EVERY - {BOTH}),
    "no zeros": Case(Want(operation=TAKE, digits=(5, 4), zeros=False, runs_on=True), EVERY),
    "zeros": Case(Want(operation=TAKE, digits=(5, 4), zeros=True, runs_on=False), EVERY),
    "counting": Case(Want(operation=ADD, digits=(5, 5)), {COUNT}, Way(method="counting")),
    "nine beads": Case(Want(operation=ADD, digits=(3, 3), runs_on=True), EVERY, NINE),
}


@pytest.mark.parametrize("case", LARGE.values(), ids=LARGE.keys())
def test_what_is_drawn_from_many_is_wanted(case: Case) -> None:
    drawn = draw(case, 40)
    assert len(set(drawn)) == 40
    assert [text for text in drawn if not is_wanted(case, text)] == []
    lengths = [[len(word) for word in text.split(" ")[0::2]] for text in drawn]
    assert set(map(tuple, lengths)) == {case.want.digits}


@pytest.mark.parametrize("case", [CASES["two needs"], LARGE["long mixed sums"]], ids=["few", "many"])
def test_a_seed_gives_its_own_problems(case: Case) -> None:
    assert draw(case, 12, "one") == draw(case, 12, "one")
    assert draw(case, 5, "one") == draw(case, 12, "one")[:5], "more are more of the same"
    assert draw(case, 12, "one") != draw(case, 12, "another")


SCRIPT = """
from beadwright.engine import Operation, Technique, Want, build_frame, draw_problems
for digits in ((2, 2), (4, 4, 3)):
    needs = frozenset({Technique.PARTNER_OF_10, Technique.PARTNER_OF_5, Technique.BOTH_PARTNERS})
    want = Want(operation=Operation.ADD_TAKE, digits=digits, needs=needs)
    print(*draw_problems(want, 10, frame=build_frame(), seed="a seed"), sep="\\n")
"""


def test_any_problem_of_few_may_come_first() -> None:
    """One digit and one digit: 81 sums, and 1200 seeds begin with each of them (one is left out once in 40,000)."""
    want = Want(operation=Operation.ADD, digits=(1, 1))
    first = {str(*draw_problems(want, 1, frame=build_frame(), seed=f"first {number}")) for number in range(1200)}
    assert first == {f"{a} + {b}" for a in range(1, 10) for b in range(1, 10)}


def test_signs_come_in_every_row() -> None:
    """Of 60 drawn problems with two signs, each of the four rows is left out once in thirty million."""
    want = Want(operation=Operation.ADD_TAKE, digits=(3, 2, 2))
    drawn = draw_problems(want, 60, frame=build_frame(), seed="signs")
    rows = {"".join(sign for sign in str(problem) if sign in "+-") for problem in drawn}
    assert rows == {"++", "+-", "-+", "--"}


def test_draws_do_not_depend_on_the_hash_seed() -> None:
    outputs = set()
    for seed in ("0", "1", "4242"):
        done = subprocess.run(
            [sys.executable, "-c", SCRIPT],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT / "plugins")},
            capture_output=True,
            text=True,
            check=True,
        )
        outputs.add(done.stdout)
    assert len(outputs) == 1
    assert outputs.pop().count("\n") == 20


def test_banned_problems_are_not_drawn() -> None:
    case = CASES["partner of 5"]
    every = find_all(case)
    banned = frozenset(sorted(every)[:4])
    want = Want(operation=ADD, digits=(1, 1), needs=frozenset({OF_5}), banned=banned)
    assert set(draw(Case(want, case.may_occur), len(every) - 4)) == every - banned
    with pytest.raises(MethodError):
        draw(Case(want, case.may_occur), len(every) - 3)


# By hand: two digits below ten never meet a 9; one digit less two is below zero; nine beads have no fives.
IMPOSSIBLE = {
    "runs on in one column": Case(Want(operation=ADD, digits=(1, 1), runs_on=True), EVERY),
    "below zero": Case(Want(operation=TAKE, digits=(1, 2)), EVERY),
    "fives on nine beads": Case(Want(operation=ADD, digits=(2, 2), needs=frozenset({OF_5})), EVERY, NINE),
    "partners by counting": Case(
        Want(operation=ADD, digits=(2, 1), needs=frozenset({OF_10})), EVERY, Way(method="counting")
    ),
    "too wide": Case(Want(operation=ADD, digits=(3, 3)), EVERY, NINE, 2),
    "zeros in one digit": Case(Want(operation=ADD, digits=(1, 1), zeros=True), EVERY),
}


@pytest.mark.parametrize("case", IMPOSSIBLE.values(), ids=IMPOSSIBLE.keys())
def test_an_impossible_want_is_refused(case: Case) -> None:
    with pytest.raises(MethodError) as refused:
        draw(case, 1)
    assert refused.value.code == "draw-too-few"
    assert refused.value.reason.startswith("Only 0 of 1 ")


@pytest.mark.parametrize(
    ("operation", "digits"),
    [
        (ADD, ()),
        (ADD, (2,)),
        (TAKE, (0, 2)),
        (MIXED, (2, -1)),
        (Operation.MULTIPLY, (2,)),
        (Operation.DIVIDE, (3, 1, 1)),
    ],
)
def test_a_want_of_no_problem_is_refused(operation: Operation, digits: tuple[int, ...]) -> None:
    with pytest.raises(MethodError) as refused:
        Want(operation=operation, digits=digits)
    assert refused.value.code == "draw-digits"


def test_drawn_walkthroughs_are_the_drawn_problems_worked() -> None:
    want = Want(operation=ADD, digits=(2, 2), needs=frozenset({OF_10}))
    worked = draw_walkthroughs(want, 8, frame=build_frame(), seed="a seed")
    assert tuple(walkthrough.problem for walkthrough in worked) == draw_problems(
        want, 8, frame=build_frame(), seed="a seed"
    )
    few = draw_walkthroughs(Want(operation=ADD, digits=(1, 1), runs_on=True), 8, frame=build_frame(), seed="a seed")
    assert few == ()


def test_a_draw_that_cannot_succeed_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """Products worked by partners never count: nothing is found, and few more than the allowed steps are worked."""
    worked: list[int] = []

    def work_and_note(*arguments: Any, **more: Any) -> Walkthrough:
        walkthrough = work_problem(*arguments, **more)
        worked.append(len(walkthrough.steps))
        return walkthrough

    monkeypatch.setattr(drawing, "work_problem", work_and_note)
    monkeypatch.setattr(drawing, "MOST_STEPS", 500)
    want = Want(operation=Operation.MULTIPLY, digits=(3, 3), needs=frozenset({COUNT}))
    assert draw_walkthroughs(want, 6, frame=build_frame(), seed="a seed") == ()
    assert 500 <= sum(worked) < 500 + max(worked)
    with pytest.raises(MethodError, match="Only 0 of 6 problems of this kind can be drawn"):
        draw_problems(want, 6, frame=build_frame(), seed="a seed")


@pytest.mark.parametrize("digits", [(20, 20), (17, 3)])
def test_long_numbers_are_drawn_to_their_last_digits(digits: tuple[int, ...]) -> None:
    problems = draw_problems(Want(operation=ADD, digits=digits), 40, frame=build_frame(columns=26), seed="a seed")
    drawn = [re.findall(r"\d+", str(problem)) for problem in problems]
    assert {tuple(map(len, numbers)) for numbers in drawn} == {digits}
    for place in range(-min(digits), 0):
        assert len({numbers[0][place] for numbers in drawn}) >= 6  # of ten digits; all but sure with forty numbers


# By hand. 48 + 7: 8 + 7 clears 3, and the 4 on the tens takes the 1 by its partner of 5. 51 − 2: the 5 gives 1 so.
@pytest.mark.parametrize(
    ("text", "needed"),
    [
        ("48 + 7", {OF_10, OF_5}),
        ("51 - 2", {OF_10, OF_5}),
        ("498 + 7", {OF_10, OF_5}),  # through a 9 to the 4
        ("38 + 7", {OF_10}),
        ("65 + 7", {BOTH}),
        ("14 + 3", {OF_5}),
        ("12 + 25", {DIRECT}),
        ("48 + 37", {OF_5, OF_10}),
        ("305 + 0", set()),
    ],
)
def test_techniques_that_a_problem_needs(text: str, needed: set[Technique]) -> None:
    assert find_techniques(work(text)) == needed
    assert find_needs(text, Shape(1, 4), 13, Style("partners", "left-first", "left-first")).techniques == needed
    assert parse_problem(text) == work(text).problem


def test_the_order_in_which_techniques_are_taught() -> None:
    """PROCEDURES §4: direct, partner of 5, partner of 10, both partners; a want allows all up to its hardest need."""
    assert EASIEST_FIRST == (DIRECT, OF_5, OF_10, BOTH)
    for place, technique in enumerate(EASIEST_FIRST):
        want = Want(operation=ADD, digits=(2, 2), needs=frozenset({technique}))
        assert want.allowed == set(EASIEST_FIRST[: place + 1])
    assert Want(operation=ADD, digits=(2, 2)).allowed >= {*EVERY, COUNT}
    assert RUNS_ON not in set(Technique)
