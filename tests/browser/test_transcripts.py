"""What a screen reader says of figures and at the tasks that matter most, held against transcripts for people to read.

A line that begins with `>` is what the learner does. Somebody who changes a sentence reads the transcript aloud before
storing it anew (the failing test prints it).
"""

import itertools
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest
from markupsafe import Markup
from playwright.sync_api import Browser, Page

from beadwright.engine import build_frame, parse_problem, work_problem
from beadwright.practice.values import Ask
from beadwright.render import load_words, render_figure, render_walkthrough
from tests.support.pages import Visitor, visit_site
from tests.support.practice_pages import load_lesson, write_page
from tests.support.reader import TRANSCRIPTS, Reader

pytestmark = pytest.mark.browser

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37}
- {id: put, ask: set, reads: "56"}
- {id: slip, ask: find-slip, problem: 67 + 38, slip: exchange-dropped}
- {id: held, ask: read, reads: "52"}
"""


@pytest.fixture
def page(chromium: Browser, tmp_path: Path) -> Iterator[Page]:
    """A page with four items, a walkthrough and a figure, below no other course's words."""
    walkthrough = work_problem(parse_problem("48 + 37"), build_frame())
    extra = render_walkthrough(walkthrough, load_words("en"), walkthrough_id="w1")
    figure = render_figure(
        build_frame().with_number(608), load_words("en"), figure_id="f1", caption="A zero that holds"
    )
    extra += Markup('<div id="told" role="group" aria-label="Text of a lesson">{}</div>').format(figure)
    write_page(tmp_path, load_lesson(tmp_path, ITEMS), extra=str(extra))
    visitor: Visitor
    with visit_site(chromium, tmp_path) as visitor:
        yield visitor.open("page.html")


def test_a_figure_is_told_once(page: Page) -> None:
    reader = Reader(page, "#told")
    reader.read_on()
    reader.hold("figure")
    reader = Reader(page, "#item-held")
    reader.read_on()
    reader.hold("read")


def test_a_walkthrough_is_stepped_through(page: Page) -> None:
    reader = Reader(page, "#w1")
    reader.read_on()
    reader.focus("#w1 [data-bw-go=next]", "tab to Next step")
    for _ in range(4):
        reader.press("Enter", "press Enter")
    reader.focus("#w1 [data-bw-toggle=short]", "tab to Short reading")
    reader.press("Enter", "press Enter")
    reader.press("Enter", "press Enter")
    reader.focus("#w1 [data-bw-toggle=all]", "tab to All steps at once")
    reader.press("Enter", "press Enter")
    reader.hold("walkthrough")


def test_a_frame_is_worked(page: Page) -> None:
    reader = Reader(page, "#item-put")
    reader.read_on()
    reader.focus("#item-put [role=spinbutton]", "tab to the frame")
    for key, doing in (
        ("ArrowRight", "press right"),
        ("5", "press 5"),
        ("ArrowRight", "press right"),
        ("PageUp", "press page up"),
        ("ArrowUp", "press up"),
        ("ArrowUp", "press up"),
        ("ArrowDown", "press down"),
    ):
        reader.press(key, doing)
    reader.focus("#item-put [data-bw-do=check]", "tab to Check the frame")
    reader.press("Enter", "press Enter")
    reader.hold("frame")


def test_an_item_is_answered_wrong_then_right(page: Page) -> None:
    reader = Reader(page, "#item-add")
    reader.read_on()
    reader.focus("#item-add input", "tab to the field")
    reader.press("Enter", "press Enter")
    reader.type("75")
    reader.press("Enter", "press Enter")
    reader.focus("#item-add [data-bw-do=hint]", "tab to Hint")
    reader.press("Enter", "press Enter")
    reader.focus("#item-add input", "tab back to the field")
    reader.press("Control+A", "select everything")
    reader.type("85")
    reader.press("Enter", "press Enter")
    reader.hold("answer")


def test_a_slip_is_found(page: Page) -> None:
    reader = Reader(page, "#item-slip")
    reader.read_on()
    reader.focus("#item-slip [data-bw-stage=step] input", "tab to the steps")
    reader.choose("#item-slip [data-bw-stage=step] input[value='1']", "step 1")
    reader.focus("#item-slip [data-bw-do=check]", "tab to Check")
    reader.press("Enter", "press Enter")
    reader.choose("#item-slip [data-bw-stage=step] input[value='4']", "step 4")
    reader.focus("#item-slip [data-bw-do=check]", "tab to Check")
    reader.press("Enter", "press Enter")
    reader.hold("find-slip")


def test_no_transcript_repeats_itself_or_names_a_picture_twice() -> None:
    names = sorted(path.name for path in TRANSCRIPTS.glob("*.txt"))
    course = [f"course-{ask}.txt" for ask in sorted(get_args(Ask))]
    assert names == sorted(
        ["answer.txt", "figure.txt", "find-slip.txt", "frame.txt", "read.txt", "walkthrough.txt", *course]
    )
    for name in names:
        lines = (TRANSCRIPTS / name).read_text(encoding="utf-8").splitlines()
        doubled = [one for one, two in itertools.pairwise(lines) if one == two and not one.startswith(">")]
        assert doubled == [], name
        assert not [line for line in lines if "graphic" in line or "image, image" in line], name
        silent = [one for one, two in zip(lines, [*lines[1:], ">"], strict=True) if one[0] == two[0] == ">"]
        # Typing and choosing text echo what is typed; everything else is answered.
        assert [
            line for line in silent if not line.startswith(("> type", "> select", "> choose", "> tab on, out"))
        ] == [], name
