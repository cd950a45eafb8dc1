"""How the shell looks where looking can be measured: reflow, spacing, schemes, forced colours, print, motion."""

import pytest
from playwright.sync_api import Page, expect

from tests.support.pages import Visitor

pytestmark = pytest.mark.browser

PAGES = ["index.html", "modules/partner-of-10.html", "modules/frame-and-hands.html", "no-headings.html"]
LESSON = "modules/partner-of-10.html"

# WCAG 1.4.12: what a reader may set, and nothing may be lost by it.
SPACING = """* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
p { margin-block-end: 2em !important; }"""

FIND_CUT = """() => [...document.querySelectorAll('body *')].filter((one) => {
  const style = getComputedStyle(one);
  return one.clientWidth > 1 && !one.closest('svg, .bw-scroll, [hidden]') && style.display !== 'inline'
    && (one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1)
    && (style.overflowX === 'hidden' || style.overflowX === 'clip' || style.textOverflow === 'ellipsis');
}).map((one) => `${one.tagName}.${one.className}`)"""


def assert_nothing_is_lost(page: Page) -> None:
    """The page does not scroll sideways and no box cuts what it holds."""
    width = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert width[0] <= width[1], f"the page is {width[0]} wide in a window of {width[1]}"
    assert page.evaluate(FIND_CUT) == []


def read_colours(page: Page, *names: str) -> list[str]:
    """The values of custom properties on the root."""
    read = "names => names.map((name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim())"
    return list(page.evaluate(read, list(names)))


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize(("width", "height"), [(320, 256), (320, 640), (768, 900), (1280, 900)])
def test_nothing_is_lost_at_any_width(visit_shell: Visitor, path: str, width: int, height: int) -> None:
    assert_nothing_is_lost(visit_shell.open(path, width=width, height=height))


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize("width", [320, 1280])
def test_nothing_is_lost_with_text_spacing(visit_shell: Visitor, path: str, width: int) -> None:
    page = visit_shell.open(path, width=width)
    page.add_style_tag(content=SPACING)
    assert_nothing_is_lost(page)


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize("width", [320, 1280])
def test_nothing_is_lost_with_text_twice_as_large(visit_shell: Visitor, path: str, width: int) -> None:
    page = visit_shell.open(path, width=width)
    page.evaluate("Object.assign(document.documentElement.dataset, {bwSize: '200', bwSpacing: 'wide'})")
    assert_nothing_is_lost(page)
    for opened in ("Search", "Display", "Menu"):
        page.get_by_role("button", name=opened).click()
        assert_nothing_is_lost(page)
        page.keyboard.press("Escape")


def test_a_long_menu_starts_where_the_reader_is(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON, height=240)
    menu = page.get_by_role("navigation", name="In this course")
    assert menu.evaluate("menu => menu.scrollHeight > menu.clientHeight"), "the window is too high to show anything"
    assert menu.evaluate("menu => menu.scrollTop") > 0
    expect(page.get_by_role("link", name="Partner of 10", exact=True)).to_be_in_viewport(ratio=1)
    assert page.evaluate("scrollY") == 0


def test_bigger_text_gets_the_narrow_layout(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON)
    expect(page.get_by_role("button", name="Menu")).to_be_hidden()
    page.evaluate("document.documentElement.dataset.bwSize = '200'")
    expect(page.get_by_role("button", name="Menu")).to_be_visible()


def test_choices_are_kept_for_every_page_of_the_course(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON)
    page.get_by_role("button", name="Display").click()
    page.get_by_role("radio", name="Dark").check()
    page.get_by_role("radio", name="Much larger").check()
    page.get_by_role("radio", name="Wide", exact=True).check()
    dark = read_colours(page, "--bw-paper", "--bw-ink")
    for path in ["index.html", LESSON]:
        page.goto((visit_shell.site / path).as_uri())
        assert read_colours(page, "--bw-paper", "--bw-ink") == dark
        assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "24px"
    page.get_by_role("button", name="Display").click()
    expect(page.get_by_role("radio", name="Dark")).to_be_checked()
    page.get_by_role("radio", name="As the device").check()
    assert read_colours(page, "--bw-paper", "--bw-ink") != dark


def test_a_choice_that_cannot_be_kept_holds_on_this_page_and_says_so(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON)
    page.evaluate("() => { Storage.prototype.setItem = () => { throw new DOMException('refused'); }; }")
    page.get_by_role("button", name="Display").click()
    page.get_by_role("radio", name="Dark").check()
    expect(page.get_by_role("status")).to_contain_text("keeps nothing")
    expect(page.locator("html")).to_have_attribute("data-bw-scheme", "dark")


