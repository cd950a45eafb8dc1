"""A page with a learner's record on it: its course's menu, answers given, what the browser keeps."""

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from beadwright.render import load_words
from beadwright.render.course_pages import render_record
from tests.support.practice_pages import load_lesson, write_page

KEY = "bw-record:test-course"
LESSONS = (
    '<script>window.bwLessons = [{lesson: "try-it", title: "Try it", url: "page.html", paths: {}}];</script>'
    '<nav id="bw-nav" aria-label="Course"><a data-bw-lesson="try-it" href="page.html">'
    '<span class="bw-nav-name">Try it</span> <span data-bw-state></span></a></nav>'
)


def write_record_page(folder: Path, items: str, extra: str) -> None:
    """A lesson with these items (YAML, a list), where to begin, more HTML, and the learner's own page below it."""
    loaded = load_lesson(folder, items)
    record = render_record(loaded.course, [loaded.lesson], load_words("en"))
    begin = '<p><bw-begin><a href="page.html">Begin</a></bw-begin></p><p class="bw-begin-state" role="status"></p>'
    write_page(folder, loaded, extra=f"{LESSONS}{begin}{extra}{record}")


def answer(page: Page, item: str, text: str) -> None:
    """Type an answer and check it; wait until it has been written."""
    field = page.locator(f"#item-{item} input[name=answer]")
    field.fill(text)
    field.press("Enter")
    page.wait_for_timeout(150)


def read_kept(page: Page) -> dict[str, Any]:
    """What the browser keeps."""
    return dict(json.loads(page.evaluate(f"localStorage.getItem('{KEY}')") or "{}"))


def load(page: Page, data: object, name: str = "record.json") -> None:
    """Choose a file to load."""
    text = data if isinstance(data, str) else json.dumps(data)
    page.locator("#bw-record-file").set_input_files(
        {"name": name, "mimeType": "application/json", "buffer": text.encode()}
    )
    page.wait_for_timeout(150)
