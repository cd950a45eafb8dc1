"""The course that ships, as HTML: every page, by a parser that follows the standard and by a validator."""

from pathlib import Path

import html5lib
import pytest

from tests.support.node import validate_html


def find_pages(site: Path) -> list[Path]:
    """Every page of a built site; an empty list would let the tests below pass over nothing."""
    pages = sorted(site.rglob("*.html"))
    assert site / "index.html" in pages
    assert len(pages) > 5
    return pages


def test_a_browser_has_nothing_to_repair(built_site: Path) -> None:
    faults = []
    for page in find_pages(built_site):
        parser = html5lib.HTMLParser()
        parser.parse(page.read_bytes())
        faults += [f"{page.name}:{line}:{column}: {code}" for (line, column), code, _ in parser.errors]
    assert faults == []


@pytest.mark.node
def test_every_page_is_valid(built_site: Path) -> None:
    assert validate_html(find_pages(built_site)) == []


@pytest.mark.node
def test_the_validator_finds_what_is_wrong(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    twice = '<p id="a">x</p>' * 2
    page.write_text(f'<!doctype html><html lang="en"><head><title>x</title></head><body>{twice}</body></html>')
    assert [fault.rsplit("[", 1)[1] for fault in validate_html([page])] == ["no-dup-id]"]
