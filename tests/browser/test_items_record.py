"""The learner's record in a browser: kept, told plainly where it is not, saved, loaded, erased; two tabs at once."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from beadwright.records import Record, read_record
from tests.support.pages import Visitor, visit_site
from tests.support.record_pages import KEY, answer, load, read_kept, write_record_page

pytestmark = pytest.mark.browser

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37}
- {id: take, ask: answer, problem: 9 - 4}
- {id: think, ask: reflect, question: What will you say?, model: Say less.}
"""


@pytest.fixture(scope="session")
def record_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a lesson's page, with its progress, its end and the learner's own page on it."""
    folder = tmp_path_factory.mktemp("record")
    extra = (
        '<ul><li data-bw-objective="do-it">Do it<span data-bw-objective-state></span></li></ul>'
        '<bw-progress class="bw-progress"></bw-progress><bw-finish data-lesson="try-it"></bw-finish>'
    )
    write_record_page(folder, ITEMS, extra)
    return folder


@pytest.fixture
def visitor(chromium: Browser, record_site: Path) -> Iterator[Visitor]:
    """Opens the page; fails a test whose page asked for anything outside, or wrote to the console."""
    with visit_site(chromium, record_site) as found:
        yield found


@pytest.fixture
def page(visitor: Visitor) -> Page:
    """The page, with nothing kept yet."""
    return visitor.open("page.html", accept_downloads=True)


def tell(page: Page) -> str:
    """What the learner's page says of what was just done."""
    return page.locator(".bw-record-told").first.inner_text()


def told_in_record(page: Page) -> str:
    """What the learner's own page says."""
    return page.locator("bw-record .bw-record-told").inner_text()


def test_a_record_survives_closing_the_page_and_is_shown(page: Page, visitor: Visitor) -> None:
    answer(page, "add", "85")
    context = page.context
    page.close()
    again = context.new_page()
    visitor.watch(again)
    again.goto((visitor.site / "page.html").as_uri())
    assert "Kept on this device, in this browser, for this course." in again.locator(".bw-record-state").inner_text()
    row = again.locator("bw-record tbody tr").inner_text().split("\t")
    assert [cell.strip() for cell in row] == ["Try it", "begun", "1", "1"]
    assert again.locator("nav [data-bw-state]").inner_text() == "begun"
    assert "1 of 2 items answered, one of them right at the latest try." in again.locator("bw-progress").inner_text()
    link = again.locator("bw-begin a")
    assert link.inner_text() == "Go on where you stopped: Try it"
    assert link.get_attribute("href") == "./page.html#item-add"


def test_objectives_of_lessons_begun_are_told_in_the_record(page: Page) -> None:
    shown = page.locator("bw-record [data-bw-shown]")
    assert not shown.is_visible()
    answer(page, "add", "75")
    section = shown.get_by_role("region", name="Try it")
    lines = section.get_by_role("listitem")
    assert lines.all_inner_texts() == ["Do it: not yet shown. 0 of 2 right at the latest try; 2 are needed."]
    answer(page, "add", "85")
    answer(page, "take", "5")
    assert lines.all_inner_texts() == ["Do it: shown. 2 of 2 right at the latest try; 2 are needed."]
    page.emulate_media(media="print")
    assert lines.first.is_visible()


def test_an_objective_is_shown_when_its_items_are_right_at_the_latest_try(page: Page) -> None:
    answer(page, "add", "85")
    line = page.locator("bw-progress li[data-bw-standing]")
    assert line.get_attribute("data-bw-standing") == "short"
    assert "1 of 2 right at the latest try; 2 are needed." in line.inner_text()
    assert line.get_by_role("link").get_attribute("href") == "#item-take"
    answer(page, "take", "5")
    assert line.get_attribute("data-bw-standing") == "met"
    assert "Every objective of this lesson is shown." in page.locator("bw-progress").inner_text()
    assert page.locator("[data-bw-objective-state]").inner_text() == "(shown)"
    assert read_kept(page)["lessons"][0]["passed"] is True
    answer(page, "take", "4")
    assert line.get_attribute("data-bw-standing") == "short"


