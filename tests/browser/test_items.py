"""Practice items in a browser, by keyboard alone, from a folder."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page

from tests.support.pages import Visitor, visit_site, wait_until
from tests.support.practice_pages import load_lesson, write_page

pytestmark = pytest.mark.browser

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37}
- {id: read, ask: read, reads: "305"}
- {id: put, ask: set, reads: "56"}
- {id: next, ask: next-move, problem: 48 + 37, at: 4}
- {id: whole, ask: carry-out, problem: 48 + 37}
- {id: slip, ask: find-slip, problem: 67 + 38, slip: exchange-dropped}
- {id: moves, ask: order-moves, problem: 48 + 37, at: 4}
- {id: steps, ask: order-moves, problem: 48 + 37}
- id: one
  ask: choice
  question: Which bead is worth **5**?
  options:
    - {text: A lower bead, because: Lower beads are worth 1 each.}
    - {text: The upper bead, right: true, because: It lies above the bar.}
- id: several
  ask: choice
  question: Which are partners of 10?
  options:
    - {text: 1 and 9, right: true, because: Together they make 10.}
    - {text: 4 and 6, right: true, because: Four and six make 10.}
    - {text: 1 and 4, because: They make 5.}
- {id: hear, ask: heard, problem: 48 + 37}
- {id: think, ask: reflect, question: What will you say?, model: Say **less**.}
- {id: sure, ask: rating, when: before}
- {id: fade, ask: answer, problem: 9 + 4, frame_is: start}
- {id: quick, ask: answer, problem: 9 + 4, frame_is: hidden, timed: yes}
"""


@pytest.fixture(scope="session")
def practice_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a page with an item of each kind."""
    folder = tmp_path_factory.mktemp("practice")
    write_page(folder, load_lesson(folder, ITEMS), extra='<bw-progress class="bw-progress"></bw-progress>')
    return folder


@pytest.fixture
def visitor(chromium: Browser, practice_site: Path) -> Iterator[Visitor]:
    """Opens the page; fails a test whose page asked for anything outside, or wrote to the console."""
    with visit_site(chromium, practice_site) as found:
        yield found


@pytest.fixture
def page(visitor: Visitor) -> Page:
    """The page, with nothing kept yet."""
    return visitor.open("page.html")


def find(page: Page, item: str) -> Locator:
    """An item of the page."""
    return page.locator(f"#item-{item}")


def say(item: Locator) -> str:
    """What the item's live region says, on one line."""
    return " ".join(item.locator(".bw-feedback").inner_text().split())


def press(page: Page, item: Locator, name: str) -> None:
    """Reach a key of an item by the Tab key from its start and press it by keyboard."""
    item.get_by_role("button", name=name, exact=True).focus()
    page.keyboard.press("Enter")


def read_attempts(page: Page) -> list[dict[str, Any]]:
    """What the browser has kept, once it has been written."""
    page.wait_for_timeout(150)
    kept = page.evaluate("localStorage.getItem('bw-record:test-course')")
    return list(json.loads(kept)["attempts"]) if kept else []


def is_focused(locator: Locator) -> bool:
    """Whether an element has the focus."""
    return bool(locator.evaluate("element => element === document.activeElement"))


def test_a_wrong_answer_is_explained_and_a_right_one_told(page: Page) -> None:
    item = find(page, "add")
    field = item.get_by_label("Your answer")
    field.focus()
    page.keyboard.type("75")
    page.keyboard.press("Enter")
    assert "75 is not the answer." in say(item)
    assert "It looks as if the 1 on the tens was not set." in say(item)
    assert is_focused(field)
    page.keyboard.press("Control+A")
    page.keyboard.type("085")
    page.keyboard.press("Enter")
    assert say(item) == "Right. 48 + 37 gives 85."
    wrong, right = read_attempts(page)
    assert (wrong["response"], wrong["right"], wrong["slip"]) == ("75", False, "exchange-dropped")
    assert (right["response"], right["right"], right["slip"], right["key"]) == ("85", True, None, "85")
    assert right["lesson"] == "try-it"
    assert right["objective"] == "do-it"
    assert right["edition"] == "spring"
    assert right["digits_right"] == 2


