"""An author's Markdown in page parts: what it may become where."""

import pytest

from beadwright.render.prose import render_line, render_prose


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("Seven is ten less three", "Seven is ten less three"),
        ("28. “Read it back to me.”", "28. “Read it back to me.”"),
        ("- 5", "- 5"),
        ("# 3", "# 3"),
        ("> 3", "&gt; 3"),
        ("**Bold** and [a link](x.html)", '<strong>Bold</strong> and <a href="x.html">a link</a>'),
        ("One.\n\nTwo.", "One.<br>Two."),
        ("3 < 5 & more", "3 &lt; 5 &amp; more"),
    ],
)
def test_a_line_never_becomes_a_block(text: str, html: str) -> None:
    assert render_line(text) == html


def test_prose_may_be_blocks() -> None:
    assert render_prose("- one\n- two") == "<ul>\n<li>one</li>\n<li>two</li>\n</ul>"
