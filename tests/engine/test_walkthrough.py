"""Walkthroughs as data, and that there is none that does not hold."""

import copy
import json
from collections.abc import Callable
from dataclasses import FrozenInstanceError, replace
from enum import StrEnum
from typing import Any

import pytest

from beadwright.engine import (
    Action,
    Answer,
    Bead,
    Column,
    FirstFactor,
    FromNothing,
    FromOddNumber,
    FromProduct,
    FromQuotient,
    FromRoot,
    FromTerm,
    HouseStyle,
    Inner,
    KeptFactor,
    Move,
    Order,
    Purpose,
    Reading,
    Remark,
    ReplayError,
    Rounding,
    Step,
    Technique,
    Trial,
    Walkthrough,
    Wording,
    Work,
    build_frame,
    parse_problem,
    work_problem,
)
from tests.referee import check_data
from tests.support.frames import Way, work

TEXTS = ["48 + 37", "999 + 1 - 500", "12.5 + 0.75 - 13.25", "305 - 208", "0 + 0"]


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("way", [Way(), Way("nine-bead", "counting", "right-first", "left-first")], ids=str)
def test_data_gives_the_same_walkthrough_back(text: str, way: Way) -> None:
    walkthrough = work(text, way, columns=8)
    data = json.loads(json.dumps(walkthrough.to_data()))
    again = Walkthrough.from_data(data)
    assert again.to_data() == data
    assert again.frames == walkthrough.frames
    assert [step.reads for step in again.steps] == [step.reads for step in walkthrough.steps]
    steps = [step | {"say": "…", "more": []} for step in data["steps"]]
    extra = data | {"language": "en", "unknown": 1, "steps": steps}
    assert Walkthrough.from_data(extra).to_data() == data, "unknown keys are passed over"


def test_the_data_of_one_problem_in_full() -> None:
    """48 + 37 by hand: set 4, set 8; tens 4 + 3 by partner of 5 (set 5, clear 2); ones 8 + 7 by partner of 10."""
    data = work("48 + 37", columns=3).to_data()
    steps = data.pop("steps")
    assert data == {
        "schema": "beadwright/walkthrough/1",
        "problem": "48 + 37",
        "method": "partners",
        "frame": {"name": "five-and-four", "columns": 3, "upper": 1, "lower": 4, "marks": [], "joined": None},
        "house_style": {
            "exchange": {"add": "left-first", "take": "left-first"},
            "wording": "reasons",
            "trial": "known",
            "kept_factor": "remembered",
            "first_factor": "multiplicand",
            "inner": "partners",
            "rounding": "cut",
        },
        "ones_column": 1,
        "start": [[0, 0], [0, 0], [0, 0]],
        "answer": {"text": "85", "columns": [2, 1], "decimals": 0, "remainder": None},
    }
    assert [(s["number"], s["purpose"], s["technique"], s["runs_on"]) for s in steps] == [
        (1, "set", "set", False),
        (2, "set", "set", False),
        (3, "add", "partner-of-5", False),
        (4, "add", "partner-of-10", False),
    ]
    assert [s["work"] for s in steps] == [
        {"action": "set", "digit": 4, "column": 2, "term": 1},
        {"action": "set", "digit": 8, "column": 1, "term": 1},
        {"action": "add", "digit": 3, "column": 2, "term": 2},
        {"action": "add", "digit": 7, "column": 1, "term": 2},
    ]
    assert [[(m["column"], m["bead"], m["change"]) for m in s["moves"]] for s in steps] == [
        [(2, "lower", 4)],
        [(1, "upper", 1), (1, "lower", 3)],
        [(2, "upper", 1), (2, "lower", -2)],
        [(2, "lower", 1), (1, "lower", -3)],
    ]
    assert [s["after"] for s in steps] == [
        [[0, 0], [0, 4], [0, 0]],
        [[0, 0], [0, 4], [1, 3]],
        [[0, 0], [1, 2], [1, 3]],
        [[0, 0], [1, 3], [1, 0]],
    ]
    assert [s["reads"] for s in steps] == [
        [{"part": "sum", "text": text, "columns": [2, 1]}] for text in ("40", "48", "78", "85")
    ]


def test_the_frames_of_a_walkthrough() -> None:
    frames = work("48 + 37").frames
    assert [frame.value for frame in frames] == [0, 40, 48, 78, 85]


def test_steps_that_only_say_something() -> None:
    marker, five, eight = work("0.5 + 0.3").steps
    assert (marker.purpose, marker.remark) == (Purpose.SAY, Remark("marker", (("ones_column", 4),)))
    assert (marker.work, marker.technique, marker.moves, marker.after.value) == (None, None, (), 0)
    assert marker.to_data()["remark"] == {"topic": "marker", "ones_column": 4}
    assert "remark" not in five.to_data()
    assert (five.reads, eight.reads) == ((Reading("sum", "0.5", (4, 3)),), (Reading("sum", "0.8", (4, 3)),))