@pytest.mark.parametrize(("width", "height"), [(1280, 500), (320, 256)])
def test_what_is_told_comes_into_sight_and_the_focus_stays(visitor: Visitor, width: int, height: int) -> None:
    page = visitor.open("page.html", width=width, height=height)
    item = find(page, "add")
    field = item.locator("input[name=answer]")
    field.fill("75")
    page.evaluate("document.activeElement.scrollIntoView({ block: 'end' })")
    field.press("Enter")
    wait_until(
        page,
        """(() => {
          const top = document.querySelector("#item-add .bw-verdict")?.getBoundingClientRect().top ?? -1;
          return top >= 0 && top < innerHeight;
        })()""",
    )
    assert is_focused(field)


def test_what_cannot_be_read_is_refused_and_is_no_attempt(page: Page) -> None:
    item = find(page, "add")
    field = item.get_by_label("Your answer")
    for typed, told in (("", "Type your answer first."), ("eight", "could not be read as a number")):
        field.fill(typed)
        field.press("Enter")
        assert told in item.locator(".bw-item-error").inner_text()
        assert field.get_attribute("aria-invalid") == "true"
        described = (field.get_attribute("aria-describedby") or "").split()
        assert "item-add-error" in described
        assert is_focused(field)
    field.fill("85")
    field.press("Enter")
    assert item.locator(".bw-item-error").is_hidden()
    assert field.get_attribute("aria-invalid") is None
    assert len(read_attempts(page)) == 1


def test_the_step_that_a_slip_happened_in_is_shown(page: Page) -> None:
    item = find(page, "add")
    item.get_by_label("Your answer").fill("418")
    item.get_by_label("Your answer").press("Enter")
    link = item.get_by_role("link", name="Look at step 3")
    link.focus()
    page.keyboard.press("Enter")
    step = page.locator("#item-add-step-3")
    assert is_focused(step)
    assert step.inner_text().startswith("To add 37, add 3 on the tens")
    press(page, item, "Hide the working")
    assert page.locator("#item-add-step-3").count() == 0
    assert is_focused(item.get_by_role("button", name="Show the working"))


def test_hints_come_one_after_the_other(page: Page) -> None:
    item = find(page, "add")
    key = item.locator("[data-bw-do=hint]")
    hints = item.locator(".bw-hint")
    for number, name in enumerate(("Hint 1 of 3", "Hint 2 of 3", "Hint 3 of 3"), start=1):
        press(page, item, name)
        assert hints.count() == number
        assert is_focused(key)
    assert key.inner_text() == "No more hints"
    assert key.get_attribute("aria-disabled") == "true"
    page.keyboard.press("Enter")
    assert hints.count() == 3
    assert hints.last.inner_text() == "Hint 3: Set 1 on the tens, clear 3 on the ones."
    item.get_by_label("Your answer").fill("85")
    item.get_by_label("Your answer").press("Enter")
    assert read_attempts(page)[-1]["hints"] == 3


@pytest.mark.parametrize("before", ["85", "75"])
def test_what_was_said_of_an_answer_does_not_stay_for_one_that_cannot_be_read(page: Page, before: str) -> None:
    item = find(page, "add")
    field = item.get_by_label("Your answer")
    for typed in (before, "eight"):
        field.fill(typed)
        field.press("Enter")
    assert "could not be read as a number" in item.locator(".bw-item-error").inner_text()
    assert say(item) == ""
    field.fill("85")
    field.press("Enter")
    assert say(item) == "Right. 48 + 37 gives 85."


