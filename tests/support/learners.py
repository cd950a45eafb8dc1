"""Learners with a single slip, who share no code with the engine's slips.

They take over right work up to a step (the beads that a walkthrough's data show), make one slip there on beads of their
own, and go on by whole-number arithmetic: a digit worked rightly changes what the frame reads by just that digit. What
each slip does to the beads is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import partial, reduce
from itertools import count
from typing import Any, NamedTuple

Step = dict[str, Any]
Data = dict[str, Any]
Make = Callable[["Beads"], "Beads"]
Ways = Iterator[tuple[str, Make]]

TIDYING = ("regroup", "regroup-all", "no-fraction", "lowest-terms", "common-factor")
"""What is said where a fraction's numbers are worked and it is only brought to its lowest terms."""


class NotThereError(Exception):
    """The beads do not allow what a learner would do."""


class Beads:
    """A five-and-four frame, or one of nine lower beads: `columns[0]` is column 1, as [upper, lower] beads set."""

    def __init__(self, after: list[list[int]], lower: int) -> None:
        self.columns = [list(pair) for pair in reversed(after)]
        self.lower = lower

    def copy(self) -> Beads:
        return Beads(self.columns[::-1], self.lower)

    def digit(self, column: int) -> int:
        upper, lower = self.columns[column - 1] if column <= len(self.columns) else (-1, 0)
        return 5 * upper + lower

    def split(self, digit: int) -> tuple[int, int]:
        return divmod(digit, 5) if self.lower == 4 else (0, digit)

    def move(self, column: int, upper: int, lower: int) -> Beads:
        """Set (> 0) or clear beads of one column. Raises `NotThereError`."""
        if not 0 < column <= len(self.columns):
            raise NotThereError
        pair = self.columns[column - 1]
        new = [pair[0] + upper, pair[1] + lower]
        if not (0 <= new[0] <= (1 if self.lower == 4 else 0) and 0 <= new[1] <= self.lower):
            raise NotThereError
        self.columns[column - 1] = new
        return self

    def put(self, column: int, digit: int) -> Beads:
        """Make a column read this digit. Raises `NotThereError`."""
        if not 0 < column <= len(self.columns):
            raise NotThereError
        self.columns[column - 1] = list(self.split(digit))
        return self

    @property
    def value(self) -> int:
        """What the whole frame reads, column 1 being the ones."""
        return sum(self.digit(column) * 10 ** (column - 1) for column in range(1, len(self.columns) + 1))

    def set_value(self, value: int) -> Beads:
        """Make the whole frame read this. Raises `NotThereError`."""
        if not 0 <= value < 10 ** len(self.columns):
            raise NotThereError
        for column in range(1, len(self.columns) + 1):
            self.put(column, value // 10 ** (column - 1) % 10)
        return self

    def shift(self, column: int, by: int) -> Beads:
        """Add `by` (> 0) or take it away in one column, exchanging as often as it needs. Raises `NotThereError`."""
        if by == 0:
            return self
        if column < 1:
            raise NotThereError
        return self.set_value(self.value + by * 10 ** (column - 1))


class Mistake(NamedTuple):
    """A slip by name, the step it was made in, and the answer that the learner gives."""

    slip: str
    step: int
    answer: str


def make_mistakes(data: Data) -> Iterator[Mistake]:
    """Every wrong answer that one slip in this walkthrough's data leads to."""
    shown = Shown(data)
    for step in shown.steps:
        work = step["work"]
        if work is None or step["number"] < shown.first_free:
            continue
        for slip, frame in find_ways(shown.before(step), step):
            yield from shown.finish(slip, frame, step["number"], after=step["number"])
    yield from shown.span()


class Shown:
    """A walkthrough's data with what a learner needs to go on from any step."""

    def __init__(self, data: Data) -> None:
        self.data = data
        self.steps: list[Step] = data["steps"]
        self.lower: int = data["frame"]["lower"]
        self.kind: str = data["method"]
        self.first_free = self._find_first_free()

    def _find_first_free(self) -> int:
        """The first step from which on a learner needs nothing from a frame that she set wrongly herself."""
        if self.kind == "odd-number":
            taken = [step for step in self.steps if step["work"] is not None and "odd_number" in step["work"]]
            return next(step["number"] for step in taken if step["work"]["group"] == taken[-1]["work"]["group"])
        if self.kind == "trial-digits":  # the divisor is in her head, and she compares with what is there
            return next(step["number"] for step in self.steps if step["purpose"] == "quotient")
        return 0

    def find_topic(self, *topics: str) -> list[int]:
        """The numbers of the steps that say something on one of these topics."""
        return [step["number"] for step in self.steps if step.get("remark", {}).get("topic") in topics]

    def before(self, step: Step) -> Beads:
        number = step["number"]
        return Beads(self.data["start"] if number == 1 else self.steps[number - 2]["after"], self.lower)

    def finish(
        self, slip: str, frame: Beads, step: int, *, after: int, without: frozenset[int] = frozenset()
    ) -> Iterator[Mistake]:
        """What a learner answers who works on rightly after step `after`, passing over the steps `without`."""
        try:
            if self.kind == "trial-digits":
                self._divide_on(frame, step, after)
            elif self.kind == "odd-number":
                self._take_odd_numbers_on(frame, after)
            elif self.kind == "double-root":
                self._find_root_digits_on(frame, after)
            elif self.kind == "fractions":
                self._regroup_on(frame, step, after)
            else:
                for later in self.steps[after:]:
                    if later["work"] is not None and later["number"] not in without:
                        self._go_on(frame, later)
            # A fraction that she has just written back in lowest terms she reads as it stands.
            answer = self.read(frame, reduces=step < self._find_tidying())
        except NotThereError:
            return
        if answer != self.read(Beads(self.steps[-1]["after"], self.lower)):
            yield Mistake(slip, step, answer)

    def _go_on(self, frame: Beads, step: Step) -> None:
        work, way = step["work"], {"set": 1, "add": 1, "take": -1, "clear": 0}[step["work"]["action"]]
        if way == 0:
            frame.put(work["column"], 0)
        else:
            frame.shift(work["column"], way * work["digit"])

    def _divide_on(self, frame: Beads, step: int, after: int) -> None:
        """Take away what belongs to the quotient digit in hand, then divide what is left.

        A digit that would have to be raised above 9 is noticed; so is a product that is more than what is left.
        """
        placed = [s for s in self.steps[:step] if s["purpose"] == "quotient"][-1]
        column = placed["work"]["quotient_column"]
        for later in self.steps[after:]:
            if later["purpose"] == "quotient":
                break
            if later["work"] is not None:
                self._go_on(frame, later)
        low = self.data["answer"]["columns"][1]
        above = Beads(self.steps[-1]["after"], self.lower).value // 10**column
        placed_so_far, left = divmod(frame.value, 10 ** (column - 1))
        whole, left = placed_so_far * 10 ** (column - low) + left // self.divisor, left % self.divisor
        if {whole // 10 ** (column - low + 1), placed_so_far // 10} != {above} or whole == 0:
            raise NotThereError
        frame.set_value(whole * 10 ** (low - 1) + left)

    def _take_odd_numbers_on(self, frame: Beads, after: int) -> None:
        """Finish the odd number in hand, then take away the next ones of this group as long as they fit."""
        odd = int([s["work"]["odd_number"] for s in self.steps[:after] if s["work"] and "odd_number" in s["work"]][-1])
        for later in self.steps[after:]:
            if later["work"] is not None and int(later["work"].get("odd_number", odd)) > odd:
                break
            if later["work"] is not None:
                self._go_on(frame, later)
        low, root_low = self.data["ones_column"], self.data["answer"]["columns"][1]
        root, left = divmod(frame.value, 10 ** (root_low - 1))
        unit = 10 ** (low - 1)
        above = Beads(self.steps[-1]["after"], self.lower).value // 10**root_low
        while left >= (odd + 2) * unit:
            odd, root, left = odd + 2, root + 1, left - (odd + 2) * unit
        if root // 10 != above:
            raise NotThereError
        frame.set_value(root * 10 ** (root_low - 1) + left)

    def _find_root_digits_on(self, frame: Beads, after: int) -> None:
        """Work off the root digit in hand, find the next ones by twice the root that stands, and halve it.

        Where the digit in hand is still to be lowered she would think anew, so that is left out. A digit of the halved
        root that is set wrongly stays so.
        """
        (halving,) = self.find_topic("root-halve")
        begins = [*self.find_topic("root-first", "root-trial"), halving]
        found = sum(begin <= after for begin in begins[:-1])
        done = begins[found] if after < halving else len(self.steps)
        if any(after < lowered < done for lowered in self.find_topic("root-lower")):
            raise NotThereError
        self._look_between(frame)
        for later in self.steps[after:done]:
            if later["work"] is not None:
                self._go_on(frame, later)
                self._look_between(frame)
        if after < halving:
            self._find_next_root_digits(frame, len(begins) - 1, found)

    def _find_next_root_digits(self, frame: Beads, groups: int, found: int) -> None:
        """Go on from the digits that are found by arithmetic, and set half of twice the root."""
        low = self.data["answer"]["columns"][1]
        double, left = divmod(frame.value, 10 ** (low - 1))
        double //= 10 ** (groups - found)
        for group in range(found + 1, groups + 1):
            if double == 0 and group > 1:
                raise NotThereError
            unit = 100 ** (groups - group)
            digit = max(t for t in range(10) if t * (10 * double + t) * unit <= left)
            left -= digit * (10 * double + digit) * unit
            double = 10 * double + 2 * digit
        frame.set_value(double // 2 * 10 ** (low - 1) + left)

    def _find_tidying(self) -> int:
        """The step from which on a fraction is regrouped and reduced; elsewhere none."""
        return min(self.find_topic(*TIDYING), default=len(self.steps) + 1)

    def _regroup_on(self, frame: Beads, step: int, after: int) -> None:
        """Work off both numbers as she would have; what then stands she regroups and reduces by arithmetic.

        Where she has begun to tidy, only her last digit leaves her nothing to think out anew. A common denominator that
        she said and set otherwise is left out: she may regroup by either.
        """
        tidying, last = self._find_tidying(), [s["number"] for s in self.steps if s["work"] is not None][-1]
        if tidying <= step < last:
            raise NotThereError
        for later in self.steps[after : tidying - 1 if step < tidying else None]:
            if later["work"] is not None:
                self._go_on(frame, later)
                self._look_between(frame)
        if self.data["problem"].split()[-2] in "+-" and _read_number(frame, self.parts["denominator"]) != self.common:
            raise NotThereError

    @property
    def parts(self) -> dict[str, list[int]]:
        """The columns that each part of a fraction may take, highest first; one at rest stands between two."""
        lowest = [read["columns"][1] for read in self.steps[0]["reads"]]
        highest = [len(self.data["start"]), *(low - 2 for low in lowest[:-1])]
        names = [read["part"] for read in self.steps[0]["reads"]]
        return {name: [high, low] for name, high, low in zip(names, highest, lowest, strict=True)}

    @property
    def common(self) -> int:
        """The denominator that a sum of fractions is worked over."""
        said = [step["remark"] for step in self.steps if step.get("remark", {}).get("topic") == "common-denominator"]
        return int(said[0]["common"])

    def _look_between(self, frame: Beads) -> None:
        """Raise `NotThereError` where something stands between two parts: what runs over so is noticed."""
        if self.kind == "fractions":
            apart = [high + 1 for high, _ in self.parts.values()][1:]
        else:
            radicand, root = len(self.data["problem"].strip("√")), self.data["answer"]["columns"][1]
            apart = list(range(radicand + 1, root))
        if any(frame.digit(column) for column in apart):
            raise NotThereError

    @property
    def divisor(self) -> int:
        """The second number of a division."""
        return int(self.data["problem"].split()[-1])

    def read(self, frame: Beads, *, reduces: bool = True) -> str:
        """The answer that stands on the frame."""
        answer = self.data["answer"]
        if "parts" in answer:
            return _read_parts(frame, self.parts, reduces=reduces)
        low = answer["columns"][1]
        value = frame.value
        if self.kind == "trial-digits":
            whole, left = divmod(value, 10 ** (low - 1))
            return str(whole) if left == 0 else f"{whole} r {left}"
        if self.kind in ("odd-number", "double-root"):
            root, left = divmod(value, 10 ** (low - 1))
            return str(root) if left == 0 else f"{root} r {left}"
        digits = str(value // 10 ** (low - 1)).zfill(answer["decimals"] + 1)
        places = answer["decimals"]
        return digits if places == 0 else f"{digits[:-places]}.{digits[-places:]}"

    def span(self) -> Iterator[Mistake]:
        """Slips that span several digits: a number one column off, columns turned round, products misplaced."""
        if self.kind in ("partners", "counting"):
            yield from self._drift_and_turn()
        if self.kind in ("partial-products", "trial-digits"):
            yield from self._misplace_products()
        if self.kind == "partial-products":
            yield from self._leave_digits()
        if self.kind == "trial-digits":
            yield from self._stop_too_early()

    def _drift_and_turn(self) -> Iterator[Mistake]:
        for term in sorted({step["work"]["term"] for step in self.steps if step["work"] is not None}):
            own = [s for s in self.steps if s["work"] is not None and s["work"]["term"] == term]
            first = own[0]
            for way in (1, -1):
                frame = self.before(first)
                try:
                    for step in own:
                        sign = -1 if step["work"]["action"] == "take" else 1
                        frame.shift(step["work"]["column"] + way, sign * step["work"]["digit"])
                except NotThereError:
                    continue
                yield from self.finish("column-drift", frame, first["number"], after=own[-1]["number"])
            if first["work"]["action"] == "take":
                frame, turned = self.before(first), 0
                for step in own:
                    held, digit = frame.digit(step["work"]["column"]), step["work"]["digit"]
                    turned = turned or (step["number"] if held < digit else 0)
                    frame.put(step["work"]["column"], abs(held - digit))
                if turned:
                    yield from self.finish("wrong-way-round", frame, turned, after=own[-1]["number"])

    def _list_pairs(self) -> Iterator[list[Step]]:
        """The steps of each product of two digits, tens before ones."""
        pair: list[Step] = []
        for step in self.steps:
            work = step["work"]
            if work is None or "factors" not in work:
                continue
            tens = pair[-1]["work"] if pair else None
            if tens is None or tens | {"digit": work["digit"], "column": tens["column"] - 1, "place": "ones"} != work:
                if pair:
                    yield pair
                pair = []
            pair.append(step)
        if pair:
            yield pair

    def _misplace_products(self) -> Iterator[Mistake]:
        for pair in self._list_pairs():
            first, work = pair[0], pair[0]["work"]
            sign = -1 if work["action"] == "take" else 1
            ones = work["column"] - (1 if work["place"] == "tens" else 0)
            product, number = int(work["product"]), first["number"]
            made = [("product-skipped", ones, 0), ("product-one-column-off", ones - 1, product)]
            if product < 10:
                made.append(("no-0-held", ones + 1, product))
            one, two = work["factors"]
            if 1 not in (one, two):
                facts = {one * two + off for off in (one, -one, two, -two)} | {{56: 54, 54: 56}.get(product, product)}
                made += [("table-fact-wrong", ones, fact) for fact in sorted(facts - {product}) if fact < 100]
            for slip, column, fact in made:
                frame = self.before(first)
                try:
                    if column < 1 or (fact and column - 1 + len(str(fact)) > len(frame.columns)):
                        continue
                    frame.shift(column, sign * fact)
                except NotThereError:
                    continue
                yield from self.finish(slip, frame, number, after=pair[-1]["number"])

    def _leave_digits(self) -> Iterator[Mistake]:
        pairs = list(self._list_pairs())
        for step in self.steps:
            if step["work"] is None or step["work"]["action"] != "clear":
                continue
            number = step["number"]
            yield from self.finish("multiplicand-digit-left", self.before(step), number, after=number)
            early = [pair for pair in pairs if pair[0]["number"] < number][-1]
            frame = self.before(early[0]).put(step["work"]["column"], 0)
            skipped = frozenset(later["number"] for later in early) | {number}
            yield from self.finish(
                "multiplicand-digit-cleared-early", frame, early[0]["number"], after=early[0]["number"], without=skipped
            )

    def _stop_too_early(self) -> Iterator[Mistake]:
        """The last quotient digit is one too small, and nobody looks at what is left."""
        whole, left = divmod(int(self.data["problem"].split()[0]), self.divisor)
        last = [step["number"] for step in self.steps if step["work"] is not None][-1]
        if whole % 10 > 1:
            yield Mistake("remainder-not-checked", last, f"{whole - 1} r {left + self.divisor}")
        inside = str(whole).rstrip("0")
        if "0" in inside:
            read = inside.replace("0", "") + "0" * (len(str(whole)) - len(inside))
            yield Mistake("zero-of-quotient-dropped", last, read if left == 0 else f"{read} r {left}")


def _read_number(frame: Beads, columns: list[int]) -> int:
    high, low = columns
    return int("".join(str(frame.digit(column)) for column in range(high, low - 1, -1)))


def _read_parts(frame: Beads, parts: dict[str, list[int]], *, reduces: bool) -> str:
    whole, above, below = (_read_number(frame, parts[name]) for name in ("whole", "numerator", "denominator"))
    if above == 0:
        return str(whole)
    if below == 0:
        raise NotThereError
    if not reduces:
        return f"{whole} {above}/{below}" if whole else f"{above}/{below}"
    whole, rest = divmod(whole + Fraction(above, below), 1)
    return " ".join(str(part) for part in (whole, rest) if part != 0) or "0"


def find_ways(before: Beads, step: Step) -> Iterator[tuple[str, Beads]]:
    """Each slip that can be made in one digit, with the beads as it leaves them."""
    work = step["work"]
    right = before.copy()
    for slip, make in _list_ways(before, work, step["technique"]):
        frame = before.copy()
        try:
            made = make(frame)
        except NotThereError:
            continue
        if step["technique"] is not None and made.value != _work_rightly(right.copy(), work).value:
            yield slip, made


def _work_rightly(frame: Beads, work: Data) -> Beads:
    if work["action"] == "clear":
        return frame.put(work["column"], 0)
    return frame.shift(work["column"], (-1 if work["action"] == "take" else 1) * work["digit"])


def _list_ways(before: Beads, work: Data, technique: str | None) -> Ways:
    column, digit, action = work["column"], work["digit"], work["action"]
    if action == "clear":
        return
    if "factors" not in work:
        yield "digit-skipped", lambda frame: frame
    if action == "set":
        if digit == 5 and before.lower == 4:
            yield "upper-bead-as-one", lambda frame: frame.move(column, 1, 4)
        return
    way = 1 if action == "add" else -1
    if not 0 <= before.digit(column) + way * digit <= 9:
        yield from _list_exchange_ways(before, column, way * digit, technique)
    if technique == "count":
        for off in (-1, 1):
            if digit + off > 0:
                yield "partner-off-by-one", partial(Beads.shift, column=column, by=way * (digit + off))
    elif before.lower == 4:
        yield from _list_partner_ways(before, column, way * digit, technique)


def _list_partner_ways(before: Beads, column: int, change: int, technique: str | None) -> Ways:
    """Slips with the beads of the worked column, by their partners; the exchange, where there is one, is right."""
    digit, way = abs(change), 1 if change > 0 else -1
    old, new = before.digit(column), before.digit(column) + change
    left = 0 if 0 <= new <= 9 else way
    upper, lower = ((new - 10 * left) // 5 - old // 5), ((new - 10 * left) % 5 - old % 5)

    def make(upper: int, lower: int, left: int = left) -> Make:
        return lambda frame: frame.move(column, upper, lower).shift(column + 1, left)

    if upper * lower < 0:
        yield "lower-beads-left", make(upper, 0)
    if technique != "direct" and lower != 0:
        yield from (("partner-off-by-one", make(upper, lower + off)) for off in (-1, 1) if lower + off != 0)
    if technique in ("partner-of-5", "both-partners") and lower != 0:
        yield "set-and-clear-swapped", make(upper, -lower)
    if left:
        yield "set-and-clear-swapped", make(way * ((10 - digit) // 5), way * ((10 - digit) % 5))
    if digit <= 4 and technique in ("partner-of-5", "partner-of-10"):
        yield "five-for-ten", make(0, way * (digit - 5), way)


def _list_exchange_ways(before: Beads, column: int, change: int, technique: str | None) -> Ways:
    """Slips with the ten of an exchange; the beads of the worked column are right unless they are forgotten."""
    way = 1 if change > 0 else -1
    new = before.digit(column) + change - 10 * way
    right = partial(Beads.put, column=column, digit=new)
    yield "exchange-dropped", right
    yield "exchange-dropped", partial(Beads.shift, column=column + 1, by=way)
    full = 9 if way == 1 else 0
    runs = next(off for off in count() if before.digit(column + 1 + off) != full)
    if runs and way == 1:
        nines = range(column + 1, column + 1 + runs)
        yield "runs-out-at-nine", right
        yield "runs-out-at-nine", lambda frame: reduce(lambda beads, nine: beads.put(nine, 0), nines, right(frame))
    if runs and way == -1:
        yield "borrow-through-zero", lambda frame: right(frame).shift(column + 1 + runs, way)
    for other in (column - 1, column + 2) if technique != "count" else ():
        if 0 < other <= len(before.columns) and 0 <= before.digit(other) + way <= 9:
            yield "wrong-neighbour", lambda frame, other=other: right(frame).put(other, frame.digit(other) + way)
