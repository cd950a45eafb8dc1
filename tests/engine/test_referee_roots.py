"""The referee on roots and fractions: it finds every kind of fault; and what their proof counts."""

import json
from collections.abc import Callable
from typing import Any

import pytest

from beadwright.engine import Problem, Walkthrough, build_frame, parse_problem, work_problem
from tests.prove import fractions, lines, roots
from tests.prove.tally import Proof, Tally
from tests.referee import RuleError, check_data, find_missing_for_fractions, find_missing_for_root

Change = Callable[[dict[str, Any]], object]


def work(text: str, method: str | None = None) -> dict[str, Any]:
    walkthrough = work_problem(parse_problem(text), build_frame(), method=method)
    data: dict[str, Any] = json.loads(json.dumps(walkthrough.to_data()))
    return data


def find_worked(data: dict[str, Any], purpose: str, index: int = 0) -> dict[str, Any]:
    found: list[dict[str, Any]] = [step for step in data["steps"] if step["purpose"] == purpose]
    return found[index]


def drop_said(data: dict[str, Any], *topics: str) -> None:
    """Leave out the steps that say something, and count the rest anew."""
    data["steps"] = [step for step in data["steps"] if step.get("remark", {}).get("topic") not in topics]
    for number, step in enumerate(data["steps"], start=1):
        step["number"] = number


def drop_last_steps(data: dict[str, Any], many: int) -> None:
    del data["steps"][-many:]


def find_read(step: dict[str, Any], part: str) -> dict[str, Any]:
    found: dict[str, Any] = next(read for read in step["reads"] if read["part"] == part)
    return found


# Changes to √2.0 = 1.4 and 0.04 left.
ROOT_FAULTS: dict[str, Change] = {
    "another radicand": lambda d: d.update(problem="√3.0"),
    "no root": lambda d: d.update(problem="√2.0 + 1"),
    "ones column": lambda d: d.update(ones_column=1),
    "answer": lambda d: d["answer"].update(text="1.5"),
    "decimals": lambda d: d["answer"].update(decimals=0),
    "answer columns": lambda d: d["answer"].update(columns=[12, 12]),
    "no remainder": lambda d: d["answer"].update(remainder=None),
    "remainder": lambda d: d["answer"]["remainder"].update(text="4"),
    "remainder's columns": lambda d: d["answer"]["remainder"].update(columns=[3, 2]),
    "whose columns": lambda d: find_read(d["steps"][-1], "root").update(part="quotient"),
    "what is left": lambda d: find_read(d["steps"][-1], "left").update(text="4", columns=[1, 1]),
    "purpose": lambda d: find_worked(d, "add").update(purpose="set"),
    "unfinished": lambda d: drop_last_steps(d, 2),
}
ODD_FAULTS: dict[str, Change] = {
    "odd number": lambda d: find_worked(d, "take", 2)["work"].update(odd_number="23"),
    "group": lambda d: find_worked(d, "take")["work"].update(group=2),
    "root group": lambda d: find_worked(d, "add")["work"].update(root_group=2),
    "method": lambda d: d.update(method="double-root"),
}
DOUBLE_FAULTS: dict[str, Change] = {
    "factors": lambda d: find_worked(d, "product")["work"].update(factors=[1, 2]),
    "product": lambda d: find_worked(d, "product")["work"].update(product="11"),
    "root group": lambda d: find_worked(d, "add")["work"].update(root_group=2),
    "lowered otherwise": lambda d: find_worked(d, "lower").update(purpose="take"),
    "given back otherwise": lambda d: find_worked(d, "give-back").update(purpose="add"),
    "nothing tried": lambda d: drop_said(d, "root-trial", "root-first"),
    "not said to be halved": lambda d: drop_said(d, "root-halve"),
    "method": lambda d: d.update(method="odd-number"),
}
CASES = [
    *[("√2.0", method, name, change) for method in roots.METHODS for name, change in ROOT_FAULTS.items()],
    *[("√2.0", "odd-number", name, change) for name, change in ODD_FAULTS.items()],
    *[("√224", "double-root", name, change) for name, change in DOUBLE_FAULTS.items()],
]


@pytest.mark.parametrize(("text", "method", "name", "change"), CASES, ids=[f"{case[1]} {case[2]}" for case in CASES])
def test_each_fault_in_a_root_is_found(text: str, method: str, name: str, change: Change) -> None:
    data = work(text, method)
    check_data(data)
    change(data)
    with pytest.raises(RuleError):
        check_data(data)


