"""Square roots by odd numbers and by the double root (PROCEDURES §3.10). Common practice in the trade, no source."""

import re
from math import isqrt
from typing import NamedTuple

from tests.referee.beads import read_all, read_columns, require
from tests.referee.factors import Due, Number, compare_work, read_number, read_parts
from tests.referee.seen import Seen
from tests.referee.sums import write

ODD = "odd-number"
DOUBLE = "double-root"
_ROOT = re.compile(r"√(\d+(?:\.\d+)?)")


def is_root(seen: Seen) -> bool:
    """Whether a square root is worked."""
    return seen.method in (ODD, DOUBLE)


class Layout(NamedTuple):
    """A radicand, completed to whole pairs: it ends in column 1 and gives `groups` root digits, `places` decimal."""

    radicand: Number
    groups: int
    places: int
    needed: int

    @property
    def root(self) -> int:
        """The root, in units of its last place."""
        return isqrt(self.radicand.units)

    @property
    def left(self) -> int:
        """What is left, in units of the radicand's last place."""
        return self.radicand.units - self.root**2


def lay_out_root(problem: str, method: str) -> Layout:
    """Pair the digits from the marker both ways; a 0 completes the last decimal pair."""
    found = _ROOT.fullmatch(problem)
    require(found is not None, problem, "is not a root")
    number = read_number(found[1] if found else "")
    if number.places % 2 == 1:
        number = Number((number.digits + "0").lstrip("0") or "0", number.places + 1)
    r = len(number.digits)
    k = (r + 1) // 2
    return Layout(number, k, number.places // 2, r + k + {ODD: 1, DOUBLE: 2}[method])


def find_missing_for_root(problem: str, columns: int, method: str) -> int:
    """How many columns are missing; 0 when the root can be worked."""
    return max(0, lay_out_root(problem, method).needed - columns)


def judge_root(seen: Seen) -> None:
    """Raise `RuleError` unless the digits are worked as §3.10 says and root and remainder stand where they belong."""
    layout = lay_out_root(seen.problem, seen.method)
    columns = len(seen.start)
    require(layout.needed <= columns, "this should have been refused")
    require(seen.ones_column == layout.radicand.places + 1, "the ones column is", seen.ones_column)
    work = _OddNumbers if seen.method == ODD else _DoubleRoot
    compare_work(seen, work(layout, columns).due)
    _judge_columns(seen, layout)
    _judge_reads(seen, layout)
    _judge_answer(seen, layout)


class _OddNumbers:
    """The digits that are due when odd numbers are taken away."""

    def __init__(self, layout: Layout, columns: int) -> None:
        self.due = Due()
        self.due.set_number(layout.radicand.digits, len(layout.radicand.digits), 1)
        left, root = layout.radicand.units, 0
        for i in range(1, layout.groups + 1):
            e = 2 * (layout.groups - i) + 1
            odd, digit = 2 * (10 * root) + 1, 0
            self.due.said += 1  # the first odd number
            while left // int(10 ** (e - 1)) >= odd and digit < 9:
                left -= odd * 10 ** (e - 1)
                self._take(odd, e, i)
                self.due.work("add", "add", 1, columns - i + 1, {"root_group": i})
                odd, digit = odd + 2, digit + 1
            root = 10 * root + digit
            self.due.said += 1  # the first one that is too large
        self.due.said += 1  # the check

    def _take(self, odd: int, e: int, i: int) -> None:
        text = str(odd)
        for index, digit in enumerate(text, start=1):
            if digit != "0":
                source: dict[str, object] = {"odd_number": text, "group": i}
                self.due.work("take", "take", int(digit), e + len(text) - index, source)


class _DoubleRoot:
    """The digits that are due when each group is divided by twice the root so far."""

    def __init__(self, layout: Layout, columns: int) -> None:
        self.due, self.layout, self.columns = Due(), layout, columns
        self.due.set_number(layout.radicand.digits, len(layout.radicand.digits), 1)
        self.left, self.double = layout.radicand.units, 0
        for i in range(1, layout.groups + 1):
            self._work_group(i)
        self._halve()
        self.due.said += 1  # the check

    def _held(self, column: int) -> int:
        return self.left // int(10 ** (column - 1))

    def _work_group(self, i: int) -> None:
        e, column = 2 * (self.layout.groups - i) + 1, self.columns - i
        source: dict[str, object] = {"root_group": i}
        register = [int(d) for d in str(self.double).rjust(i, "0")] if i > 1 else []
        if i == 1:
            t = next(t for t in range(9, -1, -1) if t * t <= self._held(e))
        else:
            t = min(9, self._held(e) // 10 // self.double)
        self.due.said += 1  # what is tried is said
        if t > 0:
            self.due.work("set", "set", t, column, source)
        h = len(register)
        while h >= 0 and t > 0:
            factor = register[-h] if h > 0 else t
            if self._held(e + h) < t * factor:
                t -= 1
                self.due.work("lower", "take", 1, column, source)
                self._give_back(register[: len(register) - h], e, source, len(register))
                continue
            self.left -= t * factor * 10 ** (e + h - 1)
            self.due.work_product("take", t, factor, e + h + 1)
            h -= 1
        if t > 0:
            self.due.work("add", "add", t, column, source)
        self.double = 10 * self.double + 2 * t

    def _give_back(self, worked: list[int], e: int, source: dict[str, object], size: int) -> None:
        for index, digit in enumerate(worked):
            column = e + size - index
            self.left += digit * 10 ** (column - 1)
            if digit:
                self.due.work("give-back", "add", digit, column, source)

    def _halve(self) -> None:
        k = self.layout.groups
        self.due.said += 1
        for index, digit in enumerate(str(self.double).rjust(k + 1, "0")):
            if digit != "0":
                self.due.work("clear", "clear", int(digit), self.columns - index, {})
        for i, digit in enumerate(str(self.layout.root).rjust(k, "0"), start=1):
            if digit != "0":
                self.due.work("set", "set", int(digit), self.columns - i, {"root_group": i})


def _judge_columns(seen: Seen, layout: Layout) -> None:
    """What is taken from or given back to the radicand stays in its columns; what is set of the root in the root's."""
    top = len(layout.radicand.digits)
    for step in seen.steps:
        if step.work is None:
            continue
        in_radicand = step.work[2] <= top
        for column, _, _ in step.moves:
            require((column <= top) is in_radicand, "step", step.number, "moves column", column)


def _judge_reads(seen: Seen, layout: Layout) -> None:
    """Once the first group is begun, root (or double root) and what is left are read; at the end the root."""
    owns = ["root", "left"] if seen.method == ODD else ["double-root", "left"]
    for step in seen.steps:
        parts = read_parts(step)
        if step.purpose == "clear" or [*parts] == ["radicand"]:
            continue
        if owns[0] == "double-root" and "root" in parts:
            owns = ["root", "left"]  # from here on it is halved
        require([*parts] == owns, "step", step.number, "reads", parts)
        require(parts["left"][1][1] == 1, "what is left ends in", parts["left"][1])
        decimals = len(parts["left"][0].partition(".")[2])
        require(decimals == layout.radicand.places, "step", step.number, "reads", parts["left"][0])
    last = read_parts(seen.steps[-1]).get("root")
    require(last is not None and last[0] == write(layout.root, layout.places), "at the end the root is read as", last)


def _judge_answer(seen: Seen, layout: Layout) -> None:
    answer, columns = seen.answer, len(seen.start)
    text = write(layout.root, layout.places)
    require(answer["text"] == text, "the root is said to be", answer["text"], "but integers give", text)
    require(answer["decimals"] == layout.places, "decimals", answer["decimals"])
    highest = columns if seen.method == ODD else columns - 1
    lowest = highest - layout.groups + 1
    require(answer["columns"][1] == lowest, "the root ends in column", answer["columns"])
    require(answer["columns"][0] <= highest, "the root begins in column", answer["columns"])
    require(int(read_columns(seen.end, *answer["columns"])) == layout.root, "the root does not stand there")
    told = answer["remainder"]
    require((told is None) is (layout.left == 0), "the remainder is", told)
    if told is not None:
        require(told["text"] == write(layout.left, layout.radicand.places), "the remainder is", told)
        require(told["columns"][1] == 1, "the remainder ends in column", told["columns"])
        require(int(read_columns(seen.end, *told["columns"])) == layout.left, "the remainder does not stand there")
    whole = layout.root * 10 ** (lowest - 1) + layout.left
    require(read_all(seen.end) == whole, "other columns are not at rest")
