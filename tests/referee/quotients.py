"""Division digit by digit (PROCEDURES §3.7), decimals and rounding (§3.8). Common practice, no source.

The work is reckoned with what is left as one whole number, in units of column 1, and the digits due are told from it.
"""

import re
from collections.abc import Mapping
from typing import Any, NamedTuple

from tests.referee.beads import read_all, read_columns, require
from tests.referee.factors import Due, Number, compare_work, read_number, read_parts
from tests.referee.seen import Seen
from tests.referee.sums import write

METHOD = "trial-digits"
_QUOTIENT = re.compile(r"(\d+(?:\.\d+)?) ÷ (\d+(?:\.\d+)?)(?: to (\d+) places?)?")


def is_quotient(seen: Seen) -> bool:
    """Whether a quotient is worked by trial digits."""
    return seen.method == METHOD


class Layout(NamedTuple):
    """Where a quotient is worked: the dividend starts in `highest` and ends, zeros added, in `lowest`."""

    dividend: Number
    divisor: Number
    zeros: int
    places: int
    lowest: int
    highest: int
    last: int
    ones_column: int
    quotient_ones_column: int
    needed: int

    @property
    def scaled(self) -> int:
        """The dividend with its zeros added."""
        return self.dividend.units * 10**self.zeros


def lay_out_quotient(problem: str, kept_factor: str) -> Layout:
    """Where dividend and quotient stand, and how many columns that needs."""
    found = _QUOTIENT.fullmatch(problem)
    require(found is not None, problem, "is not a quotient")
    texts = found.groups(default="0") if found else ()
    dividend, divisor, wanted = read_number(texts[0]), read_number(texts[1]), int(texts[2])
    zeros = max(0, wanted + divisor.places - dividend.places)
    places = dividend.places + zeros - divisor.places
    n, k = len(divisor.digits), len(dividend.digits)
    shift = 0
    if wanted + dividend.places + divisor.places > 0:
        while (n + 2 + places + shift) % 3 != 1:
            shift += 1
    first = int((dividend.digits + "0" * (zeros + n))[:n])
    needed = max(n + 2, k + zeros + (1 if divisor.units > first else 2)) + (n + 1 if kept_factor == "set" else 0)
    return Layout(
        dividend=dividend,
        divisor=divisor,
        zeros=zeros,
        places=places,
        lowest=1 + shift,
        highest=k + zeros + shift,
        last=n + 2 + shift,
        ones_column=1 + dividend.places + zeros + shift,
        quotient_ones_column=n + 2 + places + shift,
        needed=needed + shift,
    )


def find_missing_for_quotient(problem: str, columns: int, *, kept_factor: str) -> int:
    """How many columns are missing for a quotient that is not rounded; 0 when it can be worked."""
    return max(0, lay_out_quotient(problem, kept_factor).needed - columns)


def judge_quotient(seen: Seen) -> None:
    """Raise `RuleError` unless digits are worked as §3.7 says, and quotient and remainder stand where they belong."""
    layout = lay_out_quotient(seen.problem, seen.house["kept_factor"])
    require(layout.needed <= len(seen.start), "this should have been refused")
    require(seen.ones_column == layout.ones_column, "the ones column is", seen.ones_column)
    compare_work(seen, _Division(layout, seen.house).expect(len(seen.start)))
    _judge_comparing(seen)
    _judge_reads(seen, layout)
    _judge_answer(seen, layout)


