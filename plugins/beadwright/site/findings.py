"""What is to be put right, as a page: while pages are served, it stands in the place of all of them."""

from __future__ import annotations

from collections.abc import Iterable

from beadwright.course import Finding
from beadwright.course.findings import sort_findings
from beadwright.render import Words
from beadwright.render.pages import escape_markdown


def write_findings(findings: Iterable[Finding], words: Words) -> str:
    """The Markdown of the page: each finding with its place, what is wrong there and a next step."""
    listed = sort_findings(findings)
    chunks = [f"# {words.text('findings.title')}", words.text("findings.intro", count=len(listed))]
    for finding in listed:
        path = " › ".join(finding.path)
        place = f"{finding.file}:{finding.line}:{finding.column}"
        said = f"{f'{path}: ' if path else ''}{finding.message}"
        chunks.append(f"## {escape_markdown(place)}\n\n{escape_markdown(said)}\n\n{escape_markdown(finding.hint)}")
    return "\n\n".join(chunks) + "\n"
