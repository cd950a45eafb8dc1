"""Fifteen minutes at a time: what is left of a lesson, places to stop, and the way back to where one was."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from beadwright.engine import build_frame, parse_problem, work_problem
from beadwright.render import load_words, render_part, render_walkthrough
from tests.support.pages import Visitor, await_whole, visit_site, wait_until
from tests.support.record_pages import KEY, answer, load, read_kept, write_record_page

pytestmark = pytest.mark.browser

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37}
- {id: work, ask: carry-out, problem: 48 + 37}
- {id: slip, ask: find-slip, problem: 67 + 38, slip: exchange-dropped}
- {id: take, ask: answer, problem: 9 - 4}
"""
LEARNER = "[...document.querySelectorAll('#item-work bw-frame')][0]"


def write_parts() -> str:
    """Two parts: one with a worked example, one that the items of the page stand in."""
    words = load_words("en")
    example = render_walkthrough(work_problem(parse_problem("48 + 37"), build_frame()), words, walkthrough_id="w1")
    stop = render_part("lesson-stop", words=words, next="part-2", title="Alone", minutes=20, left=30)
    return (
        '<p class="bw-minutes" data-bw-minutes="45">About 45 minutes.</p>'
        '<p class="bw-left" data-bw-left></p>'
        '<p class="bw-resume" data-bw-resume></p>'
        '<h2 id="part-1" class="bw-part" data-bw-minutes="15">Shown</h2><p class="bw-minutes">About 15 minutes.</p>'
        f'{example}{stop}<h2 id="part-2" class="bw-part" data-bw-minutes="20">Alone</h2>'
        '<p class="bw-minutes">About 20 minutes.</p>'
    )


@pytest.fixture(scope="module")
def place_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a lesson's page with parts, and of a page that leads on."""
    folder = tmp_path_factory.mktemp("place")
    write_record_page(folder, ITEMS, write_parts())
    return folder


@pytest.fixture
def visitor(chromium: Browser, place_site: Path) -> Iterator[Visitor]:
    """Opens the page; fails a test whose page asked for anything outside, or wrote to the console."""
    with visit_site(chromium, place_site) as found:
        yield found


def read_place(page: Page) -> dict[str, Any]:
    """Where the record says that one is."""
    return dict(read_kept(page).get("place") or {})


def wait_for_place(page: Page, at: str, step: int | None) -> None:
    """Wait until the record has this place."""
    wanted = f"(place => place?.at === {json.dumps(at)} && place?.step === {json.dumps(step)})"
    wait_until(page, f"{wanted}(JSON.parse(localStorage.getItem('{KEY}') || '{{}}').place)")


def go_on(page: Page) -> None:
    """Open the page anew and follow the link of the start page."""
    page.goto(page.url.partition("#")[0])
    await_whole(page)
    link = page.locator("bw-begin a")
    assert link.inner_text() == "Go on where you stopped: Try it"
    link.press("Enter")


def wait_for_focus(page: Page, selector: str) -> None:
    """Wait until the focus is on what the selector finds."""
    wait_until(page, f"document.activeElement?.matches({json.dumps(selector)})")


def left(page: Page) -> list[str]:
    """What is said to be left: of the lesson, of the first part, at its end, of the second part."""
    return [text.strip() for text in page.locator(".bw-left, [data-bw-left]").all_inner_texts()]


def test_what_is_left_follows_the_answers(visitor: Visitor) -> None:
    page = visitor.open("page.html")
    stop = page.locator("bw-stop")
    assert "From here about 30 minutes of the lesson are left. Next: Alone, about 20 minutes." in stop.inner_text()
    assert left(page)[0] == ""
    answer(page, "add", "85")
    wait_until(page, "document.querySelector('[data-bw-left]').textContent !== ''")
    # The first part has no items and lies behind; one of four items of the second is done: 15 of its 20 minutes, and
    # the 10 that belong to no part.
    whole = "About 25 minutes of this lesson are left for you."
    assert left(page) == [whole, "You have been through it.", whole, "About 15 minutes of it are left for you."]
    assert page.locator("#part-2 + .bw-minutes + .bw-left").is_visible()


