"""Each kind of page of the course that ships, and each state it can be in, as a checker or an eye wants to see it."""

import json
from collections.abc import Callable
from dataclasses import dataclass

from playwright.sync_api import Page, expect

from tests.support.pages import Visitor, await_whole

SCHEMES = ("light", "dark", "contrast")
WIDTHS = (1280, 768, 320)
LESSON = "modules/what-you-know-already.html"
"""A lesson with items of many kinds that is quickly checked."""

# Answers everything that can be answered by typing or choosing: as the data of the item says, or otherwise.
_ANSWER = """right => {
  for (const item of document.querySelectorAll('bw-item')) {
    const check = item.querySelector('[data-bw-do=check]');
    const data = JSON.parse(item.querySelector('script.practice-data').textContent);
    const key = data.pool?.[0]?.key?.text;
    const own = item.querySelector('input[name=own]');
    if (own) own.click();
    const typed = item.querySelector('input[inputmode]');
    if (typed && key) typed.value = right ? key : '1';
    const choice = item.querySelector('fieldset:not([hidden]) input');
    if (choice) choice.click();
    if (check && (choice || (typed && typed.value))) check.click();
  }
  return [...document.querySelectorAll('.bw-feedback')].filter((box) => box.textContent.trim()).length;
}"""
_OPEN = """() => {
  const doers = ['hint', 'hint', 'hint', 'frame', 'working'];
  const keys = doers.flatMap((name) => [...document.querySelectorAll(`[data-bw-do=${name}]`)]);
  keys.forEach((key) => key.click());
  document.querySelectorAll('main details').forEach((fold) => (fold.open = true));
  return keys.length;
}"""


_AGE = """() => {
  const key = `bw-record:${document.documentElement.dataset.bwCourse}`;
  const kept = JSON.parse(localStorage.getItem(key));
  for (const attempt of kept.attempts) attempt.at = new Date(Date.now() - 3 * 86400000).toISOString();
  localStorage.setItem(key, JSON.stringify(kept));
}"""


def _answer(page: Page, right: bool) -> None:
    assert page.evaluate(_ANSWER, right) >= 5, "hardly an item could be answered"


def _open_all(page: Page) -> None:
    assert page.evaluate(_OPEN) >= 5, "hardly anything could be opened"


def _search(page: Page) -> None:
    page.get_by_role("button", name="Search").first.click()
    page.get_by_role("searchbox").fill("frame")
    expect(page.locator("#bw-search-status")).to_contain_text("found")


def _show_display(page: Page) -> None:
    page.get_by_role("button", name="Display").click()


def _open_menu(page: Page) -> None:
    button = page.get_by_role("button", name="Menu")
    if button.is_visible():  # a wide page shows the menu beside the text all the time
        button.click()
    expect(page.locator("#bw-nav")).to_be_visible()


def _keep_record(page: Page) -> None:
    """A record with something in it, made by answering on another page."""
    address = page.url
    page.goto(address.replace("record.html", LESSON))
    _answer(page, True)
    page.wait_for_timeout(300)
    page.goto(address)
    expect(page.locator("[data-bw-empty]")).to_be_hidden()


def _come_due(page: Page) -> None:
    """A record whose answers lie three days back, so that some are due."""
    address = page.url
    page.goto(address.replace("review.html", LESSON))
    _answer(page, False)
    page.wait_for_timeout(300)
    page.evaluate(_AGE)
    page.goto(address)
    expect(page.locator("bw-review a").first).to_be_visible()


def _leave(page: Page) -> None:
    """Nothing done yet."""


@dataclass(frozen=True, slots=True)
class State:
    """One kind of page in one state: its path, how it comes there, and the width it is checked at in every run."""

    name: str
    path: str
    bring: Callable[[Page], None] = _leave
    width: int = 1280
    scheme: str = "light"

    def open(self, visitor: Visitor, *, scheme: str | None = None, width: int | None = None) -> Page:
        """The page in this state, with the scheme chosen before it is drawn."""
        page = visitor.open("about/take-care.html", width=width or self.width)
        course = page.evaluate("document.documentElement.dataset.bwCourse")
        kept = json.dumps({"scheme": scheme or self.scheme})
        page.evaluate("([key, kept]) => localStorage.setItem(key, kept)", [f"bw-display:{course}", kept])
        page.goto((visitor.site / self.path).as_uri())
        await_whole(page)
        assert page.evaluate("document.documentElement.dataset.bwScheme") == (scheme or self.scheme)
        self.bring(page)
        return page


STATES = (
    State("home", "index.html"),
    State("home-menu", "index.html", _open_menu, width=320, scheme="dark"),
    State("lesson", LESSON, width=320),
    State("lesson-wrong", LESSON, lambda page: _answer(page, False), scheme="contrast"),
    State("lesson-right", LESSON, lambda page: _answer(page, True), scheme="dark"),
    State("lesson-opened", LESSON, _open_all, width=768),
    State("record-empty", "record.html", width=320, scheme="contrast"),
    State("record", "record.html", _keep_record),
    State("review-empty", "review.html", scheme="dark"),
    State("review-due", "review.html", _come_due, width=320),
    State("glossary", "glossary.html", width=768, scheme="dark"),
    State("text", "about/help.html", scheme="contrast"),
    State("search", "index.html", _search, width=320),
    State("display", "index.html", _show_display, scheme="dark"),
)
