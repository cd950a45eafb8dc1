"""Braille on a page: there only when asked for, as cells that a braille display shows as they are.

Expected cells by hand from the codes' tables of signs: Nemeth Code 1972, rules II (numbers) and XIX (operations);
RUEB 2013, sections 3 and 6.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Browser, Locator, Page, expect

from beadwright.engine import build_frame, parse_problem, work_problem
from beadwright.render import load_words, render_walkthrough
from beadwright.render.items import PracticePage
from tests.support.pages import visit_site
from tests.support.practice_pages import load_lesson, write_page

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37}
- {id: read, ask: read, reads: "305"}
- {id: put, ask: set, reads: "1305"}
- {id: story, ask: answer, problem: 48 + 37, prompt: "Oda has 48 beads and finds 37 more. How many has she now?"}
- {id: hear, ask: heard, problem: 48 + 37}
"""
NEMETH = {"add": "⠼⠲⠦⠬⠒⠶", "put": "⠼⠂⠠⠒⠴⠢", "hear": "⠼⠲⠦⠬⠒⠶"}
UEB = {"add": "⠼⠙⠓⠐⠖⠼⠉⠛", "put": "⠼⠁⠂⠉⠚⠑", "hear": "⠼⠙⠓⠐⠖⠼⠉⠛"}


@pytest.fixture(scope="module")
def braille_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("braille")
    write_page(folder, load_lesson(folder, ITEMS))
    return folder


@pytest.fixture
def page(chromium: Browser, braille_site: Path) -> Iterator[Page]:
    with visit_site(chromium, braille_site) as visitor:
        yield visitor.open("page.html")


def open_braille(item: Locator) -> Locator:
    item.locator(".bw-braille summary").focus()
    item.page.keyboard.press("Enter")
    return item.locator(".bw-cells")


@pytest.mark.browser
def test_braille_is_there_when_it_is_asked_for(page: Page) -> None:
    for name, cells in NEMETH.items():
        item = page.locator(f"#item-{name}")
        expect(item.locator(".bw-cells")).not_to_be_visible()
        shown = open_braille(item)
        expect(shown).to_be_visible()
        expect(shown).to_have_text(cells)


@pytest.mark.browser
def test_braille_goes_with_the_problem(page: Page) -> None:
    item = page.locator("#item-add")
    shown = open_braille(item)
    digits = dict(zip("0123456789+", "⠴⠂⠆⠒⠲⠢⠖⠶⠦⠔⠬", strict=True))
    seen = set()
    for _ in range(4):
        problem = item.locator("[data-bw-part=shown]").inner_text()
        seen.add(problem)
        expect(shown).to_have_text("⠼" + "".join(digits[sign] for sign in problem if sign in digits))
        item.get_by_role("button", name="Another one").click()
    assert len(seen) == 4


@pytest.mark.browser
def test_braille_that_is_shown_has_no_fault(page: Page, assert_no_axe_findings: Callable[..., None]) -> None:
    for item in page.locator("bw-item", has=page.locator(".bw-braille")).all():
        open_braille(item)
    page.set_viewport_size({"width": 320, "height": 640})
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert_no_axe_findings(page)


def build_page(folder: Path, code: str) -> BeautifulSoup:
    loaded = load_lesson(folder, ITEMS)
    page = PracticePage(load_words("en"), "try-it", braille_code=code)
    return BeautifulSoup("".join(page.render_practice(practice) for practice in loaded.practices), "html.parser")


@pytest.mark.parametrize(("code", "wanted", "name"), [("nemeth", NEMETH, "Nemeth Code"), ("ueb", UEB, "UEB")])
def test_cells_are_named_and_marked_as_braille(tmp_path: Path, code: str, wanted: dict[str, str], name: str) -> None:
    soup = build_page(tmp_path, code)
    for item, cells in wanted.items():
        shown = soup.select_one(f"#item-{item} details .bw-cells")
        assert shown is not None
        assert shown.get_text() == cells
        assert shown["lang"] == "en-Brai"
        group = shown.parent
        assert group is not None
        assert group["role"] == "group"
        label = soup.find(id=group["aria-labelledby"])
        assert label is not None
        assert name in label.get_text()


@pytest.mark.parametrize(("code", "cells"), [("nemeth", NEMETH["add"]), ("ueb", UEB["add"])])
def test_a_worked_example_has_its_problem_in_braille(code: str, cells: str) -> None:
    example = work_problem(parse_problem("48 + 37"), build_frame())
    part = render_walkthrough(example, load_words("en"), walkthrough_id="w1", braille_code=code)
    shown = BeautifulSoup(part, "html.parser").select_one("#w1 > .bw-braille .bw-cells")
    assert shown is not None
    assert shown.get_text() == cells


def test_each_example_of_a_course_is_in_the_course_s_code(built_site: Path) -> None:
    soup = BeautifulSoup((built_site / "modules" / "partner-of-10.html").read_bytes(), "html.parser")
    names = [part.get_text() for part in soup.select(".bw-walkthrough > .bw-braille summary")]
    assert len(names) == len(soup.select(".bw-walkthrough")) > 3
    assert set(names) == {"In braille (Nemeth Code)"}


def test_braille_gives_no_answer_away(tmp_path: Path) -> None:
    """A frame that is to be read, and a story that is to be put into figures."""
    soup = build_page(tmp_path, "nemeth")
    assert soup.select("#item-read .bw-cells, #item-story .bw-cells") == []
