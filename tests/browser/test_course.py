"""The course that ships, gone through as a learner does: from a folder, by keyboard alone, offline."""

import json
import re
from collections.abc import Callable

import pytest
import yaml
from playwright.sync_api import Page, expect

from tests.support import ROOT
from tests.support.pages import Visitor, await_whole, wait_until

pytestmark = pytest.mark.browser

LESSON = "modules/partner-of-10.html"
ITEM = "#item-add-46-9"
"""46 + 9: the exchange dropped in the ones gives 45."""

RECORDS = "Object.entries(localStorage).filter(([key]) => key.startsWith('bw-record:'))"
"""What the browser keeps of records: keys and texts."""


def tab_to(page: Page, selector: str, *, most: int = 400) -> None:
    """Press Tab until the focus is inside what the selector names."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("s => document.activeElement.matches(s)", selector):
            return
    raise AssertionError(f"{most} presses of Tab do not reach {selector}")


def read_record(page: Page) -> dict[str, object]:
    """The one record that the browser keeps."""
    found = page.evaluate(RECORDS)
    assert len(found) == 1
    record: dict[str, object] = json.loads(found[0][1])
    return record


def test_a_lesson_is_reached_and_worked_by_keyboard_alone(visit: Visitor) -> None:
    page = visit.open("index.html")
    page.keyboard.press("Tab")
    expect(page.locator(":focus")).to_have_text("Skip to the text")
    page.keyboard.press("Enter")
    tab_to(page, "main a[href$='partner-of-10.html']")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**/{LESSON}")

    tab_to(page, f"{ITEM} input")
    page.keyboard.type("45")
    page.keyboard.press("Enter")
    feedback = page.locator(f"{ITEM} .bw-feedback")
    expect(feedback).to_contain_text("45 is not the answer")
    expect(feedback).to_contain_text("tens")  # the slip is named with the column it happened in
    assert page.evaluate("s => document.activeElement.matches(s)", f"{ITEM} input")

    page.keyboard.press("Control+A")
    page.keyboard.type("55")
    page.keyboard.press("Enter")
    expect(feedback).to_contain_text("55")
    expect(feedback).not_to_contain_text("not the answer")

    # An answer is kept just after its feedback is painted.
    wait_until(page, f"{RECORDS}.some(([, kept]) => JSON.parse(kept).attempts.length === 2)")
    attempts = read_record(page)["attempts"]
    assert isinstance(attempts, list)
    assert [(a["problem"], a["key"], a["response"], a["right"]) for a in attempts] == [
        ("46 + 9", "55", "45", False),
        ("46 + 9", "55", "55", True),
    ]
    assert attempts[0]["slip"] == "exchange-dropped"
    assert attempts[0]["lesson"] == "partner-of-10"


def test_what_was_done_is_there_on_other_pages_and_after_coming_back(visit: Visitor) -> None:
    page = visit.open(LESSON)
    page.locator(f"{ITEM} input").first.fill("55")
    page.locator(f"{ITEM} input").first.press("Enter")
    expect(page.locator(f"{ITEM} .bw-feedback")).not_to_be_empty()
    page.goto((visit.site / "index.html").as_uri())
    expect(page.locator("main a[href$='partner-of-10.html']").first.locator("xpath=..")).to_contain_text("begun")
    expect(page.locator("bw-begin a")).to_have_attribute("href", re.compile("partner-of-10"))
    page.goto((visit.site / "record.html").as_uri())
    expect(page.locator("main")).to_contain_text("Partner of 10")


def test_storage_refused_is_said_and_practice_goes_on(visit: Visitor) -> None:
    page = visit.open("index.html")
    page.context.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });"
    )
    page.goto((visit.site / LESSON).as_uri())
    page.locator(f"{ITEM} input").first.fill("45")
    page.locator(f"{ITEM} input").first.press("Enter")
    expect(page.locator(f"{ITEM} .bw-feedback")).to_contain_text("45 is not the answer")
    expect(page.locator("main")).to_contain_text("does not let pages keep anything")


def test_without_scripts_each_item_has_its_problem_and_its_answer(visit: Visitor) -> None:
    page = visit.open(LESSON, java_script_enabled=False)
    item = page.locator(ITEM)
    expect(item.locator(".bw-prompt")).to_contain_text("46 + 9")
    fold = item.locator("details.bw-fold")
    expect(fold.locator(".bw-fold-answer")).not_to_be_visible()
    fold.locator("summary").click()
    expect(fold.locator(".bw-fold-answer")).to_contain_text("55")
    expect(item.locator("button").first).not_to_be_visible()


def test_paper_has_the_problems_without_the_answers(visit: Visitor) -> None:
    page = visit.open(LESSON)
    page.emulate_media(media="print")
    expect(page.locator(f"{ITEM} .bw-prompt")).to_be_visible()
    for hidden in (f"{ITEM} button", ".bw-tools", "#bw-nav", f"{ITEM} details"):
        for found in page.locator(hidden).all():
            assert not found.is_visible(), hidden


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_page_has_a_finding(visit: Visitor, assert_no_axe_findings: Callable[..., None], scheme: str) -> None:
    pages = sorted(path.relative_to(visit.site) for path in visit.site.rglob("*.html") if path.name != "404.html")
    assert len(pages) > 12
    page = visit.open("index.html", scheme=scheme)
    for path in pages:
        page.goto((visit.site / path).as_uri())
        await_whole(page)
        assert_no_axe_findings(page)


@pytest.mark.parametrize("width", [320, 768])
def test_no_page_is_wider_than_the_window(visit: Visitor, width: int) -> None:
    page = visit.open("index.html", width=width)
    for path in sorted(visit.site.rglob("*.html")):
        page.goto(path.as_uri())
        await_whole(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path.name


def test_a_path_is_taken_and_led_along(visit: Visitor) -> None:
    page = visit.open("index.html")
    path = page.get_by_role("region", name="Parent")
    lessons = path.get_by_role("list").get_by_role("link")
    assert lessons.count() > 2
    tab_to(page, "bw-path[data-path=parent] button")
    page.keyboard.press("Enter")
    expect(path.get_by_role("status")).to_have_text(
        "This is your path. The start page and the end of each lesson lead you along it."
    )
    expect(page.locator(":focus")).to_have_text("Leave the path “Parent”")
    for number in range(lessons.count()):
        title = lessons.nth(number).inner_text()
        begin = page.locator("bw-begin a")
        assert title in begin.inner_text()
        begin.press("Enter")
        page.get_by_role("button", name="I have finished this lesson").press("Enter")
        if number + 1 < lessons.count():
            expect(page.locator("bw-finish a")).to_be_visible()
        page.goto((visit.site / "index.html").as_uri())
        told = f"{number + 1} of {lessons.count()} lessons of your path finished."
        expect(page.locator(".bw-begin-state")).to_have_text(told)
    expect(page.locator("bw-begin a")).to_have_text("All lessons are finished: hand in your record")
    expect(page.locator("bw-begin a")).to_have_attribute("href", "record.html")
    path.get_by_role("button").press("Enter")
    expect(path.get_by_role("button")).to_have_text("Take the path “Parent”")
    expect(page.locator("bw-begin a")).to_have_text("Go on: What do you know already?")


def test_the_end_of_a_lesson_leads_along_the_path(visit: Visitor) -> None:
    page = visit.open("index.html")
    page.locator("bw-path[data-path=paraprofessional] button").press("Enter")
    page.goto((visit.site / LESSON).as_uri())
    page.get_by_role("button", name="I have finished this lesson").press("Enter")
    course = yaml.safe_load((ROOT / "content" / "course.yml").read_text(encoding="utf-8"))
    lessons = next(path["lessons"] for path in course["paths"] if path["id"] == "paraprofessional")
    after = lessons[lessons.index("partner-of-10") + 1]
    title = page.locator(f".bw-nav a[data-bw-lesson={after}] .bw-nav-name").text_content()
    expect(page.locator("bw-finish a")).to_have_text(f"Go on: {title}")
    assert page.locator("bw-finish button").evaluate("button => button === document.activeElement")


def test_the_round_of_the_course_is_reached_and_worked(visit: Visitor) -> None:
    page = visit.open("contest/small-round.html")
    page.get_by_role("link", name="The same round to work alone").press("Enter")
    page.wait_for_url("**/rounds/friendly-round.html")
    box = page.locator("#round-first-box")
    keys = box.locator(".round-data").evaluate("data => JSON.parse(data.textContent).sets[0].map(e => e.key.text)")
    box.get_by_role("button", name="Start").press("Enter")
    for key in keys:
        page.keyboard.type(key)
        page.keyboard.press("Enter")
    expect(box).to_contain_text(f"{len(keys)} of {len(keys)}")


def test_a_missed_item_of_a_mix_leads_to_the_lesson_that_teaches_it(visit: Visitor) -> None:
    """Each of the four problems comes from another lesson; the page's own items lead nowhere else."""
    page = visit.open("modules/several-columns.html")
    items = page.locator("bw-item[id^=item-mixed-up-]")
    expect(items).to_have_count(4)
    titles = set()
    for number in range(4):
        item = items.nth(number)
        item.locator("input[name=answer]").fill("1")
        item.locator("input[name=answer]").press("Enter")
        link = item.locator(".bw-feedback a[href$='.html']")
        title = re.fullmatch("This is taught in the lesson “(.+)”", link.inner_text())
        assert title is not None
        titles.add(title[1])
    assert titles == {
        "Direct: when enough beads are at rest",
        "Partner of 5",
        "Partner of 10: exchanges that reach the left",
        "Both partners",
    }
    own = page.locator("bw-item[data-bw-ask=answer]:not([id^=item-mixed-up-])").first
    own.locator("input[name=answer]").fill("1")
    own.locator("input[name=answer]").press("Enter")
    expect(own.locator(".bw-feedback")).not_to_be_empty()
    expect(own.locator(".bw-feedback a[href$='.html']")).to_have_count(0)
    # So does the list of what is short; from the folder, to the page of that name.
    missing = page.locator("bw-progress .bw-progress-items li").filter(has=page.locator("a[href$='#item-mixed-up-1']"))
    link = missing.get_by_role("link", name="This is taught in the lesson")
    title = link.inner_text().partition("“")[2].removesuffix("”")
    link.press("Enter")
    page.wait_for_url("**/modules/*.html")
    expect(page.locator("h1")).to_have_text(title)


def test_a_right_item_of_a_mix_leads_nowhere(visit: Visitor) -> None:
    page = visit.open("modules/several-columns.html")
    item = page.locator("#item-mixed-up-1")
    key = item.locator("script.practice-data").evaluate("data => JSON.parse(data.textContent).pool[0].key.text")
    item.locator("input[name=answer]").fill(key)
    item.locator("input[name=answer]").press("Enter")
    expect(item.locator(".bw-feedback")).to_contain_text("Right.")
    expect(item.locator(".bw-feedback a")).to_have_count(0)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_below_a_figure_take_on_forced_colours(visit: Visitor, scheme: str) -> None:
    page = visit.open("index.html", scheme=scheme, forced_colors="active")
    color = "element => getComputedStyle(element).color"
    words = page.locator(".bw-figure .bw-figure-words").first
    assert words.evaluate(color) == page.locator("main p").first.evaluate(color)
