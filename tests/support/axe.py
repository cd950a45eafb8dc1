"""axe-core over an open page: WCAG 2.2 A and AA, the AAA rules (contrast 7 : 1) and axe's best practices."""

from functools import cache
from typing import Any

from playwright.sync_api import Page

from tests.support import ROOT

TAGS = ("wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
SOURCE = ROOT / "tests" / "node" / "node_modules" / "axe-core" / "axe.min.js"


@cache
def read_axe() -> str:
    """The checker's source; `make node` installs it."""
    assert SOURCE.is_file(), "axe-core is missing: `make node` installs it"
    return SOURCE.read_text(encoding="utf-8")


def find_axe_findings(page: Page, within: str | None = None) -> list[str]:
    """What axe finds on the page as it stands, or within one element of it; a line a node: rule, node, reason."""
    # Halfway through a change of colour every contrast is wrong.
    page.evaluate("document.getAnimations().forEach((moving) => moving.finish())")
    page.evaluate(read_axe())
    options: dict[str, Any] = {"runOnly": {"type": "tag", "values": list(TAGS)}, "resultTypes": ["violations"]}
    # Preloading would read the style sheets again by request, which a page opened from a folder cannot.
    options["preload"] = False
    result: dict[str, Any] = page.evaluate(
        "([within, options]) => axe.run(within ? document.querySelector(within) : document, options)",
        [within, options],
    )
    assert result["passes"], "axe ran no rule at all"
    return [
        f"{rule['id']}: {' '.join(map(str, node['target']))}: {node['failureSummary']}"
        for rule in result["violations"]
        for node in rule["nodes"]
    ]