def test_another_one_comes_round_without_repeating(page: Page) -> None:
    item = find(page, "add")
    seen = [item.locator(".bw-prompt .bw-problem").inner_text()]
    for _ in range(11):
        press(page, item, "Another one")
        assert is_focused(item.get_by_label("Your answer"))
        seen.append(item.locator(".bw-prompt .bw-problem").inner_text())
    assert len(set(seen)) == 12
    left, right = (int(number) for number in seen[-1].split(" + "))
    item.get_by_label("Your answer").fill(str(left + right))
    item.get_by_label("Your answer").press("Enter")
    assert say(item).startswith("Right.")
    assert read_attempts(page)[-1]["problem"] == seen[-1]


def test_a_frame_is_read(page: Page) -> None:
    item = find(page, "read")
    field = item.get_by_label("Your answer")
    figure = item.locator(".bw-figure")
    assert "305" not in figure.inner_text()
    assert "305" not in (figure.locator("svg").get_attribute("aria-label") or "")
    for typed, told in (("301", "the upper bead on the ones was counted as 1"), ("35", "The tens hold no bead.")):
        field.fill(typed)
        field.press("Enter")
        assert told in say(item)
    press(page, item, "Another one")
    assert say(item) == ""
    # The figure and its words change together.
    drawn = figure.locator("use[href^='#bw-rod-']").evaluate_all(
        "all => all.map(one => one.getAttribute('href').slice(-2))"
    )
    number = "".join(str(5 * int(state[0]) + int(state[1])) for state in drawn).lstrip("0")
    field.fill(number)
    field.press("Enter")
    assert say(item) == f"Right. The frame reads {number}."


def test_a_number_is_set_on_the_frame_here_or_on_ones_own(page: Page) -> None:
    item = find(page, "put")
    item.get_by_role("spinbutton", name="tens").focus()
    page.keyboard.press("6")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("5")
    press(page, item, "Check the frame")
    assert "Your frame reads 65." in say(item)
    assert "the digits were set from the wrong end" in say(item)
    assert is_focused(item.get_by_role("button", name="Check the frame"))
    item.get_by_role("checkbox", name="I work on my own frame").focus()
    page.keyboard.press("Space")
    assert item.locator("bw-frame").is_hidden()
    item.get_by_label("Your answer").fill("560")
    item.get_by_label("Your answer").press("Enter")
    assert "one column too far to the left" in say(item)
    item.get_by_label("Your answer").fill("56")
    item.get_by_label("Your answer").press("Enter")
    assert say(item) == "Right. The frame reads 56."


def test_the_next_moves_are_chosen_in_any_order(page: Page) -> None:
    item = find(page, "next")
    press(page, item, "Check")
    assert item.locator(".bw-item-error").inner_text() == "Choose at least one move first."
    item.get_by_label("Clear 3 on the ones").focus()
    page.keyboard.press("Space")
    press(page, item, "Check")
    assert "the 1 on the tens was not set" in say(item)
    item.get_by_label("Set 1 on the tens").focus()
    page.keyboard.press("Space")
    press(page, item, "Check")
    assert say(item).startswith("Right: ")
    press(page, item, "Another one")
    assert item.locator("input:checked").count() == 0
    assert item.locator(".bw-choice").count() >= 6


def test_a_whole_problem_is_worked_and_checked_digit_by_digit(page: Page) -> None:
    item = find(page, "whole")
    status = item.locator(".bw-item-digits")
    assert status.inner_text() == "4 digits to work, those of the first number among them."
    press(page, item, "Check this digit")
    assert "Nothing has changed" in say(item)
    item.get_by_role("spinbutton", name="tens").focus()
    page.keyboard.press("4")
    press(page, item, "Check this digit")
    assert say(item) == "Right so far."
    assert status.inner_text() == "3 digits are left."
    # Two digits at once are accepted as well: 48, then 78.
    item.get_by_role("spinbutton", name="ones").focus()
    page.keyboard.press("8")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("7")
    press(page, item, "Check this digit")
    assert say(item) == "Right so far. You worked 2 digits at once."
    assert status.inner_text() == "One digit is left."
    # 8 on the ones becomes 5, and no ten is set.
    item.get_by_role("spinbutton", name="ones").focus()
    page.keyboard.press("5")
    press(page, item, "Check this digit")
    assert "Your frame reads 75." in say(item)
    assert "the 1 on the tens was not set" in say(item)
    press(page, item, "Back to the last right place")
    assert item.get_by_role("spinbutton", name="ones").get_attribute("aria-valuenow") == "8"
    assert item.get_by_role("spinbutton", name="tens").get_attribute("aria-valuenow") == "7"
    press(page, item, "Hint 1 of 3")
    assert item.locator(".bw-hint").inner_text() == "Hint 1: The place for care: add 7 on the ones."
    item.get_by_role("spinbutton", name="ones").focus()
    page.keyboard.press("5")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("8")
    press(page, item, "Check this digit")
    assert say(item) == "Right to the end. 48 + 37 gives 85."
    wrong, right = read_attempts(page)
    assert (wrong["response"], wrong["slip"], wrong["right"]) == ("75", "exchange-dropped", False)
    assert (right["response"], right["right"]) == ("85", True)


