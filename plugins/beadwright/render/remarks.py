"""What is said where no bead moves: a topic of the table with its facts; each remark is phrased once and kept."""

from __future__ import annotations

from functools import lru_cache

from beadwright.engine import Remark
from beadwright.render.leads import capitalise
from beadwright.render.numbers import format_number
from beadwright.render.phrases import Phrases
from beadwright.render.words import Words


@lru_cache(maxsize=1024)
def say_remark(remark: Remark, phrases: Phrases) -> str:
    """The topic's sentence with its facts; each column among them can be named by `on` and `the` too."""
    fields = dict(remark.facts)
    for name, fact in remark.facts:
        # So few digits are shown as they are, and `count` chooses plurals as it is.
        if type(fact) is not int or (fact > 999 and name != "count"):
            fields[name] = _show_fact(name, str(fact), phrases.words)
        elif name == "column":
            column = phrases.column(fact)
            fields["the"], fields["on"] = column.the, column.on
    return capitalise(phrases.words.fill(f"speech.topic.{remark.topic}", fields))


def _show_fact(name: str, fact: str, words: Words) -> str:
    """A fact as a reader sees it: numbers grouped, a part of a number named."""
    if name == "part":
        return words.text(f"speech.part.{fact}")
    return fact if fact.startswith("0") and "." not in fact else format_number(fact, words)
