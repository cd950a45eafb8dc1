"""What a slip looks like to whoever made it: one sentence from its cause and the step it happened in."""

from __future__ import annotations

from collections.abc import Iterable

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


def say_cause(cause: Prediction, walkthrough: Walkthrough, words: Words) -> str:
    """The sentence for a slip in working this problem, or in reading its end."""
    step = None if cause.step is None else walkthrough.steps[cause.step - 1]
    names = _name_columns(cause.column, find_walkthrough_phrases(walkthrough, words))
    return words.text(_find_key(cause, step, words), **names, **_find_numbers(step, walkthrough, words))


def _find_key(cause: Prediction, step: Step | None, words: Words) -> str:
    """The key of the sentence: by slip and variant, then by what was done in the step, as far as the table parts it."""
    start = f"slips.made.{cause.slip}.{cause.variant}"
    for form in _find_forms(cause, step):
        if f"{start}.{form}" in words.entries:
            return f"{start}.{form}"
    return f"{start}.any"


def _find_forms(cause: Prediction, step: Step | None) -> Iterable[str]:
    if step is None or step.work is None:
        return
    if step.technique is Technique.COUNT:
        yield "count"
    if cause.slip == _SWAPPED:
        due = sum(m.change for m in step.moves if m.column == step.work.column and m.bead is Bead.LOWER)
        yield "set" if due > 0 else "clear"
    if step.runs_on:
        yield f"{step.work.action}_runs_on"
    yield str(step.work.action)


def _name_columns(column: int, phrases: Phrases) -> dict[str, str]:
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
