"""The shell by keyboard alone: each task written as the keys that do it."""

import pytest
from playwright.sync_api import Page, expect

from tests.support.pages import Visitor, wait_until

pytestmark = pytest.mark.browser

LESSON, RICH, BARE = "modules/partner-of-10.html", "modules/frame-and-hands.html", "no-headings.html"

# What has focus: a name to tell stops apart, and whether a reader sees it: it has a size, lies in the window, is not
# covered, and wears the ring.
DESCRIBE_STOP = """() => {
  const stop = document.activeElement;
  if (!stop || stop === document.body) return null;
  const box = stop.getBoundingClientRect();
  const style = getComputedStyle(stop);
  const x = Math.min(Math.max(box.left + box.width / 2, 1), innerWidth - 1);
  const y = Math.min(Math.max(box.top + Math.min(box.height, innerHeight) / 2, 1), innerHeight - 1);
  const over = document.elementFromPoint(x, y);
  return {
    name: `${stop.tagName} ${stop.id} ${(stop.getAttribute('aria-label') || stop.textContent).trim().slice(0, 40)}`,
    sized: box.width > 8 && box.height > 8,
    inside: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
    uncovered: !!over && (stop === over || stop.contains(over) || over.contains(stop)),
    ring: style.outlineStyle === 'solid' && parseFloat(style.outlineWidth) >= 3,
    opaque: style.opacity === '1' && style.visibility === 'visible',
  };
}"""


def walk_stops(page: Page) -> list[dict[str, object]]:
    """Every stop of the page from the first on, until focus leaves it or comes round."""
    stops: list[dict[str, object]] = []
    for _ in range(80):
        page.keyboard.press("Tab")
        stop = page.evaluate(DESCRIBE_STOP)
        if stop is None or (stops and stop == stops[0]):
            return stops
        stops.append(stop)
    raise AssertionError("more than 80 stops")


def read_focus(page: Page) -> str:
    """The id of what has focus."""
    return str(page.evaluate("document.activeElement.id"))


@pytest.mark.parametrize("path", ["index.html", LESSON, RICH, BARE])
@pytest.mark.parametrize(("width", "height"), [(1280, 900), (768, 900), (320, 640), (320, 256)])
def test_every_stop_is_seen(visit_shell: Visitor, path: str, width: int, height: int) -> None:
    stops = walk_stops(visit_shell.open(path, width=width, height=height))
    assert len(stops) >= 5
    for stop in stops:
        assert all(stop[fact] for fact in ("sized", "inside", "uncovered", "ring", "opaque")), stop


@pytest.mark.parametrize("path", ["index.html", LESSON, RICH, BARE])
def test_first_stop_leads_past_the_shell(visit_shell: Visitor, path: str) -> None:
    page = visit_shell.open(path)
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the text")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('header, #bw-nav') === null")


@pytest.mark.parametrize("key", ["Enter", "Space"])
@pytest.mark.parametrize("width", [320, 768])
def test_menu_opens_takes_focus_in_and_gives_it_back(visit_shell: Visitor, key: str, width: int) -> None:
    page = visit_shell.open(LESSON, width=width, height=640)
    button = page.get_by_role("button", name="Menu")
    menu = page.get_by_role("navigation", name="In this course")
    expect(menu).to_be_hidden()
    expect(button).to_have_attribute("aria-expanded", "false")
    for _ in range(3):
        page.keyboard.press("Tab")
    expect(button).to_be_focused()
    page.keyboard.press(key)
    expect(menu).to_be_visible()
    expect(button).to_have_attribute("aria-expanded", "true")
    expect(page.get_by_role("link", name="Partner of 10", exact=True)).to_be_focused()
    page.keyboard.press("Tab")
    page.keyboard.press("Escape")
    expect(menu).to_be_hidden()
    expect(button).to_have_attribute("aria-expanded", "false")
    expect(button).to_be_focused()


def test_open_menu_is_no_trap(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON, width=320, height=640)
    page.get_by_role("button", name="Menu").press("Enter")
    for _ in range(20):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.closest('main') !== null"):
            break
    else:
        pytest.fail("Tab never came from the menu to the text")


def test_menu_leads_to_a_section_and_folds_away(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON, width=320, height=640)
    page.get_by_role("button", name="Menu").press("Enter")
    page.get_by_role("link", name="Your turn").press("Enter")
    expect(page.get_by_role("navigation", name="In this course")).to_be_hidden()
    expect(page.get_by_role("heading", name="Your turn")).to_be_in_viewport()


@pytest.mark.parametrize("name", ["Search", "Display"])
@pytest.mark.parametrize("width", [1280, 320])
def test_dialogs_hold_focus_and_give_it_back(visit_shell: Visitor, name: str, width: int) -> None:
    page = visit_shell.open(LESSON, width=width, height=640)
    button = page.get_by_role("button", name=name)
    button.press("Enter")
    dialog = page.get_by_role("dialog")
    expect(dialog).to_have_accessible_name({"Search": "Search the course", "Display": "How pages look"}[name])
    for _ in range(12):
        inside = page.evaluate(
            "!document.activeElement.matches('body *') || !!document.activeElement.closest('dialog')"
        )
        assert inside, "focus reached the page behind the dialog"
        page.keyboard.press("Tab")
    page.keyboard.press("Escape")
    expect(dialog).to_be_hidden()
    expect(button).to_be_focused()


@pytest.mark.parametrize("holder", ["body", "button", "slider"])
def test_single_keys_do_nothing(visit_shell: Visitor, holder: str) -> None:
    page = visit_shell.open(LESSON)
    page.evaluate(
        """holder => {
          const made = Object.assign(document.createElement('div'), {id: 'probe', tabIndex: 0, textContent: 'probe'});
          made.setAttribute('role', holder);
          if (holder !== 'body') { document.querySelector('main').append(made); made.focus(); }
        }""",
        holder,
    )
    address, focus = page.url, read_focus(page)
    for key in "npsf/.,?hjk":
        page.keyboard.press(key)
    page.wait_for_timeout(300)
    assert (page.url, read_focus(page)) == (address, focus)
    expect(page.get_by_role("dialog")).to_have_count(0)


def test_settings_are_one_group_each_and_arrows_choose(visit_shell: Visitor) -> None:
    page = visit_shell.open(LESSON)
    page.get_by_role("button", name="Display").press("Enter")
    for legend, count in {"Colors": 4, "Text size": 4, "Spacing of text": 2, "Figures of frames": 2}.items():
        expect(page.get_by_role("group", name=legend).get_by_role("radio")).to_have_count(count)
    page.get_by_role("radio", name="As the device").focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    expect(page.get_by_role("radio", name="Dark")).to_be_checked()
    expect(page.locator("html")).to_have_attribute("data-bw-scheme", "dark")
    expect(page.get_by_role("status")).to_have_text("Kept on this device for this course.")


def test_wide_boxes_are_named_and_reached_only_while_they_scroll(visit_shell: Visitor) -> None:
    page = visit_shell.open(RICH, width=320, height=640)
    table = page.get_by_role("group", name="Wide table, scrolls sideways")
    expect(table).to_have_attribute("tabindex", "0")
    table.focus()
    page.keyboard.press("ArrowRight")
    wait_until(page, "document.activeElement.scrollLeft > 0")
    page.set_viewport_size({"width": 1280, "height": 900})
    expect(page.locator(".bw-scroll:has(table)")).not_to_have_attribute("tabindex", "0")
    expect(page.locator(".bw-scroll:has(table)")).not_to_have_attribute("role", "group")
