"""The referee itself: it accepts what is right and finds every kind of fault, else its verdicts are worth nothing."""

import json
from collections.abc import Callable
from typing import Any

import pytest

from beadwright.engine import Sum, Walkthrough, build_slipped, work_problem
from tests.prove import sums
from tests.prove.tally import Tally
from tests.referee import Refusal, RuleError, check_data, check_seen, check_slipped, find_refusal, see_data, see_value
from tests.support.frames import WAYS, Way, work

Change = Callable[[dict[str, Any]], object]


def swap_moves(step: dict[str, Any]) -> None:
    step["moves"].reverse()


def add_a_say_step_with_moves(data: dict[str, Any]) -> None:
    last = data["steps"][-1]
    data["steps"].append(last | {"number": len(data["steps"]) + 1, "purpose": "say", "work": None})


# Changes to the data of 48 + 37 (steps: set 4, set 8, add 3 by partner of 5, add 7 by partner of 10).
FAULTS: dict[str, Change] = {
    "schema": lambda d: d.update(schema="beadwright/walkthrough/2"),
    "name of the frame": lambda d: d["frame"].update(name="nine-bead"),
    "marks": lambda d: d["frame"].update(marks=[3, 6, 9]),
    "join": lambda d: d["frame"].update(joined=13),
    "start": lambda d: d["start"][0].__setitem__(1, 1),
    "left for right order": lambda d: swap_moves(d["steps"][3]),
    "lower before upper": lambda d: swap_moves(d["steps"][2]),
    "house style": lambda d: d["house_style"]["exchange"].update(add="right-first"),
    "method": lambda d: d.update(method="counting"),
    "technique": lambda d: d["steps"][2].update(technique="direct"),
    "no technique": lambda d: d["steps"][0].update(technique=None),
    "runs on": lambda d: d["steps"][3].update(runs_on=True),
    "purpose": lambda d: d["steps"][3].update(purpose="take"),
    "number": lambda d: d["steps"][3].update(number=5),
    "term": lambda d: d["steps"][3]["work"].update(term=3),
    "digit": lambda d: d["steps"][3]["work"].update(digit=6),
    "after": lambda d: d["steps"][3]["after"][-1].__setitem__(1, 1),
    "move not there": lambda d: d["steps"][3]["moves"][1].update(change=-5),
    "move of no bead": lambda d: d["steps"][3]["moves"][1].update(change=0),
    "move off the frame": lambda d: d["steps"][3]["moves"][1].update(column=0),
    "unknown bead": lambda d: d["steps"][3]["moves"][1].update(bead="middle"),
    "digit left out": lambda d: d["steps"].pop(),
    "say step that moves": add_a_say_step_with_moves,
    "reading": lambda d: d["steps"][3]["reads"][0].update(text="86"),
    "columns of a reading": lambda d: d["steps"][3]["reads"][0].update(columns=[3, 1]),
    "no reading": lambda d: d["steps"][3]["reads"].clear(),
    "ones column": lambda d: d.update(ones_column=4),
    "answer": lambda d: d["answer"].update(text="86"),
    "answer columns": lambda d: d["answer"].update(columns=[3, 1]),
    "decimals": lambda d: d["answer"].update(decimals=1),
    "remainder": lambda d: d["answer"].update(remainder={"text": "5", "columns": [1, 1]}),
    "problem": lambda d: d.update(problem="48 + 36"),
    "unknown kind of problem": lambda d: d.update(problem="48 ? 37"),
}


@pytest.mark.parametrize("change", FAULTS.values(), ids=FAULTS.keys())
def test_each_fault_is_found(change: Change) -> None:
    data = json.loads(json.dumps(work("48 + 37").to_data()))
    check_data(data)
    change(data)
    with pytest.raises(RuleError):
        check_data(data)


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_values_and_data_are_seen_alike(way: Way) -> None:
    walkthrough = work("58 + 67 - 29", way)
    from_value, from_data = see_value(walkthrough), see_data(json.loads(json.dumps(walkthrough.to_data())))
    assert from_value == from_data
    check_seen(from_value)


def test_a_slip_is_not_right_and_a_right_one_is_no_slip() -> None:
    slipped = build_slipped(work("48 + 37"), "exchange-dropped").to_data()
    check_slipped(slipped)
    with pytest.raises(RuleError):
        check_data(slipped | {"schema": "beadwright/walkthrough/1"})
    right = work("48 + 37").to_data() | {"schema": "beadwright/slipped/1", "slip": "exchange-dropped"}
    with pytest.raises(RuleError):
        check_slipped(right | {"first_wrong_step": 4, "wrong_answer": "75", "true_answer": "85"})
    with pytest.raises(RuleError):
        check_slipped(slipped | {"first_wrong_step": 3})


# By hand: (sum, columns, what integers say).
@pytest.mark.parametrize(
    ("text", "columns", "refusal"),
    [
        ("48 + 37", 2, None),
        ("99 + 1", 2, Refusal("too-wide", 2, 1)),
        ("3 - 5", 13, Refusal("below-zero", 2, 0)),
        ("99 + 1 - 200", 2, Refusal("below-zero", 3, 0)),
        ("0.2 + 0.3", 3, Refusal("too-wide", 1, 1)),
        ("0.2 + 9.8", 5, None),
        ("0.2 + 9.8", 4, Refusal("too-wide", 2, 1)),
    ],
)
def test_refusals_by_integers(text: str, columns: int, refusal: Refusal | None) -> None:
    assert find_refusal(text, columns) == refusal


def test_the_proof_counts_and_finds_what_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    """On numbers below 10 it counts as arithmetic does; an engine that errs in one problem is not passed over."""
    proof = sums.build_proof(10)
    tallies = {line: Tally() for line in proof.counts}
    for job in proof.jobs:
        tallies[job.line].add(job.work(*job.facts))
    assert {line: (t.worked, t.refused, t.faults) for line, t in tallies.items()} == {
        line: (*counts, []) for line, counts in proof.counts.items()
    }
    # 10 × 10 sums all fit; 55 differences are not below zero, 45 are.
    assert proof.counts["nine-bead 3, partners, left-first"] == (100 + 55, 45)

    other = work("1 + 1", Way("nine-bead"))

    def work_but_one(problem: Sum, *rest: Any, **more: Any) -> Walkthrough:
        return other if str(problem) == "3 + 4" else work_problem(problem, *rest, **more)

    monkeypatch.setattr(sums, "work_problem", work_but_one)
    spoilt = sums.prove_pairs(sums.SHORT, range(3, 4), 10)
    assert [fault.split(":")[0] for fault in spoilt.faults] == ["3 + 4 (nine-bead 3, partners, left-first)"]


def test_counts_of_the_proof_come_from_counting() -> None:
    for below, full in ((12, 1000), (12, 15), (5, 5)):
        pairs = [(a, b) for a in range(below) for b in range(below)]
        worked = sum(a + b < full for a, b in pairs) + sum(a >= b for a, b in pairs)
        assert sums.count_pairs(below, full) == (worked, 2 * below * below - worked)