class _Division:
    """A division reckoned: what is left, and the digits due one after the other."""

    def __init__(self, layout: Layout, house: Mapping[str, Any]) -> None:
        self.layout = layout
        self.house = house
        self.left = layout.scaled * 10 ** (layout.lowest - 1)
        self.n = len(layout.divisor.digits)
        self.due = Due()

    def expect(self, columns: int) -> Due:
        """Setting, then quotient digits until the next would stand right of the last column, then rounding."""
        layout, given = self.layout, list(self._given())
        if self.house["kept_factor"] == "set":
            self.due.set_number(layout.divisor.digits, columns, 2)
        self.due.set_number(layout.dividend.digits, layout.highest, 1)
        while self.left > 0:
            q, rule = self._place()
            if q < layout.last:
                break
            self._work_digit(q, rule, given.pop(0) if given else None)
        unit = 10 ** (layout.lowest - 1)
        rounded = self.house["rounding"] == "half-up" and layout.places > 0
        if rounded and 2 * (self.left // unit) >= layout.divisor.units:
            self.due.work("add", "add", 1, layout.last, {})
        return self.due

    def _given(self) -> list[int]:
        return self.house.get("trial_digits", []) if self.house["trial"] == "given" else []

    def _place(self) -> tuple[int, str]:
        """Compare the divisor with as many digits, from the first that is not 0; columns at rest read 0."""
        text = str(self.left)
        if self.layout.divisor.units > int(text[: self.n].ljust(self.n, "0")):
            return len(text) + 1, "first-left"
        return len(text) + 2, "second-left"

    def _held(self, column: int) -> int:
        """What is left, read down to a column."""
        return self.left // int(10 ** (column - 1))

    def _try(self, q: int, rule: str) -> int:
        """The trial digit in the house's style."""
        divisor, trial = self.layout.divisor.digits, self.house["trial"]
        if trial in ("known", "given"):
            guess = self._held(q - 1 - self.n) // int(divisor)
        else:
            text = str(self.left).ljust(2, "0")
            above = int(text[0] if rule == "second-left" else text[:2])
            up = trial == "rounded" and self.n > 1 and int(divisor[1]) >= 5
            guess = above // (int(divisor[0]) + int(up))
        return int(guess)

    def _work_digit(self, q: int, rule: str, given: int | None) -> None:
        digit = max(1, min(9, self._try(q, rule) if given is None else given))
        source: dict[str, object] = {"quotient_column": q, "rule": rule}
        divisor = [int(d) for d in self.layout.divisor.digits]
        self.due.work("quotient", "set", digit, q, source)
        j = 0
        while j < self.n:
            ones = q - 2 - j
            if self._held(ones) < digit * divisor[j]:
                digit -= 1
                self.due.work("lower", "take", 1, q, source)
                for i in range(j):
                    self.left += divisor[i] * 10 ** (q - 3 - i)
                    if divisor[i]:
                        self.due.work("give-back", "add", divisor[i], q - 2 - i, source)
                continue
            self.left -= digit * divisor[j] * 10 ** (ones - 1)
            self.due.work_product("take", digit, divisor[j], ones + 1)
            j += 1
        while self._held(q - 1 - self.n) >= self.layout.divisor.units:
            self.due.work("raise", "add", 1, q, source)
            for i in range(self.n):
                self.left -= divisor[i] * 10 ** (q - 3 - i)
                if divisor[i]:
                    self.due.work("raise", "take", divisor[i], q - 2 - i, source)


def _judge_comparing(seen: Seen) -> None:
    """Each quotient digit is compared for, and tried, before it is set; no exchange reaches it while it is worked."""
    column = len(seen.start) + 1
    for step in seen.steps:
        if step.purpose == "quotient":
            before = seen.steps[step.number - 2]
            require(before.work is None, "step", step.number, "sets a digit that nothing was said of")
            column = step.work[2] if step.work else column
        elif step.purpose in ("product", "give-back", "raise") and step.work and step.work[2] != column:
            reached = max(moved for moved, _, _ in step.moves)
            require(reached < column, "step", step.number, "moves column", reached)


def _judge_reads(seen: Seen, layout: Layout) -> None:
    """The quotient so far is read left of what is left, and both together with the divisor make the dividend."""
    for step in seen.steps:
        parts = read_parts(step)
        if step.purpose != "quotient":
            continue
        q = step.work[2] if step.work else 0
        require(parts["quotient"][1][1] == q, "step", step.number, "reads", parts)
        require(parts["left"][1][1] == layout.lowest, "step", step.number, "reads", parts)
        left = parts["left"][0].replace(".", "")
        set_so_far = int(read_columns(step.after, parts["quotient"][1][0], q)) - _find_digit(step.work)
        whole = set_so_far * 10 ** (q - layout.last) * layout.divisor.units + int(left)
        require(whole == layout.scaled, "at step", step.number, "quotient and what is left make", whole)


def _find_digit(work: tuple[str, int, int] | None) -> int:
    """The digit that a step works."""
    return work[1] if work else 0


def _judge_answer(seen: Seen, layout: Layout) -> None:
    answer = seen.answer
    units, left = divmod(layout.scaled, layout.divisor.units)
    rounded = seen.house["rounding"] == "half-up" and layout.places > 0
    if rounded and 2 * left >= layout.divisor.units:
        units += 1
    text = write(units, layout.places)
    require(answer["text"] == text, "the answer is said to be", answer["text"], "but integers give", text)
    require(answer["decimals"] == layout.places, "decimals", answer["decimals"])
    differs = layout.quotient_ones_column != layout.ones_column
    marker = layout.quotient_ones_column if differs else None
    require(answer.get("quotient_ones_column") == marker, "the quotient's marker is", answer)
    require(answer["columns"][1] == layout.last, "the quotient ends in column", answer["columns"][1])
    require(int(read_columns(seen.end, *answer["columns"])) == units, "the quotient does not stand there")
    told = answer["remainder"]
    if rounded or left == 0:
        require(told is None, "a remainder is told:", told)
    else:
        require(told is not None, "no remainder is told")
        require(told["text"] == write(left, layout.dividend.places + layout.zeros), "the remainder is", told)
        require(told["columns"][1] == layout.lowest, "the remainder ends in column", told["columns"][1])
        require(told["columns"][0] <= layout.last - 2, "the remainder begins in column", told["columns"][0])
        require(int(read_columns(seen.end, *told["columns"])) == left, "the remainder does not stand there")
    kept = 0
    if seen.house["kept_factor"] == "set":
        kept = layout.divisor.units * 10 ** (len(seen.start) - len(layout.divisor.digits))
    whole = kept + units * 10 ** (layout.last - 1) + left * 10 ** (layout.lowest - 1)
    require(read_all(seen.end) == whole, "other columns are not at rest")
