"""What a slip looks like to whoever made it: one sentence from its cause and the step it happened in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from beadwright.engine import (
    Action,
    Bead,
    FractionProblem,
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


def find_walkthrough_phrases(walkthrough: Walkthrough, words: Words) -> Phrases:
    """The phrases in which a walkthrough's columns are named."""
    return find_phrases(words, walkthrough.start.shape, find_named_ones(walkthrough))


class CauseSayer:
    """Says the slips in working one problem, or in reading its end: what is told of a step is put together once."""

    def __init__(self, walkthrough: Walkthrough, words: Words) -> None:
        self._walkthrough = walkthrough
        self._words = words
        self._phrases = find_walkthrough_phrases(walkthrough, words)
        self._forms: dict[tuple[int | None, bool], tuple[str, ...]] = {}
        self._numbers: dict[int | None, dict[str, str | int]] = {}

    def say(self, cause: Prediction) -> str:
        """The sentence for a slip."""
        number, swapped = cause.step, cause.slip == _SWAPPED
        step = None if number is None else self._walkthrough.steps[number - 1]
        if number not in self._numbers:
            self._numbers[number] = _find_numbers(step, self._walkthrough, self._words)
        if (number, swapped) not in self._forms:
            self._forms[number, swapped] = tuple(_find_forms(step, swapped=swapped))
        key = _find_key(cause.slip, cause.variant, self._forms[number, swapped], self._words)
        return self._words.text(key, **_name_columns(cause.column, self._phrases), **self._numbers[number])


@lru_cache(maxsize=4096)
def _find_key(slip: str, variant: str, forms: tuple[str, ...], words: Words) -> str:
    """The key of the sentence: by slip and variant, then by what was done in the step, as far as the table parts it."""
    start = f"slips.made.{slip}.{variant}"
    return next((f"{start}.{form}" for form in forms if f"{start}.{form}" in words.entries), f"{start}.any")


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


@lru_cache(maxsize=4096)
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


def _find_numbers(step: Step | None, walkthrough: Walkthrough, words: Words) -> dict[str, str | int]:
    """The digit, its partners, and the number that it belongs to."""
    if step is None or step.work is None:
        return {}
    digit, source = step.work.digit, step.work.source.to_data()
    numbers: dict[str, str | int] = {"digit": digit, "five": abs(5 - digit), "ten": 10 - digit}
    numbers["number"] = _show_number(source.get("term"), walkthrough.problem, words)
    if "factors" in source:
        first, second = source["factors"]
        numbers |= {"first": first, "second": second, "product": int(source["product"]), "written": source["product"]}
    return numbers


def _show_number(term: int | None, problem: Problem, words: Words) -> str:
    """The number of a problem that a digit belongs to, as a reader sees it."""
    numbers: tuple[object, ...] = ()
    if isinstance(problem, Sum):
        numbers = tuple(each.number for each in problem.terms)
    elif isinstance(problem, Product | FractionProblem):
        numbers = (problem.first, problem.second)
    elif isinstance(problem, Quotient):
        numbers = (problem.dividend, problem.divisor)
    elif isinstance(problem, Percent):
        numbers = (problem.percent, problem.of)
    if term is None or term > len(numbers):
        return words.text("slips.number")
    return format_number(str(numbers[term - 1]), words)


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
