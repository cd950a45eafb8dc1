"""The data of examples and items, which stand beside their page: in their places again, or lost."""

import json
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from beadwright.render import format_script_data
from beadwright.site.carrying import carry_data
from tests.support.carried import find_data

pytestmark = pytest.mark.browser

DATA = '<script type="application/json"'
WAITING = '<script src="x.js" defer></script>'
SAID = [
    "plain",
    "it's \"so\" \\ and \\' and \\n",
    "</script><!-- <script> ]]> & ${x} `",
    "a\nb\u2028c\u2029d\te",
    "7 × 8 ÷ 2 − √9, ⠼⠓, 😀",
    "{braces} {0} %s",
]


def test_every_text_comes_back_as_it_was(tmp_path: Path, chromium: Browser) -> None:
    islands = [f'{DATA} class="practice-data">{format_script_data([text])}</script>' for text in SAID]
    islands.append(f'{DATA} id="bw-practice">{format_script_data(SAID)}</script>')
    html = f'<!doctype html><meta charset="utf-8"><body>{"".join(islands)}\n{WAITING}'
    page, data = carry_data(html, "p-data.js")
    assert "plain" not in page
    (tmp_path / "p.html").write_text(page, encoding="utf-8")
    (tmp_path / "p-data.js").write_text(data, encoding="utf-8")
    opened = chromium.new_page()
    opened.goto((tmp_path / "p.html").as_uri())
    read = [json.loads(text) for text in opened.locator("script[type]").all_text_contents()]
    assert read == [*([text] for text in SAID), SAID]
    opened.close()


def test_a_page_without_data_stays_as_it_is() -> None:
    page = f'<body><p>Nothing</p>{DATA} id="bw-page">{{}}</script>{WAITING}'
    assert carry_data(page, "p-data.js") == (page, "")


def test_a_page_whose_data_are_lost_still_teaches(tmp_path: Path, chromium: Browser, built_site: Path) -> None:
    """As when somebody hands on the page alone, with the folder of scripts but not what stands beside it."""
    (tmp_path / "modules").mkdir()
    shutil.copytree(built_site / "assets", tmp_path / "assets")
    kept = built_site / "modules" / "partner-of-5.html"
    shutil.copy(kept, tmp_path / "modules")
    assert find_data(kept).exists()
    page = chromium.new_page()
    page.goto(f"{(tmp_path / 'modules' / kept.name).as_uri()}#bw-main")
    items = page.locator("bw-item")
    assert items.count() > 10
    for item in items.all():
        expect(item).to_contain_text("This item cannot run here.")
        assert item.locator(".bw-fold").count() == 1
    walkthrough = page.locator(".bw-walkthrough").first
    second = walkthrough.locator(".bw-step").nth(1).locator(".bw-say").text_content()
    assert second
    walkthrough.get_by_role("button", name="Next step", exact=True).press("Enter")
    expect(walkthrough.locator(".bw-step:not([hidden]) .bw-say").first).to_have_text(second)
    page.close()
