"""Packages where they run: SCORM lessons in a host, single files and the whole course from a folder."""

import functools
import http.server
import json
import threading
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from playwright.sync_api import Browser, BrowserContext, Frame, Page, expect

from tests.pack.conftest import Made
from tests.support import ROOT
from tests.support.axe import find_axe_findings
from tests.support.pages import Visitor, wait_until

pytestmark = pytest.mark.browser

HOST = ROOT / "tests" / "node" / "node_modules" / "scorm-again" / "dist" / "scorm12.min.js"
LESSON = "partner-of-10"
# The host keeps what a lesson leaves from one launch to the next, as a learning management system does.
HOST_PAGE = """<!DOCTYPE html><title>Host</title><body><script src="scorm12.min.js"></script><script>
window.calls = [];
window.launch = (student, kept) => {
  document.querySelector("iframe")?.remove();
  window.API = new Scorm12API({autocommit: false, lmsCommitUrl: false, logLevel: 5});
  window.API.loadFromJSON({...(kept ?? {}), core: {...(kept?.core ?? {}), student_id: student, student_name: student}});
  for (const name of ["LMSInitialize", "LMSSetValue", "LMSCommit", "LMSFinish"]) {
    const real = window.API[name].bind(window.API);
    window.API[name] = (...given) => {
      const result = real(...given);
      window.calls.push([name, given, String(result), window.API.LMSGetLastError()]);
      return result;
    };
  }
  const frame = document.createElement("iframe");
  frame.src = "LAUNCH";
  document.body.append(frame);
};
</script>"""


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *given: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def host(packed: Made, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    assert HOST.is_file(), "scorm-again is missing: `make node` installs it"
    folder = tmp_path_factory.mktemp("host")
    with zipfile.ZipFile(packed.out / "scorm" / f"lesson-{LESSON}-scorm.zip") as archive:
        archive.extractall(folder)
    resource = next(
        ET.parse(folder / "imsmanifest.xml").iter("{http://www.imsproject.org/xsd/imscp_rootv1p1p2}resource")
    )
    (folder / "host.html").write_text(HOST_PAGE.replace("LAUNCH", str(resource.get("href"))))
    (folder / "scorm12.min.js").write_bytes(HOST.read_bytes())
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/host.html"
    server.shutdown()
    server.server_close()


@pytest.fixture
def context(chromium: Browser) -> Iterator[BrowserContext]:
    opened = chromium.new_context()
    yield opened
    opened.close()


def launch(page: Page, student: str, kept: Any = None) -> Frame:
    """Launch the lesson and wait until it has reported for the first time."""
    page.evaluate("([student, kept]) => { window.calls = []; window.launch(student, kept); }", [student, kept])
    wait_until(page, "window.calls.some(([name]) => name === 'LMSCommit')")
    frame = page.frames[-1]
    assert "host.html" not in frame.url
    return frame


def answer(frame: Frame, *items: int, right: bool = True) -> None:
    """Answer graded items of the lesson by their place, as an item of the page keeps an answer."""
    frame.evaluate(
        """([places, right]) => {
          const data = [...document.querySelectorAll("bw-item .practice-data")];
          const items = data.map((one) => JSON.parse(one.textContent));
          const graded = items.filter(({ ask }) => !["reflect", "rating"].includes(ask));
          for (const { id, lesson, objective, ask } of places.map((place) => graded[place])) {
            window.beadwright.store.addAttempt({ edition: "1", lesson, objective, item: id, ask, problem: "", key: "",
              response: "", right, slip: null, hints: 0, frame: "shown", timed: false, digits_right: 0, seconds: 0 },
              { lesson, item: id, step: null });
          }
        }""",
        [list(items), right],
    )


def leave(page: Page) -> dict[str, Any]:
    """Close the lesson, and give what the host has then."""
    page.evaluate("document.querySelector('iframe').src = 'about:blank'")
    wait_until(page, "window.calls.some(([name]) => name === 'LMSFinish')")
    kept: dict[str, Any] = page.evaluate("JSON.parse(window.API.renderCMIToJSONString()).cmi")
    return kept


def find_set(page: Page, name: str) -> str:
    """The last value that the lesson set."""
    value: str = page.evaluate(
        "(name) => window.calls.filter(([call, given]) => call === 'LMSSetValue' && given[0] === name).at(-1)?.[1][1]",
        name,
    )
    return value


def find_refused(page: Page) -> list[Any]:
    refused: list[Any] = page.evaluate("window.calls.filter(([, , result]) => result !== 'true')")
    return refused


def count_graded(frame: Frame) -> int:
    count: int = frame.evaluate(
        """[...document.querySelectorAll("bw-item .practice-data")].map((data) => JSON.parse(data.textContent).ask)
          .filter((ask) => !["reflect", "rating"].includes(ask)).length"""
    )
    return count


def test_a_lesson_is_launched_left_resumed_elsewhere_and_finished(host: str, chromium: Browser) -> None:
    first = chromium.new_context()
    page = first.new_page()
    page.goto(host)
    frame = launch(page, "oda")
    graded = count_graded(frame)
    assert graded == 6  # four drawn, one next move, one choice
    assert find_set(page, "cmi.core.lesson_status") == "incomplete"
    assert find_set(page, "cmi.core.score.raw") == "0"
    # `see-the-exchange` has the last two items; `make-the-exchange` the four before.
    answer(frame, 4, 5)
    assert find_set(page, "cmi.core.score.raw") == str(round(100 * 2 / 6))
    kept = leave(page)
    assert find_refused(page) == []
    assert find_set(page, "cmi.core.exit") == "suspend"
    session = find_set(page, "cmi.core.session_time")
    assert len(session) == len("0000:00:00.00")
    suspended = json.loads(kept["suspend_data"])
    assert suspended["met"] == ["see-the-exchange"]
    assert suspended["item"] == "why-three"
    assert len(kept["suspend_data"]) <= 4096
    first.close()

    # Another computer: nothing is kept in this browser, so what was shown comes from the host alone.
    second = chromium.new_context()
    page = second.new_page()
    page.goto(host)
    frame = launch(page, "oda", kept)
    assert find_set(page, "cmi.core.lesson_status") == "incomplete"
    assert find_set(page, "cmi.core.score.raw") == str(round(100 * 2 / 6))
    assert find_set(page, "cmi.core.lesson_location") == "why-three"
    answer(frame, 0, 1, 2, 3)
    assert find_set(page, "cmi.core.lesson_status") == "passed"
    kept = leave(page)
    assert find_set(page, "cmi.core.exit") == ""
    assert find_refused(page) == []

    # A wrong answer afterwards does not take a pass away.
    frame = launch(page, "oda", kept)
    answer(frame, 0, 1, right=False)
    assert find_set(page, "cmi.core.lesson_status") == "passed"
    leave(page)
    second.close()


def test_the_next_learner_at_the_same_computer_does_not_pass_by_it(host: str, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(host)
    frame = launch(page, "oda")
    answer(frame, *range(6))
    assert find_set(page, "cmi.core.lesson_status") == "passed"
    leave(page)
    frame = launch(page, "bo")
    assert find_set(page, "cmi.core.lesson_status") == "incomplete"
    assert find_set(page, "cmi.core.score.raw") == "0"
    answer(frame, *range(6))
    assert find_set(page, "cmi.core.lesson_status") == "passed"


@pytest.mark.parametrize("kept", ["{", "null", "[]", '{"v":2}', '{"v":1,"met":"x","item":7,"score":"9"}', "x" * 4096])
def test_spoilt_suspend_data_begins_anew(kept: str, host: str, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(host)
    launch(page, "oda", {"suspend_data": kept})
    assert find_set(page, "cmi.core.lesson_status") == "incomplete"
    assert json.loads(find_set(page, "cmi.suspend_data")) == {"v": 1, "item": "", "met": [], "score": 0}
    assert find_refused(page) == []


def test_a_packaged_lesson_works_without_a_host(packed: Made, chromium: Browser, tmp_path: Path) -> None:
    with zipfile.ZipFile(packed.out / "scorm" / f"lesson-{LESSON}-scorm.zip") as archive:
        archive.extractall(tmp_path)
    visitor = Visitor(chromium, tmp_path)
    page = visitor.open(f"{LESSON}.html")
    assert page.evaluate("typeof window.beadwright.store.addAttempt") == "function"
    assert page.locator("a[href]:not([href^='#'])").count() == 0  # there is no other page to go to
    assert find_axe_findings(page) == []
    assert visitor.complaints == []


def test_a_single_lesson_keeps_and_judges_answers_by_itself(packed: Made, chromium: Browser, tmp_path: Path) -> None:
    source = packed.out / packed.course.id / "single" / "modules" / f"{LESSON}.html"
    (tmp_path / "alone.html").write_bytes(source.read_bytes())
    visitor = Visitor(chromium, tmp_path)
    page = visitor.open("alone.html")
    choice = page.locator("bw-item", has_text="Why are 3 cleared here")
    choice.get_by_label("Seven is ten less three").check()
    choice.get_by_role("button", name="Check").click()
    expect(choice.locator(".bw-feedback")).not_to_be_empty()
    page.reload()
    assert page.evaluate("window.beadwright.store.record.attempts[0].right") is True
    assert page.locator("#bw-search, #bw-search-button").count() == 0
    assert visitor.complaints == []


def test_the_start_page_opens_the_course(packed: Made, chromium: Browser) -> None:
    visitor = Visitor(chromium, packed.out / packed.course.id)
    page = visitor.open("start-here.html", width=320)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert find_axe_findings(page) == []
    page.get_by_role("link", name="Open the course").click()
    expect(page.locator("h1")).to_be_visible()
    assert page.url.endswith("course/index.html")
    assert visitor.complaints == []


def test_the_whole_course_in_one_file_keeps_one_record(packed: Made, chromium: Browser) -> None:
    visitor = Visitor(chromium, packed.out / packed.course.id)
    page = visitor.open("whole-course.html")
    inner = page.frame_locator("#bw-whole-frame")
    inner.locator("#bw-main a", has_text="When a column is too full").first.click()
    expect(inner.locator("h1")).to_have_text("When a column is too full")
    choice = inner.locator("bw-item", has_text="Why are 3 cleared here")
    choice.get_by_label("Seven is ten less three").check()
    choice.get_by_role("button", name="Check").click()
    page.get_by_label("Choose a page").select_option("record.html")
    expect(inner.locator("h1")).to_have_text("Your record")
    expect(inner.locator("bw-record")).to_contain_text("When a column is too full")
    assert visitor.complaints == []
    assert find_axe_findings(page) == []
