"""Square roots: by odd numbers and by the double root. Source: PROCEDURES §3.10, common practice, no source.

The radicand's digits are paired from the marker both ways; each group gives one root digit. The radicand ends in
column 1; group i of k, counted from the left, ends in column 2(k − i) + 1.
"""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromNothing, FromOddNumber, FromRoot
from beadwright.engine.house import HouseStyle
from beadwright.engine.methods.digits import set_number, work_number, work_product
from beadwright.engine.number import Number
from beadwright.engine.problem import Problem, Root
from beadwright.engine.room import check_room, count_root_columns
from beadwright.engine.walkthrough import Answer, Owner, Purpose, Remainder
from beadwright.engine.working import Working


@dataclass(frozen=True, slots=True)
class Layout:
    """A radicand on a frame of `columns`: `digits` set so that they end in column 1, in `groups` groups."""

    digits: str
    groups: int
    root_places: int
    columns: int

    @property
    def ones_column(self) -> Column:
        """The column of the radicand's ones."""
        return Column(2 * self.root_places + 1)

    def group_end(self, group: int) -> int:
        """The column in which a group ends."""
        return 2 * (self.groups - group) + 1

    def set_radicand(self, working: Working) -> None:
        """Set the radicand, highest place first."""
        working.owners = (Owner("radicand", len(self.digits), 1, self.ones_column),)
        set_number(working, self.digits, len(self.digits), 1)

    def left(self, frame: Frame, group: int) -> int:
        """What the radicand's columns hold down to the end of a group."""
        return int(frame.digits(len(self.digits), self.group_end(group)))

    def own_left(self) -> Owner:
        """The radicand's columns once something is taken from them."""
        return Owner("left", len(self.digits), 1, self.ones_column)

    def say_check(self, working: Working, answer: Answer) -> None:
        """Say that root × root and what is left make the radicand."""
        radicand = str(Number(int(self.digits), 2 * self.root_places))
        if answer.remainder is None:
            working.say("root-check-exact", root=answer.text, radicand=radicand)
        else:
            working.say("root-check", root=answer.text, left=answer.remainder.text, radicand=radicand)

    def answer(self, working: Working, root: Owner) -> Answer:
        """The root, and what is left (None for nothing), read with the radicand's marker."""
        reading, left = root.read(working.frame), self.own_left().read(working.frame)
        nothing = left.text.strip("0.") == ""
        remainder = None if nothing else Remainder(left.text, left.columns)
        return Answer(reading.text, reading.columns, self.root_places, remainder)


