"""Adding and taking away: which digits are worked in which columns, and what stands there at the end.

Highest place first, ones over ones, a 0 of a further number is no step (PROCEDURES §3–3.2); decimals as in §3.8.
Common practice in the trade, no source.
"""

import re
from typing import NamedTuple

from tests.referee.beads import read_all, read_columns, require
from tests.referee.seen import Seen

_SUM = re.compile(r"\d+(\.\d+)?( [+-] \d+(\.\d+)?)+")


def is_sum(problem: str) -> bool:
    """Whether a problem's text is a sum of whole numbers and decimals."""
    return _SUM.fullmatch(problem) is not None


class Term(NamedTuple):
    """One number of a sum: its sign, its digits without leading zeros, and how many of them are places."""

    sign: str
    digits: str
    places: int


class Layout(NamedTuple):
    """A sum on a frame: its terms, the column of the ones, the most places, and the totals in units of the last."""

    terms: tuple[Term, ...]
    ones_column: int
    places: int
    totals: tuple[int, ...]


class Refusal(NamedTuple):
    """Why a sum cannot be worked: `below-zero` at term number `at`, or `too-wide` by `missing` columns."""

    why: str
    at: int
    missing: int


def lay_out(problem: str) -> Layout:
    """Where the numbers of a sum stand, and what they come to."""
    words = ["+", *problem.split(" ")]
    terms = []
    for sign, number in zip(words[0::2], words[1::2], strict=True):
        whole, _, decimals = number.partition(".")
        terms.append(Term(sign, (whole + decimals).lstrip("0") or "0", len(decimals)))
    places = max(term.places for term in terms)
    ones_column = 1
    while ones_column - 1 < places:
        ones_column += 3
    total, totals = 0, []
    for term in terms:
        total += int(term.sign + term.digits) * 10 ** (places - term.places)
        totals.append(total)
    return Layout(tuple(terms), ones_column, places, tuple(totals))


def find_refusal(problem: str, columns: int) -> Refusal | None:
    """Why a frame of so many columns must refuse a sum; None when it can be worked."""
    return _find_refusal(lay_out(problem), columns)


def _find_refusal(layout: Layout, columns: int) -> Refusal | None:
    for number, total in enumerate(layout.totals, start=1):
        if total < 0:
            return Refusal("below-zero", number, 0)
    tens = 10**layout.places
    needs = [layout.ones_column - 1 + len(str(total // tens)) for total in layout.totals]
    missing = max(needs) - columns
    return Refusal("too-wide", needs.index(max(needs)) + 1, missing) if missing > 0 else None


def judge_sum(seen: Seen) -> None:
    """Raise `RuleError` unless the steps work just the digits of this sum, and the answer is what integers give."""
    layout = lay_out(seen.problem)
    require(_find_refusal(layout, len(seen.start)) is None, "this should have been refused")
    require(seen.ones_column == layout.ones_column, "the ones column is", seen.ones_column)
    worked = [(step.purpose, step.work, dict(step.source)) for step in seen.steps if step.work is not None]
    expected = list(expect_work(layout, seen.style.way))
    require(worked == expected, "worked were", worked, "but the digits are", expected)
    lowest = layout.ones_column - layout.places
    for step in seen.steps:
        text = write(read_all(step.after) // 10 ** (lowest - 1), layout.places)
        columns = (lowest + len(text.replace(".", "")) - 1, lowest)
        require(step.reads == (("sum", text, columns),), "step", step.number, "reads", step.reads)
        require(step.work is not None or step.purpose == "say", "step", step.number, "is for", step.purpose)
    _judge_answer(seen, layout)


Expected = tuple[str, tuple[str, int, int], dict[str, int]]


def expect_work(layout: Layout, way: str) -> list[Expected]:
    """(purpose, (action, digit, column), source) of each digit, in the order in which they are worked."""
    expected: list[Expected] = []
    for number, term in enumerate(layout.terms, start=1):
        action = "set" if number == 1 else {"+": "add", "-": "take"}[term.sign]
        purpose = "count" if way == "counting" and number > 1 else action
        column = layout.ones_column - term.places + len(term.digits)
        for digit in term.digits:
            column -= 1
            if digit != "0":
                expected.append((purpose, (action, int(digit), column), {"term": number}))
    return expected


def _judge_answer(seen: Seen, layout: Layout) -> None:
    answer, total = seen.answer, layout.totals[-1]
    text = write(total, layout.places)
    require(answer["text"] == text, "the answer is said to be", answer["text"], "but integers give", text)
    require(answer["decimals"] == layout.places, "decimals", answer["decimals"])
    require(answer["remainder"] is None, "a sum has no remainder")
    highest, lowest = answer["columns"]
    held = read_columns(seen.end, highest, lowest)
    require(held == text.replace(".", ""), "columns", answer["columns"], "hold", held)
    require(lowest == layout.ones_column - layout.places, "the answer ends in column", lowest)
    require(read_all(seen.end) == total * 10 ** (lowest - 1), "other columns are not at rest")


def write(units: int, places: int) -> str:
    """A number of so many units of its last place, with exactly that many places."""
    whole, part = divmod(units, 10**places)
    return f"{whole}.{part:0{places}d}" if places else str(whole)
