"""Lessons with items: nothing is lost when text or page is enlarged, and a long frame stays readable within itself."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from beadwright.engine import build_frame
from beadwright.render import load_words, render_figure
from tests.browser.test_shell_looks import SPACING, assert_nothing_is_lost
from tests.support.pages import Visitor, visit_site, wait_until
from tests.support.parts import write_page
from tests.support.states import LESSON

pytestmark = pytest.mark.browser


def answer_one(page: Page) -> None:
    """An answer with all that is then told, hints and working open."""
    page.locator("bw-item input[inputmode]").first.fill("1")
    page.locator("bw-item input[inputmode]").first.press("Enter")
    for task in ("hint", "hint", "working", "frame"):
        for key in page.locator(f"bw-item [data-bw-do={task}]").all()[:3]:
            key.click()


@pytest.mark.parametrize("figures", ["normal", "large"])
@pytest.mark.parametrize(("width", "height"), [(320, 256), (768, 900), (1280, 900)])
def test_nothing_is_lost_in_a_lesson(visit: Visitor, width: int, height: int, figures: str) -> None:
    page = visit.open(LESSON, width=width, height=height)
    page.evaluate("figures => { document.documentElement.dataset.bwFigures = figures; }", figures)
    answer_one(page)
    assert_nothing_is_lost(page)


@pytest.mark.parametrize("width", [320, 1280])
def test_nothing_is_lost_in_a_lesson_with_text_spacing_and_text_twice_as_large(visit: Visitor, width: int) -> None:
    page = visit.open(LESSON, width=width)
    answer_one(page)
    page.add_style_tag(content=SPACING)
    assert_nothing_is_lost(page)
    page.evaluate("Object.assign(document.documentElement.dataset, {bwSize: '200', bwSpacing: 'wide'})")
    assert_nothing_is_lost(page)


@pytest.fixture
def long_frame(chromium: Browser, tmp_path: Path) -> Iterator[Visitor]:
    """A figure of all columns of a frame of 26."""
    frame = build_frame(columns=26).with_number(60_528_371_946_052_837)
    figure = render_figure(frame, load_words("en"), figure_id="long", columns=(26, 1))
    write_page(tmp_path, [figure])
    page = tmp_path / "index.html"
    text = page.read_text(encoding="utf-8").replace("</body>", '<script src="bw/js/figures.js" defer></script></body>')
    page.write_text(text, encoding="utf-8")
    with visit_site(chromium, tmp_path) as visitor:
        yield visitor


def test_a_long_frame_scrolls_within_itself_three_columns_a_key(long_frame: Visitor) -> None:
    page = long_frame.open("index.html", width=320, height=640)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    figure = page.get_by_role("group", name="Wide figure, scrolls sideways; left and right keys go three columns")
    figure.focus()
    drawn = page.locator("#long > svg").bounding_box()
    assert drawn is not None
    assert drawn["width"] / 26 >= 20
    page.keyboard.press("ArrowRight")
    wait_until(page, "document.activeElement.scrollLeft > 0")
    page.wait_for_timeout(300)
    moved = page.evaluate("document.activeElement.scrollLeft")
    assert abs(moved - 3 * drawn["width"] / 26) < drawn["width"] / 26
    page.set_viewport_size({"width": 1600, "height": 640})
    page.wait_for_timeout(200)
    assert page.locator("#long[tabindex]").count() == 0


def test_figures_are_twice_as_large_when_asked_for(visit: Visitor) -> None:
    page = visit.open("modules/set-read-clear.html", width=320, height=640)
    picture = page.locator(".bw-figure > svg").first
    before = picture.bounding_box()
    page.get_by_role("button", name="Display").click()
    page.get_by_role("group", name="Figures of frames").get_by_role("radio", name="Twice as large").check()
    page.keyboard.press("Escape")
    after = picture.bounding_box()
    assert before is not None
    assert after is not None
    assert after["width"] >= 1.9 * before["width"]
    page.reload()
    kept = picture.bounding_box()
    assert kept is not None
    assert kept["width"] == after["width"]
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