def test_a_lesson_is_finished_and_the_record_saved(page: Page) -> None:
    finish = page.locator("bw-finish")
    finish.get_by_role("button", name="I have finished this lesson").focus()
    page.keyboard.press("Enter")
    assert "Save your record, and send it on." in finish.inner_text()
    button = finish.get_by_role("button", name="Save my record to a file")
    assert button.evaluate("element => element === document.activeElement")
    assert page.locator("nav [data-bw-state]").inner_text() == "finished"
    with page.expect_download() as download:
        page.keyboard.press("Enter")
    assert download.value.suggested_filename.startswith("record-test-course-no-name-20")
    saved = json.loads(Path(download.value.path()).read_text(encoding="utf-8"))
    assert saved["schema"] == "beadwright/record/1"
    assert saved["lessons"][0]["lesson"] == "try-it"
    assert saved["lessons"][0]["finished"]


def test_who_one_is_goes_into_the_file(page: Page) -> None:
    answer(page, "add", "75")
    page.get_by_label("Your name").fill("Ada Tamarow")
    page.get_by_label("You are").select_option("teacher")
    page.get_by_label("Your group").fill("Thursday")
    with page.expect_download() as download:
        page.locator("bw-record").get_by_role("button", name="Save my record to a file").click()
    assert "Ada-Tamarow" in download.value.suggested_filename
    saved = json.loads(Path(download.value.path()).read_text(encoding="utf-8"))
    assert {name: saved["learner"][name] for name in ("name", "role", "group")} == {
        "name": "Ada Tamarow",
        "role": "teacher",
        "group": "Thursday",
    }
    assert saved["attempts"][0]["slip"] == "exchange-dropped"
    assert saved["saved"]


def test_a_saved_record_is_merged_elsewhere(page: Page, visitor: Visitor) -> None:
    answer(page, "add", "75")
    saved = read_kept(page)
    other = visitor.open("page.html")
    load(other, saved)
    assert told_in_record(other) == "Loaded. One answer is new here."
    assert read_kept(other)["learner"]["id"] == saved["learner"]["id"]
    answer(other, "take", "5")
    load(page, read_kept(other))
    assert told_in_record(page) == "Loaded. One answer is new here."
    assert len(read_kept(page)["attempts"]) == 2
    load(page, read_kept(other))
    assert told_in_record(page) == "Everything in this file was here already."
    assert len(read_kept(page)["attempts"]) == 2


def test_somebody_elses_record_is_never_merged_silently(page: Page, visitor: Visitor) -> None:
    answer(page, "add", "75")
    mine = read_kept(page)
    other = visitor.open("page.html")
    answer(other, "take", "5")
    theirs = read_kept(other)
    load(page, theirs)
    question = page.locator("[data-bw-question=load]")
    assert question.is_visible()
    assert question.locator("p").evaluate("element => element === document.activeElement")
    assert read_kept(page)["attempts"] == mine["attempts"]
    question.get_by_role("button", name="Leave it").press("Enter")
    assert told_in_record(page) == "Nothing was changed."
    assert read_kept(page)["attempts"] == mine["attempts"]
    load(page, theirs)
    question.get_by_role("button", name="Load it all the same").press("Enter")
    assert len(read_kept(page)["attempts"]) == 2
    assert read_kept(page)["learner"]["id"] == mine["learner"]["id"]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"course": {"id": "elsewhere"}}, "This file is a record of another course. Nothing was changed."),
        ({"schema": "beadwright/record/2"}, "This file was written by a newer edition"),
        ({"attempts": None}, "This file is not a record of this course. Nothing was changed."),
        (None, "This file is not a record of this course. Nothing was changed."),
    ],
)
def test_what_cannot_be_loaded_is_refused_politely(page: Page, change: dict[str, Any] | None, told: str) -> None:
    answer(page, "add", "75")
    kept = read_kept(page)
    load(page, "{not json" if change is None else {**kept, **change})
    assert told in told_in_record(page)
    assert read_kept(page) == kept


