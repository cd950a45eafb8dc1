"""Opening pages of a built site from its folder, while watching what they ask for and complain about."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, expect

_CHECKER = re.compile(r"Progress: \d+% \(\d+/\d+ nodes\)")
"""What axe and IBM's engine write on long pages."""


def await_whole(page: Page) -> None:
    """Wait until a lesson that arrives in pieces is all there, for as long as for a page to load."""
    expect(page.locator("html.bw-arriving, .bw-coming")).to_have_count(0, timeout=30_000)


@dataclass
class Visitor:
    """Opens pages of one site, each in a context of its own, and keeps everything that should not have happened."""

    browser: Browser
    site: Path
    complaints: list[str] = field(default_factory=list)
    contexts: list[BrowserContext] = field(default_factory=list)

    def open(self, path: str, *, width: int = 1280, height: int = 900, scheme: str = "light", **context: Any) -> Page:
        """The page at a path below the site, loaded; the rest as for playwright's `Browser.new_context`."""
        opened = self.browser.new_context(viewport={"width": width, "height": height}, color_scheme=scheme, **context)
        self.contexts.append(opened)
        page = opened.new_page()
        self.watch(page)
        page.goto((self.site / path).as_uri())
        await_whole(page)
        return page

    def watch(self, page: Page) -> None:
        """Keep each request that leaves the folder, each message on the console, each error of a script."""
        page.on("request", lambda request: self.keep_request(request.url))
        page.on("requestfailed", lambda request: self.keep_failure(request.url, request.failure or ""))
        page.on("console", lambda message: self.keep_message(message.text))
        page.on("pageerror", lambda error: self.complaints.append(f"script: {error}"))

    def keep_message(self, text: str) -> None:
        """Keep what a page writes to the console; that a checker has got so far is no word of the page's."""
        if not _CHECKER.fullmatch(text):
            self.complaints.append(f"console: {text}")

    def keep_failure(self, url: str, reason: str) -> None:
        """Keep a file that could not be read; one that was given up because its page was left is no fault."""
        if "ERR_ABORTED" not in reason:
            self.complaints.append(f"cannot read {url}: {reason}")

    def keep_request(self, url: str) -> None:
        """Keep a request that is not for a file of the site (nor for data that the page itself holds)."""
        if not url.startswith((self.site.as_uri() + "/", "data:", "blob:", "about:")):
            self.complaints.append(f"request leaves: {url}")


@contextmanager
def visit_site(browser: Browser, site: Path) -> Iterator[Visitor]:
    """A visitor of the site; at the end its pages are closed and nothing may have been kept against them."""
    visitor = Visitor(browser, site)
    yield visitor
    for context in visitor.contexts:
        context.close()
    assert not visitor.complaints, "\n".join(visitor.complaints)


def wait_until(page: Page, expression: str, *, seconds: float = 30) -> None:
    """Wait until an expression of JavaScript is true on the page; `AssertionError` when it does not become so in time.

    Playwright's own `wait_for_function` asks again from within the page, which our content-security policy forbids.
    """
    end = monotonic() + seconds
    while not page.evaluate(f"Boolean({expression})"):
        assert monotonic() < end, f"not true within {seconds} seconds: {expression}"
        page.wait_for_timeout(20)
