"""Search from a folder and from a server: found, said, opened."""

import functools
import http.server
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.support.pages import Visitor

pytestmark = pytest.mark.browser

ROOT_PAGE, DEEP_PAGE = "index.html", "modules/partner-of-10.html"


def open_search(page: Page) -> None:
    """Open the dialog; focus then stands in its field."""
    page.get_by_role("button", name="Search").click()
    expect(page.get_by_role("searchbox", name="Words to look for")).to_be_focused()


@pytest.mark.parametrize("path", [ROOT_PAGE, DEEP_PAGE])
def test_a_word_leads_to_its_page(visit_shell: Visitor, path: str) -> None:
    page = visit_shell.open(path)
    open_search(page)
    page.keyboard.type("blindfold felt replacing")
    expect(page.get_by_role("status")).to_have_text("One page found for “blindfold felt replacing”.")
    page.get_by_role("dialog").get_by_role("link", name="Care").click()
    page.wait_for_url("**/modules/frame-and-hands.html#care")
    expect(page.get_by_role("heading", name="The frame and your hands", level=1)).to_be_visible()


def test_a_hit_on_the_open_page_closes_the_dialog(visit_shell: Visitor) -> None:
    page = visit_shell.open(DEEP_PAGE)
    open_search(page)
    page.keyboard.type("column full")
    page.get_by_role("dialog").get_by_role("link", name="A column that is too full").press("Enter")
    expect(page.get_by_role("dialog")).to_have_count(0)
    expect(page.get_by_role("heading", name="A column that is too full")).to_be_in_viewport()


def test_what_is_found_is_said(visit_shell: Visitor) -> None:
    page = visit_shell.open(DEEP_PAGE)
    open_search(page)
    status = page.get_by_role("status")
    expect(status).to_have_count(1)
    expect(status).to_have_text("")
    page.keyboard.type("partner")
    expect(status).to_have_text("3 pages found for “partner”.")
    page.get_by_role("searchbox").fill("zzzz")
    expect(status).to_contain_text("Nothing found for “zzzz”.")
    page.get_by_role("searchbox").fill("")
    expect(status).to_have_text("")
    expect(page.locator("#bw-search-hits li")).to_have_count(0)


def test_text_that_no_key_typed_is_looked_up(visit_shell: Visitor) -> None:
    """Dictation and pasting by mouse fire `input` and no key."""
    page = visit_shell.open(DEEP_PAGE)
    open_search(page)
    page.evaluate(
        """() => {
          const field = document.activeElement;
          field.value = 'felt';
          field.dispatchEvent(new InputEvent('input', {bubbles: true}));
        }"""
    )
    expect(page.get_by_role("status")).to_have_text("One page found for “felt”.")


def test_signs_are_plain_text(visit_shell: Visitor) -> None:
    page = visit_shell.open(DEEP_PAGE)
    open_search(page)
    for typed in ("felt~x", "felt^b", "felt ^x", "no:felt", "felt +", "-felt", '"felt', "felt\\", "*felt"):
        page.get_by_role("searchbox").fill(typed)
        expect(page.get_by_role("status")).to_contain_text(f"found for “{typed}”")
        expect(page.get_by_role("dialog").get_by_role("link", name="Care")).to_have_count(1)
    for typed in ("~", "^^", '" "', "+-", ":", "\\", '"+" ~', "*"):
        page.get_by_role("searchbox").fill(typed)
        expect(page.get_by_role("status")).to_contain_text(f"Nothing found for “{typed}”.")


def test_the_button_looks_up_at_once_and_enter_does_too(visit_shell: Visitor) -> None:
    page = visit_shell.open(DEEP_PAGE)
    open_search(page)
    page.get_by_role("searchbox").fill("felt")
    page.get_by_role("dialog").get_by_role("button", name="Search").click()
    expect(page.get_by_role("status")).to_have_text("One page found for “felt”.")
    page.get_by_role("searchbox").fill("upper")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("“upper”")
    assert page.url.endswith(DEEP_PAGE)


def test_arrows_go_through_the_hits(visit_shell: Visitor) -> None:
    page = visit_shell.open(DEEP_PAGE)
    open_search(page)
    page.keyboard.type("partner")
    expect(page.get_by_role("status")).to_contain_text("3 pages")
    hits = page.get_by_role("dialog").get_by_role("link")
    page.keyboard.press("ArrowDown")
    expect(hits.nth(0)).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(hits.nth(1)).to_be_focused()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    expect(page.get_by_role("searchbox")).to_be_focused()


def test_words_found_are_marked_and_markup_is_not_taken_over(visit_shell: Visitor) -> None:
    page = visit_shell.open(DEEP_PAGE)
    open_search(page)
    page.keyboard.type("angle")
    hits = page.locator("#bw-search-hits")
    expect(hits).to_contain_text("<b>not bold</b>")
    expect(hits.locator("mark").first).to_have_text("angle")
    expect(hits.locator("b, img, script, style")).to_have_count(0)


def test_many_pages_come_in_portions(visit_shell: Visitor) -> None:
    page = visit_shell.open(DEEP_PAGE)
    open_search(page)
    page.keyboard.type("lamp")
    expect(page.get_by_role("status")).to_have_text("12 pages found for “lamp”.")
    expect(page.locator("#bw-search-hits > li")).to_have_count(10)
    page.get_by_role("button", name="Show 2 more pages").press("Enter")
    expect(page.locator("#bw-search-hits > li")).to_have_count(12)
    assert page.evaluate("document.activeElement === document.querySelector('#bw-search-hits > li:nth-child(11) a')")
    expect(page.get_by_role("button", name="more")).to_have_count(0)


def test_nothing_of_the_engine_loads_before_it_is_needed(visit_shell: Visitor) -> None:
    page = visit_shell.open(DEEP_PAGE)
    assert page.evaluate("[window.__index, window.IFrameWorker].every((thing) => thing === undefined)")
    expect(page.locator("iframe")).to_have_count(0)


def test_a_missing_index_is_said(chromium: Browser, shell_site: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    shutil.copytree(shell_site, copy)
    (copy / "search" / "search_index.js").unlink()
    page = chromium.new_page()
    page.goto((copy / DEEP_PAGE).as_uri())
    open_search(page)
    page.keyboard.type("felt")
    expect(page.get_by_role("status")).to_contain_text("Search could not start")
    page.context.close()


class QuietHandler(http.server.SimpleHTTPRequestHandler):
    """Serves a folder and writes no log."""

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002
        """Say nothing."""


@pytest.fixture
def served(shell_site: Path) -> Iterator[str]:
    """The address of the site on a server of this machine."""
    handler = functools.partial(QuietHandler, directory=str(shell_site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()
        thread.join()


def test_search_works_from_a_server_too(chromium: Browser, served: str) -> None:
    page = chromium.new_page()
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("request", lambda request: None if request.url.startswith(served) else complaints.append(request.url))
    page.goto(f"{served}/{DEEP_PAGE}")
    open_search(page)
    page.keyboard.type("felt")
    expect(page.get_by_role("status")).to_have_text("One page found for “felt”.")
    page.context.close()
    assert not complaints
