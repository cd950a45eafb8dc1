"""A lesson that arrives in pieces: what is there first, who has it whole at once, and that nothing is missing after."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

pytestmark = pytest.mark.browser

SEEN = """() => [...document.querySelectorAll("h2.bw-part, bw-item, .bw-walkthrough, .bw-turn, .bw-footer")]
    .map((part) => part.checkVisibility())"""
# Nothing that waits for time goes on until it is told to.
STAND_STILL = """
    const waiting = [];
    window.setTimeout = (task) => waiting.push(task);
    window.goOn = async () => {
        for (let moment = 0; moment < 1000; moment += 1) {
            await new Promise((resolve) => requestAnimationFrame(resolve));
            if (waiting.length === 0) return;
            waiting.splice(0).forEach((task) => task());
        }
        throw new Error("it comes to no end");
    };
"""
GO_ON = "() => goOn()"
WHOLE = "bw-item:has([data-bw-do=check]:not([hidden]))"


@pytest.fixture
def lesson(chromium: Browser, built_site: Path) -> Iterator[tuple[Page, str]]:
    """A page where nothing more comes until it is told to, and a lesson's address."""
    page = chromium.new_context().new_page()
    page.add_init_script(STAND_STILL)
    yield page, (built_site / "modules" / "partner-of-5.html").as_uri()
    page.context.close()


def test_the_first_part_is_there_first_and_all_in_the_end(lesson: tuple[Page, str]) -> None:
    page, address = lesson
    page.goto(address)
    expect(page.locator("h2.bw-part").first).to_be_visible()
    expect(page.locator("h2.bw-part").nth(1)).to_be_hidden()
    expect(page.locator("bw-item").first).to_be_hidden()
    assert page.evaluate(SEEN).count(False) > 40
    page.evaluate(GO_ON)
    assert all(page.evaluate(SEEN))
    assert page.locator(".bw-coming").count() == 0
    assert page.locator("html.bw-arriving").count() == 0


def test_what_has_come_is_what_stands_there_without_pieces(lesson: tuple[Page, str]) -> None:
    page, address = lesson
    page.goto(address)
    page.evaluate(GO_ON)
    come = page.locator("main").aria_snapshot()
    page.goto("about:blank")
    page.goto(f"{address}#bw-main")
    assert page.locator(".bw-coming").count() == 0
    assert page.locator("main").aria_snapshot() == come


@pytest.mark.parametrize("key", ["Tab", "End"])
def test_whoever_presses_a_key_has_the_whole_page(lesson: tuple[Page, str], key: str) -> None:
    page, address = lesson
    page.goto(address)
    page.keyboard.press(key)
    assert all(page.evaluate(SEEN))
    assert page.locator(WHOLE).count() > 20  # items are awake, not only seen


def test_a_link_to_what_has_yet_to_come_is_followed(lesson: tuple[Page, str]) -> None:
    page, address = lesson
    page.goto(address)
    page.evaluate("document.querySelector('.bw-prose').insertAdjacentHTML('afterbegin', '<a href=#part-5>On</a>')")
    page.get_by_role("link", name="On", exact=True).click()
    expect(page.locator("#part-5")).to_be_in_viewport()


def test_a_page_opened_at_one_of_its_parts_or_anew_is_whole_at_once(lesson: tuple[Page, str]) -> None:
    page, address = lesson
    page.goto(f"{address}#part-3")
    assert all(page.evaluate(SEEN))
    page.goto("about:blank")
    page.goto(address)
    assert not all(page.evaluate(SEEN))
    page.reload()
    assert all(page.evaluate(SEEN))


def test_where_the_scripts_fail_all_of_it_is_seen_in_a_while(lesson: tuple[Page, str]) -> None:
    page, address = lesson
    page.route("**/all.js", lambda route: route.abort())
    page.goto(address)
    page.evaluate(GO_ON)
    assert all(page.evaluate(SEEN))


def test_on_paper_all_of_it_stands_from_the_beginning(lesson: tuple[Page, str]) -> None:
    page, address = lesson
    page.goto(address)
    expect(page.locator("#part-1")).to_be_visible()
    assert not page.locator("#item-add-42-23").is_visible()
    page.emulate_media(media="print")
    assert page.locator("#item-add-42-23").is_visible()
