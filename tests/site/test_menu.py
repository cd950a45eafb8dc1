"""The menu of a long course: in groups, of which a page lists its own, so that pages do not grow with the course."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from playwright.sync_api import Browser, Page, expect

from tests.support.building import build_site
from tests.support.small_course import CONFIG, COURSE

LESSONS = 65
LESSON = """\
title: Lesson %d
minutes: 5
objectives: [{id: a, text: Add}]
body:
  - practice: {id: p, title: Try, objective: a, items: [{ask: answer, problem: 20 + %d}]}
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("long")
    modules = folder / "content" / "modules"
    modules.mkdir(parents=True)
    names = [f"lesson-{number}" for number in range(1, LESSONS + 1)]
    course = COURSE.replace("modules: [one, two]", f"pool: 1\nmodules: [{', '.join(names)}]")
    course += (
        "paths: [{id: quick, title: Quick, text: For those in a hurry., lessons: [lesson-2, lesson-64, lesson-33]}]\n"
    )
    (folder / "content" / "course.yml").write_text(course, encoding="utf-8")
    (folder / "content" / "index.md").write_text(
        "# Start\n\n<!-- bw:begin -->\n\n<!-- bw:paths -->\n", encoding="utf-8"
    )
    for number, name in enumerate(names, start=1):
        (modules / f"{number:02}-{name}.lesson.yml").write_text(LESSON % (number, number), encoding="utf-8")
    (folder / "mkdocs.yml").write_text(CONFIG % ("false", "false", "learners"), encoding="utf-8")
    build_site(folder / "mkdocs.yml", folder / "site")
    return folder / "site"


def read_menu(site: Path, page: str) -> Tag:
    menu = BeautifulSoup((site / page).read_text(encoding="utf-8"), "html.parser").select_one("#bw-nav")
    assert menu is not None
    return menu


@pytest.mark.parametrize(("number", "first", "last"), [(1, 1, 30), (31, 31, 60), (60, 31, 60), (65, 61, 65)])
def test_a_lesson_lists_its_own_group_and_each_other_one_as_one_link(
    site: Path, number: int, first: int, last: int
) -> None:
    menu = read_menu(site, f"modules/lesson-{number}.html")
    listed = [link["data-bw-lesson"] for link in menu.select("a[data-bw-lesson]")]
    assert listed == [f"lesson-{each}" for each in range(first, last + 1)]
    (here,) = menu.select('[aria-current="page"]')
    assert here["data-bw-lesson"] == f"lesson-{number}"
    groups = {f"Lessons {start} to {min(start + 29, LESSONS)}": start for start in (1, 31, 61)}
    (summary,) = menu.select("summary")
    assert groups.pop(summary.get_text().strip()) == first
    links = {link.get_text().strip(): link["href"] for link in menu.select("a")}
    assert {title: links[title] for title in groups} == {t: f"lesson-{start}.html" for t, start in groups.items()}


def test_one_goes_on_from_group_to_group(site: Path) -> None:
    page = BeautifulSoup((site / "modules" / "lesson-30.html").read_text(encoding="utf-8"), "html.parser")
    assert [link["href"] for link in page.select("link[rel=next]")] == ["lesson-31.html"]


@pytest.mark.parametrize("number", [29, 30, 60, 64])
def test_the_key_at_a_lessons_end_leads_to_the_next_one_in_another_group_too(
    chromium: Browser, site: Path, number: int
) -> None:
    page = chromium.new_page()
    page.goto((site / "modules" / f"lesson-{number}.html").as_uri())
    page.locator("bw-finish button").click()
    expect(page.locator("bw-finish a")).to_have_text(f"Go on: Lesson {number + 1}")
    expect(page.locator("bw-finish a")).to_have_attribute("href", f"../modules/lesson-{number + 1}.html")
    page.context.close()


@pytest.fixture
def page(chromium: Browser) -> Iterator[Page]:
    page = chromium.new_page()
    yield page
    page.context.close()


def open_page(page: Page, site: Path, name: str) -> None:
    page.goto((site / f"{name}.html").as_uri())


def test_a_path_leads_on_from_group_to_group_in_its_own_order(page: Page, site: Path) -> None:
    open_page(page, site, "index")
    page.get_by_role("button", name="Take the path “Quick”").press("Enter")
    expect(page.locator("bw-begin a")).to_have_attribute("href", re.compile("modules/lesson-2.html$"))
    for number, after in ((2, 64), (64, 33)):
        open_page(page, site, f"modules/lesson-{number}")
        page.locator("bw-finish button").press("Enter")
        page.get_by_role("link", name=f"Go on: Lesson {after}").press("Enter")
        page.wait_for_url(f"**/modules/lesson-{after}.html")


def test_pages_that_are_in_no_group_know_every_lesson(page: Page, site: Path) -> None:
    open_page(page, site, "modules/lesson-40")
    page.locator("bw-item input").fill("1")
    page.locator("bw-item input").press("Enter")
    page.locator("bw-finish button").press("Enter")
    expect(page.locator("bw-finish a")).to_have_text("Go on: Lesson 41")
    open_page(page, site, "index")
    expect(page.locator("bw-begin a")).to_have_text("Go on: Lesson 1")
    expect(page.locator(".bw-begin-state")).to_have_text(f"1 of {LESSONS} lessons finished.")
    open_page(page, site, "record")
    rows = page.locator(".bw-record-summary tbody tr")
    expect(rows).to_have_count(LESSONS)
    expect(rows.nth(39)).to_contain_text("Lesson 40")
    expect(page.locator("[data-bw-gone]")).to_be_hidden()


def test_what_is_due_again_comes_from_every_group(page: Page, site: Path) -> None:
    page.clock.install(time="2026-03-02T09:00:00")
    for number in (3, 64):
        open_page(page, site, f"modules/lesson-{number}")
        page.locator("bw-item input").fill("1")
        page.locator("bw-item input").press("Enter")
        kept = f"""() => (localStorage.getItem("bw-record:small-course") ?? "").includes('"lesson-{number}"')"""
        page.wait_for_function(kept)
    page.clock.set_system_time("2026-03-04T09:00:00")
    open_page(page, site, "review")
    expect(page.locator("bw-review h2")).to_have_text(["Lesson 3", "Lesson 64"])
    page.locator("bw-review li a").last.press("Enter")
    page.wait_for_url("**/modules/lesson-64.html#item-*")
