"""Another way to work what was just answered: a fitting one, rightly worked, on the same frame."""

from pathlib import Path

import pytest

from beadwright.engine import HouseStyle, Rounding, build_frame, parse_problem, work_problem
from beadwright.practice import AnswerEntry
from beadwright.practice.other_ways import find_other_way
from tests.support.practice_pages import load_lesson

# problem, kind, the other problem, where it leads, what is added then: by plain arithmetic.
WAYS = [
    ("48 + 37", "order", "37 + 48", "85", None),
    ("12.5 + 3.75", "order", "3.75 + 12.5", "16.25", None),
    ("34 × 7", "order", "7 × 34", "238", None),
    ("44 + 44", "opposite", "88 - 44", "44", None),
    ("12 × 12", "opposite", "144 ÷ 12", "12", None),
    ("83 - 27", "opposite", "56 + 27", "83", None),
    ("48 + 37 - 12", "opposite", "73 + 12 - 37", "48", None),
    ("867 ÷ 3", "opposite", "289 × 3", "867", None),
    ("867 ÷ 4", "opposite", "216 × 4", "867", "3"),
    ("√1444", "procedure", "√1444", "38", None),
]


@pytest.mark.parametrize(("problem", "kind", "other", "back", "left"), WAYS)
def test_the_other_way_fits_and_leads_back(problem: str, kind: str, other: str, back: str, left: str | None) -> None:
    worked = work_problem(parse_problem(problem), build_frame())
    found = find_other_way(worked)
    assert found is not None
    assert (found.kind, str(found.walkthrough.problem), str(found.back)) == (kind, other, back)
    assert (found.left if found.left is None else str(found.left)) == left
    if kind == "procedure":
        assert {worked.method, found.walkthrough.method} == {"odd-number", "double-root"}


def test_counting_is_counted_back() -> None:
    found = find_other_way(work_problem(parse_problem("8 - 5"), build_frame(), method="counting"))
    assert found is not None
    assert (str(found.walkthrough.problem), found.walkthrough.method) == ("3 + 5", "counting")


@pytest.mark.parametrize("problem", ["3/4 + 1/8", "√1235678912"])
def test_where_none_fits_there_is_none(problem: str) -> None:
    assert find_other_way(work_problem(parse_problem(problem), build_frame(columns=26))) is None


@pytest.mark.parametrize(("problem", "back"), [("5 ÷ 8 to 2 places", None), ("5 ÷ 8 to 3 places", "0.625 × 8")])
def test_what_was_rounded_has_no_way_back(problem: str, back: str | None) -> None:
    house = HouseStyle(rounding=Rounding.HALF_UP)
    found = find_other_way(work_problem(parse_problem(problem), build_frame(), house=house))
    assert (found and str(found.walkthrough.problem)) == back


def test_only_where_the_lesson_asks(tmp_path: Path) -> None:
    items = (
        "- {id: a, ask: answer, problem: 48 + 37}\n- {id: b, ask: heard, problem: 48 + 37, other_way: yes}\n"
        "- {id: c, draw: {operation: take, digits: 2}, other_way: yes}\n"
    )
    (practice,) = load_lesson(tmp_path, items).practices
    asked = {
        item.id: {entry.other is not None for entry in item.pool if isinstance(entry, AnswerEntry)}
        for item in practice.items
    }
    assert asked == {"a": {False}, "b": {True}, "c": {True}}
