"""Arithmetic in the middle of text: found by its signs, so that braille can write it in its own code.

A numeral alone is left to the text. A hyphen counts as a minus sign only with a space on either side.
"""

from __future__ import annotations

import re

from beadwright.render.booklet.blocks import Formula, Span, Spans
from beadwright.render.braille.rows import (
    Node,
    Numeral,
    Omission,
    PercentSign,
    Radical,
    Relation,
    Row,
    Sign,
    SignName,
    Word,
    build_number_row,
)

_NUMBER = r"\d[\d,]*(?:\.\d+)?"
_QUANTITY = rf"√?(?:\d+ \d+/\d+|\d+/\d+|{_NUMBER})%?"
_JOIN = r"(?: [+−×÷=-] |(?<=%) (?:of|de) (?=√?\d)| ?[+−×÷=] ?)"
_EXPRESSION = re.compile(
    rf"(?<![\w.,/])(?:{_QUANTITY}(?:{_JOIN}{_QUANTITY})*(?: ?= ?(?:\?|…|_+))?)(?![\w/])(?!\.\d)",
)
_TOKEN = re.compile(
    rf"(?P<root>√)?(?P<number>\d+ \d+/\d+|\d+/\d+|{_NUMBER})|(?P<sign>[+−×÷=%-])|(?P<of>of|de)|(?P<open>\?|…|_+)"
)
_SIGNS: dict[str, SignName] = {"+": "+", "−": "-", "-": "-", "×": "×", "÷": "÷"}


def find_formulas(text: str) -> Spans:
    """Text with the arithmetic in it marked; what is joined together is the text again.

    >>> [span if isinstance(span, str) else span.text for span in find_formulas("Work 48 + 37, then stop.")]
    ['Work ', '48 + 37', ', then stop.']
    """
    spans: list[Span] = []
    done = 0
    for found in _EXPRESSION.finditer(text):
        if not _is_arithmetic(found[0]):
            continue
        end = found.end() - (1 if found[0].endswith(",") else 0)
        spans += [text[done : found.start()], Formula(text[found.start() : end], read_row(text[found.start() : end]))]
        done = end
    spans.append(text[done:])
    return tuple(span for span in spans if span != "")


def _is_arithmetic(text: str) -> bool:
    """Whether there is more than a numeral: a sign of operation or comparison, a root or a fraction."""
    return any(sign in text for sign in "+−×÷=√/") or any(sign in text for sign in (" - ", "% of ", "% de "))


def read_row(text: str) -> Row:
    """The row of an expression as print shows it.

    >>> [type(node).__name__ for node in read_row("15% of 80")]
    ['Numeral', 'PercentSign', 'Word', 'Numeral']
    """
    row: list[Node] = []
    for token in _TOKEN.finditer(text):
        if token["root"]:
            row.append(Radical(_read_number(token["number"])))
        elif token["number"]:
            row += _read_number(token["number"])
        elif token["open"]:
            row.append(Omission())
        elif token["of"]:
            row.append(Word(token["of"]))
        elif token["sign"] in _SIGNS:
            row.append(Sign(_SIGNS[token["sign"]]))
        else:
            row.append(PercentSign() if token["sign"] == "%" else Relation("="))
    return tuple(row)


def _read_number(text: str) -> Row:
    return build_number_row(text) if "/" in text else (Numeral(text),)


def join_spans(spans: Spans) -> Spans:
    """The same spans with texts that stand side by side as one, so that braille sees whole words.

    >>> join_spans(("9", "; ", "1"))
    ('9; 1',)
    """
    joined: list[Span] = []
    for span in spans:
        if joined and isinstance(span, str) and isinstance(joined[-1], str):
            joined[-1] += span
        else:
            joined.append(span)
    return tuple(joined)


def show_spans(spans: Spans) -> str:
    """The text that spans say, as print shows it."""
    return "".join(span if isinstance(span, str) else span.text for span in spans)
