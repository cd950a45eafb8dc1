"""A round to work alone, in a browser: by keyboard, by ear, with and without time, and where no script runs."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from beadwright.course import load_course
from beadwright.render import load_words
from beadwright.render.editions import EditionStyle, make_level
from tests.support import ROOT
from tests.support.pages import Visitor, visit_site, wait_until
from tests.support.round_pages import load_round, write_round_page

SPEC = """\
title: Evening round
levels:
  - id: sums
    title: Sums
    minutes: 4
    pause: 1
    draws: [{operation: add, digits: [2, 2], needs: partner-of-10, count: 3}]
  - id: shares
    title: Shares
    minutes: 5
    conditions: head
    draws: [{operation: divide, digits: [3, 1], count: 2}]
"""
KEYS = "(id) => JSON.parse(document.querySelector(`#${id} .round-data`).textContent).sets[0].map((e) => e.key.text)"
LISTENING = """
window.played = [];
window.Audio = class {
  constructor(file) { this.file = file; }
  play() { window.played.push(this.file); setTimeout(() => this.onended(), 10); return Promise.resolve(); }
  pause() {}
};
"""


@pytest.fixture(scope="module")
def round_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("round")
    played = load_round(folder, SPEC)
    course = load_course(ROOT / "content").course
    assert course is not None
    style = EditionStyle(braille=False, large_print=False)
    words = load_words("en")
    write_round_page(folder, played, {one.id: make_level(course, played, one, words, style) for one in played.levels})
    return folder


@pytest.fixture
def visitor(chromium: Browser, round_site: Path) -> Iterator[Visitor]:
    with visit_site(chromium, round_site) as found:
        yield found


@pytest.fixture
def page(visitor: Visitor) -> Page:
    return visitor.open("round.html", width=320)


def find(page: Page, level: str = "sums") -> Locator:
    return page.locator(f"#round-{level}-box")


def read_keys(page: Page, level: str = "sums") -> list[str]:
    keys: list[str] = page.evaluate(KEYS, f"round-{level}-box")
    return keys


def stop_clock(page: Page) -> None:
    """Let the page's time pass only as a test tells it to, however long the machine takes."""
    page.clock.install(time=0)
    page.clock.pause_at(1000)


def read_problem(box: Locator) -> str:
    return box.locator(".bw-prompt").inner_text()


def test_conditions_are_told_and_nothing_starts_by_itself(page: Page) -> None:
    box = find(page)
    told = box.locator(".bw-round-told").inner_text()
    assert "3 problems." in told
    assert "4 minutes are usual. You may have more, or work without time." in told
    assert "Work on the frame." in told
    assert "Work in your head." in find(page, "shares").locator(".bw-round-told").inner_text()
    expect(box.locator(".bw-round-play")).to_be_hidden()
    assert not box.get_by_label("Show the time while I work").is_checked()
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_a_round_by_keyboard_alone_tells_accuracy_first_and_then_right_digits_a_minute(page: Page) -> None:
    stop_clock(page)
    box, keys = find(page), read_keys(page)
    box.get_by_role("button", name="Start").focus()
    page.keyboard.press("Enter")
    assert box.locator(".bw-round-number").inner_text() == "Problem 1 of 3"
    expect(box.locator(".bw-round-clock")).to_be_hidden()
    for key in (keys[0], "7", keys[2]):
        left, right = read_problem(box).split(" + ")
        assert str(int(left) + int(right)) in keys
        assert page.evaluate("document.activeElement.getAttribute('aria-describedby')").startswith(
            "round-sums-box-number"
        )
        page.clock.run_for(20_000)
        page.keyboard.type(key)
        page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.textContent") == "How it went"
    lines = box.locator("[data-bw-round=score] > p:not(.bw-item-note)").all_inner_texts()
    assert lines[0] == "2 of 3 right (67 %)."
    # 60 seconds have passed on the page's clock: as many digits a minute as there are right ones (a digit of the wrong
    # answer counts where it stands in its place).
    digits = len(keys[0]) + len(keys[2]) + (keys[1][-1] == "7")
    assert lines[1] == f"{digits} right digits in 1:00 (minutes and seconds): {digits} a minute."
    listed = box.locator(".bw-round-list li").all_inner_texts()
    assert [line.partition(":")[0] for line in listed] == ["Right", "Not right", "Right"]
    assert listed[1].endswith("; you answered 7")