def test_a_file_that_there_is_no_room_for_changes_nothing(page: Page) -> None:
    answer(page, "add", "75")
    kept = read_kept(page)
    (attempt,) = kept["attempts"]
    many = [{**attempt, "id": f"answer-{number}"} for number in range(20_000)]
    load(page, {**kept, "attempts": many})
    told = page.locator("bw-record .bw-record-told")
    expect(told).to_have_text("This browser has no room for what is in this file. Nothing was changed.", timeout=30_000)
    assert read_kept(page) == kept
    assert "Kept on this device" in page.locator(".bw-record-state").inner_text()
    answer(page, "take", "5")
    assert [one["response"] for one in read_kept(page)["attempts"]] == ["75", "5"]
    # The same where nothing is kept yet: the browser keeps things, only not so many.
    erase = page.get_by_role("button", name="Erase my record on this device")
    erase.click()
    page.get_by_role("button", name="Erase it now").click()
    load(page, {**kept, "attempts": many})
    expect(told).to_have_text("This browser has no room for what is in this file. Nothing was changed.", timeout=30_000)
    assert "Kept on this device" in page.locator(".bw-record-state").inner_text()
    assert read_kept(page) == {}


def test_what_a_browser_does_not_keep_is_loaded_for_as_long_as_the_page(page: Page) -> None:
    answer(page, "add", "75")
    kept = read_kept(page)
    open_with(page, REFUSED)
    load(page, kept)
    assert told_in_record(page).startswith("Loaded, but only until you leave this page")
    assert [one["response"] for one in json.loads(save(page))["attempts"]] == ["75"]


def test_a_file_without_answers_is_told(page: Page) -> None:
    answer(page, "add", "75")
    load(page, {**read_kept(page), "attempts": []})
    assert told_in_record(page) == "There are no answers in this file."


def test_a_lesson_finished_at_a_damaged_time_is_finished(page: Page) -> None:
    page.locator("bw-finish button").press("Enter")
    kept = read_kept(page)
    kept["lessons"][0]["finished"] = "2026-13-45T99"
    page.evaluate("([key, value]) => localStorage.setItem(key, value)", [KEY, json.dumps(kept)])
    page.reload()
    assert page.locator("bw-finish .bw-record-told").inner_text() == "The lesson is marked as finished."


def test_erasing_asks_first_and_works_by_keyboard(page: Page) -> None:
    answer(page, "add", "75")
    erase = page.get_by_role("button", name="Erase my record on this device")
    erase.press("Enter")
    question = page.locator("[data-bw-question=erase]")
    assert question.locator("p").evaluate("element => element === document.activeElement")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")  # the first key keeps it
    assert told_in_record(page) == "Nothing was erased."
    assert erase.evaluate("element => element === document.activeElement")
    assert len(read_kept(page)["attempts"]) == 1
    erase.press("Enter")
    question.get_by_role("button", name="Erase it now").press("Enter")
    assert told_in_record(page) == "Your record on this device is erased."
    assert read_kept(page) == {}
    assert "Nothing answered yet." in page.locator("bw-progress").inner_text()


def test_two_tabs_lose_nothing(page: Page, visitor: Visitor) -> None:
    other = open_beside(page, visitor)
    for number in range(3):
        answer(page, "add", f"7{number}")
        answer(other, "take", f"{number}")
    responses = {attempt["response"] for attempt in read_kept(page)["attempts"]}
    assert responses == {"70", "71", "72", "0", "1", "2"}
    assert "2 of 2 items answered" in page.locator("bw-progress").inner_text()
    # A write that knows nothing of the others is made good by the next one.
    stale = read_kept(page) | {"attempts": []}
    page.evaluate("([key, value]) => localStorage.setItem(key, value)", [KEY, json.dumps(stale)])
    answer(page, "add", "85")
    answer(other, "take", "5")
    assert len(read_kept(page)["attempts"]) == 8


def open_beside(page: Page, visitor: Visitor) -> Page:
    """The same page in another tab."""
    other = page.context.new_page()
    visitor.watch(other)
    other.goto((visitor.site / "page.html").as_uri())
    return other


