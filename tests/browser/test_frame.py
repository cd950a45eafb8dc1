"""A frame that a learner works, on a page opened from a folder: by keyboard, by one tap, and by ear."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from beadwright.engine import build_frame
from beadwright.render import load_words, render_worked_frame
from tests.support.axe import find_axe_findings
from tests.support.pages import Visitor, visit_site
from tests.support.parts import write_page

pytestmark = pytest.mark.browser


@pytest.fixture
def visitor(chromium: Browser, tmp_path: Path) -> Iterator[Visitor]:
    words = load_words("en")
    parts = [
        render_worked_frame(build_frame(), words, frame_id="empty", name="Frame for 48 plus 37"),
        render_worked_frame(build_frame().with_number(1305), words, frame_id="set", digits=True),
        render_worked_frame(build_frame("nine-bead"), words, frame_id="nine"),
        render_worked_frame(build_frame(columns=26), words, frame_id="long", shown=26),
    ]
    write_page(tmp_path, parts)
    with visit_site(chromium, tmp_path) as visiting:
        yield visiting


def rods(page: Page, name: str) -> list[str]:
    """What each rod shown says it holds, leftmost first."""
    values = page.locator(f"#{name} [role=spinbutton]").all()
    return [f"{rod.get_attribute('aria-label')} {rod.get_attribute('aria-valuetext')}" for rod in values]


def digits(page: Page, name: str) -> str:
    """The digits of the rods shown, as the beads that are seen set make them."""
    held = page.eval_on_selector_all(
        f"#{name} .bw-column",
        """columns => columns.map((column) => [...column.querySelectorAll('.bw-set')]
             .reduce((sum, bead) => sum + (bead.dataset.bead === 'upper' ? 5 : 1), 0)).join('')""",
    )
    assert held == "".join(
        str(rod.get_attribute("aria-valuenow")) for rod in page.locator(f"#{name} [role=spinbutton]").all()
    )
    return str(held)


def said(page: Page, name: str) -> str:
    """What the frame's live region holds."""
    return page.locator(f"#{name} [role=status]").inner_text()


def focused(page: Page) -> str | None:
    """The name of the rod that has the focus."""
    return page.locator(":focus").get_attribute("aria-label")


def press(page: Page, name: str, key: str) -> None:
    """Press one of the keys beside a rod."""
    page.locator(f"#{name}").get_by_role("button", name=key, exact=True).click()


def listen(page: Page, name: str) -> None:
    """Keep what `bw-change` tells, in `window.told`."""
    page.evaluate(
        "name => { window.told = []; document.getElementById(name).addEventListener('bw-change', "
        "(event) => told.push(event.detail.beads)); }",
        name,
    )


def bead(page: Page, name: str, column: int, kind: str, at: int) -> Any:
    """One bead of a column, counted from the bar."""
    return page.locator(f"#{name} [data-column='{column}'] [data-bead={kind}][data-at='{at}']")


def test_without_scripts_it_is_a_picture_with_its_reading(visitor: Visitor) -> None:
    page = visitor.open("index.html", java_script_enabled=False)
    name = page.locator("#set .bw-worked-columns").get_attribute("aria-label")
    assert name is not None
    assert name.startswith("1,305: thousands 1, hundreds 3, tens 0, ones 5.")
    assert page.locator("#set .bw-worked-columns").get_attribute("role") == "img"
    assert page.locator("#set button:visible, #set [tabindex='0']").count() == 0


