"""Answers that no slip of the hands gives: one of the numbers, another sign, a wrong remainder."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

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
- {id: over, ask: answer, problem: 500 ÷ 24}
- {id: rest, ask: answer, problem: √150}
- {id: price, ask: set, reads: "12.5"}
- {id: nil, ask: carry-out, problem: 5 - 5}
- {id: back, ask: carry-out, problem: 48 + 37 - 37}
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
    ("over", ["20", ""], "The quotient is right. Something is left over"),
    ("rest", ["12", ""], "The root is right. Something is left over"),
    ("rest", ["12", "99"], "The root is right. What is left over is not"),
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


def read_attempts(page: Page) -> list[dict[str, Any]]:
    page.wait_for_timeout(150)
    kept = page.evaluate("localStorage.getItem('bw-record:test-course')")
    return [] if kept is None else list(json.loads(kept)["attempts"])


def test_a_missing_remainder_is_no_slip(page: Page) -> None:
    fields = page.locator("#item-over .bw-fields input")
    fields.first.fill("20")
    fields.first.press("Enter")
    (kept,) = read_attempts(page)
    assert (kept["right"], kept["slip"], kept["response"]) == (False, None, "20")


def test_beads_below_the_last_place_count(page: Page) -> None:
    item = page.locator("#item-price")
    rods = item.get_by_role("spinbutton")
    names = [rod.get_attribute("aria-label") or "" for rod in rods.all()]
    for name, digit in (("tens", "1"), ("ones", "2"), ("tenths", "5")):
        rods.nth(names.index(name)).focus()
        page.keyboard.press(digit)
    rods.last.focus()
    page.keyboard.press("2")
    item.get_by_role("button", name="Check the frame").press("Enter")
    assert "Your frame reads 12.502." in item.locator(".bw-feedback").inner_text()
    rods.last.focus()
    page.keyboard.press("0")
    item.get_by_role("button", name="Check the frame").press("Enter")
    assert item.locator(".bw-feedback").inner_text() == "Right. The frame reads 12.5."


@pytest.mark.parametrize(("name", "worked"), [("nil", []), ("back", [("tens", "4"), ("ones", "8")])])
def test_a_frame_that_nobody_moved_has_reached_nothing(page: Page, name: str, worked: list[tuple[str, str]]) -> None:
    item = page.locator(f"#item-{name}")
    check = item.get_by_role("button", name="Check this digit")
    for rod, digit in worked:
        item.get_by_role("spinbutton", name=rod, exact=True).focus()
        page.keyboard.press(digit)
        check.press("Enter")
        assert item.locator(".bw-feedback").inner_text().startswith("Right so far.")
    check.press("Enter")
    assert "Nothing has changed since the last check." in item.locator(".bw-feedback").inner_text()
    assert not any(attempt["right"] for attempt in read_attempts(page))
