"""“Now the other way”, after a right answer: by keyboard, on request, and never in the way."""

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from tests.support.pages import visit_site
from tests.support.practice_pages import load_lesson, write_page

pytestmark = pytest.mark.browser

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37, other_way: yes}
- {id: plain, ask: answer, problem: 48 + 37}
"""


def answer(item: Locator, text: str) -> str:
    """Type an answer; gives what is said."""
    item.get_by_label("Your answer").fill(text)
    item.get_by_label("Your answer").press("Enter")
    return item.locator(".bw-feedback").inner_text()


def test_a_right_answer_is_followed_by_the_other_way(chromium: Browser, tmp_path: Path) -> None:
    write_page(tmp_path, load_lesson(tmp_path, ITEMS))
    with visit_site(chromium, tmp_path) as visitor:
        page: Page = visitor.open("page.html")
        item = page.locator("#item-add")
        key = item.get_by_role("button", name="Show the other way")
        assert "other way" not in answer(item, "75")
        assert key.count() == 0
        assert "Now the other way, if you like: 37 + 48." in answer(item, "85")
        # The key comes after the ones that were there, and the focus stays where it was.
        assert item.get_by_label("Your answer").evaluate("field => field === document.activeElement")
        key.focus()
        page.keyboard.press("Enter")
        other = item.locator(".bw-other")
        assert other.locator(".bw-working-title").inner_text() == "Working of 37 + 48"
        assert other.locator("li").first.inner_text().startswith("To set 37, set 3 on the tens")
        # The problem's own working has its place beside it, with the steps that links lead to.
        item.get_by_role("button", name="Show the working").press("Enter")
        assert item.locator(".bw-working").count() == 2
        assert page.locator("#item-add-step-1").count() == 1
        item.get_by_role("button", name="Hide the other way").press("Enter")
        assert other.count() == 0
        # It is gone with the next problem, and nothing of it is kept.
        item.get_by_role("button", name="Another one").press("Enter")
        assert key.count() == 0
        page.wait_for_timeout(150)
        kept = json.loads(page.evaluate("localStorage.getItem('bw-record:test-course')"))
        assert [attempt["right"] for attempt in kept["attempts"]] == [False, True]
        assert "other way" not in answer(page.locator("#item-plain"), "85")
