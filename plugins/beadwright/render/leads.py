"""What is said before a digit is worked: what is about to be done, and what the digit comes from."""

from __future__ import annotations

from functools import lru_cache

from beadwright.engine import (
    Action,
    FromNothing,
    FromOddNumber,
    FromProduct,
    FromQuotient,
    FromRoot,
    Purpose,
)
from beadwright.render.words import Words

GAP = "\0"
"""Stands in a text for what is filled in later; no table holds it."""

_BY_ACTION = frozenset({Purpose.SET, Purpose.ADD, Purpose.TAKE, Purpose.COUNT, Purpose.CLEAR})
_SOURCES: dict[type[object], str] = {
    FromProduct: "product",
    FromQuotient: "quotient",
    FromOddNumber: "odd",
    FromRoot: "root",
    FromNothing: "nothing",
}


def say_number_lead(words: Words, purpose: Purpose, action: Action, act: str) -> str:
    """The lead of a digit of a number, with a gap for the number; other digits and other numbers have the same."""
    return capitalise(words.text(f"speech.lead.{_name_done(purpose, action)}-term", act=act, number=GAP))


@lru_cache(maxsize=4096)
def find_lead(words: Words, purpose: Purpose, action: Action, source: object) -> list[str]:
    """The lead of a digit that comes from such a source, parted where the act stands; its first letter is large."""
    fields: dict[str, str | int] = {"act": GAP}
    if isinstance(source, FromProduct):
        fields["first"], fields["second"] = source.factors
        fields["product"] = str(int(source.product))
        fields["part"] = words.text(f"speech.part.{source.place}")
    elif isinstance(source, FromOddNumber):
        fields["odd"] = source.odd_number
    elif isinstance(source, FromRoot):
        fields["group"] = source.root_group
    lead = words.fill(f"speech.lead.{_name_done(purpose, action)}-{_SOURCES[type(source)]}", fields)
    return capitalise(lead).split(GAP)


def _name_done(purpose: Purpose, action: Action) -> str:
    return action if purpose in _BY_ACTION else f"{purpose}-{action}"


def capitalise(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]