Change = Callable[[dict[str, Any]], object]

# Each change to the data of 48 + 37 makes it a walkthrough that does not hold.
TAMPERED: dict[str, Change] = {
    "a move left out": lambda d: d["steps"][3]["moves"].pop(),
    "a move of beads that are not there": lambda d: d["steps"][3]["moves"][1].update(change=-4),
    "a move off the frame": lambda d: d["steps"][3]["moves"][0].update(column=14),
    "a move in another column": lambda d: d["steps"][0]["moves"][0].update(column=3),
    "a move of no bead": lambda d: d["steps"][0]["moves"].append({"column": 1, "bead": "lower", "change": 0}),
    "another frame after a step": lambda d: d["steps"][1]["after"][-1].__setitem__(1, 4),
    "a frame of other length": lambda d: d["steps"][1]["after"].pop(0),
    "a step left out": lambda d: d["steps"].pop(),
    "a step doubled": lambda d: d["steps"].insert(1, copy.deepcopy(d["steps"][1])),
    "steps in another order": lambda d: d["steps"].reverse(),
    "steps misnumbered": lambda d: d["steps"][2].update(number=2),
    "another digit than was moved": lambda d: d["steps"][3]["work"].update(digit=6),
    "another column than was moved": lambda d: d["steps"][3]["work"].update(column=2),
    "another action than was moved": lambda d: d["steps"][3]["work"].update(action="take"),
    "moves that work nothing": lambda d: d["steps"][3].update(work=None),
    "a start that is not at rest": lambda d: d["start"][0].__setitem__(1, 1),
    "a start of other length": lambda d: d["start"].pop(),
    "another answer": lambda d: d["answer"].update(text="86"),
    "an answer in other columns": lambda d: d["answer"].update(columns=[3, 2]),
    "an answer off the frame": lambda d: d["answer"].update(columns=[14, 13]),
    "a remainder where none is": lambda d: d["answer"].update(remainder={"text": "85", "columns": [2, 1]}),
    "a remainder that is not there": lambda d: d["answer"].update(remainder={"text": "3", "columns": [2, 1]}),
    "another problem": lambda d: d.update(problem="48 + 38"),
    "no steps": lambda d: d["steps"].clear(),
}


@pytest.mark.parametrize("change", TAMPERED.values(), ids=TAMPERED.keys())
def test_data_that_does_not_hold_is_no_walkthrough(change: Change) -> None:
    data = json.loads(json.dumps(work("48 + 37").to_data()))
    assert Walkthrough.from_data(data).answer.text == "85"
    change(data)
    with pytest.raises(ReplayError):
        Walkthrough.from_data(data)


def test_beads_moved_and_moved_back_by_false_work_are_found() -> None:
    """Every `after` is as the moves give and the answer is right, yet two steps do not work their digits."""
    data = json.loads(json.dumps(work("12 + 25 + 11").to_data()))
    assert [step["work"]["digit"] for step in data["steps"]] == [1, 2, 2, 5, 1, 1]
    for number, change in ((2, 1), (4, -1)):  # one bead more for the 2 on the tens, one less for the 1
        data["steps"][number]["moves"][0]["change"] += change
        if data["steps"][number]["moves"][0]["change"] == 0:
            data["steps"][number]["moves"].pop()
    for step in data["steps"][2:4]:
        step["after"][-2][1] += 1
    with pytest.raises(ReplayError, match="step 3 changes the frame by 30, its work by 20"):
        Walkthrough.from_data(data)


def test_no_walkthrough_can_be_built_that_does_not_hold() -> None:
    right = work("48 + 37")
    with pytest.raises(ReplayError, match="at rest"):
        replace(right, start=right.start.with_number(85), steps=())
    with pytest.raises(ReplayError):
        replace(right, steps=right.steps[:-1])
    with pytest.raises(ReplayError):
        replace(right, problem=parse_problem("37 + 49"))
    with pytest.raises(ReplayError):
        replace(right, answer=Answer("85", (3, 2)))
    with pytest.raises(ReplayError):
        Walkthrough(right.problem, "partners", build_frame(), HouseStyle(), Column(1), (), Answer("85", (2, 1)))
    with pytest.raises(FrozenInstanceError):
        right.steps = ()  # type: ignore[misc]


def test_each_part_of_a_fraction_stands_where_it_is_said_to() -> None:
    """3/4 + 1 1/8 = 1 7/8: the 8 in column 1, the 7 in 3, the 1 in 5; column 2 is at rest."""
    right = work_problem(parse_problem("3/4 + 1 1/8"), build_frame())
    assert right.answer.text == "1 7/8"
    for part in ("whole", "numerator", "denominator"):
        parts = tuple((name, (2, 2) if name == part else columns) for name, columns in right.answer.parts)
        with pytest.raises(ReplayError, match="the answer says"):
            replace(right, answer=right.answer._replace(parts=parts))


