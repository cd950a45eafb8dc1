"""Fixtures for tests that open pages in Debian's chromium, from a folder, as a learner does.

`visit` opens pages of the course that ships, `visit_shell` pages of a small site that has the shell and nothing else;
both fail a test whose pages asked for anything outside the folder, or wrote to the console.
"""

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.support.axe import find_axe_findings
from tests.support.building import build_site, hold_lock
from tests.support.pages import Visitor, visit_site

SHELL = Path(__file__).resolve().parent / "shell" / "mkdocs.yml"


@pytest.fixture
def assert_no_axe_findings() -> Callable[..., None]:
    """A check to call as `assert_no_axe_findings(page)`, or with `within="#a-selector"`."""

    def check(page: Page, within: str | None = None) -> None:
        findings = find_axe_findings(page, within)
        assert not findings, "\n\n".join(findings)

    return check


@pytest.fixture
def visit(chromium: Browser, built_site: Path) -> Iterator[Visitor]:
    """Opens pages of the course that ships: `visit.open("index.html", width=320, scheme="dark")`."""
    with visit_site(chromium, built_site) as visitor:
        yield visitor


@pytest.fixture(scope="session")
def shell_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small site with our theme, built once for all workers; gives the folder of pages."""
    shared = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    site = shared / "shell-site"
    with hold_lock(shared / "shell-site.lock"):
        if not (shared / "shell-site.done").exists():
            build_site(SHELL, site)
            (shared / "shell-site.done").touch()
    return site


@pytest.fixture
def visit_shell(chromium: Browser, shell_site: Path) -> Iterator[Visitor]:
    """Opens pages of the small site."""
    with visit_site(chromium, shell_site) as visitor:
        yield visitor
