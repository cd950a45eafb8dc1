"""What slips in sums and products lead to, by value alone, is what they lead to when each is worked bead by bead."""

from collections.abc import Callable
from random import Random

import pytest

from beadwright.engine import (
    EngineError,
    FirstFactor,
    HouseStyle,
    Inner,
    KeptFactor,
    Order,
    Prediction,
    Walkthrough,
    build_frame,
    parse_problem,
    work_problem,
)
from beadwright.engine.slips import find_slipped, predict_readings, predict_slips
from beadwright.engine.slips.table import SLIPS

FRAMES = (build_frame(), build_frame("five-and-four", columns=4), build_frame("nine-bead", columns=4))


def draw_sum(chance: Random) -> Walkthrough:
    """A sum that can be worked, of any kind, in any house style, on any frame."""
    while True:
        numbers = [draw_number(chance) for _ in range(chance.choice([2, 2, 3]))]
        text = numbers[0] + "".join(f" {chance.choice('+-')} {number}" for number in numbers[1:])
        house = HouseStyle(
            add_order=chance.choice(list(Order)),
            take_order=chance.choice(list(Order)),
            inner=chance.choice(list(Inner)),
        )
        try:
            return work_problem(parse_problem(text), chance.choice(FRAMES), house=house)
        except EngineError:
            continue


def draw_number(chance: Random) -> str:
    """A whole number, one with zeros and nines, or a decimal."""
    kinds = (
        str(chance.randrange(10 ** chance.randrange(1, 4))),
        chance.choice(["9", "90", "99", "100", "500", "445", "999", "5", "555"]),
        f"{chance.randrange(100)}.{chance.randrange(100):02d}",
    )
    return chance.choice(kinds)


def draw_product(chance: Random) -> Walkthrough:
    """A product or a percent that can be worked, in any house style, on a frame with room to spare or with none."""
    while True:
        second = draw_number(chance)
        text = (
            f"{draw_number(chance)} × {second}" if chance.random() < 0.8 else f"{chance.randrange(1, 99)}% of {second}"
        )
        house = HouseStyle(
            add_order=chance.choice(list(Order)),
            first_factor=chance.choice(list(FirstFactor)),
            kept_factor=chance.choice(list(KeptFactor)),
        )
        try:
            return work_problem(parse_problem(text), build_frame(columns=chance.choice([5, 7, 9, 13])), house=house)
        except EngineError:
            continue


@pytest.mark.parametrize("draw", [draw_sum, draw_product])
@pytest.mark.parametrize("seed", range(8))
def test_foreseen_causes_are_those_of_the_run_bead_by_bead(seed: int, draw: Callable[[Random], Walkthrough]) -> None:
    chance = Random(seed)
    for _ in range(60):
        walkthrough = draw(chance)
        run = {(s.answer.text, s.slip, s.variant, s.column, s.first_wrong_step) for s in find_slipped(walkthrough)}
        foreseen = {
            (text, cause.slip, cause.variant, cause.column, cause.step)
            for text, causes in predict_slips(walkthrough).items()
            for cause in causes
            if cause.step is not None
        }
        assert foreseen == run, f"{walkthrough.problem} on {walkthrough.start.name}, {walkthrough.house}"


@pytest.mark.parametrize("text", ["0 + 0", "0 - 0", "0.00 + 0 + 0.0"])
def test_where_no_bead_moves_nothing_is_foreseen(text: str) -> None:
    for frame in FRAMES:
        assert dict(predict_slips(work_problem(parse_problem(text), frame))) == {}