# Changes to 2 1/4 − 3/4 = 1 1/2.
FRACTION_FAULTS: dict[str, Change] = {
    "another number": lambda d: d.update(problem="2 1/4 - 5/4"),
    "another sign": lambda d: d.update(problem="2 1/4 + 3/4"),
    "no fractions": lambda d: d.update(problem="2 1/4"),
    "below zero": lambda d: d.update(problem="3/4 - 2 1/4"),
    "ones column": lambda d: d.update(ones_column=4),
    "answer not reduced": lambda d: d["answer"].update(text="1 2/4"),
    "answer columns": lambda d: d["answer"].update(columns=[5, 3]),
    "answer begins further left": lambda d: d["answer"].update(columns=[6, 1]),
    "part missing": lambda d: d["answer"]["parts"].pop("whole"),
    "part's columns": lambda d: d["answer"]["parts"].update(numerator=[3, 2]),
    "decimals": lambda d: d["answer"].update(decimals=1),
    "remainder": lambda d: d["answer"].update(remainder={"text": "0", "columns": [1, 1]}),
    "purpose": lambda d: find_worked(d, "take").update(purpose="lower"),
    "whose number": lambda d: find_worked(d, "take", 1)["work"].update(term=1),
    "whose columns": lambda d: find_read(d["steps"][-1], "numerator").update(part="denominator"),
    "not reduced": lambda d: drop_last_steps(d, 4),
    "not said": lambda d: drop_said(d, "common-denominator"),
    "the factor not said": lambda d: drop_said(d, "common-factor"),
    "regrouping not said": lambda d: drop_said(d, "regroup-whole"),
}


@pytest.mark.parametrize("change", FRACTION_FAULTS.values(), ids=FRACTION_FAULTS.keys())
def test_each_fault_in_fractions_is_found(change: Change) -> None:
    data = work("2 1/4 - 3/4")
    check_data(data)
    change(data)
    with pytest.raises(RuleError):
        check_data(data)


def test_a_column_between_groups_in_use_is_found() -> None:
    """10 3/4 written as if its numerator stood in the next column: every digit is right, its place is not."""
    data = work("10 3/4 + 1/4")
    other = work("10 3/40 + 1/40")
    other["problem"] = data["problem"]
    with pytest.raises(RuleError):
        check_data(other)


# By hand from PROCEDURES §3.9 and §3.10: (problem, columns, columns missing).
@pytest.mark.parametrize(
    ("text", "columns", "missing"),
    [
        ("5/6 + 5/6", 6, 0),  # 10 over 6 and a whole
        ("5/6 + 5/6", 5, 1),
        ("5/6 + 1/12", 6, 1),  # 12 below and 10 + 1 above
        ("9 9/10 × 9 9/10", 10, 1),  # 99 × 99 = 9801 over 100, 98 wholes: 3 + 4 + 2 + 2
    ],
)
def test_room_of_fractions_by_hand(text: str, columns: int, missing: int) -> None:
    assert find_missing_for_fractions(text, columns) == missing


@pytest.mark.parametrize(
    ("text", "columns", "odd", "double"), [("√144", 6, 0, 1), ("√1444", 6, 1, 2), ("√0.5", 5, 0, 0), ("√2.0", 5, 1, 2)]
)
def test_room_of_roots_by_hand(text: str, columns: int, odd: int, double: int) -> None:
    """r + 1 + k and r + k + 2; 0.5 is 50, two digits and one of the root."""
    assert find_missing_for_root(text, columns, "odd-number") == odd
    assert find_missing_for_root(text, columns, "double-root") == double


@pytest.mark.parametrize("build", [roots.build_proof, fractions.build_proof])
def test_the_proof_counts_as_arithmetic_does(build: Callable[[int], Proof]) -> None:
    proof = build(50)
    tallies = {line: Tally() for line in proof.counts}
    for job in proof.jobs:
        tallies[job.line].add(job.work(*job.facts))
    assert {line: (t.worked, t.refused, t.faults) for line, t in tallies.items()} == {
        line: (*counts, []) for line, counts in proof.counts.items()
    }


def test_what_the_whole_proof_covers() -> None:
    """√n for 0–99,999 by both methods. A frame of 8 columns holds r + k + 2 up to 4 digits: 10,000 of them."""
    counts = roots.build_proof(1000).counts
    assert [counts[str(line)] for line in roots.WHOLE] == [(100_000, 0)] * 2
    assert counts[str(roots.SHORT)] == (10_000, 90_000)
    # a/b with a of 1–12, b of 1–12: 144 × 144 pairs for each sign; taking away needs the larger one first.
    whole = fractions.build_proof(1000).counts
    assert sum(whole[str(fractions.WHOLE)]) == 4 * 144 * 144
    assert whole[str(fractions.WHOLE)].refused < 144 * 144 / 2


def test_an_engine_that_errs_is_not_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    other = work_problem(parse_problem("√4"), build_frame())

    def work_but_one(problem: Problem, *rest: Any, **more: Any) -> Walkthrough:
        return other if str(problem) in ("√17", "1/2 + 1/3") else work_problem(problem, *rest, **more)

    monkeypatch.setattr(lines, "work_problem", work_but_one)
    spoilt = roots.prove_roots(roots.WHOLE[0], range(10, 20))
    assert [fault.split(" (")[0] for fault in spoilt.faults] == ["√17"]
    spoilt = fractions.prove_pairs(fractions.WHOLE, [(1, 2)], [(1, 3), (1, 4)])
    assert [fault.split(" (")[0] for fault in spoilt.faults] == ["1/2 + 1/3"]