def test_the_end_of_the_time_is_told_and_takes_nothing_away(page: Page) -> None:
    stop_clock(page)
    box, keys = find(page), read_keys(page)
    box.get_by_label("Show the time while I work").check()
    box.get_by_role("button", name="Start").click()
    state, clock = box.locator(".bw-round-state"), box.locator(".bw-round-clock")
    assert clock.inner_text() == "Time left: 4:00"
    page.keyboard.type(keys[0])
    page.keyboard.press("Enter")
    page.clock.run_for(130_000)
    assert state.inner_text() == "Half of the time is gone."
    page.clock.run_for(60_000)
    assert state.inner_text() == "One minute is left."
    page.clock.run_for(60_000)
    assert state.inner_text().startswith("The time is over. Finish at your own pace")
    assert clock.inner_text() == "The time is over, by 0:10"
    page.keyboard.type(keys[1])
    page.keyboard.press("Enter")
    box.get_by_role("button", name="Leave this one out").click()
    assert box.locator(".bw-round-accuracy").inner_text() == "2 of 3 right (67 %). One of them came after the time."
    # Right digits within the time, over its four minutes.
    rate = round(len(keys[0]) / 4)
    assert box.locator(".bw-round-rate").inner_text().endswith(f"in 4:00 (minutes and seconds): {rate} a minute.")


@pytest.mark.parametrize(("choice", "left"), [("half", "6:00"), ("twice", "8:00")])
def test_more_time_is_a_choice(page: Page, choice: str, left: str) -> None:
    box = find(page)
    box.get_by_label("Time", exact=True).select_option(choice)
    box.get_by_label("Show the time while I work").check()
    box.get_by_role("button", name="Start").click()
    assert box.locator(".bw-round-clock").inner_text() in (f"Time left: {left}", f"Time left: {int(left[0]) - 1}:59")


def test_without_time_nothing_is_measured(page: Page) -> None:
    box, keys = find(page), read_keys(page)
    box.get_by_label("Time", exact=True).select_option("none")
    box.get_by_label("Show the time while I work").check()
    box.get_by_role("button", name="Start").click()
    expect(box.locator(".bw-round-clock")).to_be_hidden()
    for key in keys:
        page.keyboard.type(key)
        page.keyboard.press("Enter")
    assert box.locator(".bw-round-accuracy").inner_text() == "3 of 3 right (100 %)."
    assert box.locator(".bw-round-rate").inner_text() == "Time was not measured."


def test_who_ends_too_early_goes_on_and_another_round_has_other_problems(page: Page) -> None:
    box, keys = find(page), read_keys(page)
    box.get_by_role("button", name="Start").click()
    first = read_problem(box)
    page.keyboard.type(keys[0])
    page.keyboard.press("Enter")
    second = read_problem(box)
    box.get_by_role("button", name="End the round").click()
    assert box.locator(".bw-round-accuracy").inner_text() == "1 of 3 right (33 %)."
    box.get_by_role("button", name="Go on with this round").click()
    assert read_problem(box) == second
    box.get_by_role("button", name="End the round").click()
    box.get_by_role("button", name="Another round").click()
    box.get_by_role("button", name="Start").click()
    assert box.locator(".bw-round-number").inner_text() == "Problem 1 of 3"
    assert read_problem(box) != first


def test_braille_is_shown_when_asked_for_and_goes_with_the_problem(page: Page) -> None:
    box = find(page)
    box.get_by_role("button", name="Start").press("Enter")
    cells = box.locator(".bw-cells")
    expect(cells).not_to_be_visible()
    box.get_by_text("In braille (Nemeth Code)").click()
    signs = dict(zip("0123456789+", "⠴⠂⠆⠒⠲⠢⠖⠶⠦⠔⠬", strict=True))
    seen = []
    for _ in range(2):
        seen.append(read_problem(box))
        expect(cells).to_have_text("⠼" + "".join(signs[sign] for sign in seen[-1] if sign in signs))
        box.get_by_role("button", name="Leave this one out").click()
    assert seen[0] != seen[1]


def test_printed_it_is_a_sheet_without_answers(page: Page) -> None:
    box = find(page)
    expect(box.locator(".bw-without-scripts")).not_to_be_visible()
    page.emulate_media(media="print")
    problems = box.locator(".bw-without-scripts li").all_inner_texts()
    assert len(problems) == 3
    text = box.inner_text()
    assert all(problem in text for problem in problems)
    assert "Answers" not in text
    assert "Start" not in text


