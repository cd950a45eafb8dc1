"""Pages in Debian's Chromium with its processor slowed down six times: how soon a page is usable, how fast it answers.

A lesson of six worked examples and forty items stands beside the same finished HTML as a page of the stock theme; both
are opened from a folder, in turns. An answer in it stands beside the least that a page can do: one that holds nothing
but the fields and writes one sentence.
"""

from __future__ import annotations

import tempfile
from pathlib import Path
from statistics import median

from playwright.sync_api import Browser, CDPSession, Page, sync_playwright

from tests.bench.courses import write_course, write_lesson
from tests.bench.measure import Table
from tests.bench.site import build, write_plain
from tests.conftest import QUIET, find_chromium

SLOWER = 6
ROUNDS = 9
ANSWERS = 12
FRAME_MS = 16

# From the key until the feedback stands in the page and is laid out, ready for the next frame.
_WATCH = """() => {
  window.waits = [];
  addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    const item = event.target.closest("bw-item");
    new MutationObserver((_, observer) => {
      observer.disconnect();
      item.getBoundingClientRect();
      window.waits.push(performance.now() - event.timeStamp);
    }).observe(item.querySelector(".bw-feedback"), { childList: true, subtree: true });
  }, { capture: true });
}"""
_FIELDS = "bw-item:is([data-bw-ask=answer], [data-bw-ask=read]) input[name=answer]"
_LEAST = """<!doctype html><html lang="en"><title>The least</title><body>%s<script>
addEventListener("submit", (event) => {
  event.preventDefault();
  const told = document.createElement("p");
  told.textContent = "7 is not the answer.";
  event.target.nextElementSibling.replaceChildren(told);
});
</script>"""
_LEAST_ITEM = """<bw-item data-bw-ask="answer"><form><input name="answer"><button>Check</button></form>
<div class="bw-feedback"></div></bw-item>"""
_USABLE = "() => performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd"
# A lesson of ours comes in pieces; the plain page is there once it is loaded.
_THERE = "() => document.readyState === 'complete' && !document.querySelector('.bw-coming')"
_WHOLE = """() => {
  const [mark] = performance.getEntriesByName("bw-whole");
  return mark?.startTime ?? performance.getEntriesByType("navigation")[0].loadEventEnd;
}"""


def run() -> list[Table]:
    """Measure both, as tables."""
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(name)
        config = write_course(folder / "course", 1)
        (lesson,) = (folder / "course" / "content" / "modules").iterdir()
        lesson.write_text(write_lesson(1, walkthroughs=6, items=40), encoding="utf-8")
        build(config, folder / "site")
        build(write_plain(folder / "plain", folder / "site"), folder / "plain-site")
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(QUIET))
        pages = {
            "ours": folder / "site" / "modules" / "lesson-1.html",
            "plain": folder / "plain-site" / "lesson-1.html",
        }
        return [measure_opening(browser, pages), measure_answers(browser, pages["ours"], folder)]


def measure_opening(browser: Browser, pages: dict[str, Path]) -> Table:
    """Time until all scripts of a page have run, and until all of it is laid out."""
    moments = {"usable": _USABLE, "whole": _WHOLE}
    times: dict[tuple[str, str], list[float]] = {(moment, name): [] for moment in moments for name in pages}
    for _ in range(ROUNDS):
        for name, path in pages.items():
            page, _session = open_slowly(browser, path)
            for moment, script in moments.items():
                times[moment, name].append(page.evaluate(script))
            page.context.close()
    rows = []
    for moment in moments:
        ours, plain = median(times[moment, "ours"]), median(times[moment, "plain"])
        rows.append([moment, f"{ours:.0f}", f"{plain:.0f}", f"{ours / plain:.2f}"])
    return Table(f"A page with 40 items (processor ×1/{SLOWER})", ("", "ms", "plain, ms", "ratio"), rows)


def measure_answers(browser: Browser, path: Path, folder: Path) -> Table:
    """Time from the key that answers until what is said of the answer stands in the page, for typed answers."""
    least = folder / "least.html"
    least.write_text(_LEAST % (_LEAST_ITEM * ANSWERS), encoding="utf-8")
    pages = {"a lesson": open_slowly(browser, path)[0], "the least": open_slowly(browser, least)[0]}
    for page in pages.values():
        page.evaluate(_WATCH)
    for place in range(ANSWERS):
        for page in pages.values():
            answer(page, place)
    waits: dict[str, list[float]] = {name: page.evaluate("window.waits") for name, page in pages.items()}
    for page in pages.values():
        page.context.close()
    heads = ("", "answers", "first, ms", "least, ms", "median, ms", "longest, ms", "median / frame")
    rows = [_tell_waits(name, found) for name, found in waits.items()]
    ratio = median(waits["a lesson"]) / median(waits["the least"])
    rows.append(["ratio", "", "", "", f"{ratio:.2f}", "", ""])
    return Table(f"From the key to the feedback (processor ×1/{SLOWER}, frame {FRAME_MS} ms)", heads, rows)


def answer(page: Page, place: int) -> None:
    """Type one digit into a field and press Enter, with pauses shorter than a learner's."""
    page.bring_to_front()
    page.locator(_FIELDS).nth(place).focus()
    page.wait_for_timeout(300)
    page.keyboard.press("7")
    page.wait_for_timeout(300)
    page.keyboard.press("Enter")
    page.wait_for_timeout(300)


def _tell_waits(name: str, waits: list[float]) -> list[str]:
    # What else the machine does can only make it longer.
    told = (waits[0], min(waits), median(waits), max(waits))
    return [name, str(len(waits)), *(f"{wait:.1f}" for wait in told), f"{median(waits) / FRAME_MS:.2f}"]


def open_slowly(browser: Browser, path: Path) -> tuple[Page, CDPSession]:
    """A page in a context of its own, opened on a processor slowed down, and all there."""
    page = browser.new_context().new_page()
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(path.as_uri(), wait_until="load")
    page.wait_for_function(_THERE, timeout=60_000)
    return page, session