def test_who_one_is_follows_what_was_typed_last_in_any_tab(page: Page, visitor: Visitor) -> None:
    other = open_beside(page, visitor)
    page.get_by_label("Your name").fill("Oda Pell")
    page.get_by_label("Your name").press("Tab")
    other.wait_for_timeout(300)
    assert other.get_by_label("Your name").input_value() == "Oda Pell"
    page.close()
    with other.expect_download() as download:
        other.locator("bw-record").get_by_role("button", name="Save my record to a file").click()
    assert "Oda-Pell" in download.value.suggested_filename
    saved = json.loads(Path(download.value.path()).read_text(encoding="utf-8"))
    assert saved["learner"]["name"] == read_kept(other)["learner"]["name"] == "Oda Pell"


def test_what_is_being_typed_stays_when_another_tab_writes(page: Page, visitor: Visitor) -> None:
    other = open_beside(page, visitor)
    other.get_by_label("Your name").press_sequentially("Bea ")
    page.get_by_label("Your group").fill("Thursday")
    page.get_by_label("Your group").press("Tab")
    other.wait_for_timeout(300)
    assert other.get_by_label("Your name").input_value() == "Bea "
    assert other.get_by_label("Your group").input_value() == "Thursday"
    other.get_by_label("Your name").press("Tab")
    learner = read_kept(other)["learner"]
    assert (learner["name"], learner["group"]) == ("Bea", "Thursday")


def test_a_name_taken_away_does_not_come_back_from_another_tab(page: Page, visitor: Visitor) -> None:
    page.get_by_label("Your name").fill("Oda Pell")
    page.get_by_label("Your name").press("Tab")
    other = open_beside(page, visitor)
    answer(other, "add", "85")
    page.get_by_label("Your name").fill("")
    page.get_by_label("Your name").press("Tab")
    other.wait_for_timeout(300)
    answer(other, "take", "5")
    assert read_kept(other)["learner"]["name"] == ""
    assert len(read_kept(other)["attempts"]) == 2


def test_a_name_is_kept_when_the_page_is_left_in_the_middle_of_it(page: Page) -> None:
    page.get_by_label("Your name").press_sequentially("Oda Pell")
    page.reload()
    assert page.get_by_label("Your name").input_value() == "Oda Pell"
    assert read_kept(page)["learner"]["name"] == "Oda Pell"


REFUSED = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });"
FULL = """
const set = Storage.prototype.setItem;
Storage.prototype.setItem = function (key, value) {
  if (String(value).length > 200) throw new DOMException("full", "QuotaExceededError");
  return set.call(this, key, value);
};
"""


FACE = "\U0001f600"
HALF = """([selector, half]) => {
  const field = document.querySelector(selector);
  field.value = `Pell ${String.fromCharCode(half)}`;
  for (const name of ["input", "change"]) field.dispatchEvent(new Event(name, { bubbles: true }));
}"""


def open_with(page: Page, script: str) -> None:
    """Load the page again with a script that runs before its own."""
    page.add_init_script(script)
    page.reload()


def save(page: Page) -> bytes:
    """The file that the learner's own page saves."""
    with page.expect_download() as download:
        page.locator("bw-record").get_by_role("button", name="Save my record to a file").click()
    return Path(download.value.path()).read_bytes()


def test_words_too_long_for_the_record_are_told_and_never_cut(page: Page) -> None:
    item = page.locator("#item-think")
    words = item.get_by_label("Your words")
    # 3,999 letters, and a sign that takes the place of two: one more than there is room for.
    words.fill("x" * 3_999 + FACE)
    error = item.locator(".bw-item-error")
    assert "longer than the 4000 letters" in error.inner_text()
    item.get_by_role("button", name="Show a model answer").press("Enter")
    assert words.evaluate("element => element === document.activeElement")
    assert words.get_attribute("aria-invalid") == "true"
    assert item.locator(".bw-model").inner_text() == ""
    assert read_kept(page).get("attempts", []) == []
    assert words.input_value() == "x" * 3_999 + FACE
    words.fill("x" * 3_998 + FACE)
    assert error.inner_text() == ""
    assert words.get_attribute("aria-invalid") is None
    item.get_by_role("button", name="Show a model answer").press("Enter")
    page.wait_for_timeout(150)
    record = read_record(save(page), "a.json", "test-course")
    assert isinstance(record, Record)
    assert read_kept(page)["attempts"][0]["response"] == "x" * 3_998 + FACE