def test_a_whole_problem_on_ones_own_frame(page: Page) -> None:
    item = find(page, "whole")
    item.get_by_role("checkbox", name="I work on my own frame").check()
    field = item.get_by_label("Your answer")
    for typed, told in (
        ("48", "2 digits are left"),
        ("75", "the 1 on the tens was not set"),
        ("85", "Right to the end."),
    ):
        field.fill(typed)
        field.press("Enter")
        assert told in f"{say(item)} {item.locator('.bw-item-digits').inner_text()}"


def test_a_slip_is_found_named_and_spoken_about(page: Page) -> None:
    item = find(page, "slip")
    steps = item.locator("[data-bw-stage=step] input")
    steps.nth(0).focus()
    page.keyboard.press("Space")
    press(page, item, "Check")
    assert say(item) == "Up to that step everything is right. It goes wrong later."
    steps.nth(3).check()
    press(page, item, "Check")
    assert say(item) == "Right. Step 4 goes wrong first."
    slips = item.locator("[data-bw-stage=slip]")
    assert is_focused(slips.locator("input").first)
    slips.get_by_label("A digit was passed over").or_(
        slips.locator("input:not([value=exchange-dropped])").first
    ).first.check()
    press(page, item, "Check")
    assert say(item) == "That is another slip."
    slips.locator("input[value=exchange-dropped]").check()
    press(page, item, "Check")
    assert say(item) == "Right: half of an exchange was left out."
    words = item.get_by_label("What would you say to the student?")
    assert is_focused(words)
    page.keyboard.type("Show me both halves.")
    press(page, item, "Show what a practiced teacher might say")
    model = item.locator(".bw-model")
    assert is_focused(item.get_by_role("button", name="Show what a practiced teacher might say"))
    assert "ten here is one on the left" in model.inner_text()
    answered = [(attempt["response"], attempt["right"]) for attempt in read_attempts(page)]
    assert answered[0] == ("1", False)
    assert answered[-1] == ("4 exchange-dropped", True)


def test_each_step_tells_what_the_frame_shows(page: Page) -> None:
    """67 + 38 with the 1 of the last exchange left out: 60, 67, 97, then 95 where 105 belongs."""
    item = find(page, "slip")
    steps = item.locator("[data-bw-stage=step] input")
    tens = ("the upper bead and 1 lower bead", "the upper bead and 4 lower beads")
    ones = ("no bead", "the upper bead and 2 lower beads", "the upper bead")
    for number, (ten, one) in enumerate(((0, 0), (0, 1), (1, 1), (1, 2))):
        told = item.locator(f"#{steps.nth(number).get_attribute('aria-describedby')}").inner_text()
        assert told == f"After this step: on the tens {tens[ten]}, on the ones {ones[one]}."
    columns = item.locator(".bw-slip-picture use[href^='#bw-rod-']")
    # A five-and-four frame has rods that hold 1 and 4; 60 is the upper and one lower bead beside nothing.
    assert [use.get_attribute("href") for use in columns.all()][-2:] == ["#bw-rod-14-11", "#bw-rod-14-00"]
    steps.nth(3).check()
    assert [use.get_attribute("href") for use in columns.all()][-2:] == ["#bw-rod-14-14", "#bw-rod-14-10"]
    assert item.locator(".bw-slip-picture p").inner_text() == "The frame after step 4"
    press(page, item, "Another one")
    assert item.locator(".bw-slip-picture p").inner_text() == "The frame after step 1"
    first = item.locator("[data-bw-stage=step] .bw-item-note").first
    assert first.inner_text().startswith("After this step: ")
    assert first.get_attribute("id") == steps.first.get_attribute("aria-describedby")