@pytest.mark.parametrize("kept", ["", "{", "null", "[]", '"dark"', '{"scheme": 7, "size": "9000"}'])
def test_spoilt_choices_do_no_harm(visit_shell: Visitor, kept: str) -> None:
    page = visit_shell.open(LESSON)
    page.evaluate("kept => localStorage.setItem('bw-display:shell-tests', kept)", kept)
    page.reload()
    page.get_by_role("button", name="Display").click()
    page.get_by_role("radio", name="Light").check()
    expect(page.locator("html")).to_have_attribute("data-bw-scheme", "light")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_device_and_choice_lead_to_the_same_colours(visit_shell: Visitor, scheme: str) -> None:
    names = ("--bw-paper", "--bw-ink", "--bw-link", "--bw-bead-set")
    by_device = read_colours(visit_shell.open(LESSON, scheme=scheme), *names)
    chosen = visit_shell.open(LESSON, scheme={"light": "dark", "dark": "light"}[scheme])
    chosen.evaluate("scheme => { document.documentElement.dataset.bwScheme = scheme; }", scheme)
    assert read_colours(chosen, *names) == by_device


def test_without_scripts_the_menu_stands_open_and_nothing_is_dead(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON, width=320, java_script_enabled=False)
    expect(page.get_by_role("navigation", name="In this course")).to_be_visible()
    expect(page.get_by_role("heading", name="Partner of 10")).to_be_visible()
    for name in ("Menu", "Search", "Display"):
        expect(page.locator("header").get_by_role("button", name=name)).to_have_count(0)
    expect(page.locator("dialog:visible")).to_have_count(0)
    page.get_by_role("link", name="Next").click()
    page.wait_for_url("**/words.html")


def test_links_in_text_are_underlined(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON)
    lines = page.locator("main p a").evaluate_all(
        "links => links.map((one) => getComputedStyle(one).textDecorationLine)"
    )
    assert lines
    assert set(lines) == {"underline"}


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize("width", [320, 1280])
def test_controls_of_the_shell_have_room(visit_shell: Visitor, path: str, width: int) -> None:
    page = visit_shell.open(path, width=width)
    small = page.locator("header a:visible, header button:visible, .bw-nav-link:visible, .bw-turn a").evaluate_all(
        """all => all.filter((one) => !one.matches('.bw-skip')).map((one) => one.getBoundingClientRect())
          .filter((box) => box.height < 44 || box.width < 44).length"""
    )
    assert small == 0


def test_forced_colours_keep_set_and_rest_apart(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON, forced_colors="active")
    fill = "beads => getComputedStyle(beads[0]).fill"
    found = page.locator(".bw-bead-set").evaluate_all(fill), page.locator(".bw-bead-rest").evaluate_all(fill)
    ground = page.locator(".bw-frame-ground").evaluate_all(fill)
    assert len(set(found)) == 2
    stroke = page.locator(".bw-bead-rest").evaluate_all("beads => getComputedStyle(beads[0]).stroke")
    assert stroke != ground


def test_forced_colours_keep_the_ring(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON, forced_colors="active")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    ring = page.evaluate(
        "(({outlineStyle, outlineWidth}) => [outlineStyle, outlineWidth])(getComputedStyle(document.activeElement))"
    )
    assert ring == ["solid", "3px"]


@pytest.mark.parametrize("chosen", [None, "dark", "contrast"])
def test_paper_gets_the_text_and_no_shell(visit_shell: Visitor, chosen: str | None) -> None:
    page = visit_shell.open(LESSON, scheme="dark")
    if chosen is not None:
        page.evaluate("scheme => { document.documentElement.dataset.bwScheme = scheme; }", chosen)
    page.emulate_media(media="print")
    for gone in (".bw-skip", ".bw-tools", "#bw-nav", ".bw-turn", ".bw-top"):
        expect(page.locator(gone)).to_be_hidden()
    expect(page.get_by_role("heading", name="Partner of 10")).to_be_visible()
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    assert read_colours(page, "--bw-ink") == ["#281a24"]


def test_nothing_moves_when_motion_is_unwanted(visit_shell: Visitor) -> None:
    moving = """() => [...document.querySelectorAll('*')].filter((one) => ['', '::before', '::after'].some((part) => {
      const style = getComputedStyle(one, part);
      return style.transitionDuration.split(', ').some((time) => time !== '0s') || style.animationName !== 'none';
    })).length"""
    assert visit_shell.open(LESSON, reduced_motion="no-preference").evaluate(moving) > 0
    assert visit_shell.open(LESSON, reduced_motion="reduce").evaluate(moving) == 0


def test_type_comes_with_the_site(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON)
    loaded = page.evaluate(
        """document.fonts.ready.then(() => [...document.fonts].filter((one) => one.status === 'loaded')
          .map((one) => one.family.replaceAll('"', '')))"""
    )
    assert {"Bw Text", "Bw Head"} <= set(loaded)
