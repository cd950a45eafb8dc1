"""What products and quotients have in common: numbers as digits and places, products of two digits, who owns what.

Common practice in the trade, no source.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from tests.referee.beads import require
from tests.referee.seen import Seen, SeenStep


class Number(NamedTuple):
    """A number as a frame is used for it: its digits without leading zeros, and how many of them are places."""

    digits: str
    places: int

    @property
    def units(self) -> int:
        """How many units of its last place it is."""
        return int(self.digits)


def read_number(text: str) -> Number:
    """`0.026` has the digits 2, 6 and three places (trade.md §3.8)."""
    whole, _, decimals = text.partition(".")
    return Number((whole + decimals).lstrip("0") or "0", len(decimals))


class Worked(NamedTuple):
    """One digit that must be worked; the digits that are 0 on the way to it are `said` and move nothing."""

    purpose: str
    action: str
    digit: int
    column: int
    source: dict[str, object]
    said: int = 0


def expect_number(digits: str, highest: int, term: int) -> Iterator[Worked]:
    """A number that is set: each digit that is not 0, the first one in column `highest`."""
    said = 0
    for column, digit in zip(range(highest, highest - len(digits), -1), digits, strict=True):
        if digit == "0":
            said += 1
        else:
            yield Worked("set", "set", int(digit), column, {"term": term}, said)
            said = 0


def expect_product(action: str, first: int, second: int, tens_column: int) -> Iterator[Worked]:
    """A product of two digits, always two digits; a 0 of it holds its column or adds nothing."""
    product = f"{first * second:02d}"
    said = 0
    for place, digit, column in zip(("tens", "ones"), product, (tens_column, tens_column - 1), strict=True):
        if digit == "0":
            said += 1
        else:
            source = {"factors": [first, second], "product": product, "place": place}
            yield Worked("product", action, int(digit), column, source, said)
            said = 0


def compare_work(seen: Seen, expected: Sequence[Worked]) -> None:
    """Every digit worked is the one due, in its order; every 0 on the way is said."""
    worked = [step for step in seen.steps if step.work is not None]
    for step, due in zip(worked, expected, strict=False):
        told = (step.purpose, *(step.work or ()), dict(step.source))
        require(told == (*due[:5],), "step", step.number, "works", told, "but due is", due)
        require(_count_said(seen, step) >= due.said, "before step", step.number, due.said, "zeros should be said")
    require(len(worked) == len(expected), len(worked), "digits are worked, due are", len(expected))
    for step in seen.steps:
        require(step.work is not None or step.purpose == "say", "step", step.number, "is for", step.purpose)


def _count_said(seen: Seen, step: SeenStep) -> int:
    """How many steps without moves stand directly before a step."""
    count = 0
    while step.number - 2 - count >= 0 and seen.steps[step.number - 2 - count].work is None:
        count += 1
    return count


def read_parts(step: SeenStep) -> dict[str, tuple[str, tuple[int, int]]]:
    """What the step reads, by part; no part stands twice."""
    parts = {part: (text, columns) for part, text, columns in step.reads}
    require(len(parts) == len(step.reads), "step", step.number, "reads a part twice")
    return parts
