"""A walkthrough on a page opened from a folder: whole without scripts, one step at a time with them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from beadwright.engine import build_frame, parse_problem, work_problem
from beadwright.render import load_words, render_walkthrough
from tests.support.axe import find_axe_findings
from tests.support.pages import Visitor, visit_site, wait_until
from tests.support.parts import write_page

pytestmark = pytest.mark.browser

FULL = (
    "To set 48, set 4 on the tens: 4 lower beads. Now the tens read 4.",
    "To set 48, set 8 on the ones: the upper bead and 3 lower beads. Now the ones read 8. The frame reads 48.",
    (
        "To add 37, add 3 on the tens. Too few lower beads are at rest for three; three is five less two: set the "
        "upper bead and clear 2 lower beads on the tens. Now the tens read 7."
    ),
    (
        "To add 37, add 7 on the ones. Not enough beads are at rest on the ones for seven; seven is ten less three: "
        "set 1 on the tens, clear 3 on the ones. Now the tens read 8 and the ones 5. The answer is 85."
    ),
)
SHORT = "Add 7 on the ones: set 1 on the tens, clear 3 on the ones. Now the tens read 8 and the ones 5."


@pytest.fixture
def visitor(chromium: Browser, tmp_path: Path) -> Iterator[Visitor]:
    def render(problem: str, name: str) -> str:
        walkthrough = work_problem(parse_problem(problem), build_frame())
        return render_walkthrough(walkthrough, load_words("en"), walkthrough_id=name)

    write_page(tmp_path, [render("48 + 37", "w1"), render("999 + 1", "w2"), render("5 + 0", "w3")])
    with visit_site(chromium, tmp_path) as visiting:
        yield visiting


def shown(page: Page, name: str = "w1") -> list[str]:
    """The sentences that can be seen."""
    steps = page.locator(f"#{name} .bw-step")
    return [step.locator(".bw-say").inner_text() for step in steps.all() if step.is_visible()]


def said(page: Page, name: str = "w1") -> str:
    """What the live region holds."""
    return page.locator(f"#{name} [role=status]").inner_text()


def press(page: Page, way: str, name: str = "w1") -> None:
    """Press one of the stepper's keys from the keyboard."""
    page.locator(f"#{name} [data-bw-go={way}]").press("Enter")


def test_without_scripts_every_step_is_there(visitor: Visitor) -> None:
    page = visitor.open("index.html", java_script_enabled=False)
    assert shown(page) == list(FULL)
    assert page.locator("#w1 svg:visible").count() == 4
    assert page.locator("#w1 button:visible").count() == 0


