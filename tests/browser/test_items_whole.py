"""Answers that no slip of the hands gives: one of the numbers, another sign, a wrong remainder."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.support.pages import visit_site
from tests.support.practice_pages import load_lesson, write_page

pytestmark = pytest.mark.browser

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37}
- {id: take, ask: answer, problem: 403 - 167}
- {id: times, ask: answer, problem: 34 × 7}
- {id: share, ask: answer, problem: 867 ÷ 4}
- {id: point, ask: answer, problem: 12.5 + 3.75}
- {id: root, ask: answer, problem: √144}
- {id: put, ask: set, reads: "56"}
- {id: read, ask: read, reads: "305"}
"""
TOLD = [
    ("add", ["48"], "That is the first number by itself."),
    ("add", ["37"], "That is the second number by itself."),
    ("add", ["11"], "Here the sign is +"),
    ("add", ["999"], "No usual slip gives this answer."),
    ("take", ["570"], "Look at the sign again."),
    ("take", ["167"], "That is the second number by itself."),
    ("times", ["41"], "Look at the sign again."),
    ("point", ["8.75"], "Here the sign is +"),
    ("share", ["216", "7"], "The quotient is right. What is left over is not"),
    ("share", ["216", ""], "The quotient is right. Something is left over"),
    ("read", ["3005"], "Read these columns again."),
]


@pytest.fixture
def page(chromium: Browser, tmp_path: Path) -> Iterator[Page]:
    """A page with these items; it may ask for nothing and complain of nothing."""
    write_page(tmp_path, load_lesson(tmp_path, ITEMS))
    with visit_site(chromium, tmp_path) as visitor:
        yield visitor.open("page.html")


def test_what_the_answer_is_as_a_whole_is_told(page: Page) -> None:
    for item, typed, told in TOLD:
        fields = page.locator(f"#item-{item} .bw-fields input")
        for place, text in enumerate(typed):
            fields.nth(place).fill(text)
        fields.first.press("Enter")
        said = page.locator(f"#item-{item} .bw-feedback").inner_text()
        assert told in said, (item, typed, said)
        assert "Two slips" not in said


def test_one_slip_in_several_rounds_is_told_once(page: Page) -> None:
    field = page.locator("#item-root .bw-fields input").first
    field.fill("11")
    field.press("Enter")
    said = page.locator("#item-root .bw-feedback").inner_text()
    assert said.count("It looks as if the 1 in column 12 was not added.") == 1
    assert "Likely slip: a digit was passed over." in said


def test_a_frame_at_rest_is_no_answer(page: Page) -> None:
    item = page.locator("#item-put")
    item.get_by_role("button", name="Check the frame").press("Enter")
    assert item.locator(".bw-feedback").inner_text() == "Nothing is set yet. Set the number first."
    page.wait_for_timeout(150)
    kept = page.evaluate("localStorage.getItem('bw-record:test-course')")
    assert kept is None or json.loads(kept)["attempts"] == []
