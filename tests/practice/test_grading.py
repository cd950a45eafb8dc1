"""One file of cases, answered alike by Python and by the browser's script."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from beadwright.practice import grading
from beadwright.practice.grading import Signs
from tests.support.node import find_node

HERE = Path(__file__).parent
FILE: dict[str, Any] = json.loads((HERE / "grading-cases.json").read_text(encoding="utf-8"))
CAUSES, ENTRIES, CASES = FILE["causes"], FILE["entries"], FILE["cases"]

Case = dict[str, Any]


def find_signs(case: Case) -> Signs:
    """The language's signs where the case names them."""
    return Signs(**case["signs"]) if "signs" in case else grading.USUAL


def to_plain(value: Any) -> Any:
    """A named tuple as a mapping with lists, as JSON has it."""
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return {name: to_plain(part) for name, part in value._asdict().items()}
    return list(value) if isinstance(value, tuple) else value


ANSWERS: dict[str, Callable[[Case], Any]] = {
    "normalise": lambda c: grading.normalise(c["text"], find_signs(c)),
    "same": lambda c: grading.same_value(c["first"], c["second"]),
    "answer": lambda c: grading.judge_answer(ENTRIES[c["entry"]], c["response"], CAUSES, find_signs(c)),
    "chosen": lambda c: grading.judge_chosen(ENTRIES[c["entry"]], c["chosen"]),
    "order": lambda c: grading.judge_order(ENTRIES[c["entry"]], c["order"]),
    "step": lambda c: grading.judge_step(ENTRIES[c["entry"]], c["step"]),
    "check": lambda c: grading.judge_check(ENTRIES[c["entry"]], c["done"], c["reads"]),
    "frame": lambda c: grading.read_frame(c["beads"]),
    "number": lambda c: grading.read_number(c["beads"], c["lowest"], c["places"]),
}


def name_case(case: Case) -> str:
    """What is asked, in a few words."""
    return " ".join(str(part)[:24] for name, part in case.items() if name not in ("is", "signs"))


@pytest.mark.parametrize("case", CASES, ids=name_case)
def test_python_answers(case: Case) -> None:
    assert to_plain(ANSWERS[case["what"]](case)) == case["is"]


@pytest.mark.node
def test_the_script_answers_alike() -> None:
    done = subprocess.run(
        [find_node(), str(HERE / "grade-cases.js")], capture_output=True, text=True, encoding="utf-8", check=False
    )
    assert done.returncode == 0, done.stderr
    answers = json.loads(done.stdout)
    wrong = [
        f"{name_case(case)}: {answer}, not {case['is']}"
        for case, answer in zip(CASES, answers, strict=True)
        if answer != case["is"]
    ]
    assert not wrong, "\n".join(wrong)


def test_every_kind_of_question_is_asked() -> None:
    assert {case["what"] for case in CASES} == set(ANSWERS)
