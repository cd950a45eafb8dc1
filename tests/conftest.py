"""Fixtures that every room's tests may use."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.support import ROOT
from tests.support.building import build_site, hold_lock

# Chromium neither updates itself nor looks anything up during tests: a request that leaves is then the page's own.
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def find_chromium() -> str:
    """The browser's command."""
    path = os.environ.get("BEADWRIGHT_CHROMIUM") or shutil.which("chromium")
    assert path, "no chromium: `make browser` installs it"
    return path


@pytest.fixture(scope="session")
def repository() -> Path:
    """The checkout that is tested."""
    return ROOT


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """Debian's chromium, started once a worker; each test opens a context of its own."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(QUIET))
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def built_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The course of content/, built as `make site` builds it, once for all workers; gives the folder of pages."""
    shared = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent  # the folder that the workers of one run have in common
    site = shared / "built-site"
    with hold_lock(shared / "built-site.lock"):
        if not (shared / "built-site.done").exists():
            build_site(ROOT / "mkdocs.yml", site)
            (shared / "built-site.done").touch()
    return site