def test_moves_are_put_in_order_by_keys(page: Page) -> None:
    item = find(page, "moves")
    press(page, item, "Check")
    assert "In this course the left column of an exchange moves first." in say(item)
    item.get_by_role("button", name="Move up: Set 1 on the tens").focus()
    page.keyboard.press("Enter")
    assert is_focused(item.get_by_role("button", name="Move up: Set 1 on the tens"))
    assert item.locator("[data-bw-moved]").inner_text() == "Set 1 on the tens: now at place 1 of 2"
    press(page, item, "Check")
    assert say(item) == "Right. That is the order."


def test_the_steps_of_a_problem_are_put_in_order(page: Page) -> None:
    item = find(page, "steps")
    wanted = ["Set 4 on the tens", "Set 8 on the ones", "Add 3 on the tens", "Add 7 on the ones"]
    press(page, item, "Check")
    assert "Not yet." in say(item)
    for place, start in enumerate(wanted):
        for _ in range(4):
            lines = item.locator(".bw-order-text").all_inner_texts()
            if lines[place].startswith(start):
                break
            now = next(i for i, line in enumerate(lines) if line.startswith(start))
            item.locator(".bw-order-line").nth(now).locator("[data-bw-do=up]").press("Enter")
    press(page, item, "Check")
    assert say(item) == "Right. That is the order."


def test_choices_tell_why(page: Page) -> None:
    item = find(page, "one")
    press(page, item, "Check")
    assert item.locator(".bw-item-error").inner_text() == "Choose an answer first."
    item.get_by_label("A lower bead").check()
    press(page, item, "Check")
    assert say(item) == "Not this one. Lower beads are worth 1 each."
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("ArrowDown")
    press(page, item, "Check")
    assert say(item) == "Right. It lies above the bar."
    item = find(page, "several")
    item.get_by_label("4 and 6").check()
    press(page, item, "Check")
    assert say(item) == "Right so far. One more is right. Four and six make 10."
    item.get_by_label("1 and 9").check()
    press(page, item, "Check")
    assert say(item).startswith("Right.")


def test_a_heard_problem_says_plainly_that_there_is_no_voice(page: Page) -> None:
    item = find(page, "hear")
    assert "48" not in item.locator(".bw-prompt").inner_text()
    press(page, item, "Play the problem")
    assert "no voice for English" in item.locator(".bw-heard-state").inner_text()
    assert "forty-eight plus thirty-seven" in item.locator(".bw-heard-text").inner_text()
    assert is_focused(item.get_by_role("button", name="Play the problem"))
    item.get_by_label("Your answer").fill("85")
    item.get_by_label("Your answer").press("Enter")
    assert say(item) == "Right. 48 + 37 gives 85."


SPEAKING = """
window.spoken = [];
class Utterance { constructor(text) { this.text = text; } }
window.SpeechSynthesisUtterance = Utterance;
Object.defineProperty(window, "speechSynthesis", { value: {
  getVoices: () => [{ lang: "en-US", name: "Test" }],
  speak(one) { window.spoken.push([one.text, Date.now()]); this.timer = setTimeout(() => one.onend(), 20); },
  cancel() { clearTimeout(this.timer); },
} });
"""


