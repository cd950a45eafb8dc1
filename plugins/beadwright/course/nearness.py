"""Guesses at what an author meant: the nearest known name, or the names there are."""

from __future__ import annotations

from collections.abc import Collection
from difflib import get_close_matches

MOST_NAMED = 14
_LONGEST_COMPARED = 60
# Keys that authors bring along from elsewhere, and the key they mean here, if it is one.
_SYNONYMS = {
    "name": ("title", "id"),
    "heading": ("title",),
    "type": ("ask",),
    "kind": ("ask",),
    "number": ("reads", "count"),
    "value": ("reads",),
    "shows": ("reads",),
    "correct": ("right",),
    "reason": ("because",),
    "explanation": ("because",),
    "feedback": ("because",),
    "step": ("at",),
    "hidden": ("frame_is",),
    "show": ("frame_is",),
    "time": ("minutes", "timed"),
    "duration": ("minutes",),
    "requires": ("needs",),
    "prerequisites": ("needs",),
    "goals": ("objectives",),
    "outcomes": ("objectives",),
    "only": ("allow",),
    "size": ("digits",),
    "exercises": ("items",),
    "questions": ("items",),
    "answers": ("options",),
    "picture": ("figure",),
    "image": ("figure",),
    "example": ("walkthrough",),
    "worked": ("walkthrough",),
    "warning": ("caution",),
    "trainer": ("facilitator",),
    "markdown": ("text",),
    "section": ("part",),
}


def find_near(text: str, names: Collection[str]) -> str | None:
    """The name that `text` most likely stands for, or None.

    >>> find_near("titel", ["title", "minutes"])
    'title'
    """
    flat = text[:_LONGEST_COMPARED].strip().lower().replace(" ", "-")
    for guess in (flat, flat.replace("-", "_"), flat.replace("_", "-"), *_SYNONYMS.get(flat, ())):
        if guess in names:
            return guess
    close = get_close_matches(flat, list(names), n=1, cutoff=0.6)
    return close[0] if close else None


def suggest_near(text: str, names: Collection[str]) -> str:
    """A next step: the nearest name, or else the names there are."""
    near = find_near(text, names)
    if near is not None:
        return f'Did you mean "{near}"?'
    if not names:
        return "There is none to choose from yet."
    return f"Choose from {name_choices(names, joined='and')}."


def name_choices(names: Collection[str], *, joined: str = "or") -> str:
    """Names in a row for a sentence; a long row is cut.

    >>> name_choices(["cut", "half-up"])
    'cut or half-up'
    """
    shown = list(names)[:MOST_NAMED]
    if len(shown) < len(names):
        return f"{', '.join(shown)} and {len(names) - len(shown)} more"
    if len(shown) < 2:
        return "".join(shown)
    return f"{', '.join(shown[:-1])} {joined} {shown[-1]}"
