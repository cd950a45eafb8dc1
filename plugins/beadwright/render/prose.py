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


def render_line(text: str) -> Markup:
    """One paragraph of Markdown without the paragraph around it, for labels and options."""
    html = render_prose(text)
    if html.startswith("<p>") and html.endswith("</p>") and html.count("<p>") == 1:
        return Markup(html[3:-4])  # noqa: S704 - as above
    return html
