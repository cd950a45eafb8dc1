"""No finding of axe-core on any kind of page, with anything open, in any scheme, at any width."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.support.pages import Visitor

pytestmark = pytest.mark.browser

HOME, LESSON, RICH = "index.html", "modules/partner-of-10.html", "modules/frame-and-hands.html"
WIDTHS = (1280, 768, 320)


def choose_scheme(page: Page, scheme: str) -> None:
    """Choose a scheme as a reader does, in the dialog."""
    page.get_by_role("button", name="Display").click()
    page.get_by_role("radio", name=scheme).check()
    page.keyboard.press("Escape")


@pytest.mark.parametrize("path", [HOME, LESSON, RICH])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", WIDTHS)
def test_pages_have_no_finding(
    visit_shell: Visitor, assert_no_axe_findings: Callable[..., None], path: str, scheme: str, width: int
) -> None:
    assert_no_axe_findings(visit_shell.open(path, width=width, scheme=scheme))


@pytest.mark.parametrize("width", WIDTHS)
def test_high_contrast_has_no_finding(
    visit_shell: Visitor, assert_no_axe_findings: Callable[..., None], width: int
) -> None:
    page = visit_shell.open(LESSON, width=width)
    choose_scheme(page, "High contrast")
    assert_no_axe_findings(page)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", WIDTHS)
def test_open_search_has_no_finding(
    visit_shell: Visitor, assert_no_axe_findings: Callable[..., None], scheme: str, width: int
) -> None:
    page = visit_shell.open(LESSON, width=width, scheme=scheme)
    page.get_by_role("button", name="Search").click()
    page.get_by_role("searchbox").fill("frame")
    expect(page.get_by_role("status")).to_contain_text("found")
    assert_no_axe_findings(page)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", WIDTHS)
def test_open_display_has_no_finding(
    visit_shell: Visitor, assert_no_axe_findings: Callable[..., None], scheme: str, width: int
) -> None:
    page = visit_shell.open(LESSON, width=width, scheme=scheme)
    page.get_by_role("button", name="Display").click()
    page.get_by_role("radio", name="Wide", exact=True).check()
    assert_no_axe_findings(page)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [768, 320])
def test_open_menu_has_no_finding(
    visit_shell: Visitor, assert_no_axe_findings: Callable[..., None], scheme: str, width: int
) -> None:
    page = visit_shell.open(LESSON, width=width, scheme=scheme)
    page.get_by_role("button", name="Menu").click()
    expect(page.get_by_role("navigation", name="In this course")).to_be_visible()
    assert_no_axe_findings(page)


def test_the_checker_does_find_faults(visit_shell: Visitor, assert_no_axe_findings: Callable[..., None]) -> None:
    page = visit_shell.open(LESSON)
    page.evaluate("document.querySelector('main').insertAdjacentHTML('beforeend', '<button></button>')")
    with pytest.raises(AssertionError, match="button-name"):
        assert_no_axe_findings(page)
