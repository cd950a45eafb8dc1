"""The report judges and merges as the learner's own page does: the same records by record-core.js and by us."""

import json
import random
import subprocess
from pathlib import Path
from typing import Any

import pytest

from beadwright.records import Record, merge_person, read_record
from beadwright.records.outline import ItemOutline, LessonOutline
from beadwright.records.standing import judge_lesson
from tests.records.making import COURSE, make_attempt, make_record
from tests.support import ROOT
from tests.support.node import find_node

CORE = ROOT / "site_templates" / "theme" / "assets" / "bw" / "js" / "record-core.js"
ASK = """
const { recordCore } = globalThis.beadwright;
const { cases, course } = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
const told = cases.map(({ files, items, pass }) => {
  const [first, ...rest] = files.map((file) => recordCore.read(file, course));
  const record = rest.reduce((mine, other) => recordCore.merge(mine, other).record, first);
  return {
    attempts: record.attempts.map(({ id }) => id),
    judged: Object.fromEntries(recordCore.judge(record, "sums", items, pass).map((one) => [one.objective, one.state])),
  };
});
process.stdout.write(JSON.stringify(told));
"""


def make_case(chance: random.Random) -> dict[str, Any]:
    items = [
        {"id": f"item-{n}", "objective": chance.choice(("see", "say", "do", None))}
        for n in range(chance.randint(1, 12))
    ]
    attempts = [
        make_attempt(
            n,
            chance.choice([*(item["id"] for item in items), "gone"]),
            chance.choice((True, True, False, None)),
            at=f"2026-11-{chance.randint(1, 28):02}T10:00:00.000Z",
            lesson=chance.choice(("sums", "sums", "talk")),
        )
        for n in range(chance.randint(0, 30))
    ]
    # A page adds each answer at the end, so that a file is in order of time.
    attempts.sort(key=lambda attempt: (attempt["at"], attempt["id"]))
    files = [
        make_record("ada", *(a for a in attempts if chance.random() < 0.7), saved=f"2026-12-0{day}")
        for day in range(1, chance.randint(2, 4))
    ]
    return {"files": files, "items": items, "pass": chance.choice((0.5, 0.8, 1.0, 2 / 3))}


@pytest.mark.node
def test_python_and_the_page_agree(tmp_path: Path) -> None:
    chance = random.Random(11)
    cases = [make_case(chance) for _ in range(200)]
    script = tmp_path / "ask.js"
    script.write_text(CORE.read_text(encoding="utf-8") + ASK, encoding="utf-8")
    asked = json.dumps({"cases": cases, "course": COURSE})
    done = subprocess.run([find_node(), str(script)], input=asked, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert any("short" in one["judged"].values() for one in told)
    for case, expected in zip(cases, told, strict=True):
        read = [read_record(json.dumps(file).encode(), "a.json", COURSE) for file in case["files"]]
        records = [(str(n), record) for n, record in enumerate(read) if isinstance(record, Record)]
        person = merge_person(records)
        items = tuple(ItemOutline(item["id"], "sums", item["objective"], "answer", "", None) for item in case["items"])
        lesson = LessonOutline("sums", "Sums", 10, None, {}, items)
        assert [attempt.id for attempt in person.attempts] == expected["attempts"]
        assert judge_lesson(person, lesson, case["pass"]).objectives == expected["judged"]


COPY = """
const { recordCore } = globalThis.beadwright;
const { files, course } = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify(files.map((file) => recordCore.read(file, course))));
"""


def draw_anything(chance: random.Random) -> Any:
    numbers = [0, -1, 0.5, 3, 101, 1e7, 1e8, 1e308, -1e308, 2**53]
    texts = ["", "x" * 41, "x" * 201, "\U0001f600" * 2_001, "x" * 3_999 + "\U0001f600", "\ud83d", "\ude00 Pell", "a\0b"]
    return chance.choice([None, True, chance.choice(numbers), chance.choice(texts), [], [1, "a"], {"id": "a"}])


def spoil(chance: random.Random, part: dict[str, Any]) -> dict[str, Any]:
    """The same part of a record with anything in some places, now and then."""
    return {name: draw_anything(chance) if chance.random() < 0.1 else value for name, value in part.items()}


@pytest.mark.node
def test_what_a_page_has_taken_from_any_file_the_report_can_read(tmp_path: Path) -> None:
    chance = random.Random(5)
    mark = {"lesson": "sums", "finished": "2026-11-02T10:00:00.000Z", "minutes": 4, "passed": True}
    rating = {"when": "before", "item": "add", "value": 3, "of": 4, "at": "2026-11-02T10:00:00.000Z"}
    files: list[dict[str, Any]] = []
    for _ in range(300):
        parts = {
            "attempts": [spoil(chance, make_attempt(number, "add", True)) for number in range(4)],
            "lessons": [spoil(chance, mark) for _ in range(2)],
            "ratings": [spoil(chance, rating) for _ in range(2)],
        }
        record = make_record("ada", attempts=[])
        files.append({**record, "learner": spoil(chance, record["learner"]), **spoil(chance, parts)})
    files.append(make_record("ada", ratings=[rating] * 20_001, lessons=[mark] * 5_001))
    files.append(make_record("ada", *[make_attempt(number, "add", True) for number in range(50_001)]))
    script = tmp_path / "copy.js"
    script.write_text(CORE.read_text(encoding="utf-8") + COPY, encoding="utf-8")
    asked = json.dumps({"files": files, "course": COURSE})
    done = subprocess.run([find_node(), str(script)], input=asked, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    taken = [copy for copy in json.loads(done.stdout) if copy != "broken"]
    assert len(taken) > 150
    for copy in taken:
        found = read_record(json.dumps(copy).encode(), "a.json", COURSE)
        assert isinstance(found, Record), found
