"""What a page lets run: our own files and nothing that stands in the text, on the site and in packed pages alike."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from beadwright.pack.pages import inline_page, open_site
from tests.support.building import build_site
from tests.support.small_course import write_course

pytestmark = pytest.mark.browser

PAGE = Path("modules") / "one.html"
HOSTILE = """<script>document.title = "a script ran"</script>
<img src="data:," alt="" onerror="document.title = 'a handler ran'">
<a id="hostile" href="javascript:document.title = 'an address ran'">Here</a>
<form action="https://frame.example/"><button id="send">Send</button></form>"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small course, built; then markup that nobody of ours wrote is put into a lesson's text."""
    course = write_course(tmp_path_factory.mktemp("policy"))
    build_site(course / "mkdocs.yml", course / "site")
    page = course / "site" / PAGE
    text = page.read_text(encoding="utf-8")
    assert text.count("<h1") == 1
    page.write_text(text.replace("<h1", f"{HOSTILE}<h1"), encoding="utf-8")
    return course / "site"


@pytest.fixture(scope="module")
def packed(site: Path) -> Path:
    """The same page as one file."""
    alone = site.parent / "alone.html"
    alone.write_text(inline_page(open_site(site), site / PAGE, alone=True), encoding="utf-8")
    return alone


@pytest.mark.parametrize("packs", [False, True], ids=["site", "packed"])
def test_only_our_own_scripts_run(chromium: Browser, site: Path, packed: Path, *, packs: bool) -> None:
    path = packed if packs else site / PAGE
    context = chromium.new_context()
    page = context.new_page()
    refused: list[str] = []
    page.on("console", lambda message: refused.append(message.text) if message.type == "error" else None)
    page.goto(path.as_uri())
    title = page.title()
    assert "ran" not in title
    page.locator("bw-item input").first.fill("23")
    page.keyboard.press("Enter")
    expect(page.locator("bw-item .bw-feedback").first).to_contain_text("Right.")
    page.evaluate("document.querySelector('#hostile').click()")
    page.evaluate("document.querySelector('#send').click()")
    page.wait_for_timeout(500)
    assert page.evaluate("[document.title, location.href]") == [title, path.as_uri()]
    # Each of the four was refused, by the policy and not by chance.
    assert sum("script-src" in text for text in refused) == 3, refused
    assert sum("form-action" in text for text in refused) == 1, refused
    context.close()


def test_no_page_allows_scripts_in_line(site: Path, packed: Path) -> None:
    for path in [*site.rglob("*.html"), packed]:
        found = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]+)"', path.read_text("utf-8"))
        assert len(found) == 1, path
        (policy,) = found
        allowed = dict(part.split(None, 1) for part in policy.split("; "))
        assert allowed["default-src"] == "'none'"
        scripts = set(allowed.get("script-src", "").split())
        assert not {"'unsafe-inline'", "'unsafe-eval'", "data:", "blob:", "*"} & scripts, path