def test_on_paper_every_step_is_there_and_no_key(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.emulate_media(media="print")
    assert shown(page) == list(FULL)
    assert page.locator("#w1 button:visible").count() == 0


def test_the_first_step_is_shown_and_nothing_is_said_unasked(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    assert shown(page) == [FULL[0]]
    assert said(page) == ""
    assert page.locator("#w1 .bw-stepper-place").inner_text() == "Step 1 of 4"


def test_the_keyboard_alone_goes_through_the_steps(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    names = []
    for _ in range(7):
        page.keyboard.press("Tab")
        names.append(page.evaluate("document.activeElement.textContent"))
    ways, manners = ["First", "Back", "Next step", "Last"], ["Short reading", "All steps at once"]
    assert names == [*ways, *manners, "N key for the next step"]
    page.locator("#w1 [data-bw-go=next]").focus()
    for step in (2, 3, 4):
        page.keyboard.press("Enter")
        assert shown(page) == [FULL[step - 1]]
        assert said(page).startswith(f"Step {step} of 4. ")
    assert said(page) == f"Step 4 of 4. {SHORT}"
    assert page.evaluate("document.activeElement.textContent") == "Next step"


def test_at_an_end_the_key_says_so_and_keeps_the_focus(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    press(page, "previous")
    assert said(page).startswith("This is the first step. Step 1 of 4.")
    press(page, "last")
    assert shown(page) == [FULL[3]]
    press(page, "next")
    assert said(page).startswith("This is the last step. Step 4 of 4.")
    assert page.locator("#w1 [data-bw-go=next]").get_attribute("aria-disabled") == "true"
    assert page.evaluate("document.activeElement.dataset.bwGo") == "next"
    press(page, "first")
    assert shown(page) == [FULL[0]]


def test_each_step_keeps_its_number(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    press(page, "last")
    number = "getComputedStyle(document.querySelector('#w1-step-4'), '::before').content"
    assert page.evaluate(number).startswith('"4"')


def test_one_step_alone_has_no_keys_that_lead_nowhere(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    assert len(shown(page, "w3")) == 1
    keys = [key.inner_text() for key in page.locator("#w3 button").all() if key.is_visible()]
    assert keys == ["Short reading"]
    assert not page.locator("#w3 .bw-stepper-place").is_visible()


def test_a_short_reading_is_shown_said_and_remembered(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    press(page, "last")
    page.locator("#w1 [data-bw-toggle=short]").press("Space")
    assert (shown(page), said(page)) == ([SHORT], f"Step 4 of 4. {SHORT}")
    page.reload()
    assert page.locator("#w1 [data-bw-toggle=short]").get_attribute("aria-pressed") == "true"
    assert shown(page) == ["Set 4 on the tens: 4 lower beads. Now the tens read 4."]
    assert page.evaluate("JSON.stringify(localStorage)") == '{"bw-reading":"short"}'
    page.locator("#w1 [data-bw-toggle=short]").press("Space")
    assert (shown(page), said(page)) == ([FULL[0]], f"Step 1 of 4. {FULL[0]}")


def test_the_full_reading_is_said_once_it_was_asked_for(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    for _ in range(2):
        page.locator("#w1 [data-bw-toggle=short]").press("Space")
    assert page.evaluate("JSON.stringify(localStorage)") == '{"bw-reading":"full"}'
    page.reload()
    press(page, "last")
    assert (shown(page), said(page)) == ([FULL[3]], f"Step 4 of 4. {FULL[3]}")


def test_all_steps_can_be_shown_at_once(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.locator("#w1 [data-bw-toggle=all]").press("Enter")
    assert (shown(page), said(page)) == (list(FULL), "All 4 steps are shown.")
    press(page, "next")
    assert shown(page) == [FULL[1]]


def test_one_key_goes_on_for_who_has_switched_it_on(visitor: Visitor) -> None:
    """A single letter does something only where somebody asked for it (WCAG 2.2, success criterion 2.1.4)."""
    page = visitor.open("index.html")
    page.keyboard.press("n")
    assert shown(page) == [FULL[0]]
    switch = page.locator("#w1 [data-bw-toggle=key]")
    switch.press("Space")
    assert switch.get_attribute("aria-pressed") == "true"
    assert page.locator("#w2 [data-bw-toggle=key]").get_attribute("aria-pressed") == "true"
    assert said(page) == "The N key now goes to the next step, except where you type."
    page.keyboard.press("n")
    assert shown(page) == [FULL[1]]
    assert said(page).startswith("Step 2 of 4. ")
    for held in ("Control+n", "Alt+n", "Shift+N"):
        page.keyboard.press(held)
    assert shown(page) == [FULL[1]]
    page.evaluate("document.querySelector('main').insertAdjacentHTML('afterbegin', '<input id=box aria-label=box>')")
    page.locator("#box").press("n")
    assert page.locator("#box").input_value() == "n"
    assert shown(page) == [FULL[1]]
    page.reload()
    page.keyboard.press("n")
    assert shown(page) == [FULL[1]]
    page.locator("#w2 [data-bw-go=next]").focus()
    page.keyboard.press("n")
    assert shown(page) == [FULL[1]]
    assert said(page, "w2").startswith("Step 2 of ")
    page.locator("#w1 [data-bw-toggle=key]").press("Space")
    page.keyboard.press("n")
    assert shown(page) == [FULL[1]]
    assert said(page) == "The N key does nothing here any more."


def test_a_link_to_a_step_shows_it(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.evaluate("location.hash = '#w1-step-3'")
    wait_until(page, "document.querySelector('#w1 bw-stepper').step === 3")
    assert (shown(page), shown(page, "w2")[0][:11]) == ([FULL[2]], "To set 999,")
    page.reload()
    assert shown(page) == [FULL[2]]


def test_two_walkthroughs_of_a_page_go_apart(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    press(page, "last", "w2")
    assert shown(page) == [FULL[0]]
    assert shown(page, "w2")[0].startswith("Add 1 on the ones.")


def test_a_stepper_that_is_moved_in_the_page_still_takes_one_step_a_press(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    page.evaluate("document.querySelector('main').append(document.querySelector('#w1'))")
    press(page, "next")
    assert shown(page) == [FULL[1]]
    page.evaluate("{ const s = document.querySelector('#w1 bw-stepper'); s.remove(); window.kept = s; }")
    assert page.evaluate("[...kept.querySelectorAll('.bw-step')].some((step) => step.hidden)") is False


def test_a_browser_that_keeps_nothing_changes_nothing_else(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    refuse = "() => { throw new DOMException('no', 'SecurityError'); }"
    page.add_init_script(f"Storage.prototype.getItem = Storage.prototype.setItem = {refuse}")
    page.reload()
    page.locator("#w1 [data-bw-toggle=short]").press("Space")
    press(page, "last")
    assert shown(page) == [SHORT]


def test_a_step_is_read_once_its_sentence_then_its_picture(visitor: Visitor) -> None:
    page = visitor.open("index.html")
    press(page, "last")
    assert page.locator("#w1-step-4").aria_snapshot() == (
        f"- listitem:\n  - paragraph: {yaml_text(FULL[3])}\n  - 'img \"Frame: tens 8, ones 5\"'"
    )


def yaml_text(text: str) -> str:
    """Text as an accessibility snapshot writes it: quoted where it holds a colon."""
    return f'"{text}"' if ": " in text else text


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
def test_a_walkthrough_has_no_axe_finding(visitor: Visitor, scheme: str, width: int) -> None:
    page = visitor.open("index.html", scheme=scheme, width=width)
    assert find_axe_findings(page) == []
    press(page, "last")
    page.locator("#w2 [data-bw-toggle=all]").press("Enter")
    assert find_axe_findings(page) == []


def test_nothing_is_wider_than_a_narrow_page(visitor: Visitor) -> None:
    page = visitor.open("index.html", width=320, height=640)
    page.locator("#w2 [data-bw-toggle=all]").press("Enter")
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