def test_a_voice_speaks_with_pauses_and_stops_on_a_key(visitor: Visitor, practice_site: Path) -> None:
    page = visitor.open("page.html")
    page.add_init_script(SPEAKING)
    page.reload()
    item = find(page, "hear")
    item.get_by_label("Pause after each number").select_option("1")
    press(page, item, "Play the problem")
    wait_until(page, "window.spoken.length === 2")
    (first, start), (second, end) = page.evaluate("window.spoken")
    assert (first, second) == ("forty-eight", "plus thirty-seven")
    assert end - start >= 1000
    wait_until(page, "document.querySelector('.bw-heard-state').textContent !== ''")
    assert item.locator(".bw-heard-state").inner_text() == "The problem has been said."
    press(page, item, "Play it again")
    page.keyboard.press("Escape")
    assert item.locator(".bw-heard-state").inner_text() == "Stopped."
    page.wait_for_timeout(1300)
    assert len(page.evaluate("window.spoken")) == 3


def test_ones_own_words_are_kept_and_not_graded(page: Page) -> None:
    item = find(page, "think")
    item.get_by_label("Your words").focus()
    page.keyboard.type("I would wait.")
    press(page, item, "Show a model answer")
    assert is_focused(item.get_by_role("button", name="Show a model answer"))
    assert item.locator(".bw-model strong").inner_text() == "less"
    (attempt,) = read_attempts(page)
    assert (attempt["response"], attempt["right"]) == ("I would wait.", None)


def test_confidence_is_kept_once_all_is_rated(page: Page) -> None:
    item = find(page, "sure")
    first, second = item.locator("fieldset").all()
    first.get_by_label("3: Quite").check()
    assert say(item) == "One more to choose."
    second.get_by_label("1: Not at all").check()
    assert say(item) == "Kept. Thank you."
    second.get_by_label("2: A little").check()
    kept = json.loads(page.evaluate("localStorage.getItem('bw-record:test-course')"))["ratings"]
    assert [(r["item"], r["value"], r["of"], r["when"]) for r in kept] == [
        ("add", 3, 4, "before"),
        ("explain", 1, 4, "before"),
        ("explain", 2, 4, "before"),
    ]


def test_confidence_rated_over_a_reload_is_kept_whole_and_once(page: Page) -> None:
    item = find(page, "sure")
    first, second = item.locator("fieldset").all()
    first.get_by_label("3: Quite").check()
    page.wait_for_timeout(600)
    page.reload()
    assert first.get_by_label("3: Quite").is_checked()
    second.get_by_label("1: Not at all").check()
    assert say(item) == "Kept. Thank you."
    page.wait_for_timeout(600)
    page.reload()
    second.get_by_label("4: Very").check()
    kept = json.loads(page.evaluate("localStorage.getItem('bw-record:test-course')"))["ratings"]
    assert [(r["item"], r["value"]) for r in kept] == [("add", 3), ("explain", 1), ("explain", 4)]


def test_a_frame_is_opened_worked_and_put_aside(page: Page) -> None:
    item = find(page, "add")
    press(page, item, "Open a frame here")
    item.get_by_role("spinbutton", name="ones").focus()
    page.keyboard.press("7")
    assert item.get_by_role("spinbutton", name="ones").get_attribute("aria-valuenow") == "7"
    press(page, item, "Put the frame away")
    assert item.locator("bw-frame").count() == 0
    fading = find(page, "fade")
    press(page, fading, "Open a frame here")
    assert fading.locator("bw-frame").count() == 1
    press(page, fading, "Put the frame away")
    assert fading.locator("bw-frame").count() == 0
    assert fading.locator("[data-bw-do=frame]").inner_text() == "The frame is put aside. Go on in your head."
    page.keyboard.press("Enter")
    assert fading.locator("bw-frame").count() == 0
    assert find(page, "quick").locator("[data-bw-do=frame]").count() == 0
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map(one => one.id)")
    assert len(ids) == len(set(ids))


