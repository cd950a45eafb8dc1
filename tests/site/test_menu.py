"""The menu of a long course: in groups, of which a page lists its own, so that pages do not grow with the course."""

from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from playwright.sync_api import Browser, expect

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
    (folder / "content" / "course.yml").write_text(course, encoding="utf-8")
    (folder / "content" / "index.md").write_text("# Start\n", encoding="utf-8")
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
    expect(page.locator("bw-finish a")).to_have_attribute("href", f"lesson-{number + 1}.html")
    page.context.close()
