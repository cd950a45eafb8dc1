"""The referee on products, quotients and repeated work: it finds every kind of fault; and what their proof counts."""

import json
from collections.abc import Callable
from typing import Any

import pytest

from beadwright.engine import (
    HouseStyle,
    KeptFactor,
    Problem,
    Trial,
    Walkthrough,
    build_frame,
    parse_problem,
    work_problem,
)
from tests.prove import lines, products, quotients
from tests.prove.tally import Proof, Tally
from tests.referee import RuleError, check_data, find_missing_for_product, find_missing_for_quotient

SET = HouseStyle(kept_factor=KeptFactor.SET)
Change = Callable[[dict[str, Any]], object]


def work(text: str, house: HouseStyle, method: str | None = None) -> dict[str, Any]:
    frame = build_frame("nine-bead", columns=4) if method else build_frame()
    walkthrough = work_problem(parse_problem(text), frame, house=house, method=method)
    data: dict[str, Any] = json.loads(json.dumps(walkthrough.to_data()))
    return data


def drop_said(data: dict[str, Any], topic: str) -> None:
    """Leave out the steps that say something, and count the rest anew."""
    data["steps"] = [step for step in data["steps"] if step.get("remark", {}).get("topic") != topic]
    for number, step in enumerate(data["steps"], start=1):
        step["number"] = number


def find_worked(data: dict[str, Any], purpose: str, index: int = 0) -> dict[str, Any]:
    found: list[dict[str, Any]] = [step for step in data["steps"] if step["purpose"] == purpose]
    return found[index]


def change_read(step: dict[str, Any], part: str, **change: Any) -> None:
    next(read for read in step["reads"] if read["part"] == part).update(change)


# Changes to 306 × 4 with the multiplier set: 24 in columns 2 and 1, then 12 in 4 and 3.
PRODUCT_FAULTS: dict[str, Change] = {
    "first factor": lambda d: d["house_style"].update(first_factor="multiplier"),
    "kept factor": lambda d: d["house_style"].update(kept_factor="remembered"),
    "ones column": lambda d: d.update(ones_column=4),
    "factors": lambda d: find_worked(d, "product")["work"].update(factors=[4, 6]),
    "product": lambda d: find_worked(d, "product")["work"].update(product="28"),
    "place": lambda d: find_worked(d, "product")["work"].update(place="ones"),
    "purpose": lambda d: find_worked(d, "product").update(purpose="add"),
    "the 0 not said": lambda d: drop_said(d, "zero-holds"),
    "the 0 of the multiplicand not said": lambda d: drop_said(d, "multiplicand-zero"),
    "what the product reads": lambda d: change_read(find_worked(d, "clear"), "product", text="24.0"),
    "whose columns": lambda d: change_read(find_worked(d, "clear"), "multiplicand", columns=[5, 5], text="3"),
    "the multiplier's columns": lambda d: change_read(
        find_worked(d, "clear"), "multiplier", columns=[13, 12], text="40"
    ),
    "answer": lambda d: d["answer"].update(text="1225"),
    "answer columns": lambda d: d["answer"].update(columns=[5, 1]),
    "remainder": lambda d: d["answer"].update(remainder={"text": "0", "columns": [1, 1]}),
    "decimals": lambda d: d["answer"].update(decimals=1),
    "problem": lambda d: d.update(problem="307 × 4"),
}


@pytest.mark.parametrize("change", PRODUCT_FAULTS.values(), ids=PRODUCT_FAULTS.keys())
def test_each_fault_in_a_product_is_found(change: Change) -> None:
    data = work("306 × 4", SET)
    check_data(data)
    change(data)
    with pytest.raises(RuleError):
        check_data(data)


# Changes to 3590 ÷ 46 by first digits: 8 lowered to 7, 9 lowered to 8, 2 left.
QUOTIENT_FAULTS: dict[str, Change] = {
    "trial": lambda d: d["house_style"].update(trial="known"),
    "rule": lambda d: find_worked(d, "quotient")["work"].update(rule="second-left"),
    "quotient column": lambda d: find_worked(d, "quotient")["work"].update(quotient_column=4),
    "lower": lambda d: find_worked(d, "lower").update(purpose="take"),
    "give back": lambda d: find_worked(d, "give-back").update(purpose="add"),
    "factors": lambda d: find_worked(d, "product", 3)["work"].update(factors=[7, 5]),
    "nothing compared": lambda d: [drop_said(d, t) for t in ("compare-first-left", "trial-first-digit", "trial-known")],
    "what is left": lambda d: change_read(find_worked(d, "quotient"), "left", text="359", columns=[4, 2]),
    "quotient's columns": lambda d: change_read(find_worked(d, "quotient", 1), "quotient", columns=[5, 5], text="7"),
    "marker": lambda d: d["answer"].pop("quotient_ones_column"),
    "quotient": lambda d: d["answer"].update(text="79"),
    "answer columns": lambda d: d["answer"].update(columns=[5, 5]),
    "no remainder": lambda d: d["answer"].update(remainder=None),
    "remainder": lambda d: d["answer"]["remainder"].update(text="3"),
    "remainder's columns": lambda d: d["answer"]["remainder"].update(columns=[2, 2]),
    "rounded": lambda d: d.update(problem="3590 ÷ 46 to 1 place"),
    "divisor": lambda d: d.update(problem="3590 ÷ 47"),
}


