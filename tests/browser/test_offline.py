"""A course from a web host that is kept on the device: without a connection, at a new version, and turned off again."""

import os
import shutil
import wave
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.support.axe import find_axe_findings
from tests.support.building import build_site
from tests.support.pages import visit_site, wait_until
from tests.support.serving import serve_folder
from tests.support.small_course import write_content, write_course

pytestmark = pytest.mark.browser

KEPT = "Kept on this device; it opens without a connection too."
NEWER = "A newer version of this course is ready. Your record and what you typed into items stay."
LESSON = "modules/one.html"


@pytest.fixture(scope="module")
def builds(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A small course as it was built first, with another text, and no longer to be kept; it has one second of sound."""
    folder = tmp_path_factory.mktemp("offline")
    made = {}
    for name, first, offline in (("first", "care", True), ("newer", "patience", True), ("off", "care", False)):
        course = write_course(folder / name, offline=str(offline).lower())
        write_content(course / "content", first=first)
        with wave.open(str(course / "content" / "tone.wav"), "wb") as tone:
            tone.setparams((1, 1, 8000, 8000, "NONE", ""))
            tone.writeframes(bytes([128]) * 8000)
        made[name] = course / "site"
        build_site(course / "mkdocs.yml", made[name])
        for path in made[name].rglob("*"):  # a host tells the second, and two builds may be done in the same one
            os.utime(path, (60 * len(made), 60 * len(made)))
    return made


@pytest.fixture
def site(builds: dict[str, Path], tmp_path: Path) -> Path:
    """What a host has: the course as it was built first."""
    upload(builds["first"], tmp_path / "site")
    return tmp_path / "site"


def upload(built: Path, site: Path) -> None:
    """Put a built course in the place of what a host has."""
    shutil.rmtree(site, ignore_errors=True)
    shutil.copytree(built, site)


@pytest.fixture
def context(chromium: Browser) -> Iterator[BrowserContext]:
    """A device of a learner's own."""
    made = chromium.new_context()
    yield made
    made.close()


def open_until_kept(context: BrowserContext, address: str) -> Page:
    """A page, opened, once it says that the course is kept."""
    page = context.new_page()
    page.goto(address)
    expect(page.locator("#bw-kept")).to_have_text(KEPT)
    return page


def caches_of(page: Page) -> list[str]:
    """The names of what the browser keeps for this host."""
    names: list[str] = page.evaluate("caches.keys()")
    return names


def test_a_course_that_is_kept_opens_when_its_host_is_gone(context: BrowserContext, site: Path) -> None:
    with serve_folder(site) as base:
        page = open_until_kept(context, f"{base}/index.html?from=a-letter")
    for path, heading in (("", "Start"), (LESSON, "Lesson 1"), ("modules/two", "Lesson 2"), ("record.html", None)):
        answered = page.goto(f"{base}/{path}")
        assert answered is not None
        assert answered.ok
        assert answered.from_service_worker
        if heading:
            expect(page.locator("h1")).to_have_text(heading)
    page.goto(f"{base}/{LESSON}")
    page.locator("bw-item input").first.fill("23")
    page.keyboard.press("Enter")
    expect(page.locator("bw-item .bw-feedback").first).to_contain_text("Right.")
    page.get_by_role("button", name="Search").first.click()
    page.keyboard.type("care")
    expect(page.locator("#bw-search-hits a").first).to_be_visible()


def test_a_recording_plays_from_the_middle_without_a_connection(context: BrowserContext, site: Path) -> None:
    with serve_folder(site) as base:
        page = open_until_kept(context, f"{base}/index.html")
    page.reload()
    page.evaluate("""() => {
      window.tone = Object.assign(new Audio("tone.wav"), { preload: "auto", muted: true });
      window.tone.onloadedmetadata = () => { window.tone.currentTime = 0.5; };
    }""")
    wait_until(page, "window.tone.duration === 1 && window.tone.currentTime === 0.5 && !window.tone.seeking")
    assert page.evaluate("window.tone.error") is None


def test_a_newer_version_is_told_of_and_waits_for_the_learner(
    context: BrowserContext, site: Path, builds: dict[str, Path]
) -> None:
    with serve_folder(site) as base:
        page = open_until_kept(context, f"{base}/{LESSON}")
        before = caches_of(page)
        upload(builds["newer"], site)
        page.reload()
        expect(page.get_by_role("status").filter(has_text=NEWER)).to_be_visible()
        assert find_axe_findings(page) == []
        page.locator("bw-item input").first.fill("2")
        expect(page.locator("article")).to_contain_text("with care")
        page.get_by_role("button", name="Show it now").press("Enter")
        expect(page.locator("article")).to_contain_text("with patience")
        expect(page.locator("bw-item input").first).to_have_value("2")
        expect(page.get_by_role("status").filter(has_text=NEWER)).to_have_count(0)
        after = caches_of(page)
    assert len(before) == len(after) == 1
    assert before != after


def test_a_newer_version_that_is_found_before_the_page_listens_is_told_of(
    context: BrowserContext, site: Path, builds: dict[str, Path]
) -> None:
    """A browser looks for it by itself as well, as soon as the page is asked for."""
    with serve_folder(site) as base:
        page = open_until_kept(context, f"{base}/{LESSON}")
        upload(builds["newer"], site)
        page.add_init_script("""
            const register = navigator.serviceWorker.register.bind(navigator.serviceWorker);
            navigator.serviceWorker.register = async (...given) => {
                const made = await register(...given);
                if (!made.installing && !made.waiting) {
                    await new Promise((found) => made.addEventListener("updatefound", () => setTimeout(found)));
                }
                return made;
            };
        """)
        page.reload()
        expect(page.get_by_role("status").filter(has_text=NEWER)).to_be_visible()


def test_a_newer_version_can_wait_until_the_tab_is_closed(
    context: BrowserContext, site: Path, builds: dict[str, Path]
) -> None:
    with serve_folder(site) as base:
        page = open_until_kept(context, f"{base}/{LESSON}")
        upload(builds["newer"], site)
        page.reload()
        page.get_by_role("button", name="Later").click()
        page.goto(f"{base}/index.html")
        wait_until(page, "navigator.serviceWorker.getRegistration().then((found) => Boolean(found.waiting))")
        page.wait_for_timeout(200)
        expect(page.get_by_role("button", name="Show it now")).to_be_hidden()
        page.close()
        other = context.new_page()
        other.goto(f"{base}/{LESSON}")
        expect(other.locator("article")).to_contain_text("with patience")


def test_a_version_that_is_not_whole_is_not_kept(context: BrowserContext, site: Path) -> None:
    (site / LESSON).write_text("half of an upload", encoding="utf-8")
    with serve_folder(site) as base:
        page = context.new_page()
        page.goto(f"{base}/index.html")
        tried = (
            "navigator.serviceWorker.getRegistration().then((found) => !found || !(found.installing || found.active))"
        )
        wait_until(page, f"caches.keys().then((names) => names.length > 0 && {tried})")
        assert page.locator("#bw-kept").text_content() == ""
        expect(page.locator("h1")).to_have_text("Start")


def test_what_was_kept_goes_when_the_trainer_turns_it_off(
    context: BrowserContext, site: Path, builds: dict[str, Path]
) -> None:
    with serve_folder(site) as base:
        page = open_until_kept(context, f"{base}/index.html")
        upload(builds["off"], site)
        page.reload()
        wait_until(page, "caches.keys().then((names) => names.length === 0)")
        page.reload()
        wait_until(page, "navigator.serviceWorker.getRegistrations().then((found) => found.length === 0)")
        assert page.locator("#bw-kept").count() == 0


def test_from_a_folder_nothing_is_kept_or_complained_of(chromium: Browser, site: Path) -> None:
    with visit_site(chromium, site) as visit:
        page = visit.open(LESSON)
        expect(page.locator("bw-item input").first).to_be_visible()
        assert page.locator("#bw-kept").text_content() == ""
        assert page.locator("link[rel=manifest]").count() == 0


def test_unless_it_is_turned_on_no_file_and_no_page_speaks_of_it(builds: dict[str, Path]) -> None:
    names = ("offline-worker.js", "course.webmanifest", "assets/bw/js/offline.js")
    assert all((builds["first"] / name).is_file() for name in names)
    assert not any((builds["off"] / name).exists() for name in names)
    for path in builds["off"].rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert [word for word in ("offline", "bw-newer", "webmanifest") if word in text] == [], path.name