def test_the_frame_is_a_named_group_of_spin_buttons(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    group = page.locator("#empty .bw-worked-columns")
    assert (group.get_attribute("role"), group.get_attribute("aria-label")) == ("group", "Frame for 48 plus 37")
    assert rods(page, "empty") == ["tens 0, no bead", "ones 0, no bead"]
    assert rods(page, "set") == [
        "ten thousands 0, no bead",
        "thousands 1, 1 lower bead",
        "hundreds 3, 3 lower beads",
        "tens 0, no bead",
        "ones 5, the upper bead",
    ]
    rod = page.locator("#set [role=spinbutton]").nth(1)
    assert [rod.get_attribute(f"aria-{name}") for name in ("valuemin", "valuemax", "valuenow")] == ["0", "9", "1"]


def test_the_frame_is_worked_by_keyboard(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.keyboard.press("Tab")
    assert focused(page) == "tens"
    for key, wanted in (
        ("4", "40"), ("ArrowUp", "50"), ("ArrowUp", "60"), ("ArrowDown", "50"), ("End", "90"), ("ArrowUp", "90"),
        ("Home", "00"), ("ArrowDown", "00"), ("PageUp", "50"), ("PageUp", "50"), ("2", "20"), ("PageUp", "70"),
        ("PageDown", "20"), ("PageDown", "20"), ("Delete", "00"),
    ):  # fmt: skip
        page.keyboard.press(key)
        assert digits(page, "empty") == wanted, key
    page.keyboard.press("ArrowRight")
    assert focused(page) == "ones"
    page.keyboard.press("8")
    assert rods(page, "empty") == ["tens 0, no bead", "ones 8, the upper bead and 3 lower beads"]
    page.keyboard.press("ArrowRight")
    assert focused(page) == "ones"
    page.keyboard.press("ArrowLeft")
    assert focused(page) == "tens"


def test_the_tab_key_stops_once_at_the_beads_and_comes_back_to_the_rod_worked_last(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Tab")
    assert page.locator(":focus").inner_text() == "Clear the frame"
    page.keyboard.press("Shift+Tab")
    assert focused(page) == "ones"


def test_page_keys_do_nothing_where_there_is_no_upper_bead(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.locator("#nine [role=spinbutton]").first.focus()
    page.keyboard.press("PageUp")
    assert digits(page, "nine") == "00"
    page.keyboard.press("7")
    assert rods(page, "nine") == ["tens 7, 7 beads", "ones 0, no bead"]


def test_keys_with_a_modifier_are_left_to_the_browser(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.keyboard.press("Tab")
    for key in ("Control+5", "Alt+5", "Meta+5"):
        page.keyboard.press(key)
    assert digits(page, "empty") == "00"


def test_a_focused_rod_speaks_for_itself(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.keyboard.press("Tab")
    page.keyboard.press("7")
    assert said(page, "empty") == ""


def test_one_tap_sets_or_clears_up_to_a_bead(visitor: Visitor) -> None:
    page = visitor.open("index.html", has_touch=True)
    for kind, at, wanted in (
        ("lower", 3, "03"), ("lower", 1, "00"), ("lower", 4, "04"), ("lower", 2, "01"), ("upper", 1, "06"),
        ("lower", 4, "09"), ("upper", 1, "04"),
    ):  # fmt: skip
        bead(page, "empty", 1, kind, at).tap()
        assert digits(page, "empty") == wanted, (kind, at)


def test_a_set_bead_is_tapped_where_it_lies(visitor: Visitor) -> None:
    page = visitor.open("index.html", reduced_motion="reduce")
    upper = bead(page, "empty", 1, "upper", 1)
    before, bar = upper.bounding_box(), page.locator("#empty [data-column='1'] .bw-worked-bar").bounding_box()
    upper.click()
    after = upper.bounding_box()
    assert after["y"] > before["y"]
    assert after["y"] + after["height"] == pytest.approx(bar["y"], abs=1)
    lower = bead(page, "empty", 1, "lower", 1)
    lower.click()
    assert lower.bounding_box()["y"] == pytest.approx(bar["y"] + bar["height"], abs=1)


@pytest.mark.parametrize(("context", "least"), [({}, 24), ({"has_touch": True, "is_mobile": True}, 44)])
def test_every_bead_and_key_is_large_enough(visitor: Visitor, context: dict[str, Any], least: int) -> None:
    page = visitor.open("index.html", **context)
    boxes = page.eval_on_selector_all(
        "#set [data-bead], #set button",
        "found => found.map((part) => { const box = part.getBoundingClientRect(); return [box.width, box.height]; })",
    )
    assert len(boxes) == 5 * 5 + 5 * 2 + 2
    assert min(min(box) for box in boxes) >= least - 0.5


def test_keys_beside_a_rod_set_and_clear_one_and_say_so(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    press(page, "set", "hundreds: one more")
    assert (digits(page, "set"), said(page, "set")) == ("01405", "hundreds: 4, 4 lower beads")
    press(page, "set", "ones: one less")
    assert (digits(page, "set"), said(page, "set")) == ("01404", "ones: 4, 4 lower beads")
    assert page.locator("#set .bw-worked-digit").all_inner_texts() == ["0", "1", "4", "0", "4"]


def test_more_columns_come_on_demand_until_there_are_no_more(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    more = page.locator("#empty [data-bw-do=more]")
    more.press("Enter")
    assert rods(page, "empty")[0] == "hundreds 0, no bead"
    assert said(page, "empty") == "hundreds: column shown"
    for _ in range(10):
        more.press("Enter")
    assert (len(rods(page, "empty")), more.get_attribute("aria-disabled")) == (13, "true")
    more.press("Enter")
    assert (len(rods(page, "empty")), said(page, "empty")) == (13, "All columns are shown.")
    assert page.evaluate("document.activeElement.dataset.bwDo") == "more"
    marked = page.eval_on_selector_all("#empty .bw-marked", "found => found.map((part) => part.dataset.column)")
    assert marked == ["12", "9", "6", "3"]


def test_the_frame_is_cleared_and_says_so(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    listen(page, "set")
    clear = page.locator("#set [data-bw-do=clear]")
    clear.press("Enter")
    assert (digits(page, "set"), said(page, "set")) == ("00000", "The frame is at rest.")
    clear.press("Enter")
    assert page.evaluate("told.length") == 1


def test_a_change_is_told_with_all_columns_leftmost_first(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    listen(page, "empty")
    page.keyboard.press("Tab")
    page.keyboard.press("7")
    page.keyboard.press("7")
    assert page.evaluate("told") == [[[0, 0]] * 11 + [[1, 2], [0, 0]]]
    assert page.evaluate("document.getElementById('empty').beads") == [[0, 0]] * 11 + [[1, 2], [0, 0]]


def test_beads_set_by_a_script_are_shown_and_not_told(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    listen(page, "empty")
    beads = [list(held) for held in build_frame().with_number(60_305).beads]
    page.evaluate("beads => { document.getElementById('empty').beads = beads; }", beads)
    assert (digits(page, "empty"), page.evaluate("told")) == ("060305", [])
    assert page.evaluate("document.getElementById('empty').beads") == beads
    wrong = "{ try { document.getElementById('empty').beads = [[0, 0]]; } catch (error) { error.name; } }"
    assert page.evaluate(f"eval({wrong!r})") == "TypeError"
    assert digits(page, "empty") == "060305"


def test_a_frozen_frame_can_be_read_and_not_moved(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.evaluate("document.getElementById('set').frozen = true")
    listen(page, "set")
    page.locator("#set [role=spinbutton]").first.focus()
    for key in ("ArrowRight", "5", "ArrowUp", "Home"):
        page.keyboard.press(key)
    bead(page, "set", 1, "lower", 3).click()
    assert (digits(page, "set"), focused(page), page.evaluate("told")) == ("01305", "ones", [])
    assert page.locator("#set [role=spinbutton][aria-readonly=true]").count() == 5
    page.evaluate("document.getElementById('set').frozen = false")
    bead(page, "set", 1, "lower", 3).click()
    assert digits(page, "set") == "01308"


def test_a_frame_that_is_moved_in_the_page_still_counts_one_a_press(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.evaluate("document.querySelector('main').append(document.getElementById('set'))")
    press(page, "set", "hundreds: one more")
    assert digits(page, "set") == "01405"


def test_at_320_pixels_columns_in_use_fit_and_a_long_frame_scrolls_within_itself(visitor: Visitor) -> None:
    page = visitor.open("index.html", width=320, height=640)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    inner = "name => { const box = document.querySelector(name); return box.scrollWidth - box.clientWidth; }"
    assert page.evaluate(inner, "#set .bw-worked-columns") <= 0
    assert page.evaluate(inner, "#long .bw-worked-columns") > 0
    page.locator("#long [role=spinbutton]").first.focus()
    page.keyboard.press("ArrowRight")
    box = page.locator(":focus").bounding_box()
    assert box is not None
    assert 0 <= box["x"] <= 320 - box["width"]


def test_nothing_slides_where_less_motion_is_asked_for(visitor: Visitor) -> None:
    page = visitor.open("index.html", reduced_motion="reduce")
    duration = "getComputedStyle(document.querySelector('#set .bw-worked-bead')).transitionDuration"
    assert page.evaluate(duration) == "0s"


def test_in_forced_colours_set_and_at_rest_differ_in_shape_and_colour(visitor: Visitor) -> None:
    page = visitor.open("index.html", forced_colors="active")
    fills = page.evaluate(
        "['set', 'rest'].map((kind) => getComputedStyle(document.querySelector(`.bw-shapes .bw-bead-${kind}`)).fill)"
    )
    assert fills[0] != fills[1]
    shapes = page.evaluate(
        "['set', 'rest'].map((kind) => document.querySelector(`.bw-shapes .bw-bead-${kind}`).getAttribute('d'))"
    )
    assert shapes[0] != shapes[1]


@pytest.mark.parametrize("context", [{}, {"scheme": "dark"}, {"width": 320}, {"forced_colors": "active"}])
def test_a_frame_has_no_axe_finding(visitor: Visitor, context: dict[str, Any]) -> None:
    page = visitor.open("index.html", **context)
    assert find_axe_findings(page) == []
    page.locator("#empty [data-bw-do=more]").press("Enter")
    page.evaluate("document.getElementById('set').frozen = true")
    assert find_axe_findings(page) == []
