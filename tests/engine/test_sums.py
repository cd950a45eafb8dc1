"""Adding and taking away, judged by the referee: all pairs below a hundred, and a sample of larger ones."""

from random import Random

import pytest

from beadwright.engine import Frame, FrameError, Purpose, Walkthrough, parse_problem, work_problem
from tests.referee import check_data, check_seen, see_value
from tests.support.frames import WAYS, Way, work


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_all_pairs_below_a_hundred(way: Way) -> None:
    for a in range(100):
        for b in range(100):
            adding = work(f"{a} + {b}", way)
            assert adding.answer.text == str(a + b)
            check_seen(see_value(adding))
            if a >= b:
                taking = work(f"{a} - {b}", way)
                assert taking.answer.text == str(a - b)
                check_seen(see_value(taking))


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_a_sample_of_larger_pairs(way: Way) -> None:
    """Through plain data, as any reader of it would judge."""
    chance = Random(f"larger pairs {way}")
    for _ in range(250):
        a, b = chance.randrange(1000), chance.randrange(1000)
        check_data(work(f"{a} + {b}", way).to_data())
        check_data(work(f"{max(a, b)} - {min(a, b)}", way).to_data())


@pytest.mark.parametrize("method", ["partners", "counting"])
def test_orders_are_settable_apart(method: str) -> None:
    """+ follows one setting and − the other, within one sum."""
    for add, take in (("left-first", "right-first"), ("right-first", "left-first")):
        check_data(work("999 + 8 - 608 + 703 - 9", Way("five-and-four", method, add, take)).to_data())


def moves_of_last_step(text: str, way: Way) -> list[tuple[int, str, int]]:
    return [(move.column, str(move.bead), move.change) for move in work(text, way).steps[-1].moves]


# PROCEDURES §3.1: 999 + 1 left-first sets thousands, then clears hundreds, tens, ones; upper bead before lower.
NINES_FROM_THE_LEFT = [
    (4, "lower", 1),
    *[(column, bead, change) for column in (3, 2, 1) for bead, change in (("upper", -1), ("lower", -4))],
]
NINES_FROM_THE_RIGHT = [
    *[(column, bead, change) for column in (1, 2, 3) for bead, change in (("upper", -1), ("lower", -4))],
    (4, "lower", 1),
]


@pytest.mark.parametrize("method", ["partners", "counting"])
def test_an_exchange_that_runs_on_in_both_orders(method: str) -> None:
    left = Way("five-and-four", method, add="left-first", take="right-first")
    right = Way("five-and-four", method, add="right-first", take="left-first")
    assert moves_of_last_step("999 + 1", left) == NINES_FROM_THE_LEFT
    assert moves_of_last_step("999 + 1", right) == NINES_FROM_THE_RIGHT


def test_a_run_ends_at_five_by_a_partner_of_5() -> None:
    """PROCEDURES §3.2: 5001 − 2: the five on the left gives 1 (clear upper bead, set 4), each 0 becomes 9."""
    assert moves_of_last_step("5001 - 2", Way()) == [
        (4, "upper", -1),
        (4, "lower", 4),
        (3, "upper", 1),
        (3, "lower", 4),
        (2, "upper", 1),
        (2, "lower", 4),
        (1, "upper", 1),
        (1, "lower", 3),
    ]


def test_counting_five_through_ten() -> None:
    """PROCEDURES §3.3: 8 + 5 counts 9, then nine cleared and one set on the left, then three more lower beads."""
    assert moves_of_last_step("8 + 5", Way(method="counting")) == [
        (1, "lower", 1),
        (2, "lower", 1),
        (1, "upper", -1),
        (1, "lower", -4),
        (1, "lower", 1),
        (1, "lower", 1),
        (1, "lower", 1),
    ]


def test_zeros_hold_their_column_only_in_the_first_number() -> None:
    """A 0 of the first number is said, a 0 of a further number is no step."""
    steps = work("305 + 20").steps
    assert [(step.purpose, step.remark and step.remark.topic) for step in steps] == [
        (Purpose.SET, None),
        (Purpose.SAY, "zero-holds"),
        (Purpose.SET, None),
        (Purpose.ADD, None),
    ]


