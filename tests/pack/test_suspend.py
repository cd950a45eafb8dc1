"""What a SCORM lesson hands over to its next session stays within 4,096 signs and says how much was left out.

The limit of `cmi.suspend_data` in SCORM 1.2 is from memory; an emulator of hosts that we tried takes more, so it is
counted here.
"""

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.support import ROOT
from tests.support.pages import visit_site

JS = ROOT / "site_templates" / "theme" / "assets" / "bw" / "js"
SCRIPTS = (JS / "words.js", JS / "record-core.js", JS / "record.js", ROOT / "site_templates" / "pack" / "scorm.js")
API = """
window.kept = {};
window.API = {
  LMSInitialize: () => "true", LMSFinish: () => "true", LMSCommit: () => "true",
  LMSGetValue: (name) => window.kept[name] ?? (name === "cmi.suspend_data" ? window.before ?? "" : ""),
  LMSSetValue: (name, value) => { window.kept[name] = value; return "true"; },
};
"""


def name(number: int) -> str:
    return f"an-objective-with-a-rather-long-name-{number:04}"


def write_lesson(folder: Path, count: int) -> None:
    """A lesson of so many objectives with an item each, all of them answered right on this device."""
    items = [{"id": f"item-{n}", "objective": name(n), "ask": "answer"} for n in range(count)]
    attempts = [
        {"id": f"try-{n}", "lesson": "long", "item": f"item-{n}", "ask": "answer", "right": True, "at": "2026-11-02"}
        for n in range(count)
    ]
    record = {"schema": "beadwright/record/1", "course": {"id": "c"}, "learner": {"id": "x"}, "attempts": attempts}
    kept = {"bw-record:c": json.dumps(record), "bw-scorm:c": json.dumps({"student": "", "since": "2026-01-01"})}
    island = {"base": ".", "course": "c", "language": "en", "lesson": "long", "search": None}
    shown = "".join(
        f'<bw-item><script type="application/json" class="practice-data">{json.dumps(item)}</script></bw-item>'
        for item in items
    )
    scripts = "".join(f"<script>{path.read_text(encoding='utf-8')}</script>" for path in SCRIPTS)
    (folder / "lesson.html").write_text(
        f'<!doctype html><html lang="en"><meta charset="utf-8"><title>Long</title><body>{shown}'
        f'<script type="application/json" id="bw-page">{json.dumps(island)}</script>'
        '<script type="application/json" id="bw-words">{}</script>'
        '<script type="application/json" id="bw-practice">{"pass_mark": 1}</script>'
        f"<script>for (const [key, value] of Object.entries({json.dumps(kept)})) localStorage.setItem(key, value);"
        f"{API}</script>{scripts}</body></html>",
        encoding="utf-8",
    )


def hand_over(chromium: Browser, folder: Path, before: dict[str, Any] | None = None) -> dict[str, str]:
    """All values that the lesson sets when it is opened."""
    with visit_site(chromium, folder) as visitor:
        page = visitor.open("lesson.html")
        if before is not None:
            page.add_init_script(f"window.before = {json.dumps(json.dumps(before))};")
            page.reload()
        kept: dict[str, str] = page.evaluate("window.kept")
    return kept


@pytest.mark.parametrize("count", [5, 70, 600])
def test_many_objectives_are_handed_over_as_far_as_there_is_room(chromium: Browser, tmp_path: Path, count: int) -> None:
    write_lesson(tmp_path, count)
    kept = hand_over(chromium, tmp_path)
    text = kept["cmi.suspend_data"]
    data = json.loads(text)
    assert len(text) <= 4096
    assert data["met"] == [name(n) for n in range(len(data["met"]))]
    assert len(data["met"]) + data.get("left", 0) == count
    assert ("left" in data) is (count == 600)
    # No room is wasted: one more name with its quotes and comma would not have fitted.
    assert "left" not in data or len(text) + len(name(0)) + 3 > 4096
    assert kept["cmi.core.lesson_status"] == "passed"
    assert kept["cmi.core.score.raw"] == "100"


def test_what_was_handed_over_shortened_is_taken_up(chromium: Browser, tmp_path: Path) -> None:
    write_lesson(tmp_path, 600)
    shortened = json.loads(hand_over(chromium, tmp_path)["cmi.suspend_data"])
    write_lesson(tmp_path, 3)
    again = json.loads(hand_over(chromium, tmp_path, {**shortened, "score": 40})["cmi.suspend_data"])
    assert again == {"v": 1, "item": "", "met": [name(0), name(1), name(2)], "score": 100}


@pytest.mark.parametrize(
    ("milliseconds", "written"),
    [
        (0, "0000:00:00.00"),
        (59_994, "0000:00:59.99"),
        (59_997, "0000:01:00.00"),
        (3_599_999, "0001:00:00.00"),
        (45_296_780, "0012:34:56.78"),
        (36_000_000_000, "9999:00:00.00"),
        (-5_000, "0000:00:00.00"),
    ],
)
def test_time_is_written_as_hosts_read_it(chromium: Browser, tmp_path: Path, milliseconds: int, written: str) -> None:
    write_lesson(tmp_path, 1)
    with visit_site(chromium, tmp_path) as visitor:
        page = visitor.open("lesson.html")
        page.add_init_script("let now = Date.now(); Date.now = () => now; window.wait = (more) => (now += more);")
        page.reload()
        page.evaluate(
            "more => { window.wait(more); window.dispatchEvent(new PageTransitionEvent('pagehide')); }", milliseconds
        )
        assert page.evaluate("window.kept['cmi.core.session_time']") == written
