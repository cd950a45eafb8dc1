"""Multiplying by adding again and again, dividing by taking away again and again (PROCEDURES §3.4)."""

from random import Random

import pytest

from beadwright.engine import (
    FirstFactor,
    FrameError,
    HouseStyle,
    Inner,
    MethodError,
    Order,
    Purpose,
    Walkthrough,
    build_frame,
    parse_problem,
    work_problem,
)
from tests.referee import check_data, check_seen, see_value

ADDING, TAKING = "repeated-adding", "repeated-taking-away"


def work_again(text: str, columns: int = 3, *, frame: str = "nine-bead", **style: object) -> Walkthrough:
    method = ADDING if "×" in text else TAKING
    house = HouseStyle(**style)  # type: ignore[arg-type]
    return work_problem(parse_problem(text), build_frame(frame, columns=columns), house=house, method=method)


@pytest.mark.parametrize("frame", ["nine-bead", "five-and-four"])
@pytest.mark.parametrize("inner", Inner)
def test_small_numbers(frame: str, inner: Inner) -> None:
    for a in range(0, 60, 3):
        for b in range(14):
            walkthrough = work_again(f"{a} × {b}", frame=frame, inner=inner)
            assert walkthrough.answer.text == str(a * b)
            check_seen(see_value(walkthrough))
            if b > 0:
                walkthrough = work_again(f"{a} ÷ {b}", frame=frame, inner=inner)
                told = "" if walkthrough.answer.remainder is None else f" r {walkthrough.answer.remainder.text}"
                assert f"{walkthrough.answer.text}{told}" == (f"{a // b} r {a % b}" if a % b else str(a // b))
                check_seen(see_value(walkthrough))


def test_decimals_and_turned_factors() -> None:
    chance = Random("repeated")
    for _ in range(60):
        a, b = f"{chance.randrange(500) / 10:.1f}", chance.randrange(1, 15)
        check_data(work_again(f"{a} × {b}", 7, add_order=chance.choice(list(Order))).to_data())
        check_data(work_again(f"{b} × {a}", 7, first_factor=FirstFactor.MULTIPLIER).to_data())
        c = f"{chance.randrange(20, 100) / 10:.1f}"
        check_data(work_again(f"{chance.randrange(60)} ÷ {c}", 7).to_data())
        check_data(work_again(f"{a} ÷ {c}", 7).to_data())


def test_the_count_is_said() -> None:
    """23 ÷ 4: 19, 15, 11, 7, 3."""
    remarks = [step.remark.to_data() for step in work_again("23 ÷ 4", 2).steps if step.remark]
    taken = [(remark["count"], remark["left"]) for remark in remarks if remark["topic"] == "times-taken"]
    assert taken == [(1, "19"), (2, "15"), (3, "11"), (4, "7"), (5, "3")]
    added = [step.remark.to_data() for step in work_again("23 × 4", 2).steps if step.remark]
    assert [remark["count"] for remark in added if remark["topic"] == "times-added"] == [1, 2, 3, 4]
    assert added[-1] == {"topic": "product-done", "product": "92"}


def test_what_is_taken_away_from_changes_its_name() -> None:
    """7 ÷ 3: the dividend, then what is left of it, in the end the remainder."""
    reads = [tuple(step.reads[0])[:2] for step in work_again("7 ÷ 3", 2).steps if step.reads]
    assert list(dict.fromkeys(reads)) == [("dividend", "7"), ("left", "4"), ("left", "1"), ("remainder", "1")]


def test_the_quotient_stands_in_no_column() -> None:
    answer = work_again("23 ÷ 4", 2).answer
    assert (answer.text, answer.columns) == ("5", None)
    assert answer.to_data() == {
        "text": "5",
        "columns": None,
        "decimals": 0,
        "remainder": {"text": "3", "columns": [1, 1]},
    }
    walkthrough = work_again("23 ÷ 4", 2)
    assert Walkthrough.from_data(walkthrough.to_data()).to_data() == walkthrough.to_data()


def test_it_is_what_a_nine_bead_frame_does() -> None:
    """Without a method named; on a five-and-four frame products and quotients go the other way."""
    for text, method in (("23 × 4", ADDING), ("23 ÷ 4", TAKING)):
        assert work_problem(parse_problem(text), build_frame("nine-bead")).method == method
        assert work_problem(parse_problem(text), build_frame()).method in ("partial-products", "trial-digits")


def test_a_result_that_needs_one_column_more() -> None:
    assert work_again("33 × 3", 2).answer.text == "99"
    with pytest.raises(FrameError) as refused:
        work_again("50 × 2", 2)
    assert (refused.value.code, refused.value.missing) == ("frame-too-short", 1)
    with pytest.raises(FrameError) as refused:
        work_again("1000 ÷ 8", 3)
    assert refused.value.missing == 1


def test_nothing_added_no_times() -> None:
    walkthrough = work_again("250 × 0", 3)
    assert walkthrough.answer.text == "0"
    assert [step.purpose for step in walkthrough.steps] == [Purpose.SAY, Purpose.SAY]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("4 × 0.5", "times-not-whole"),
        ("1 × 1000", "times-too-many"),
        ("1000 ÷ 1", "times-too-many"),
        ("7 ÷ 2 to 1 place", "method-not-for-this"),  # the count is whole
        ("7.5 ÷ 2", "method-not-for-this"),
    ],
)
def test_what_cannot_be_counted(text: str, code: str) -> None:
    with pytest.raises(MethodError) as refused:
        work_again(text, 13)
    assert refused.value.code == code