def test_causes_stand_likeliest_first() -> None:
    for seed in range(40):
        for causes in predict_slips(draw_sum(Random(seed))).values():
            weights = [cause.weight for cause in causes]
            assert weights == sorted(weights, reverse=True)
            # Tied ones stand as the table has them, then by step; what lies in the reading has none and comes last.
            order = [(-c.weight, list(SLIPS).index(c.slip), c.step is None, c.step or 0) for c in causes]
            assert order == sorted(order)
            # Slips in one digit with the same beads share the weight of the likeliest of them.
            by_step: dict[int, list[Prediction]] = {}
            for cause in causes:
                if cause.step is not None and SLIPS[cause.slip].work_digit is not None:
                    by_step.setdefault(cause.step, []).append(cause)
                else:
                    assert cause.weight == SLIPS[cause.slip].weight
            for tied in by_step.values():
                assert {cause.weight for cause in tied} == {max(SLIPS[cause.slip].weight for cause in tied)}


# Worked by hand from PROCEDURES §5.
@pytest.mark.parametrize(
    ("problem", "wrong", "slip", "variant", "column"),
    [
        ("48 + 37", "75", "exchange-dropped", "left-missing", 1),  # 5 + … 8 becomes 5, no ten: 78 - 3
        ("48 + 37", "88", "exchange-dropped", "here-missing", 1),  # ten set, the partner 3 not cleared: 78 + 10
        ("48 + 37", "55", "digit-skipped", "skipped", 2),  # the 3 tens never added: 48 + 7
        ("48 + 37", "418", "column-drift", "left", 2),  # 48 + 370
        ("48 + 37", "81", "upper-bead-as-one", "read", 1),  # 85 read 8 and one bead
        ("403 - 7", "306", "borrow-through-zero", "zero-stays", 1),  # 4 hundreds give 1, 3 ones set, the tens stay 0
        ("42 - 17", "35", "wrong-way-round", "turned", 1),  # 7 - 2 = 5, and 4 - 1
        ("99 + 1", "90", "runs-out-at-nine", "nine-stays", 1),  # the 9 of the ones cleared, the 1 lost
    ],
)
def test_known_wrong_answers(problem: str, wrong: str, slip: str, variant: str, column: int) -> None:
    causes = predict_slips(work_problem(parse_problem(problem), build_frame()))[wrong]
    assert (slip, variant, column) in [(cause.slip, cause.variant, cause.column) for cause in causes]


@pytest.mark.parametrize(
    ("problem", "step", "wrong"),
    [
        ("14 - 4 + 3", 1, {"3"}),  # without its ten 14 is 4, from which 4 can be taken
        ("14 - 5 + 3", 1, set()),  # but not 5, whatever is added then
        ("30 - 5 + 69", 3, {"99"}),  # two columns hold 99
        ("30 - 5 + 70", 3, set()),  # but not 100
    ],
)
def test_a_skipped_digit_as_far_as_the_frame_holds_what_follows(problem: str, step: int, wrong: set[str]) -> None:
    predicted = predict_slips(work_problem(parse_problem(problem), build_frame(columns=2)))
    skipped = {
        text
        for text, causes in predicted.items()
        if ("digit-skipped", step) in [(cause.slip, cause.step) for cause in causes]
    }
    assert skipped == wrong


def test_a_frame_that_a_slip_fills_can_still_be_taken_from() -> None:
    """93 + 5 counted one too far, in step 3, fills two columns with nines; 4 from 99 is 95."""
    walkthrough = work_problem(parse_problem("93 + 5 - 4"), build_frame(columns=2), method="counting")
    assert ("partner-off-by-one", 3) in {(cause.slip, cause.step) for cause in predict_slips(walkthrough)["95"]}


@pytest.mark.parametrize("seed", range(4))
def test_readings_right_after_a_slip_are_those_of_the_run(seed: int) -> None:
    chance = Random(seed)
    for _ in range(40):
        walkthrough = draw_sum(chance)
        readings = predict_readings(walkthrough)
        for slipped in find_slipped(walkthrough):
            number = slipped.first_wrong_step
            reading = slipped.steps[number - 1].after.value
            causes = [(cause.slip, cause.variant, cause.column) for cause in readings[number][reading]]
            assert (slipped.slip, slipped.variant, slipped.column) in causes, str(walkthrough.problem)
        for number, wrong in readings.items():
            assert walkthrough.steps[number - 1].after.value not in wrong