@pytest.mark.parametrize("change", QUOTIENT_FAULTS.values(), ids=QUOTIENT_FAULTS.keys())
def test_each_fault_in_a_quotient_is_found(change: Change) -> None:
    data = work("3590 ÷ 46", HouseStyle(trial=Trial.FIRST_DIGIT))
    check_data(data)
    change(data)
    with pytest.raises(RuleError):
        check_data(data)


REPEATED_FAULTS: dict[str, Change] = {
    "once less": lambda d: d.update(problem="23 × 3"),
    "another number": lambda d: d.update(problem="24 × 4"),
    "answer": lambda d: d["answer"].update(text="93"),
    "counted": lambda d: d["house_style"].update(inner="counting"),
}


@pytest.mark.parametrize("change", REPEATED_FAULTS.values(), ids=REPEATED_FAULTS.keys())
def test_each_fault_in_repeated_adding_is_found(change: Change) -> None:
    data = work("23 × 4", HouseStyle(), "repeated-adding")
    check_data(data)
    change(data)
    with pytest.raises(RuleError):
        check_data(data)


def test_faults_in_repeated_taking_away_are_found() -> None:
    for change in ({"text": "4"}, {"columns": [1, 1]}, {"remainder": None}):
        data = work("23 ÷ 4", HouseStyle(), "repeated-taking-away")
        check_data(data)
        data["answer"].update(change)
        with pytest.raises(RuleError):
            check_data(data)


# By hand from PROCEDURES §3.6 and §3.7: (problem, columns, kept factor, columns missing).
@pytest.mark.parametrize(
    ("text", "columns", "kept", "missing"),
    [
        ("999999999 × 9", 13, "set", 0),
        ("9999999999 × 9", 13, "set", 1),
        ("999 × 9999", 13, "set", 0),
        ("9999 × 9999", 13, "set", 1),
        ("0.02 × 3", 2, "remembered", 2),  # 1 + 1 + 1 and 1 of shift
        ("15% of 80", 4, "remembered", 2),  # 2 + 2 + 1 and 1 of shift
        ("954 ÷ 23", 5, "remembered", 0),
        ("954 ÷ 23", 6, "set", 2),
        ("154 ÷ 23", 3, "remembered", 1),
        ("2 ÷ 3 to 2 places", 5, "remembered", 1),  # 1 + 2 + 1 and 2 of shift
    ],
)
def test_room_by_hand(text: str, columns: int, kept: str, missing: int) -> None:
    if "÷" in text:
        assert find_missing_for_quotient(text, columns, kept_factor=kept) == missing
    else:
        found = find_missing_for_product(text, columns, first_factor="multiplicand", kept_factor=kept)
        assert found == missing


@pytest.mark.parametrize("build", [products.build_proof, quotients.build_proof])
def test_the_proof_counts_as_arithmetic_does(build: Callable[[int], Proof]) -> None:
    proof = build(80)
    tallies = {line: Tally() for line in proof.counts}
    for job in proof.jobs:
        tallies[job.line].add(job.work(*job.facts))
    assert {line: (t.worked, t.refused, t.faults) for line, t in tallies.items()} == {
        line: (*counts, []) for line, counts in proof.counts.items()
    }


def test_what_the_whole_proof_covers() -> None:
    """Every a × b and a ÷ b for 0–999 × 0–99 (1–99) in one house style; those with too few columns by hand.

    On 7 columns with the multiplier set, m + 2n + 2 allows m = 3 with n = 1 and m = 1 with n = 2: 1000 × 10 + 10 × 90.
    """
    product_counts, quotient_counts = products.build_proof(1000).counts, quotients.build_proof(1000).counts
    assert product_counts[str(products.WHOLE)] == (100_000, 0)
    assert product_counts[str(products.SHORT)] == (10_900, 89_100)
    assert quotient_counts[str(quotients.WHOLE)] == (99_000, 0)
    assert len(products.STYLES) == 2**4
    assert len(quotients.STYLES) == 2**5 * 4


def test_an_engine_that_errs_is_not_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    other = work_problem(parse_problem("1 × 1"), build_frame())

    def work_but_one(problem: Problem, *rest: Any, **more: Any) -> Walkthrough:
        return other if str(problem) in ("3 × 4", "30 ÷ 4") else work_problem(problem, *rest, **more)

    monkeypatch.setattr(lines, "work_problem", work_but_one)
    spoilt = products.prove_pairs(products.WHOLE, range(3, 4), range(10))
    assert [fault.split(" (")[0] for fault in spoilt.faults] == ["3 × 4"]
    spoilt = quotients.prove_pairs(quotients.WHOLE, range(30, 31), range(1, 10))
    assert [fault.split(" (")[0] for fault in spoilt.faults] == ["30 ÷ 4"]
