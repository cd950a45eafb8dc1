"""Fractions and mixed numbers: + − × ÷ (PROCEDURES §3.9). Common practice in the trade, no source.

Where §3.9 leaves a choice: digits that become others are cleared from the left, then set; and a first number such as
9/4 whose wholes are in its numerator is regrouped before more wholes are taken than stand alone.
"""

import re
from fractions import Fraction
from math import gcd, lcm
from typing import NamedTuple

from tests.referee.beads import Beads, read_all, read_columns, require
from tests.referee.factors import Due, compare_work, read_parts
from tests.referee.seen import Seen

METHOD = "fractions"
_NUMBER = r"(?:(\d+)(?: (\d+)/(\d+))?|(\d+)/(\d+))"
_PROBLEM = re.compile(rf"{_NUMBER} ([+×÷-]) {_NUMBER}")


def is_fraction_problem(seen: Seen) -> bool:
    """Whether fractions are worked in groups of columns."""
    return seen.method == METHOD


class Mixed(NamedTuple):
    """A mixed number: a whole number, and a numerator over a denominator."""

    whole: int
    above: int
    below: int

    @property
    def exact(self) -> Fraction:
        """Its value."""
        return self.whole + Fraction(self.above, self.below)

    @property
    def improper(self) -> int:
        """The numerator when all of it is one fraction."""
        return self.whole * self.below + self.above


def read_fractions(problem: str) -> tuple[Mixed, str, Mixed]:
    """The two numbers and the sign between them."""
    found = _PROBLEM.fullmatch(problem)
    require(found is not None, problem, "is not a problem in fractions")
    groups = found.groups() if found else ()
    return _read_mixed(groups[:5]), str(groups[5]), _read_mixed(groups[6:])


def _read_mixed(texts: tuple[str | None, ...]) -> Mixed:
    whole, above, below, alone_above, alone_below = (None if text is None else int(text) for text in texts)
    return Mixed(whole or 0, above or alone_above or 0, below or alone_below or 1)


def find_result(problem: str) -> Fraction:
    """What the problem gives, exactly; may be below zero."""
    first, sign, second = read_fractions(problem)
    a, b = first.exact, second.exact
    return {"+": a + b, "-": a - b, "×": a * b, "÷": a / b if b else Fraction(0)}[sign]


def find_missing_for_fractions(problem: str, columns: int) -> int:
    """How many columns are missing; 0 when the problem can be worked."""
    work = Work(problem)
    return max(0, sum(work.widths) + 2 - columns)


def judge_fractions(seen: Seen) -> None:
    """Raise `RuleError` unless the groups are worked as §3.9 says and the result stands reduced and regrouped."""
    require(find_result(seen.problem) >= 0, "this should have been refused")
    work = Work(seen.problem)
    require(sum(work.widths) + 2 <= len(seen.start), "this should have been refused")
    require(seen.ones_column == 1, "the ones column is", seen.ones_column)
    compare_work(seen, work.due)
    _judge_rest(seen, work)
    _judge_answer(seen, work)


