"""Our styles and scripts, joined: what a page asks for, and that a script that fails stops none after it."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from beadwright.render import SCRIPTS
from beadwright.site.joining import SHELL_SCRIPTS, STYLES, join_scripts, join_styles
from tests.support import ROOT
from tests.support.building import build_site
from tests.support.node import print_scripts
from tests.support.small_course import write_course

THEME = ROOT / "site_templates" / "theme"
pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small course, built."""
    course = write_course(tmp_path_factory.mktemp("joined"))
    build_site(course / "mkdocs.yml", course / "site")
    return course / "site"


def test_a_lesson_asks_for_one_style_sheet_two_scripts_and_its_own_data(chromium: Browser, site: Path) -> None:
    context = chromium.new_context()
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.partition("/site/")[2]))
    page.goto((site / "modules" / "one.html").as_uri())
    found = sorted(path for path in asked if path.endswith((".css", ".js")))
    shared = ["assets/bw/css/all.css", "assets/bw/js/all.js", "assets/bw/js/boot.js"]
    assert found == [*shared, "modules/one-data.js"]
    own = {path.relative_to(site).as_posix() for path in (site / "assets" / "bw").rglob("*.[cj]s*")}
    assert own == set(shared)  # what is in those is not there a second time
    context.close()


def test_a_script_that_fails_is_reported_and_stops_none_after_it(chromium: Browser, site: Path) -> None:
    joined = site / "assets" / "bw" / "js" / "all.js"
    whole = joined.read_text(encoding="utf-8")
    start = "const { say } = window.beadwright;"
    assert start in whole
    joined.write_text(whole.replace(start, f'{start} throw new Error("a broken menu");', 1), encoding="utf-8")
    context = chromium.new_context()
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(error.message))
    page.goto((site / "modules" / "one.html").as_uri())
    page.locator("bw-item input").first.fill("23")
    page.keyboard.press("Enter")
    expect(page.locator("bw-item .bw-feedback").first).to_contain_text("Right.")
    assert errors == ["a broken menu"]
    context.close()
    joined.write_text(whole, encoding="utf-8")


def test_what_stays_behind_is_comments_and_indents_alone() -> None:
    # TypeScript's own printer, told to leave comments out, is the judge: it reads both and writes what each means.
    names = [f"assets/bw/js/{name}.js" for name in (*SHELL_SCRIPTS, *SCRIPTS)]
    texts = [(THEME / name).read_text(encoding="utf-8") for name in names]
    whole = "".join(f"try {{{text}}} catch (error) {{ reportError(error); }}" for text in texts)
    joined = join_scripts({}, [])
    assert len(joined) < 0.85 * len(whole)
    assert print_scripts([joined]) == print_scripts(
        [f'"use strict"; window.bwWords = {{}}; window.bwLessons = []; {whole}']
    )


def test_the_joined_styles_have_the_same_rules(chromium: Browser) -> None:
    files = [(THEME / f"assets/bw/css/{name}.css").read_text(encoding="utf-8") for name in STYLES]
    page = chromium.new_page()
    read = r"""(texts) => texts.flatMap((text) => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(text);
        return [...sheet.cssRules].map((rule) => rule.cssText.replace(/\s+/g, " "));
    })"""
    rules = page.evaluate(read, files)
    assert len(rules) > 300
    assert page.evaluate(read, [join_styles()]) == rules
    page.close()
