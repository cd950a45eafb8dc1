"""What a slip looks like to whoever made it: one sentence from its cause and the step it happened in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import NamedTuple

from beadwright.engine import (
    Action,
    Bead,
    FractionProblem,
    FromProduct,
    FromTerm,
    Percent,
    Prediction,
    Problem,
    Product,
    Quotient,
    Step,
    Sum,
    Technique,
    Walkthrough,
)
from beadwright.render.numbers import format_number
from beadwright.render.phrases import Phrases, find_phrases
from beadwright.render.speech import find_named_ones
from beadwright.render.words import Words

_SWAPPED = "set-and-clear-swapped"
_NUMBER = "\0number\0"
"""Stands in a sentence where the number comes that a digit belongs to."""


def find_walkthrough_phrases(walkthrough: Walkthrough, words: Words) -> Phrases:
    """The phrases in which a walkthrough's columns are named."""
    return find_phrases(words, walkthrough.start.shape, find_named_ones(walkthrough))


class CauseSayer:
    """Says the slips in working one problem, or in reading its end: what is told of a step is put together once."""

    def __init__(self, walkthrough: Walkthrough, words: Words) -> None:
        self._walkthrough = walkthrough
        self._words = words
        self._phrases = find_walkthrough_phrases(walkthrough, words)
        self._told: dict[tuple[int | None, bool], tuple[tuple[str, ...], Digit | None, str]] = {}

    def say(self, cause: Prediction) -> str:
        """The sentence for a slip."""
        slip, column, number, _, variant = cause
        told = self._told.get((number, slip == _SWAPPED))
        if told is None:
            told = self._told[number, slip == _SWAPPED] = self._tell(number, swapped=slip == _SWAPPED)
        forms, digit, term = told
        return _say(slip, variant, forms, column, digit, self._phrases).replace(_NUMBER, term)

    def _tell(self, number: int | None, *, swapped: bool) -> tuple[tuple[str, ...], Digit | None, str]:
        """What was done in a step, the digit that it works, and the number that this belongs to."""
        step = None if number is None else self._walkthrough.steps[number - 1]
        term = _find_number(step, self._walkthrough.problem, self._words)
        return tuple(_find_forms(step, swapped=swapped)), _find_digit(step), term


class Digit(NamedTuple):
    """The digit that a step works; where it is one of a product, the factors and the product too."""

    digit: int
    factors: tuple[int, int] | None
    product: str

    def name(self) -> dict[str, str | int]:
        """What sentences ask for, the digit's partners among it, and the place of the number that it belongs to."""
        named: dict[str, str | int] = {"digit": self.digit, "five": abs(5 - self.digit), "ten": 10 - self.digit}
        named["number"] = _NUMBER
        if self.factors is not None:
            first, second = self.factors
            named |= {"first": first, "second": second, "product": int(self.product), "written": self.product}
        return named


@lru_cache(maxsize=4096)
def _say(slip: str, variant: str, forms: tuple[str, ...], column: int, digit: Digit | None, phrases: Phrases) -> str:
    """The sentence by slip and variant, then by what was done in the step, as far as the table parts it.

    The problems of a course meet the same few again and again; only the number is put in each time.
    """
    words, start = phrases.words, f"slips.made.{slip}.{variant}"
    key = next((f"{start}.{form}" for form in forms if f"{start}.{form}" in words.entries), f"{start}.any")
    return words.text(key, **_name_columns(column, phrases), **({} if digit is None else digit.name()))


def _find_forms(step: Step | None, *, swapped: bool) -> Iterable[str]:
    """What was done in a step, and, where the partner was swapped, what was due; what says most first."""
    if step is None or step.work is None:
        return
    if step.technique is Technique.COUNT:
        yield "count"
    if swapped:
        due = sum(m.change for m in step.moves if m.column == step.work.column and m.bead is Bead.LOWER)
        yield "set" if due > 0 else "clear"
    if step.runs_on:
        yield f"{step.work.action}_runs_on"
    yield str(step.work.action)


def _name_columns(column: int, phrases: Phrases) -> Mapping[str, str]:
    """The worked column and its neighbours; where there is none on the right, no sentence asks for it."""
    here = phrases.column(column)
    return {
        "on": here.on,
        "the": here.the,
        "left": phrases.column(column + 1).on,
        "two_left": phrases.column(column + 2).on,
        "right": phrases.column(max(1, column - 1)).on,
    }


def _find_digit(step: Step | None) -> Digit | None:
    """The digit of a step that works one."""
    if step is None or step.work is None:
        return None
    source = step.work.source
    if isinstance(source, FromProduct):
        return Digit(step.work.digit, source.factors, source.product)
    return Digit(step.work.digit, None, "")


def _find_number(step: Step | None, problem: Problem, words: Words) -> str:
    """The number of a problem that a step's digit belongs to, as a reader sees it."""
    if step is None or step.work is None or not isinstance(step.work.source, FromTerm):
        return words.text("slips.number")
    term = step.work.source.term
    numbers: tuple[object, ...] = ()
    if isinstance(problem, Sum):
        numbers = tuple(each.number for each in problem.terms)
    elif isinstance(problem, Product | FractionProblem):
        numbers = (problem.first, problem.second)
    elif isinstance(problem, Quotient):
        numbers = (problem.dividend, problem.divisor)
    elif isinstance(problem, Percent):
        numbers = (problem.percent, problem.of)
    return words.text("slips.number") if term > len(numbers) else format_number(str(numbers[term - 1]), words)


def say_reading_cause(cause: Prediction, phrases: Phrases, *, setting: bool) -> str:
    """The sentence for a slip in reading a frame, or in setting a number."""
    name = phrases.column(cause.column)
    key = f"slips.{'set' if setting else 'read'}.{cause.slip}.{cause.variant}"
    text = phrases.words.text(key, on=name.on, the=name.the)
    return text[:1].upper() + text[1:]


def name_slip(slip: str, words: Words) -> str:
    """A slip's name as the end of a sentence: `half of an exchange was left out`."""
    return words.text(f"practice.slips.{slip}")


def takes_away(step: Step) -> bool:
    """Whether a step takes its digit away."""
    return step.work is not None and step.work.action is Action.TAKE