class Work:
    """What is due, worked twice: once to see how wide the groups become, then with their columns known."""

    def __init__(self, problem: str) -> None:
        self.first, self.sign, self.second = read_fractions(problem)
        self.lowest = {"below": 1, "above": 1, "whole": 1}
        self._work()
        self.widths = tuple(len(str(self.largest[part])) for part in ("below", "above", "whole"))
        below, above, _ = self.widths
        self.lowest = {"below": 1, "above": below + 2, "whole": below + above + 3}
        self._work()

    def _work(self) -> None:
        self.due = Due()
        self.held = {"whole": 0, "above": 0, "below": 0}
        self.largest = dict(self.held)
        self._set("whole", self.first.whole, {"term": 1})
        if self.first.above > 0:
            self._set("above", self.first.above, {"term": 1})
            self._set("below", self.first.below, {"term": 1})
        if self.sign in "+-":
            self._work_over_common(lcm(self.first.below, self.second.below))
            self._reduce()
        else:
            self._multiply()
            self._reduce()
            self._regroup_all()

    # + and −

    def _work_over_common(self, common: int) -> None:
        self.due.said += 1
        self._replace("below", common)
        if self.first.above > 0 and common != self.first.below:
            self._replace("above", 0)
            self._product("add", "above", self.first.above, common // self.first.below)
        if self.sign == "+":
            self._work_number("add", "whole", self.second.whole, {"term": 2})
        else:
            if self.held["whole"] < self.second.whole:
                self._regroup(common)
            self._work_number("take", "whole", self.second.whole, {"term": 2})
        factor = common // self.second.below
        while self.sign == "-" and self.held["above"] < self.second.above * factor:
            self.due.said += 1
            self._work_number("take", "whole", 1, {})
            self._work_number("add", "above", common, {})
        action = "add" if self.sign == "+" else "take"
        if factor > 1:
            self._product(action, "above", self.second.above, factor)
        else:
            self._work_number(action, "above", self.second.above, {"term": 2})
        self._regroup(common)

    def _regroup(self, common: int) -> None:
        while self.held["above"] >= common:
            self.due.said += 1
            self._work_number("take", "above", common, {})
            self._work_number("add", "whole", 1, {})

    # × and ÷

    def _multiply(self) -> None:
        if self.first.above == 0:
            self._replace("below", self.first.below)
        if self.first.whole > 0:
            self.due.said += 1
            self._product("add", "above", self.first.whole, self.first.below)
            self._replace("whole", 0)
        over, under = self.second.improper, self.second.below
        if self.sign == "÷":
            over, under = under, over
        for part, factor in (("above", over), ("below", under)):
            self.due.said += 1
            held = self.held[part]
            if factor != 1:
                self._replace(part, 0)
                self._product("add", part, held, factor)

    def _regroup_all(self) -> None:
        if self.held["below"] > 0 and self.held["above"] >= self.held["below"]:
            self.due.said += 1
            whole, rest = divmod(self.held["above"], self.held["below"])
            self._work_number("add", "whole", whole, {})
            self._replace("above", rest)
            if rest == 0:
                self._replace("below", 0)

    # Both

    def _reduce(self) -> None:
        self.due.said += 1
        if self.held["above"] == 0:
            self._replace("below", 0)
            return
        factor = gcd(self.held["above"], self.held["below"])
        self._replace("above", self.held["above"] // factor)
        self._replace("below", self.held["below"] // factor)

    def _hold(self, part: str, number: int) -> None:
        self.held[part] = number
        self.largest[part] = max(self.largest[part], number)

    def _digits(self, part: str, number: int) -> list[tuple[int, str]]:
        """(column, digit), highest place first."""
        text = str(number)
        return [(self.lowest[part] + len(text) - 1 - index, digit) for index, digit in enumerate(text)]

    def _set(self, part: str, number: int, source: dict[str, object]) -> None:
        self._hold(part, number)
        for column, digit in self._digits(part, number):
            if digit != "0":
                self.due.work("set", "set", int(digit), column, source)

    def _replace(self, part: str, number: int) -> None:
        if self.held[part] == number:
            return
        for column, digit in self._digits(part, self.held[part]):
            if digit != "0":
                self.due.work("clear", "clear", int(digit), column, {})
        self._set(part, number, {})

    def _work_number(self, action: str, part: str, number: int, source: dict[str, object]) -> None:
        self._hold(part, self.held[part] + (number if action == "add" else -number))
        for column, digit in self._digits(part, number):
            if digit != "0":
                self.due.work(action, action, int(digit), column, source)

    def _product(self, action: str, part: str, first: int, second: int) -> None:
        product = first * second
        self._hold(part, self.held[part] + (product if action == "add" else -product))
        for high, left in self._digits(part, first):
            for low, right in self._digits(part, second):
                self.due.work_product(action, int(left), int(right), high + low - self.lowest[part] + 1)


def _judge_rest(seen: Seen, work: Work) -> None:
    """The columns between the groups, and those left of them, stay at rest at every step."""
    below, above, whole = work.widths
    rest: Beads = (0, 0)
    used = below + above + whole + 2
    for step in seen.steps:
        columns = step.after[::-1]
        idle = (columns[below], columns[below + above + 1], *columns[used:])
        require(set(idle) == {rest}, "after step", step.number, "a column between the groups is not at rest")
        parts = read_parts(step)
        require([*parts] == ["whole", "numerator", "denominator"], "step", step.number, "reads", parts)
        lowest = {part: columns_read[1] for part, (_, columns_read) in parts.items()}
        due = {"whole": work.lowest["whole"], "numerator": work.lowest["above"], "denominator": 1}
        require(lowest == due, "step", step.number, "reads", parts)


def _judge_answer(seen: Seen, work: Work) -> None:
    result, answer = find_result(seen.problem), seen.answer
    whole, rest = divmod(result.numerator, result.denominator)
    fraction = f"{rest}/{result.denominator}" if rest else ""
    text = " ".join(part for part in (str(whole) if whole or not rest else "", fraction) if part)
    require(answer["text"] == text, "the answer is said to be", answer["text"], "but exactly it is", text)
    require(answer["decimals"] == 0 and answer["remainder"] is None, "the answer is", answer)
    due = {"whole": (whole, work.lowest["whole"])} if whole or not rest else {}
    if rest:
        due |= {"numerator": (rest, work.lowest["above"]), "denominator": (result.denominator, 1)}
    require(set(answer["parts"]) == set(due), "the answer's parts are", answer["parts"])
    for part, (value, lowest) in due.items():
        columns = answer["parts"][part]
        require(columns[1] == lowest, part, "ends in column", columns[1])
        require(int(read_columns(seen.end, *columns)) == value, part, "does not stand in", columns)
    highest, ends = answer["columns"]
    require(ends == min(lowest for _, lowest in due.values()), "the answer ends in column", ends)
    require(highest == max(columns[0] for columns in answer["parts"].values()), "it begins in column", highest)
    standing = sum(value * 10 ** (lowest - 1) for value, lowest in due.values())
    require(read_all(seen.end) == standing, "other columns are not at rest")