def test_time_is_measured_only_for_those_who_want_it(page: Page) -> None:
    item = find(page, "quick")
    item.get_by_label("Your answer").fill("13")
    item.get_by_label("Your answer").press("Enter")
    (untimed,) = read_attempts(page)
    assert (untimed["timed"], untimed["seconds"]) == (False, 0)
    item.get_by_label("Measure my time").check()
    page.wait_for_timeout(1100)
    item.get_by_label("Your answer").press("Enter")
    assert "right digits a minute" in say(item)
    timed = read_attempts(page)[-1]
    assert timed["timed"] is True
    assert 1 <= timed["seconds"] < 20


def test_each_try_has_its_own_time_and_all_tries_together_the_time_worked(page: Page) -> None:
    page.clock.install()
    item = find(page, "quick")
    field = item.get_by_label("Your answer")
    item.get_by_label("Measure my time").check()
    for typed, seconds in (("11", 30), ("12", 40), ("13", 50)):
        page.clock.run_for(1_000 * seconds)
        field.fill(typed)
        field.press("Enter")
    # 120 seconds for the two digits of 13: one a minute.
    told = say(item)
    page.clock.run_for(20_000)
    field.press("Enter")
    tries = [attempt["seconds"] for attempt in read_attempts(page)]
    assert tries == [pytest.approx(30, abs=4), pytest.approx(40, abs=4), pytest.approx(50, abs=4), 0]
    assert "2 right digits: 1 right digits a minute." in told
    assert float(told.split("gives 13. ")[1].split()[0]) == pytest.approx(sum(tries), abs=0.2)


def test_a_reload_loses_nothing(page: Page) -> None:
    item = find(page, "add")
    press(page, item, "Another one")
    problem = item.locator(".bw-prompt .bw-problem").inner_text()
    item.get_by_label("Your answer").fill("12")
    press(page, item, "Hint 1 of 3")
    hint = item.locator(".bw-hint").inner_text()
    whole = find(page, "whole")
    whole.get_by_role("spinbutton", name="tens").focus()
    page.keyboard.press("4")
    press(page, whole, "Check this digit")
    find(page, "think").get_by_label("Your words").fill("Half a thought")
    page.reload()
    item = find(page, "add")
    assert item.locator(".bw-prompt .bw-problem").inner_text() == problem
    assert item.get_by_label("Your answer").input_value() == "12"
    assert item.locator(".bw-hint").inner_text() == hint
    whole = find(page, "whole")
    assert whole.get_by_role("spinbutton", name="tens").get_attribute("aria-valuenow") == "4"
    assert whole.locator(".bw-item-digits").inner_text() == "3 digits are left."
    assert find(page, "think").get_by_label("Your words").input_value() == "Half a thought"
    assert "1 of 14 items answered" not in page.locator("bw-progress").inner_text()


def test_progress_follows_the_answers(page: Page) -> None:
    progress = page.locator("bw-progress")
    assert "Nothing answered yet." in progress.inner_text()
    item = find(page, "add")
    item.get_by_label("Your answer").fill("75")
    item.get_by_label("Your answer").press("Enter")
    page.wait_for_timeout(150)
    assert "1 of 13 items answered, 0 of them right at the latest try." in progress.inner_text()
    item.get_by_label("Your answer").fill("85")
    item.get_by_label("Your answer").press("Enter")
    page.wait_for_timeout(150)
    assert "one of them right at the latest try" in progress.inner_text()
    assert "1 of 13 right at the latest try; 11 are needed." in progress.inner_text()
    link = progress.get_by_role("link", name="Item 2 of 15: read the frame")
    assert link.get_attribute("href") == "#item-read"


def test_without_scripts_each_item_has_its_answer_folded(visitor: Visitor) -> None:
    page = visitor.open("page.html", java_script_enabled=False)
    for item in ("add", "whole", "next", "moves", "steps", "slip", "read", "put", "one", "several", "hear", "think"):
        fold = find(page, item).locator("details.bw-fold")
        assert fold.count() == 1, item
        assert fold.get_attribute("open") is None
    fold = find(page, "add").locator("details.bw-fold")
    assert "Answer: 85." not in fold.inner_text()
    fold.locator("summary").click()
    assert "Answer: 85." in fold.inner_text()
    assert "set 1 on the tens, clear 3 on the ones" in fold.inner_text()
    for button in page.locator("bw-item button").all():
        assert button.is_hidden()


