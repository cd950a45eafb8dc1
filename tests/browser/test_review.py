"""The page of what is due again, in a browser: what was answered days ago is led to, and nothing sooner."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from beadwright.render import load_words, render_part
from tests.support.pages import visit_site
from tests.support.practice_pages import load_lesson, write_page
from tests.support.record_pages import KEY, LESSONS, answer

pytestmark = pytest.mark.browser

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37}
- {id: take, ask: answer, problem: 9 - 4}
- {id: held, ask: read, reads: "52"}
"""

AGE = """([key, days]) => {
  const kept = JSON.parse(localStorage.getItem(key));
  for (const attempt of kept.attempts) attempt.at = new Date(Date.now() + days * 86400000).toISOString();
  localStorage.setItem(key, JSON.stringify(kept));
}"""
"""Moves every answer kept by so many days."""


@pytest.fixture(scope="module")
def review_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a lesson's page with the list of what is due on it."""
    folder = tmp_path_factory.mktemp("review")
    review = render_part("review", words=load_words("en"))
    write_page(folder, load_lesson(folder, ITEMS), extra=f"{LESSONS}{review}")
    return folder


@pytest.fixture
def page(chromium: Browser, review_site: Path) -> Iterator[Page]:
    """The page, with nothing kept yet; fails a test whose page asked for anything outside, or wrote to the console."""
    with visit_site(chromium, review_site) as found:
        yield found.open("page.html")


def test_nothing_is_due_on_the_day_of_the_answer(page: Page) -> None:
    state = page.locator(".bw-review-state")
    assert state.inner_text() == "Nothing is due. Answer some items in a lesson, and they come back here."
    answer(page, "add", "85")
    assert state.inner_text() == "Nothing is due today. The next item comes back in one day."
    assert page.locator("bw-review a").count() == 0


@pytest.mark.parametrize("days", [-2, 400])
def test_an_old_answer_is_due_also_when_the_clock_was_moved_back(page: Page, days: int) -> None:
    answer(page, "add", "75")
    page.evaluate(AGE, [KEY, days])
    page.reload()
    assert page.locator(".bw-review-state").inner_text() == "One item is due."
    assert page.locator("bw-review h2").inner_text() == "Try it"
    link = page.locator("bw-review a")
    assert link.get_attribute("href") == "./page.html#item-add"
    assert link.locator("xpath=..").inner_text() == "Again: 48 + 37 (wrong the last time)"
    # A right answer takes it off the list at once.
    answer(page, "add", "85")
    assert page.locator("bw-review a").count() == 0


def test_what_is_to_be_found_out_is_not_told(page: Page) -> None:
    """The number that a frame shows is the answer; a difference has a minus, which a hyphen is not."""
    answer(page, "held", "7")
    answer(page, "take", "7")
    page.evaluate(AGE, [KEY, -2])
    page.reload()
    assert page.locator("bw-review a").all_inner_texts() == ["Again: read a frame", "Again: 9 − 4"]


def test_without_scripts_it_says_so(chromium: Browser, review_site: Path) -> None:
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((review_site / "page.html").as_uri())
    assert page.locator("bw-review .bw-without-scripts").is_visible()
    assert not page.locator(".bw-review-state").is_visible()
    context.close()
