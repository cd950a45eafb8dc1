"""An author's Markdown inside a page part of ours."""

from __future__ import annotations

from functools import cache

from markdown import Markdown
from markupsafe import Markup


@cache
def _build_converter() -> Markdown:
    return Markdown(extensions=["sane_lists", "attr_list"], output_format="html")


def render_prose(text: str) -> Markup:
    """An author's Markdown as HTML. It is the trainer's own text, so markup in it is hers and stays."""
    return Markup(_build_converter().reset().convert(text))  # noqa: S704 - the author's own


_BLOCKS = ("indent", "code", "hashheader", "setextheader", "hr", "olist", "ulist", "quote", "reference")


@cache
def _build_line_converter() -> Markdown:
    """Markdown without lists, headings and the like: “28. Read it back” is a line that starts with a number."""
    converter = Markdown(extensions=["attr_list"], output_format="html")
    for block in _BLOCKS:
        converter.parser.blockprocessors.deregister(block)
    return converter


def render_line(text: str) -> Markup:
    """Markdown for labels and options, where no block may stand: paragraphs become lines.

    >>> render_line("28. *Read* it back")
    Markup('28. <em>Read</em> it back')
    """
    html = _build_line_converter().reset().convert(text)
    return Markup(html.removeprefix("<p>").removesuffix("</p>").replace("</p>\n<p>", "<br>"))  # noqa: S704 - as above
