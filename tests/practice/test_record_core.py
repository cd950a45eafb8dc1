"""Records as data: read from untrusted files, merged, judged; by Node.js, as in the browser."""

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.support.node import find_node

pytestmark = pytest.mark.node

SCRIPTS = Path(__file__).resolve().parents[2] / "site_templates" / "theme" / "assets" / "bw" / "js"


def run(body: str, **given: Any) -> Any:
    """What the body of a function over `core` and the names given returns."""
    program = (
        f"require({json.dumps(str(SCRIPTS / 'record-core.js'))});"
        f"const core = globalThis.beadwright.recordCore; const given = {json.dumps(given)};"
        f"const result = (({', '.join(given)}) => {{ {body} }})(...Object.values(given));"
        "process.stdout.write(JSON.stringify(result === undefined ? null : result));"
    )
    done = subprocess.run([find_node(), "-e", program], capture_output=True, text=True, encoding="utf-8", check=False)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def attempt(
    name: str, item: str = "i1", *, right: bool | None = True, at: str = "2026-03-01T10:00:00Z"
) -> dict[str, Any]:
    """An attempt as it is kept."""
    return {
        "id": name, "edition": "e", "lesson": "l1", "objective": "o1", "item": item, "ask": "answer",
        "problem": "1 + 1", "key": "2", "response": "2", "right": right, "slip": None, "hints": 0, "frame": "shown",
        "timed": False, "digits_right": 1, "seconds": 0, "at": at,
    }  # fmt: skip


def record(learner: str = "me", *attempts: dict[str, Any], **more: Any) -> dict[str, Any]:
    """A record as it is saved."""
    return {
        "schema": "beadwright/record/1", "course": {"id": "c"}, "saved": "2026-03-02T10:00:00Z",
        "learner": {"id": learner, "name": "", "role": "", "group": "", "path": ""},
        "attempts": list(attempts), "lessons": [],
        "ratings": [], "place": None,
    } | more  # fmt: skip


def test_a_record_reads_back_as_it_was() -> None:
    kept = record(
        "me",
        attempt("a"),
        lessons=[{"lesson": "l1", "finished": "2026-03-01T11:00:00Z", "minutes": 41, "passed": True}],
        ratings=[{"when": "before", "item": "r", "value": 3, "of": 5, "at": "2026-03-01T09:00:00Z"}],
        place={"lesson": "l1", "item": "i1", "step": 3, "at": "item-i1", "problem": "48 + 37"},
    )
    assert run("return core.read(kept, 'c')", kept=kept) == kept


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (None, "broken"),
        ([], "broken"),
        ("text", "broken"),
        ({}, "broken"),
        ({"schema": "something/else/1"}, "broken"),
        (record() | {"schema": "beadwright/record/2"}, "newer"),
        (record() | {"schema": "beadwright/record/999999"}, "newer"),
        (record() | {"course": {"id": "other"}}, "foreign"),
        (record() | {"course": None}, "foreign"),
        (record() | {"learner": {}}, "broken"),
        (record() | {"attempts": "many"}, "broken"),
    ],
)
def test_what_is_no_record_of_this_course_is_named(data: Any, fault: str) -> None:
    assert run("return core.read(data, 'c')", data=data) == fault


def test_hostile_values_become_plain_ones() -> None:
    hostile = {
        "id": "x", "item": {"toString": 1}, "right": "yes", "hints": "9", "seconds": "1e99", "response": "<b>" * 9000,
        "__proto__": {"polluted": True}, "constructor": 1, "at": 5,
    }  # fmt: skip
    read = run("return core.read(data, 'c')", data=record("me", hostile, {"id": ""}, "nothing"))
    (found,) = read["attempts"]
    assert found["item"] == ""
    assert found["right"] is None
    assert (found["hints"], found["seconds"]) == (0, 0)
    assert len(found["response"]) == 4000
    assert "constructor" not in found
    assert set(found) == set(attempt("a"))


