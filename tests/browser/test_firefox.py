"""The same tasks in a second browser, from a folder and from a server on this machine, by keyboard alone."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.building import build_site
from tests.support.firefox import Firefox, find_firefox, start_firefox
from tests.support.serving import serve_folder
from tests.support.small_course import write_course

PATH = find_firefox()
pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(PATH is None, reason="Firefox is not installed: `make browser` brings it where apt-get may"),
]

LESSON = "modules/partner-of-10.html"
ITEM = "#item-add-46-9"


@pytest.fixture(scope="module")
def firefox(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    """One Firefox for the module; its pages differ by address."""
    assert PATH is not None
    with start_firefox(PATH, tmp_path_factory.mktemp("firefox")) as started:
        yield started


@pytest.fixture(params=["folder", "server"])
def base(request: pytest.FixtureRequest, built_site: Path) -> Iterator[str]:
    """Where the pages are: the folder, or a server."""
    if request.param == "folder":
        yield built_site.as_uri()
        return
    with serve_folder(built_site) as address:
        yield address


def answer(firefox: Firefox, base: str) -> None:
    """Answer an item of the lesson, wrong and then right."""
    firefox.open(f"{base}/{LESSON}")
    firefox.evaluate("localStorage.clear()")
    firefox.open(f"{base}/{LESSON}?again")
    firefox.tab_to(f"{ITEM} input")
    firefox.press("4", "5", "Enter")
    firefox.wait_for(f"document.querySelector('{ITEM} .bw-feedback').textContent.includes('45 is not the answer')")
    assert firefox.evaluate(f"document.activeElement === document.querySelector('{ITEM} input')")
    firefox.evaluate(f"document.querySelector('{ITEM} input').select()")
    firefox.press("5", "5", "Enter")
    firefox.wait_for(f"document.querySelector('{ITEM} .bw-feedback').textContent.startsWith('Right.')")
    firefox.wait_for("Object.keys(localStorage).some((key) => key.startsWith('bw-record:'))")


def test_the_first_stop_leads_past_the_shell(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/{LESSON}")
    firefox.press("Tab")
    assert firefox.evaluate("document.activeElement.textContent") == "Skip to the text"
    firefox.press("Enter", "Tab")
    assert firefox.evaluate("document.activeElement.closest('main') !== null")


def test_a_lesson_is_reached_from_the_start(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/index.html")
    firefox.tab_to("main a[href$='partner-of-10.html']")
    firefox.press("Enter")
    firefox.wait_for("location.pathname.endsWith('partner-of-10.html') && document.readyState === 'complete'")


def test_a_slip_is_found_and_hints_come(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/{LESSON}")
    item = "document.activeElement.closest('bw-item')"
    firefox.evaluate("location.hash = document.querySelector('bw-item[data-bw-ask=find-slip]').id")
    firefox.tab_to("bw-item[data-bw-ask=find-slip] input[type=radio]")
    firefox.press("ArrowDown", "ArrowDown")
    assert firefox.evaluate("document.activeElement.checked && document.activeElement.value") == "3"
    firefox.tab_to("[data-bw-do=check]")
    firefox.activate()
    firefox.wait_for(f"{item}.querySelector('.bw-feedback').textContent !== ''")
    firefox.tab_to("[data-bw-do=hint]")
    firefox.activate()
    firefox.wait_for(f"{item}.querySelector('.bw-hints').textContent.startsWith('Hint 1')")


CARE = "modules/frames-hands-and-care.html"
KINDS = {
    "read": (CARE, "column-read-8", "> input; 4 Enter; ? does not read 4; Backspace 8 Enter; ? reads 8"),
    "set": (
        CARE,
        "set-6",
        """> [role=spinbutton]; ArrowRight PageUp; > [data-bw-do=check]; !; ? reads 5;
        < [role=spinbutton]; ArrowUp; > [data-bw-do=check]; !; ? The frame reads 6""",
    ),
    "next-move": (
        LESSON,
        "next-8-8",
        """> [value='2l+1']; !; > [data-bw-do=check]; !; ? Not yet;
        < [value='1l-2']; !; > [data-bw-do=check]; !; ? Right: set 1 on the tens""",
    ),
    "order-moves": (
        LESSON,
        "order-9-6",
        """> [data-bw-do=check]; !; ? Not yet;
        < li:nth-child(2) [data-bw-do=up]; !; > [data-bw-do=check]; !; ? Right.""",
    ),
    "carry-out": (
        LESSON,
        "carry-out-37-25",
        """> [role=spinbutton]; ArrowRight 3; > [data-bw-do=check]; !; ? reads 300;
        < [role=spinbutton]; 0 ArrowRight 3; > [data-bw-do=check]; !; ? Right so far""",
    ),
    "heard": (LESSON, "heard-90-45", "> input[name=answer]; 5 5 Enter; ? 55 is not the answer"),
    "choice": (LESSON, "reason-for-plus-8", "> input; ArrowDown Enter; ? Not this one; ArrowUp Enter; ? Right."),
    "reflect": (CARE, "choose-reflect", "> textarea; o k; > [data-bw-do=model]; !; ? One way to answer"),
    "rating": (CARE, "rating-01625970", "> input; ArrowDown; ? 5 more to choose"),
}
"""By kind lesson, item, what is done: `>` tab to, `<` tab back to, `!` press that, `?` hear; else keys."""


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_each_kind_of_item_is_worked(firefox: Firefox, base: str, kind: str) -> None:
    lesson, name, doings = KINDS[kind]
    firefox.open(f"{base}/{lesson}?{kind}")
    firefox.evaluate("localStorage.clear()")
    firefox.open(f"{base}/{lesson}?{kind}-again")
    item = f"#item-{name}"
    firefox.evaluate(f"location.hash = '{item}'")  # as a link to it; the page then puts the focus where one begins
    for doing in doings.split(";"):
        sign, _, rest = doing.strip().partition(" ")
        if sign in "><":
            wanted = f"{item} {rest}"
            if not firefox.evaluate(f"document.activeElement.matches({json.dumps(wanted)})"):
                firefox.tab_to(wanted, back=sign == "<")
        elif sign == "!":
            firefox.activate()
        elif sign == "?":
            heard = f"[...document.querySelectorAll('{item} [role=status]')].map((one) => one.textContent).join(' ')"
            firefox.wait_for(f"{heard}.includes({json.dumps(rest)})")
            assert firefox.evaluate(f"document.activeElement.closest('{item}') !== null"), "the focus is lost"
        else:
            firefox.press(*doing.split())


def test_the_menu_and_dialogs_take_the_focus_and_give_it_back(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/glossary.html")
    for name in ("search", "display"):
        firefox.tab_to(f"#bw-{name}-button")
        firefox.activate()
        firefox.wait_for(f"document.querySelector('#bw-{name}').contains(document.activeElement)")
        firefox.press("Escape")
        firefox.wait_for(f"document.activeElement.id === 'bw-{name}-button'")


def test_single_keys_lead_nowhere(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/{LESSON}")
    firefox.tab_to("[data-bw-go=next]")
    firefox.press(*"np.,sf/")
    assert firefox.evaluate(
        "location.pathname.endsWith('partner-of-10.html') && !document.querySelector('dialog[open]')"
    )


def test_a_round_is_worked(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/rounds/friendly-round.html")
    box = "document.querySelector('#round-first-box')"
    keys = firefox.evaluate(
        f"JSON.parse({box}.querySelector('.round-data').textContent).sets[0].map((e) => e.key.text)"
    )
    firefox.evaluate(f"[...{box}.querySelectorAll('button')].find((one) => one.textContent === 'Start').click()")
    for key in keys:
        firefox.press(*key, "Enter")
    firefox.wait_for(f"{box}.textContent.includes('{len(keys)} of {len(keys)}')")


def test_a_path_is_taken(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/index.html?path")
    firefox.evaluate("localStorage.clear()")
    firefox.open(f"{base}/index.html?path-again")
    firefox.tab_to("bw-path[data-path=parent] button")
    firefox.activate()
    firefox.wait_for("document.activeElement.textContent.startsWith('Leave the path')")


def test_looks_are_chosen_by_arrows_and_kept(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/glossary.html")
    firefox.tab_to("#bw-display-button")
    firefox.activate()
    firefox.wait_for("document.querySelector('#bw-display').open")
    firefox.tab_to("input[name=bw-scheme]")
    firefox.press("ArrowDown", "ArrowDown")
    assert firefox.evaluate("document.documentElement.dataset.bwScheme") == "dark"
    firefox.press("Escape")
    firefox.wait_for("document.activeElement.id === 'bw-display-button'")
    firefox.open(f"{base}/glossary.html?again")
    assert firefox.evaluate("document.documentElement.dataset.bwScheme") == "dark"


def test_an_item_is_answered_wrong_then_right(firefox: Firefox, base: str) -> None:
    answer(firefox, base)


def test_a_walkthrough_is_stepped_and_a_frame_worked(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/{LESSON}")
    firefox.tab_to("[data-bw-go=next]")
    firefox.activate()
    said = "document.activeElement.closest('bw-stepper').querySelector('[role=status]').textContent"
    assert firefox.evaluate(said).startswith("Step 2 of ")
    firefox.open(f"{base}/modules/set-read-clear.html")
    firefox.tab_to("bw-frame [role=spinbutton]")
    firefox.press("7", "ArrowUp")
    assert firefox.evaluate("document.activeElement.getAttribute('aria-valuenow')") == "8"
    assert firefox.evaluate("document.activeElement.getAttribute('aria-valuetext')").startswith("8, ")


def test_search_finds_a_page(firefox: Firefox, base: str) -> None:
    firefox.open(f"{base}/index.html")
    firefox.tab_to("#bw-search-button")
    firefox.activate()
    firefox.wait_for("document.activeElement.id === 'bw-search-input'")
    firefox.press(*"exchange")
    firefox.wait_for("document.querySelectorAll('#bw-search-hits a').length > 0", seconds=15)


def test_no_page_scrolls_sideways(firefox: Firefox, base: str) -> None:
    for path in ("index.html", LESSON, "record.html", "glossary.html"):
        firefox.open(f"{base}/{path}")
        assert firefox.evaluate("document.documentElement.scrollWidth <= innerWidth"), path


def test_the_record_is_found_on_other_pages_or_it_is_said_that_it_is_not(firefox: Firefox, base: str) -> None:
    answer(firefox, base)
    firefox.open(f"{base}/record.html")
    if base.startswith("http:"):
        firefox.wait_for("document.querySelector('[data-bw-empty]').hidden")
        return
    # From a folder this browser keeps each page apart; the learner is told, and told what to do.
    assert firefox.evaluate("!document.querySelector('[data-bw-empty]').hidden")
    firefox.wait_for("document.querySelector('.bw-record-state').textContent.includes('for each page apart')")
    state = firefox.evaluate("document.querySelector('.bw-record-state').textContent")
    assert "whole-course.html" in state
    assert "save your record on each page and load the files together" in state
    firefox.open(f"{base}/{LESSON}")
    firefox.wait_for("document.querySelector('main').textContent.includes('for each page apart')")


def test_a_course_that_is_kept_opens_when_its_host_is_gone(firefox: Firefox, tmp_path: Path) -> None:
    course = write_course(tmp_path, offline="true")
    build_site(course / "mkdocs.yml", course / "site")
    with serve_folder(course / "site") as address:
        firefox.open(f"{address}/index.html")
        firefox.wait_for("document.querySelector('#bw-kept').textContent.startsWith('Kept on this device')", seconds=20)
    firefox.open(f"{address}/modules/one.html")
    assert firefox.evaluate("document.querySelector('h1').textContent") == "Lesson 1"
