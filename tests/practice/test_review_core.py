"""When items come back: days counted by hand on the calendar; by Node.js, as in the browser."""

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.support.node import find_node

pytestmark = pytest.mark.node

SCRIPT = Path(__file__).resolve().parents[2] / "site_templates" / "theme" / "assets" / "bw" / "js" / "review-core.js"


def run(name: str, now: str, *tries: tuple[str, str, bool | None]) -> Any:
    """What a function of the schedule gives, after tries (item, time, whether right), in the learner's own time."""
    attempts = [{"lesson": "l1", "item": i, "ask": "answer", "right": right, "at": at} for i, at, right in tries]
    program = (
        f"require({json.dumps(str(SCRIPT))});"
        f"const given = globalThis.beadwright.reviewCore.{name}({json.dumps(attempts)}, new Date({json.dumps(now)}));"
        "process.stdout.write(JSON.stringify(Array.isArray(given) ? given.map((one) => one.attempt.item) : given));"
    )
    done = subprocess.run([find_node(), "-e", program], capture_output=True, text=True, encoding="utf-8", check=False)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_a_right_answer_comes_back_the_next_day() -> None:
    tries = [("a", "2026-03-01T22:00", True)]
    assert run("listDue", "2026-03-01T23:00", *tries) == []
    assert run("listDue", "2026-03-02T06:00", *tries) == ["a"]


def test_the_spacing_grows_each_time_it_is_right_when_due() -> None:
    days = ["2026-03-01", "2026-03-02", "2026-03-05", "2026-03-12", "2026-03-28", "2026-05-02", "2026-06-06"]
    for count in range(1, len(days)):
        tries = [("a", f"{day}T12:00", True) for day in days[:count]]
        eve = f"{days[count][:-2]}{int(days[count][-2:]) - 1:02d}T12:00"
        assert run("listDue", eve, *tries) == [], days[count]
        assert run("listDue", f"{days[count]}T12:00", *tries) == ["a"], days[count]


def test_a_wrong_answer_starts_over() -> None:
    tries = [("a", "2026-03-01T12:00", True), ("a", "2026-03-02T12:00", True), ("a", "2026-03-05T12:00", False)]
    assert run("listDue", "2026-03-06T12:00", *tries) == ["a"]
    assert run("daysToNext", "2026-03-06T12:00", *tries, ("a", "2026-03-06T12:00", True)) == 1


def test_answering_many_times_in_a_day_moves_nothing() -> None:
    tries = [("a", f"2026-03-01T1{hour}:00", True) for hour in range(5)]
    assert run("listDue", "2026-03-02T12:00", *tries) == ["a"]


def test_what_is_longest_due_comes_first_and_ungraded_items_never() -> None:
    tries = [("a", "2026-03-03T12:00", True), ("b", "2026-03-01T12:00", False), ("c", "2026-03-01T12:00", None)]
    assert run("listDue", "2026-03-09T12:00", *tries) == ["b", "a"]


def test_a_clock_moved_back_asks_now_and_then_goes_on_as_usual() -> None:
    ahead = ("a", "2031-01-01T12:00", True)
    assert run("listDue", "2026-03-01T12:00", ahead) == ["a"]
    # Answered under the clock as it is now, whichever of the two stands first in the record.
    again = ("a", "2026-03-01T12:00", True)
    for tries in ((ahead, again), (again, ahead)):
        assert run("listDue", "2026-03-01T13:00", *tries) == []
        assert run("daysToNext", "2026-03-01T13:00", *tries) in (1, 3)
        assert run("listDue", "2026-03-04T13:00", *tries) == ["a"]


def test_without_tries_nothing_is_due() -> None:
    assert run("listDue", "2026-03-01T12:00") == []
    assert run("daysToNext", "2026-03-01T12:00") is None
