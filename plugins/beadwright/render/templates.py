"""Our own Jinja environment: page parts from `parts` in the templates folder, autoescaped; a missing name raises."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from beadwright.paths import templates_dir


@cache
def build_environment() -> Environment:
    """The environment that every page part is rendered by."""
    environment = Environment(
        loader=FileSystemLoader(templates_dir() / "parts"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=False,
        auto_reload=False,  # else each part's file is looked at whenever the part is rendered
    )
    environment.filters["script_data"] = format_script_data
    return environment


def render_part(part: str, **context: Any) -> Markup:
    """The page part in the file `parts/<part>.html`, filled from `context`; a name it lacks raises `UndefinedError`."""
    return Markup(build_environment().get_template(f"{part}.html").render(context))  # noqa: S704 - autoescaped


def load_parts() -> None:
    """Read every page part now, so that processes that are forked from this one need not."""
    for name in build_environment().list_templates(extensions=["html"]):
        build_environment().get_template(name)


def format_script_data(data: object) -> Markup:
    """Data as JSON that may stand inside a `<script>` element: no `</`, no `<!--`, no line that ends a script early."""
    # Data are built from the top down, so nothing in them contains itself.
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), check_circular=False)
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)  # noqa: S704 - JSON whose only markup signs have just been escaped