def test_a_good_place_to_stop_is_kept_and_led_back_to(visitor: Visitor) -> None:
    page = visitor.open("page.html")
    page.locator("bw-stop button").press("Enter")
    told = page.locator("bw-stop [role=status]")
    assert told.inner_text() == "Kept. The start page and this lesson lead you back to “Alone”."
    go_on(page)
    wait_for_focus(page, "#part-2")
    page.goto(page.url.partition("#")[0])
    await_whole(page)
    back = page.locator("[data-bw-resume] a")
    assert back.inner_text() == "Go on where you stopped, in “Alone”"
    back.press("Enter")
    wait_for_focus(page, "#part-2")


def test_one_goes_on_at_the_step_of_a_worked_example(visitor: Visitor) -> None:
    page = visitor.open("page.html")
    page.locator("#w1 [data-bw-go=next]").press("Enter")
    page.locator("#w1 [data-bw-go=next]").press("Enter")
    wait_for_place(page, "w1-step-3", 3)
    go_on(page)
    wait_for_focus(page, "#w1-step-3")
    assert page.locator("#w1-step-3").is_visible()
    assert page.locator("#w1 .bw-stepper-place").inner_text() == "Step 3 of 4"


def test_one_goes_on_at_the_digit_of_a_whole_problem(visitor: Visitor) -> None:
    page = visitor.open("page.html")
    page.evaluate(f"{LEARNER}.beads = {LEARNER}.beads.map((b, i, all) => (i === all.length - 2 ? [0, 4] : b))")
    page.locator("#item-work [data-bw-do=check]").press("Enter")
    assert "3 digits are left" in page.locator("#item-work .bw-item-digits").inner_text()
    wait_for_place(page, "item-work", 2)
    go_on(page)
    wait_for_focus(page, "#item-work [role=spinbutton]")
    assert "3 digits are left" in page.locator("#item-work .bw-item-digits").inner_text()
    # On another device nothing of the item is kept but the place in the record.
    other = visitor.open("page.html")
    load(other, read_kept(page))
    go_on(other)
    assert "3 digits are left" in other.locator("#item-work .bw-item-digits").inner_text()
    assert other.evaluate(f"{LEARNER}.beads.at(-2)") == [0, 4]


def test_one_goes_on_at_the_question_about_a_slip(visitor: Visitor) -> None:
    page = visitor.open("page.html")
    item = page.locator("#item-slip")
    key = json.loads(item.locator("script.practice-data").text_content() or "")["pool"][0]["key"]
    item.locator(f"[data-bw-stage=step] input[value='{key['step']}']").check()
    item.locator("[data-bw-do=check]").press("Enter")
    wait_for_place(page, "item-slip", 2)
    go_on(page)
    wait_for_focus(page, "#item-slip [data-bw-stage=slip] input")


def test_typing_without_checking_is_a_place_too(visitor: Visitor) -> None:
    page = visitor.open("page.html")
    page.locator("#item-take input[name=answer]").fill("4")
    wait_for_place(page, "item-take", None)
    go_on(page)
    wait_for_focus(page, "#item-take input[name=answer]")
    assert page.locator("#item-take input[name=answer]").input_value() == "4"


def test_a_refused_store_is_said_where_one_stops(visitor: Visitor, place_site: Path) -> None:
    page = visitor.open("page.html")
    refuse = "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no', 'SecurityError'); }})"
    page.context.add_init_script(refuse)
    page.reload()
    page.locator("bw-stop button").press("Enter")
    told = page.locator("bw-stop [role=status]")
    assert told.inner_text() == "This browser keeps nothing. Note the part to go on with: “Alone”."


def test_without_scripts_and_on_paper(visitor: Visitor) -> None:
    page = visitor.open("page.html", java_script_enabled=False)
    assert "Next: Alone, about 20 minutes." in page.locator("bw-stop").inner_text()
    assert page.locator("bw-stop button").count() == 0
    page.emulate_media(media="print")
    assert not page.locator("bw-stop").is_visible()


@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing(visitor: Visitor, assert_no_axe_findings: Any, width: int) -> None:
    page = visitor.open("page.html", width=width)
    page.locator("bw-stop button").press("Enter")
    answer(page, "add", "85")
    page.reload()
    assert_no_axe_findings(page, within="main")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_each_lesson_of_the_course_has_places_to_stop(visit: Visitor) -> None:
    page = visit.open("modules/what-you-know-already.html")
    parts, stops = page.locator("h2.bw-part"), page.locator("bw-stop")
    assert stops.count() == parts.count() - 1 > 0
    for number in range(stops.count()):
        assert stops.nth(number).get_attribute("data-next") == parts.nth(number + 1).get_attribute("id")
    assert page.locator("h2.bw-part[data-bw-minutes]").count() == parts.count()
