"""What the YAML parser stumbles over, told apart, so that a finding can say it in an author's words."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import yaml


@dataclass(frozen=True, slots=True)
class Fault:
    """A stumble: the code of its finding, where it is (characters from 0), and what fills the message."""

    code: str
    index: int
    fields: dict[str, str | int] = field(default_factory=dict)


# What the parser says, and the code we give it; the first that matches counts. The parser's own words are no part of
# its promises, so whatever is not known here falls through to `yaml-syntax`.
_KNOWN: tuple[tuple[str, str], ...] = (
    (r"found character '\\t' that cannot start any token", "yaml-tab"),
    (r"found character '(?P<sign>.+)' that cannot start any token", "yaml-start"),
    (r"mapping values are not allowed here", "yaml-colon"),
    (r"could not find expected ':'", "yaml-no-colon"),
    (r"expected <block end>, but found '<scalar>'", "yaml-more"),
    (r"expected <block end>, but found", "yaml-indent"),
    (r"did not find expected <document start>|expected '<document start>'", "yaml-indent"),
    (r"sequence entries are not allowed here", "yaml-indent"),
    (r"expected ',' or '[\]}]'", "yaml-bracket"),
    (r"found unknown escape character|expected escape sequence of", "yaml-escape"),
)


# The parser turns such an escape into a character without asking whether there is one, and gives no place.
_NO_CHARACTER = re.compile(r"\\U(?!000|0010)[0-9A-Fa-f]{8}")


def find_fault(error: Exception, text: str) -> Fault:
    """What went wrong, from an exception of the parser while it read `text`."""
    if not isinstance(error, yaml.MarkedYAMLError):
        found = _NO_CHARACTER.search(text)
        return Fault("yaml-escape", 0 if found is None else found.start())
    if error.context == "while scanning a quoted scalar" and "end of stream" in str(error.problem):
        return Fault("yaml-quote", _index(error.context_mark))
    problem = str(error.problem)
    for pattern, code in _KNOWN:
        found = re.search(pattern, problem)
        if found is not None:
            # A missing colon is noticed lines later; what lacks it is where the key began.
            mark = error.context_mark if code == "yaml-no-colon" else error.problem_mark
            return Fault(code, _index(mark), dict(found.groupdict()))
    return Fault("yaml-syntax", _index(error.problem_mark), {"problem": problem})


def _index(mark: yaml.Mark | None) -> int:
    return 0 if mark is None else int(mark.index)
