"""A built page with its data, which stand in a script beside it, put back in their places."""

import ast
import re
from pathlib import Path

_PLACE = re.compile(
    r'(<script type="application/json" (?:class="(?:walkthrough|practice)-data"|id="bw-practice")>)(?=</)'
)
_LINE = re.compile(r"^    '.*',$", re.MULTILINE)


def find_data(page: Path) -> Path:
    """The script beside a page."""
    return page.with_name(f"{page.stem}-data.js")


def read_whole(page: Path) -> str:
    """A page's HTML as its scripts find it."""
    html, data = page.read_text(encoding="utf-8"), find_data(page)
    texts = _LINE.findall(data.read_text(encoding="utf-8")) if data.exists() else []
    assert len(texts) == len(_PLACE.findall(html)), page
    texts.reverse()
    return _PLACE.sub(lambda found: found[1] + ast.literal_eval(texts.pop().strip(" ,")), html)
