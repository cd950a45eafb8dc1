"""Drafts that a page finds: of another edition of the course, damaged, absurd. Each item works all the same."""

import json
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.test_items import ITEMS, find, press, read_attempts, say
from tests.support.pages import Visitor, visit_site
from tests.support.practice_pages import load_lesson, write_page

pytestmark = pytest.mark.browser

DRAFTS = "bw-draft:test-course"
WORK = """
for (const key of document.querySelectorAll("bw-item :is([data-bw-do=hint], [data-bw-do=check], [data-bw-do=back])")) {
  if (key.checkVisibility() && key.getAttribute("aria-disabled") !== "true") key.click();
}
"""
"""Works each item a little further, whatever it was left like."""
KINDS = (
    "add", "read", "put", "next", "whole", "slip", "moves", "steps", "one", "several", "hear", "think", "sure", "fade",
    "quick",
)  # fmt: skip


@pytest.fixture(scope="session")
def draft_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a page with an item of each kind."""
    folder = tmp_path_factory.mktemp("drafts")
    write_page(folder, load_lesson(folder, ITEMS))
    return folder


@pytest.fixture
def visitor(chromium: Browser, draft_site: Path) -> Iterator[Visitor]:
    """Opens the page; fails a test whose page asked for anything outside, or wrote to the console."""
    with visit_site(chromium, draft_site) as found:
        yield found


def keep_drafts(page: Page, drafts: dict[str, Any]) -> None:
    """Have the browser keep these drafts, by item; the page is left for one that keeps none itself."""
    kept = {f"try-it/{item}": draft for item, draft in drafts.items()}
    page.evaluate("([key, value]) => localStorage.setItem(key, value)", [DRAFTS, json.dumps(kept)])
    page.reload(timeout=10_000)


def draw_value(chance: Random, depth: int = 3) -> Any:
    """Any value that JSON has, the awkward ones often."""
    texts = ["", "48", "step", "coach", "1", "up", "×" * 5_000, "\ud83d", "</script>", "input]", "__proto__", "NaN"]
    numbers = [0, 1, 2, 3, -1, -6, 0.5, 7, 1e9, 2**53, 1e308, -1e308, 1e-300]
    draws: list[Any] = [None, True, False, chance.choice(texts), chance.choice(numbers)]
    if depth > 0:
        inner = [draw_value(chance, depth - 1) for _ in range(chance.choice([0, 1, 2, 13]))]
        named = {chance.choice(["toString", "valueOf", "length", "0"]): draw_value(chance, depth - 1) for _ in range(2)}
        pairs = [[chance.choice([*numbers, "1", None]), chance.choice(numbers)] for _ in range(13)]
        draws += [inner, named, pairs, [[*chance.sample(pairs, 1)[0], 1]]]
    return chance.choice(draws)


def draw_draft(chance: Random) -> Any:
    """A draft with any of the names that drafts have, and anything under them."""
    names = [
        "entry",
        "hints",
        "problem",
        "typed",
        "own",
        "beads",
        "done",
        "chosen",
        "order",
        "stage",
        "step",
        "slip",
        "words",
        "rated",
        "pause",
    ]
    if chance.random() < 0.05:
        return draw_value(chance)
    draft = {name: draw_value(chance) for name in names if chance.random() < 0.6}
    if chance.random() < 0.5:
        draft["own"] = chance.random() < 0.5
        draft["done"] = chance.choice([0, 1, 2, 3, 4, 5, 1e9])
        draft["hints"] = chance.choice([1, 2, 3, 4, 1e9, 1e308])
    return draft


@pytest.mark.parametrize("seed", range(6))
def test_any_draft_leaves_every_item_working(visitor: Visitor, seed: int) -> None:
    chance = Random(seed)
    page = visitor.open("page.html")
    for _ in range(6):
        drafts = {item: draw_draft(chance) for item in KINDS}
        keep_drafts(page, drafts)
        assert page.locator("bw-item > .bw-item-note").count() == 0, drafts
        assert page.locator("[data-bw-script][hidden]").count() == 0, drafts
        shown = page.locator("bw-frame [role=spinbutton]").evaluate_all("rods => rods.map(rod => rod.ariaValueNow)")
        assert set(shown) <= set("0123456789"), drafts
        page.evaluate(WORK)


def test_a_whole_problem_that_has_become_shorter_is_begun_anew(chromium: Browser, tmp_path: Path) -> None:
    def build(problem: str, edition: str) -> None:
        items = f"- {{id: out, ask: carry-out, problem: {problem}}}"
        write_page(tmp_path, load_lesson(tmp_path / edition, items))

    build("48 + 37", "autumn")
    with visit_site(chromium, tmp_path) as visitor:
        page = visitor.open("page.html")
        item = find(page, "out")
        item.get_by_label("own frame").check()
        for typed in ("40", "48"):
            item.locator("input[name=answer]").fill(typed)
            press(page, item, "Check this digit")
            assert say(item) == "Right so far."
        item.locator("[data-bw-do=hint]").click()
        page.wait_for_timeout(600)
        build("8 + 7", "winter")
        page.reload(timeout=10_000)
        assert item.locator(".bw-item-digits").inner_text().startswith("2 digits to work")
        assert item.locator("input[name=answer]").input_value() == ""
        assert item.locator(".bw-hint").count() == 0
        item.get_by_label("own frame").check()
        for typed in ("8", "15"):
            item.locator("input[name=answer]").fill(typed)
            press(page, item, "Check this digit")
        assert say(item) == "Right to the end. 8 + 7 gives 15."


def test_a_draft_follows_its_problem_in_another_order_of_the_pool(visitor: Visitor) -> None:
    page = visitor.open("page.html")
    item = find(page, "add")
    shown = item.locator(".bw-prompt .bw-problem")
    press(page, item, "Another one")
    press(page, item, "Another one")
    problem = shown.inner_text()
    item.get_by_label("Your answer").fill("12")
    page.wait_for_timeout(600)
    draft = json.loads(page.evaluate(f"localStorage.getItem('{DRAFTS}')"))["try-it/add"]
    keep_drafts(page, {"add": {**draft, "entry": 1}})
    assert shown.inner_text() == problem
    assert item.get_by_label("Your answer").input_value() == "12"
    keep_drafts(page, {"add": {**draft, "problem": "1 + 1"}})
    assert shown.inner_text() == "48 + 37"
    assert item.get_by_label("Your answer").input_value() == ""


@pytest.mark.parametrize("step", [-5, 0.5, 1e9, "2"])
def test_a_place_at_a_step_that_cannot_be_is_no_place(visitor: Visitor, step: Any) -> None:
    page = visitor.open("page.html")
    item = find(page, "add")
    item.get_by_label("Your answer").fill("75")
    press(page, item, "Check")
    read_attempts(page)
    key = "bw-record:test-course"
    record = json.loads(page.evaluate(f"localStorage.getItem('{key}')"))
    record["place"] = {"lesson": "try-it", "item": "whole", "at": "item-whole", "problem": "48 + 37", "step": step}
    page.evaluate("([key, value]) => localStorage.setItem(key, value)", [key, json.dumps(record)])
    page.reload(timeout=10_000)
    assert find(page, "whole").locator(".bw-item-digits").inner_text().startswith("4 digits to work")