def test_a_step_made_by_hand_must_hold_too() -> None:
    """3 + 1 in two steps of one's own making is accepted; with a bead too many it is not."""
    rest = build_frame(columns=1)
    three, four = rest.with_number(3), rest.with_number(4)
    first = Step(
        number=1,
        purpose=Purpose.SET,
        work=Work(Action.SET, 3, Column(1), FromTerm(1)),
        technique=Technique.SET,
        runs_on=False,
        moves=(Move(Column(1), Bead.LOWER, 3),),
        after=three,
        owners=(),
    )
    second = first._replace(
        number=2,
        purpose=Purpose.ADD,
        work=Work(Action.ADD, 1, Column(1), FromTerm(2)),
        technique=Technique.DIRECT,
        moves=(Move(Column(1), Bead.LOWER, 1),),
        after=four,
    )
    problem, answer = parse_problem("3 + 1"), Answer("4", (1, 1))
    made = Walkthrough(problem, "partners", rest, HouseStyle(), Column(1), (first, second), answer)
    assert made.frames[-1].value == 4
    with pytest.raises(ReplayError, match="step 2"):
        replace(made, steps=(first, second._replace(moves=(Move(Column(1), Bead.LOWER, 2),))))


def test_what_a_digit_comes_from_as_data() -> None:
    assert Work(Action.ADD, 7, Column(1), FromTerm(2)).to_data() == {
        "action": "add",
        "digit": 7,
        "column": 1,
        "term": 2,
    }
    product = FromProduct((7, 6), "42", "tens")
    assert Work(Action.ADD, 4, Column(2), product).to_data() == {
        "action": "add",
        "digit": 4,
        "column": 2,
        "factors": [7, 6],
        "product": "42",
        "place": "tens",
    }
    quotient = FromQuotient(Column(5), "second-left")
    assert Work(Action.SET, 4, Column(5), quotient).to_data() == {
        "action": "set",
        "digit": 4,
        "column": 5,
        "quotient_column": 5,
        "rule": "second-left",
    }
    assert Work(Action.CLEAR, 4, Column(5)).to_data() == {"action": "clear", "digit": 4, "column": 5}
    assert Work(Action.CLEAR, 4, Column(5)).source == FromNothing()
    odd = Work(Action.TAKE, 1, Column(2), FromOddNumber(13, 2)).to_data()
    assert odd == {"action": "take", "digit": 1, "column": 2, "odd_number": "13", "group": 2}
    root = Work(Action.ADD, 1, Column(13), FromRoot(1)).to_data()
    assert root == {"action": "add", "digit": 1, "column": 13, "root_group": 1}


# PROCEDURES §3: what handbooks settle differently; the first of each is the house's own choice when nothing is said.
SETTINGS: dict[str, type[StrEnum]] = {
    "add_order": Order,
    "take_order": Order,
    "wording": Wording,
    "trial": Trial,
    "kept_factor": KeptFactor,
    "first_factor": FirstFactor,
    "inner": Inner,
    "rounding": Rounding,
}


def build_style(name: str, value: Any) -> HouseStyle:
    return HouseStyle(**{name: value})


@pytest.mark.parametrize(("name", "kind"), SETTINGS.items(), ids=SETTINGS.keys())
def test_each_setting_survives_as_data(name: str, kind: type[StrEnum]) -> None:
    assert getattr(HouseStyle(), name) is next(iter(kind))
    styles = [build_style(name, value) for value in kind]
    for house in styles:
        assert HouseStyle.from_data(json.loads(json.dumps(house.to_data()))) == house
    assert len({json.dumps(house.to_data()) for house in styles}) == len(kind)


def test_a_house_style_with_an_unknown_setting_is_none() -> None:
    with pytest.raises(ValueError, match="sideways"):
        HouseStyle.from_data(HouseStyle().to_data() | {"wording": "sideways"})
    with pytest.raises(KeyError):
        HouseStyle.from_data({})


def test_the_method_follows_the_house_unless_it_is_named() -> None:
    problem, frame = parse_problem("48 + 37"), build_frame()
    data = HouseStyle().to_data() | {"inner": "counting"}
    counting = work_problem(problem, frame, house=HouseStyle.from_data(data))
    assert counting.method == "counting"
    check_data(counting.to_data())
    named = work_problem(problem, frame, house=HouseStyle.from_data(data), method="partners")
    assert named.method == "partners"
    check_data(named.to_data())


def test_sources_of_two_kinds_are_never_the_same() -> None:
    sources = {FromTerm(1), FromRoot(1), FromQuotient(Column(1), "given"), FromNothing()}
    assert len(sources) == 4
    assert FromTerm(1) != FromRoot(1)
    assert Work(Action.ADD, 1, Column(1), FromTerm(1)) != Work(Action.ADD, 1, Column(1), FromRoot(1))
    assert FromTerm(1) == FromTerm(1)