@pytest.mark.parametrize("refused", [False, True])
def test_half_a_letter_reaches_no_file(page: Page, refused: bool) -> None:
    if refused:
        open_with(page, REFUSED)
    for selector, half in (("[name=name]", 0xD83D), ("[name=group]", 0xDE00), ("#item-think textarea", 0xD83D)):
        page.evaluate(HALF, [selector, half])
    page.locator("#item-think").get_by_role("button", name="Show a model answer").press("Enter")
    page.wait_for_timeout(150)
    saved = save(page)
    record = read_record(saved, "a.json", "test-course")
    assert isinstance(record, Record)
    assert (record.learner.name, record.learner.group) == ("Pell \ufffd", "Pell \ufffd")
    assert json.loads(saved)["attempts"][0]["response"] == "Pell \ufffd"


def test_a_file_is_named_by_whole_letters(page: Page) -> None:
    letter = "\U00010437"  # one letter, which a browser keeps as two signs
    page.get_by_label("Your name").fill("P" + letter * 50)
    with page.expect_download() as download:
        page.locator("bw-record").get_by_role("button", name="Save my record to a file").click()
    assert f"-P{letter * 39}-20" in download.value.suggested_filename


def test_a_page_left_with_the_last_answer_has_kept_what_it_shows(page: Page, visitor: Visitor) -> None:
    # A page of the same store, with no script that could make up for what was not kept.
    (visitor.site / "left.html").write_text('<!doctype html><html lang="en"><title>Left</title>', encoding="utf-8")
    answer(page, "add", "85")
    page.locator("#item-take input[name=answer]").fill("5")
    page.evaluate("document.querySelector('#item-take form').requestSubmit(); location.href = 'left.html'")
    page.wait_for_url("**/left.html")
    kept = read_kept(page)
    assert [attempt["response"] for attempt in kept["attempts"]] == ["85", "5"]
    assert [mark["passed"] for mark in kept["lessons"]] == [True]


def test_a_refused_store_is_said_plainly_and_work_goes_on(page: Page) -> None:
    open_with(page, REFUSED)
    assert "This browser does not let pages keep anything." in page.locator("bw-progress").inner_text()
    answer(page, "add", "75")
    assert "75 is not the answer." in page.locator("#item-add .bw-feedback").inner_text()
    assert "1 of 2 items answered" in page.locator("bw-progress").inner_text()
    with page.expect_download() as download:
        page.locator("bw-record").get_by_role("button", name="Save my record to a file").click()
    saved = json.loads(Path(download.value.path()).read_text(encoding="utf-8"))
    assert saved["attempts"][0]["response"] == "75"


def test_a_full_store_is_said_plainly_and_nothing_kept_is_lost(page: Page) -> None:
    answer(page, "add", "75")
    kept = read_kept(page)
    open_with(page, FULL)
    answer(page, "take", "5")
    assert "This browser has no room left." in page.locator("bw-progress").inner_text()
    assert read_kept(page) == kept
    assert "2 of 2 items answered" in page.locator("bw-progress").inner_text()


def keep(context: BrowserContext, visitor: Visitor, text: str) -> Page:
    """The page, opened where this text is kept as the record."""
    page = context.new_page()
    visitor.watch(page)
    page.goto((visitor.site / "page.html").as_uri())
    page.evaluate("([key, value]) => localStorage.setItem(key, value)", [KEY, text])
    page.reload()
    return page


def test_a_record_of_a_newer_edition_is_left_alone(page: Page, visitor: Visitor) -> None:
    newer = json.dumps({"schema": "beadwright/record/2", "course": {"id": "test-course"}, "rows": [1]})
    opened = keep(page.context, visitor, newer)
    assert "written by a newer edition" in opened.locator("bw-progress").inner_text()
    answer(opened, "add", "85")
    assert opened.evaluate(f"localStorage.getItem('{KEY}')") == newer


