"""What products and quotients have in common: numbers as digits and places, products of two digits, who owns what.

Common practice in the trade, no source.
"""

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
    """`0.026` has the digits 2, 6 and three places (PROCEDURES §3.8)."""
    whole, _, decimals = text.partition(".")
    return Number((whole + decimals).lstrip("0") or "0", len(decimals))


class Worked(NamedTuple):
    """One digit that must be worked; `said` zeros stand before it, each said and moving nothing."""

    purpose: str
    action: str
    digit: int
    column: int
    source: dict[str, object]
    said: int


class Due:
    """The digits that are due, gathered in order; a 0 is not worked but said."""

    def __init__(self) -> None:
        self.works: list[Worked] = []
        self.said = 0

    def work(self, purpose: str, action: str, digit: int, column: int, source: dict[str, object]) -> None:
        """One digit."""
        self.works.append(Worked(purpose, action, digit, column, source, self.said))
        self.said = 0

    def set_number(self, digits: str, highest: int, term: int) -> None:
        """A number that is set, the first digit in column `highest`."""
        for column, digit in zip(range(highest, highest - len(digits), -1), digits, strict=True):
            if digit == "0":
                self.said += 1
            else:
                self.work("set", "set", int(digit), column, {"term": term})

    def work_product(self, action: str, first: int, second: int, tens_column: int) -> None:
        """A product of two digits, always two digits; a 0 of it holds its column or adds nothing."""
        product = f"{first * second:02d}"
        if product == "00":
            self.said += 1
            return
        for place, digit, column in zip(("tens", "ones"), product, (tens_column, tens_column - 1), strict=True):
            if digit == "0":
                self.said += 1
            else:
                source = {"factors": [first, second], "product": product, "place": place}
                self.work("product", action, int(digit), column, source)


def compare_work(seen: Seen, due: Due) -> None:
    """Every digit worked is the one due, in its order; every 0 on the way is said."""
    worked = [step for step in seen.steps if step.work is not None]
    for step, expected in zip(worked, due.works, strict=False):
        told = (step.purpose, *(step.work or ()), dict(step.source))
        require(told == (*expected[:5],), "step", step.number, "works", told, "but due is", expected)
        require(_count_said(seen, step.number) >= expected.said, "before step", step.number, "zeros should be said")
    require(len(worked) == len(due.works), len(worked), "digits are worked, due are", len(due.works))
    require(_count_said(seen, len(seen.steps) + 1) >= due.said, "at the end zeros should be said")
    for step in seen.steps:
        require(step.work is not None or step.purpose == "say", "step", step.number, "is for", step.purpose)


def _count_said(seen: Seen, number: int) -> int:
    """How many steps without moves stand directly before the step of this number."""
    count = 0
    while number - 2 - count >= 0 and seen.steps[number - 2 - count].work is None:
        count += 1
    return count


def read_parts(step: SeenStep) -> dict[str, tuple[str, tuple[int, int]]]:
    """What the step reads, by part; no part stands twice."""
    parts = {part: (text, columns) for part, text, columns in step.reads}
    require(len(parts) == len(step.reads), "step", step.number, "reads a part twice")
    return parts
