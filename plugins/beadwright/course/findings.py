"""Findings: what is wrong in a course's files, where, and what to do next. One record, one formatter, one table."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from beadwright.course.messages import MESSAGES
from beadwright.engine import EngineError

LONGEST_FOUND = 40


@dataclass(frozen=True, slots=True)
class Finding:
    """Something an author has to put right.

    `file` is relative to the folder that holds the content folder, with `/`; `line` and `column` count from 1, columns
    in characters. `path` names the keys that lead to the place, outermost first, without the numbers of list entries.
    `message` says what should be there and what was found; `hint` is one next step.
    """

    code: str
    file: str
    line: int
    column: int
    path: tuple[str, ...]
    message: str
    hint: str

    @property
    def place(self) -> tuple[str, int, int, str, str]:
        """What findings are sorted by: file, line, column, and where those agree code and message."""
        return (self.file, self.line, self.column, self.code, self.message)


@dataclass(frozen=True, slots=True)
class Where:
    """The place of a finding before it has a code: file, line, column and the keys that lead there."""

    file: str
    line: int = 1
    column: int = 1
    path: tuple[str, ...] = ()


def build_finding(code: str, where: Where, **fields: str | int) -> Finding:
    """The finding `code` at a place, its message filled from the table with `fields`."""
    message = MESSAGES[code]
    return Finding(
        file=where.file,
        line=where.line,
        column=where.column,
        code=code,
        path=where.path,
        message=message.says.format(**fields),
        hint=message.next_step.format(**fields),
    )


def explain_refusal(error: EngineError) -> tuple[str, str]:
    """What a finding says of what the engine refuses: its reason, for the middle of a sentence, and its next step."""
    reason = error.reason
    if reason[1:2].islower() or reason[1:2] == " ":
        reason = reason[0].lower() + reason[1:]
    return reason, error.next_step


def format_finding(finding: Finding) -> str:
    """A finding as two lines of text.

    >>> where = Where("content/course.yml", 31, 9, ("house_style", "wording"))
    >>> print(format_finding(build_finding("not-text", where, found="a list")))
    content/course.yml:31:9: house_style › wording: should be text, found a list [not-text]
        Write the text after the colon.
    """
    path = " › ".join(finding.path) or "file"
    place = f"{finding.file}:{finding.line}:{finding.column}"
    return f"{place}: {path}: {finding.message} [{finding.code}]\n    {finding.hint}"


def sort_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings by file and place, each once."""
    return tuple(sorted(set(findings), key=lambda finding: finding.place))


def format_findings(findings: Iterable[Finding]) -> str:
    """Findings as text, sorted by place, each once; empty text for none."""
    return "".join(f"{format_finding(finding)}\n" for finding in sort_findings(findings))


def quote(text: str) -> str:
    """A value as a message shows it: in quotes, on one line, cut when long."""
    flat = "".join(sign if sign.isprintable() else " " for sign in text)
    return f'"{flat if len(flat) <= LONGEST_FOUND else flat[:LONGEST_FOUND] + "…"}"'