@pytest.mark.parametrize("elsewhere", [False, True])
def test_a_record_of_a_newer_edition_that_comes_meanwhile_is_left_alone(
    page: Page, visitor: Visitor, elsewhere: bool
) -> None:
    answer(page, "add", "75")
    newer = json.dumps({"schema": "beadwright/record/2", "course": {"id": "test-course"}, "rows": [1]})
    writer = open_beside(page, visitor) if elsewhere else page  # a page is told of what other tabs write
    writer.evaluate("([key, value]) => localStorage.setItem(key, value)", [KEY, newer])
    answer(page, "add", "85")
    page.get_by_label("Your name").fill("Oda Pell")
    page.get_by_label("Your name").press("Tab")
    assert page.evaluate(f"localStorage.getItem('{KEY}')") == newer
    told = "written by a newer edition of these pages. It is left as it is"
    assert told in page.locator("bw-progress").inner_text()
    assert told in page.locator(".bw-record-state").inner_text()
    # What was done here is still at hand, to be saved to a file.
    saved = json.loads(save(page))
    assert [attempt["response"] for attempt in saved["attempts"]] == ["75", "85"]
    assert saved["learner"]["name"] == "Oda Pell"
    assert page.evaluate(f"localStorage.getItem('{KEY}')") == newer


def test_each_damaged_record_is_put_aside_whenever_it_comes(page: Page, visitor: Visitor) -> None:
    damaged = ['{"schema": "bead', '{"schema": "beadwright/rec', '{"sch']
    opened = keep(page.context, visitor, damaged[0])
    answer(opened, "add", "85")
    for text in (*damaged[1:], damaged[0]):
        opened.evaluate("([key, value]) => localStorage.setItem(key, value)", [KEY, text])
        answer(opened, "take", "5")
    aside = "Object.entries(localStorage).filter(([key]) => key.startsWith('bw-record-aside:')).map(([, text]) => text)"
    assert sorted(opened.evaluate(aside)) == sorted(damaged)
    assert len(read_kept(opened)["attempts"]) == 4
    opened.get_by_role("button", name="Erase my record on this device").click()
    opened.get_by_role("button", name="Erase it now").click()
    assert opened.evaluate(aside) == []


def test_a_damaged_record_that_cannot_be_put_aside_is_left(page: Page, visitor: Visitor) -> None:
    damaged = '{"schema": "' + "x" * 300
    opened = keep(page.context, visitor, damaged)
    opened.evaluate("localStorage.removeItem('bw-record-aside:test-course')")
    open_with(opened, FULL)
    answer(opened, "add", "85")
    assert "This browser has no room left." in opened.locator("bw-progress").inner_text()
    assert opened.evaluate(f"localStorage.getItem('{KEY}')") == damaged


def test_a_damaged_record_is_put_aside_not_overwritten(page: Page, visitor: Visitor) -> None:
    opened = keep(page.context, visitor, '{"schema": "beadwright/rec')
    answer(opened, "add", "85")
    assert opened.evaluate("localStorage.getItem('bw-record-aside:test-course')") == '{"schema": "beadwright/rec'
    assert len(read_kept(opened)["attempts"]) == 1


def test_a_clock_moved_back_loses_no_answer(page: Page) -> None:
    answer(page, "add", "75")
    page.clock.install(time=1_000_000_000_000)
    answer(page, "add", "85")
    assert [attempt["right"] for attempt in read_kept(page)["attempts"]] == [False, True]
    # The latest try is the one made last, whatever the clock said.
    assert "one of them right at the latest try" in page.locator("bw-progress").inner_text()


def test_other_courses_on_the_device_are_not_touched(page: Page) -> None:
    page.evaluate("localStorage.setItem('bw-record:another', 'kept')")
    answer(page, "add", "75")
    page.get_by_role("button", name="Erase my record on this device").click()
    page.get_by_role("button", name="Erase it now").click()
    assert page.evaluate("localStorage.getItem('bw-record:another')") == "kept"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(visitor: Visitor, assert_no_axe_findings: Any, scheme: str) -> None:
    page = visitor.open("page.html", scheme=scheme)
    answer(page, "add", "85")
    page.get_by_role("button", name="Erase my record on this device").click()
    assert_no_axe_findings(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 1280


def test_a_course_without_paths_speaks_of_its_lessons(page: Page) -> None:
    page.locator("bw-finish button").press("Enter")
    assert page.locator(".bw-begin-state").inner_text() == "1 of one lesson finished."
    assert page.locator("bw-begin a").inner_text() == "All lessons are finished: hand in your record"