# PROCEDURES §3.8: U = 1 plus the most places of any number, rounded up to 1, 4, 7, 10; then answer columns.
DECIMALS = [
    ("48 + 37", 1, "85", (2, 1), 0),
    ("0 + 0", 1, "0", (1, 1), 0),
    ("8.9 + 56", 4, "64.9", (5, 3), 1),
    ("0.5 - 0.5", 4, "0.0", (4, 3), 1),
    ("1.25 + 0.75", 4, "2.00", (4, 2), 2),
    ("0.001 + 0.002", 4, "0.003", (4, 1), 3),
    ("1.0001 + 1", 7, "2.0001", (7, 3), 4),
    ("12.3456789 - 2.3", 10, "10.0456789", (11, 3), 7),
]


@pytest.mark.parametrize(("text", "ones", "answer", "columns", "places"), DECIMALS)
def test_decimals_stand_ones_over_ones(
    text: str, ones: int, answer: str, columns: tuple[int, int], places: int
) -> None:
    walkthrough = work(text)
    check_data(walkthrough.to_data())
    assert walkthrough.ones_column == ones
    assert (walkthrough.answer.text, walkthrough.answer.columns, walkthrough.answer.decimals) == (
        answer,
        columns,
        places,
    )


# (sum, frame, columns, code, number named, columns missing), worked by hand.
REFUSALS = [
    ("3 - 5", "five-and-four", 13, "below-zero", 2, 0),
    ("12 + 30 - 43 + 5", "five-and-four", 13, "below-zero", 3, 0),  # 42 − 43
    ("0.5 - 0.51", "five-and-four", 13, "below-zero", 2, 0),
    ("99 + 1", "nine-bead", 2, "frame-too-short", 2, 1),  # 100
    ("100 + 1", "nine-bead", 2, "frame-too-short", 1, 1),
    ("999 + 1 + 999999", "nine-bead", 3, "frame-too-short", 3, 4),  # 1,000,999 has 7 digits
    ("500 + 600 - 200", "nine-bead", 3, "frame-too-short", 2, 1),  # 1100 on the way to 900
    ("9999999999999 + 1", "five-and-four", 13, "frame-too-short", 2, 1),
    ("0.2 + 0.3", "nine-bead", 3, "frame-too-short", 1, 1),  # the ones would stand in column 4
    ("5.5 + 5.5", "five-and-four", 4, "frame-too-short", 2, 1),  # 11.0 with the ones in column 4
    ("1234567890.1234 + 1", "five-and-four", 13, "frame-too-short", 1, 3),  # ones in 7, ten whole digits: 16
]


@pytest.mark.parametrize(("text", "frame", "columns", "code", "number", "missing"), REFUSALS)
@pytest.mark.parametrize("method", ["partners", "counting"])
def test_refusals_name_the_number_and_the_missing_columns(
    text: str, frame: str, columns: int, code: str, number: int, missing: int, method: str
) -> None:
    with pytest.raises(FrameError) as refused:
        work(text, Way(frame, method), columns=columns)
    assert (refused.value.code, refused.value.missing) == (code, missing)
    assert refused.value.reason.startswith(f"Number {number} of {text}")
    signs_and_numbers = f"+ {text}".split()
    sign, named = signs_and_numbers[2 * number - 2 : 2 * number]
    assert (f"({sign} {named})" if missing else f"takes {named} away") in refused.value.reason
    if missing:
        assert work(text, Way(frame, method), columns=columns + missing).problem is not None
        assert f"{missing} more column" in refused.value.reason
        with pytest.raises(FrameError):
            work(text, Way(frame, method), columns=columns + missing - 1)


def test_a_refused_problem_has_moved_no_bead() -> None:
    """The frame that was handed in is the same, and work starts from rest whatever it held."""
    frame = Way("nine-bead").build(2).with_number(47)
    with pytest.raises(FrameError):
        work_on(frame, "99 + 1")
    assert frame.value == 47
    assert work_on(frame, "1 + 1").start.value == 0


def work_on(frame: Frame, text: str) -> Walkthrough:
    return work_problem(parse_problem(text), frame)