def test_with_scripts_no_answer_stands_in_the_page(page: Page) -> None:
    assert page.locator(".bw-fold").count() == 0


def test_answers_are_not_printed(visitor: Visitor) -> None:
    page = visitor.open("page.html", java_script_enabled=False)
    page.emulate_media(media="print")
    for fold in page.locator(".bw-fold").all():
        assert fold.is_hidden()
    assert find(page, "add").locator(".bw-prompt").is_visible()
    assert find(page, "one").get_by_text("The upper bead", exact=True).first.is_visible()


@pytest.mark.parametrize("part", ["bw-lesson-end", "bw-editions", "bw-braille"])
def test_what_has_no_use_on_paper_is_not_printed(visitor: Visitor, part: str) -> None:
    """What leads on, the list of other forms, and braille that nobody opened."""
    page = visitor.open("page.html")
    page.locator("main").evaluate(
        "(main, part) => main.append(Object.assign(document.createElement('section'), {"
        "className: part, textContent: part}))",
        part,
    )
    page.emulate_media(media="print")
    for found in page.locator(f".{part}").all():
        assert found.is_hidden()


def test_a_broken_item_stops_no_other(practice_site: Path, chromium: Browser) -> None:
    html = (practice_site / "page.html").read_text(encoding="utf-8")
    start = html.index('<script type="application/json" class="practice-data">', html.index('id="item-read"'))
    broken = (
        html[:start]
        + '<script type="application/json" class="practice-data">{"broken'
        + html[html.index("</script>", start) :]
    )
    (practice_site / "broken.html").write_text(broken, encoding="utf-8")
    page = chromium.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto((practice_site / "broken.html").as_uri())
    assert "This item cannot run here." in find(page, "read").inner_text()
    assert find(page, "read").locator(".bw-fold").count() == 1
    item = find(page, "put")
    item.get_by_role("spinbutton", name="tens").focus()
    page.keyboard.press("5")
    item.get_by_role("spinbutton", name="ones").focus()
    page.keyboard.press("6")
    press(page, item, "Check the frame")
    assert say(item) == "Right. The frame reads 56."
    assert errors == []
    page.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(visitor: Visitor, assert_no_axe_findings: Any, scheme: str) -> None:
    page = visitor.open("page.html", scheme=scheme)
    assert_no_axe_findings(page)
    for name, typed in (("add", "75"), ("read", "305")):
        find(page, name).get_by_label("Your answer").fill(typed)
        find(page, name).get_by_label("Your answer").press("Enter")
    find(page, "fade").get_by_label("Your answer").press("Enter")
    press(page, find(page, "add"), "Show the working")
    press(page, find(page, "add"), "Open a frame here")
    press(page, find(page, "next"), "Hint 1 of 3")
    slip = find(page, "slip")
    slip.locator("[data-bw-stage=step] input").nth(3).check()
    press(page, slip, "Check")
    find(page, "put").get_by_role("checkbox", name="I work on my own frame").check()
    assert_no_axe_findings(page)


@pytest.mark.parametrize("width", [320, 1280])
def test_nothing_runs_over_the_side(visitor: Visitor, width: int) -> None:
    page = visitor.open("page.html", width=width)
    press(page, find(page, "add"), "Open a frame here")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    small = page.evaluate(
        """() => [...document.querySelectorAll("bw-item button, bw-item input, bw-item select, bw-item a")]
          .filter((one) => one.offsetParent !== null)
          .map((one) => ({ name: one.outerHTML, box: (one.closest("label") ?? one).getBoundingClientRect() }))
          .filter(({ box }) => box.width < 24 || box.height < 24).map(({ name }) => name)"""
    )
    assert small == []