def _lay_out(problem: Root, frame: Frame, beside_root: int) -> Layout:
    """Place a radicand whose root needs `beside_root` columns more than one for each group; raises `FrameError`."""
    root_places = -(-problem.radicand.places // 2)
    digits = problem.radicand.with_places(2 * root_places).digits
    groups = -(-len(digits) // 2)
    check_room(problem, frame, count_root_columns(len(digits), groups, beside_root))
    return Layout(digits, groups, root_places, frame.columns)


@dataclass(frozen=True, slots=True)
class RootProcedure:
    """One way to find a square root."""

    name: str
    beside_root: int
    inner: None = None

    def does(self, problem: Problem, frame: Frame) -> bool:
        """Roots, on frames whose columns have an upper bead."""
        return isinstance(problem, Root) and frame.shape.upper > 0

    def plan(self, problem: Problem, frame: Frame, house: HouseStyle) -> OddNumberPlan | DoubleRootPlan:
        """Radicand at the right, root at the far left."""
        if not isinstance(problem, Root):
            raise TypeError(f"not a root: {problem}")
        layout = _lay_out(problem, frame, self.beside_root)
        return OddNumberPlan(layout) if self.name == ODD_NUMBER.name else DoubleRootPlan(layout)


ODD_NUMBER = RootProcedure("odd-number", 1)
DOUBLE_ROOT = RootProcedure("double-root", 2)


@dataclass(frozen=True, slots=True)
class OddNumberPlan:
    """Odd numbers taken from each group in turn; how many were taken is the root digit."""

    layout: Layout

    @property
    def ones_column(self) -> Column:
        """The column of the radicand's ones."""
        return self.layout.ones_column

    def work(self, working: Working) -> Answer:
        """Set the radicand and work each group from the left."""
        self.layout.set_radicand(working)
        root = 0
        for group in range(1, self.layout.groups + 1):
            working.owners = (self._own_root(group), self.layout.own_left())
            root = 10 * root + self._work_group(working, group, 2 * (10 * root) + 1)
        answer = self.answer(working)
        self.layout.say_check(working, answer)
        return answer

    def _work_group(self, working: Working, group: int, odd: int) -> int:
        """Take odd numbers while the group holds them; gives how many."""
        end, taken = self.layout.group_end(group), 0
        working.say("odd-first", group=group, odd=odd, holds=self.layout.left(working.frame, group))
        while taken < 9 and self.layout.left(working.frame, group) >= odd:
            digits = str(odd)
            highest = end + len(digits) - 1
            work_number(working, Action.TAKE, digits, highest, FromOddNumber(odd, group), Purpose.TAKE)
            working.add(self._root_column(group), 1, FromRoot(group))
            taken, odd = taken + 1, odd + 2
        working.say("odd-stop", group=group, odd=odd, holds=self.layout.left(working.frame, group), digit=taken)
        return taken

    def _root_column(self, group: int) -> int:
        return self.layout.columns - group + 1

    def _own_root(self, group: int) -> Owner:
        lowest = self._root_column(group)
        decimals = max(0, group - (self.layout.groups - self.layout.root_places))
        return Owner("root", self.layout.columns, lowest, lowest + decimals)

    def answer(self, working: Working) -> Answer:
        """The root at the far left."""
        return self.layout.answer(working, self._own_root(self.layout.groups))


@dataclass(frozen=True, slots=True)
class DoubleRootPlan:
    """Each root digit by dividing by twice the root so far, which is kept in a register at the far left."""

    layout: Layout

    @property
    def ones_column(self) -> Column:
        """The column of the radicand's ones."""
        return self.layout.ones_column

    def work(self, working: Working) -> Answer:
        """Set the radicand, work each group from the left, halve the register."""
        self.layout.set_radicand(working)
        for group in range(1, self.layout.groups + 1):
            working.owners = (self._own_register(group), self.layout.own_left())
            self._work_group(working, group)
        self._halve(working)
        answer = self.answer(working)
        self.layout.say_check(working, answer)
        return answer

    def _digit_column(self, group: int) -> int:
        return self.layout.columns - group

    def _register(self, working: Working, group: int) -> str:
        """The digits of the register down to a group's own column."""
        return working.frame.digits(self.layout.columns, self._digit_column(group))

    def _work_group(self, working: Working, group: int) -> None:
        digit = self._find_trial(working, group)
        if digit > 0:
            working.set(self._digit_column(group), digit, FromRoot(group))
            digit = self._take_products(working, group, digit)
        if digit > 0:
            working.add(self._digit_column(group), digit, FromRoot(group))

    def _find_trial(self, working: Working, group: int) -> int:
        """The largest square in the first group; then what is left without its last digit over the register."""
        left = self.layout.left(working.frame, group)
        if group == 1:
            digit = max(t for t in range(10) if t * t <= left)
            working.say("root-first", holds=left, digit=digit)
            return digit
        register = int(self._register(working, group - 1))
        if register == 0:  # only after a slip, which then leads nowhere
            raise FrameError("no-double-root", "The double root is 0", "Look for an earlier slip")
        digit = min(9, left // 10 // register)
        working.say("root-trial", group=group, left=left // 10, register=register, digit=digit)
        return digit

    def _take_products(self, working: Working, group: int, digit: int) -> int:
        """Take the digit times the register, then its square; lower it where that cannot be. Gives the digit kept."""
        end = self.layout.group_end(group)
        register = self._register(working, group - 1) if group > 1 else ""
        column, place = end + len(register), 0
        while digit > 0 and place <= len(register):
            factor = int(register[place]) if place < len(register) else digit
            if self._held(working, column - place) < digit * factor:
                digit = self._lower(working, group, digit, register[:place])
                continue
            work_product(working, Action.TAKE, (digit, factor), column - place + 1)
            place += 1
        return digit

    def _held(self, working: Working, lowest: int) -> int:
        return int(working.frame.digits(len(self.layout.digits), lowest))

    def _lower(self, working: Working, group: int, digit: int, worked: str) -> int:
        """Take 1 from the digit and give back the register as far as worked."""
        working.say("root-lower", group=group, digit=digit)
        working.take(self._digit_column(group), 1, FromRoot(group), Purpose.LOWER)
        highest = self.layout.group_end(group) + len(self._register(working, group - 1))
        work_number(working, Action.ADD, worked, highest, FromRoot(group), Purpose.GIVE_BACK)
        return digit - 1

    def _halve(self, working: Working) -> None:
        """Say half of the register, clear it and set the root."""
        groups, lowest = self.layout.groups, self._digit_column(self.layout.groups)
        register = self._register(working, groups)
        root = str(int(register) // 2).rjust(groups, "0")
        working.say("root-halve", register=int(register), root=int(root))
        for column in range(self.layout.columns, lowest - 1, -1):
            if working.frame.digit(column) > 0:
                working.clear(column, FromNothing())
        working.owners = (self._own_root(len(root)), self.layout.own_left())
        for group, digit in enumerate(root, start=1):
            if digit != "0":
                working.set(lowest + len(root) - group, int(digit), FromRoot(group))

    def _own_register(self, group: int) -> Owner:
        lowest = self._digit_column(group)
        return Owner("double-root", self.layout.columns, lowest, lowest)

    def _own_root(self, digits: int) -> Owner:
        lowest = self._digit_column(self.layout.groups)
        return Owner("root", lowest + digits - 1, lowest, lowest + self.layout.root_places)

    def _own_root_that_stands(self, frame: Frame) -> Owner:
        """A digit for each group; one more, in the register's first column, only after a slip."""
        return self._own_root(self.layout.groups + (1 if frame.digit(self.layout.columns) > 0 else 0))

    def answer(self, working: Working) -> Answer:
        """The root where the register was."""
        return self.layout.answer(working, self._own_root_that_stands(working.frame))
