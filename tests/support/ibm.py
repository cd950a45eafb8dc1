"""IBM's accessibility-checker engine over an open page: its WCAG 2.2 rules, failures and recommendations alike."""

from functools import cache
from typing import Any

from playwright.sync_api import Page

from tests.support import ROOT

SOURCE = ROOT / "tests" / "node" / "node_modules" / "accessibility-checker-engine" / "ace.js"
RULES = "WCAG_2_2"
FOUND = {("VIOLATION", "FAIL"), ("RECOMMENDATION", "FAIL")}
"""What counts: failures. `POTENTIAL` and `MANUAL` ask a person to look, and say so on every page."""


@cache
def read_engine() -> str:
    """The engine's source; `make node` installs it."""
    assert SOURCE.is_file(), "accessibility-checker-engine is missing: `make node` installs it"
    return SOURCE.read_text(encoding="utf-8")


def find_ibm_findings(page: Page) -> list[str]:
    """What the engine finds on the page as it stands; a line a node: rule, path, message, and the node's beginning."""
    if not page.evaluate("typeof window.ace !== 'undefined'"):
        # By the browser's own protocol: as an element it would be refused by the page's policy, and evaluated through
        # Playwright the source would keep its name to itself.
        session = page.context.new_cdp_session(page)
        session.send("Runtime.evaluate", {"expression": read_engine()})
        session.detach()
    results: list[dict[str, Any]] = page.evaluate(
        f"""async () => {{
          const report = await new window.ace.Checker().check(document, ["{RULES}"]);
          return report.results.map((found) => ({{
            rule: found.ruleId, value: found.value, message: found.message,
            path: found.path.dom, snippet: found.snippet,
          }}));
        }}"""
    )
    assert len(results) > 100, f"the engine ran only {len(results)} checks"
    return [
        f"{found['rule']}: {found['path']}: {found['message']}: {found['snippet'][:200]}"
        for found in results
        if tuple(found["value"]) in FOUND
    ]
