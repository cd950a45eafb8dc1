"""The watch that every browser test keeps does notice: a test that passes has seen nothing of this."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.support.pages import visit_site

pytestmark = pytest.mark.browser


def visit_and_do(chromium: Browser, site: Path, deed: str) -> None:
    """Open a page, let it do something, and leave."""
    with visit_site(chromium, site) as visitor:
        page = visitor.open("index.html")
        page.evaluate(f"() => {{ {deed}; }}")
        page.wait_for_timeout(300)


@pytest.mark.parametrize(
    ("deed", "told"),
    [
        ("document.body.append(Object.assign(new Image(), {src: 'missing.png'}))", "cannot read"),
        (
            "document.body.append(Object.assign(new Image(), {src: 'https://example.org/a.png'}))",
            "Content Security Policy",
        ),
        ("fetch('index.html').catch(() => {})", "Content Security Policy"),
        ("console.log('hello')", "console: hello"),
        ("setTimeout(() => { throw new Error('broken'); })", "script: broken"),
    ],
)
def test_what_should_not_happen_is_kept(chromium: Browser, shell_site: Path, deed: str, told: str) -> None:
    with pytest.raises(AssertionError, match=told):
        visit_and_do(chromium, shell_site, deed)


def test_a_request_that_leaves_is_kept(chromium: Browser, shell_site: Path) -> None:
    with pytest.raises(AssertionError, match="request leaves"):
        visit_and_do(chromium, shell_site, "location.href = '../'")
