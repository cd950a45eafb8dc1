"""What is said where no bead moves: a topic of the table with its facts; each remark is phrased once and kept."""

from __future__ import annotations

from functools import lru_cache

from beadwright.engine import Remark
from beadwright.render.leads import capitalise
from beadwright.render.numbers import format_number
from beadwright.render.phrases import Phrases
from beadwright.render.words import Words


@lru_cache(maxsize=8192)
def say_remark(remark: Remark, phrases: Phrases) -> str:
    """The topic's sentence with its facts; each column among them can be named by `on` and `the` too."""
    words = phrases.words
    fields: dict[str, str | int] = {}
    for name, fact in remark.facts:
        fields[name] = _show_fact(name, fact, words)
        if name == "column":
            column = phrases.column(int(fact))
            fields["the"], fields["on"] = column.the, column.on
    return capitalise(words.text(f"speech.topic.{remark.topic}", **fields))


def _show_fact(name: str, fact: str | int, words: Words) -> str | int:
    """A fact as a reader sees it: numbers grouped, a part of a number named; `count` chooses plurals as it is."""
    if name == "count" or (type(fact) is int and 0 <= fact < 1000):
        return fact  # so few digits are shown as they are
    if name == "part":
        return words.text(f"speech.part.{fact}")
    text = str(fact)
    return text if text.startswith("0") and "." not in text else format_number(text, words)