def test_merging_loses_nothing_and_doubles_nothing() -> None:
    mine = record("me", attempt("a", at="2026-03-01T10:00:00Z"), attempt("c", at="2026-03-03T10:00:00Z"))
    other = record("me", attempt("b", at="2026-03-02T10:00:00Z"), attempt("a", at="2026-03-01T10:00:00Z"))
    merged = run("return core.merge(mine, other)", mine=mine, other=other)
    assert [one["id"] for one in merged["record"]["attempts"]] == ["a", "b", "c"]
    assert merged["added"] == 1
    again = run("return core.merge(mine, other)", mine=merged["record"], other=other)
    assert again["record"] == merged["record"]
    assert again["added"] == 0


def test_merging_is_the_same_either_way_round() -> None:
    lessons = [{"lesson": "l1", "finished": None, "minutes": 10, "passed": False}]
    later = [{"lesson": "l1", "finished": "2026-03-02T10:00:00Z", "minutes": 4, "passed": True}]
    first = record("me", attempt("a"), lessons=lessons)
    second = record("me", attempt("b"), lessons=later)
    one = run("return core.merge(a, b).record", a=first, b=second)
    two = run("return core.merge(a, b).record", a=second, b=first)
    assert one["attempts"] == two["attempts"]
    assert one["lessons"] == two["lessons"]
    assert one["lessons"] == [{"lesson": "l1", "finished": "2026-03-02T10:00:00Z", "minutes": 10, "passed": True}]


def judge(tries: list[tuple[str, bool]], mark: float, items: int = 5) -> dict[str, Any]:
    """How one objective of so many items stands after these tries, in order of time."""
    kept = record("me", *(attempt(f"t{n}", item, right=right) for n, (item, right) in enumerate(tries)))
    counts = [("o1", "Do it", items)]
    listed = [{"id": f"i{n}", "objective": "o1"} for n in range(1, items + 1)] + [{"id": "free", "objective": None}]
    (standing,) = run("return core.judge(kept, 'l1', listed, mark)", kept=kept, listed=listed, mark=mark)
    # Where no item is at hand their number gives the same.
    (counted,) = run("return core.judgeCounted(kept, 'l1', counts, mark)", kept=kept, counts=counts, mark=mark)
    assert counted == {**standing, "missing": []}
    return dict(standing)


def test_the_latest_try_of_each_item_counts() -> None:
    right = [(f"i{n}", True) for n in range(1, 5)]
    assert judge([], 0.8)["state"] == "open"
    assert judge(right[:3], 0.8)["state"] == "short"
    met = judge(right, 0.8)
    assert (met["state"], met["right"], met["of"], met["need"], met["missing"]) == ("met", 4, 5, 4, ["i5"])
    assert judge([*right, ("i1", False)], 0.8)["state"] == "short"
    assert judge([("i1", False), *right], 0.8)["state"] == "met"
    assert judge([("i1", True)] * 4, 0.8)["right"] == 1


def test_items_that_are_gone_make_no_more_right_than_there_are() -> None:
    kept = record("me", *(attempt(f"t{n}", f"i{n}", right=True) for n in range(7)))
    (counted,) = run("return core.judgeCounted(kept, 'l1', [['o1', 'Do it', 5]], 0.8)", kept=kept)
    assert (counted["state"], counted["right"], counted["of"], counted["need"]) == ("met", 5, 5, 4)
    (other,) = run("return core.judgeCounted(kept, 'l1', [['o2', 'Do that', 5]], 0.8)", kept=kept)
    assert (other["state"], other["right"]) == ("open", 0)


@pytest.mark.parametrize(
    ("mark", "items", "need"), [(0.8, 5, 4), (0.8, 3, 3), (0.7, 10, 7), (1, 3, 3), (0, 3, 1), (0.29, 100, 29)]
)
def test_how_many_are_needed(mark: float, items: int, need: int) -> None:
    assert judge([], mark, items)["need"] == need


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Ada Tamarow", "record-c-Ada-Tamarow-2026-03-05.json"),
        ("", "record-c-nobody-2026-03-05.json"),
        ("  ../../x\\y:z  ", "record-c-x-y-z-2026-03-05.json"),
        ("Zoë Núñez", "record-c-Zoë-Núñez-2026-03-05.json"),
        ("{course}", "record-c-course-2026-03-05.json"),
    ],
)
def test_a_file_name_tells_who_and_when(name: str, file: str) -> None:
    body = "return core.nameFile('record-{course}-{name}-{date}.json', 'c', name, 'nobody', new Date(2026, 2, 5))"
    assert run(body, name=name) == file