def test_an_empty_answer_is_asked_for_again(page: Page) -> None:
    box = find(page)
    box.get_by_role("button", name="Start").click()
    page.keyboard.press("Enter")
    assert box.locator(".bw-item-error").inner_text() != ""
    assert page.evaluate("document.activeElement.getAttribute('aria-invalid')") == "true"
    assert box.locator(".bw-round-number").inner_text() == "Problem 1 of 3"


def test_a_quotient_asks_for_its_remainder(page: Page) -> None:
    box, keys = find(page, "shares"), read_keys(page, "shares")
    box.get_by_role("button", name="Start").click()
    for key in keys:
        quotient, _, left = key.partition(" r ")
        page.keyboard.type(quotient)
        if left:
            page.keyboard.press("Tab")
            page.keyboard.type(left)
        page.keyboard.press("Enter")
    assert box.locator(".bw-round-accuracy").inner_text() == "2 of 2 right (100 %)."


def test_problems_are_heard_from_the_built_sounds_with_the_set_pause(visitor: Visitor, round_site: Path) -> None:
    page = visitor.open("round.html")
    page.add_init_script(LISTENING)
    page.reload()
    box = find(page)
    box.get_by_label("I listen to them").check()
    box.get_by_role("button", name="Start").click()
    assert page.evaluate("document.activeElement.textContent") == "Play the problem"
    assert page.evaluate("window.played.length") == 0
    expect(box.locator(".bw-prompt")).to_be_hidden()
    page.keyboard.press("Enter")
    wait_until(page, "window.played.length === 2")
    files = page.evaluate("window.played")
    said = [(round_site / file).read_bytes() for file in files]
    assert all(data[:2] == b"\xff\xfb" or data[:3] == b"ID3" or data[0] == 0xFF for data in said)
    wait_until(page, "document.querySelector('#round-sums-box .bw-heard-state').textContent !== ''")
    assert box.locator(".bw-heard-state").inner_text() == "The problem has been said."
    box.locator(".bw-heard-text summary").click()
    assert " plus " in box.locator("[data-bw-part=say]").inner_text()
    page.keyboard.press("Escape")
    box.get_by_label("Your answer").fill(read_keys(page)[0])
    box.get_by_label("Your answer").press("Enter")
    assert box.locator(".bw-round-number").inner_text() == "Problem 2 of 3"


def test_a_built_sound_plays_in_the_browser(page: Page) -> None:
    page.evaluate("""() => { const Own = Audio; window.Audio = function (file) {
      const audio = new Own(file); audio.muted = true; window.audio = audio; return audio; }; }""")
    box = find(page)
    box.get_by_label("I listen to them").check()
    box.get_by_role("button", name="Start").click()
    box.get_by_role("button", name="Play the problem").click()
    wait_until(page, "window.audio?.duration > 0.3")


def test_without_scripts_it_is_the_sheet(chromium: Browser, round_site: Path) -> None:
    with visit_site(chromium, round_site) as visitor:
        page = visitor.open("round.html", java_script_enabled=False, width=320)
        box = find(page)
        assert "Work the problems as a sheet instead" in box.inner_text()
        assert box.locator(".bw-without-scripts > ol > li").count() == 3
        expect(box.get_by_role("button", name="Start")).to_be_hidden()
        box.get_by_text("Answers", exact=True).click()
        for line in box.locator(".bw-without-scripts details li").all_inner_texts():
            problem, _, answer = line.partition(" = ")
            left, _, right = problem.partition(" + ")
            assert int(left) + int(right) == int(answer)
        box.get_by_text("The same problems on paper").click()
        link = box.get_by_role("link", name="Sheet: plain text (TXT)")
        assert (
            (round_site / str(link.get_attribute("href"))).read_text(encoding="utf-8").startswith("Evening round. Sums")
        )


def test_no_state_of_it_has_a_fault(page: Page, assert_no_axe_findings: Callable[..., None]) -> None:
    box = find(page)
    assert_no_axe_findings(page)
    box.get_by_label("I listen to them").check()
    box.get_by_role("button", name="Start").click()
    assert_no_axe_findings(page)
    box.get_by_role("button", name="End the round").click()
    assert_no_axe_findings(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
