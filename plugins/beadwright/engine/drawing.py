"""Drawing operands: problems that need exactly the wanted techniques, the same ones for the same seed.

Chance comes only from the seed given, through `random.Random.random`, whose sequence Python keeps from release to
release.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from itertools import product
from math import prod
from random import Random

from beadwright.engine.errors import EngineError, MethodError
from beadwright.engine.frame import Bead, Frame
from beadwright.engine.hand import Technique
from beadwright.engine.house import HouseStyle
from beadwright.engine.methods import work_problem
from beadwright.engine.methods.sums import PARTNERS
from beadwright.engine.number import Number
from beadwright.engine.problem import Problem, Product, Quotient, Sign, Sum, Term
from beadwright.engine.sketching import sketch_numbers
from beadwright.engine.solution import divide
from beadwright.engine.walkthrough import Step, Walkthrough

RUNS_ON = "runs-on"
"""What an exchange that runs on is called beside the techniques."""

EASIEST_FIRST = (
    Technique.DIRECT,
    Technique.PARTNER_OF_5,
    Technique.PARTNER_OF_10,
    Technique.BOTH_PARTNERS,
)
"""The techniques by partners, in the order in which they are taught."""
ENUMERATE_BELOW = 20_000
MOST_TRIES = 20_000
MOST_STEPS = 150_000
"""How many steps are worked in problems that turn out not to be wanted, before a draw is given up."""
_MOST_AT_ONCE: int = 10**15
"""How many whole numbers one drawn number between 0 and 1 tells apart."""


class Operation(StrEnum):
    """What a drawn problem asks for."""

    ADD = "add"
    TAKE = "take"
    ADD_TAKE = "add-take"
    MULTIPLY = "multiply"
    DIVIDE = "divide"


@dataclass(frozen=True, slots=True, kw_only=True)
class Want:
    """What drawn problems are like.

    `digits`: how many digits each number has. `needs`: techniques that must occur. `allows`: techniques that may occur;
    None allows every one up to the hardest of `needs` (all when nothing is needed). `runs_on`: whether an exchange must
    run on (True), must not (False) or may (None). `zeros`: whether a 0 must stand inside or at the end of a number, in
    division of the quotient (True), must not (False) or may (None). `remainder`: whether a division must leave one
    (True), must not (False) or may (None). `signs`: those between the numbers of a sum, in this order; None allows
    every row of signs that the operation may have. Raises `MethodError` for `digits` of no problem.
    """

    operation: Operation
    digits: tuple[int, ...]
    needs: frozenset[Technique] = frozenset()
    allows: frozenset[Technique] | None = None
    runs_on: bool | None = None
    zeros: bool | None = None
    remainder: bool | None = None
    signs: tuple[Sign, ...] | None = None
    banned: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        two = self.operation in (Operation.MULTIPLY, Operation.DIVIDE)
        if min(self.digits, default=0) < 1 or len(self.digits) < 2 or (two and len(self.digits) > 2):
            raise MethodError(
                "draw-digits",
                f"No problem to {self.operation} can be drawn from numbers of {list(self.digits)} digits",
                f"Give {'two numbers' if two else 'two numbers or more'}, each of 1 digit or more",
            )

    @property
    def allowed(self) -> frozenset[Technique]:
        """The techniques that may occur."""
        return _find_allowed(self.needs, self.allows)


@cache
def _find_allowed(needs: frozenset[Technique], allows: frozenset[Technique] | None) -> frozenset[Technique]:
    if allows is not None:
        return allows | needs
    if not needs or Technique.COUNT in needs:
        return frozenset(Technique)
    hardest = max(EASIEST_FIRST.index(technique) for technique in needs)
    return frozenset(EASIEST_FIRST[: hardest + 1])


def find_techniques(walkthrough: Walkthrough) -> frozenset[Technique]:
    """The techniques that the digits after the first number need, a neighbour's partner of 5 included."""
    found: set[Technique] = set()
    for step in walkthrough.steps:
        if step.technique is not None and step.technique not in (Technique.SET, Technique.CLEAR):
            found.add(step.technique)
            if _neighbour_needs_partner_of_5(step):
                found.add(Technique.PARTNER_OF_5)
    return frozenset(found)


def _neighbour_needs_partner_of_5(step: Step) -> bool:
    if step.work is None or step.technique is Technique.COUNT:
        return False
    upper = {m.column: m.change for m in step.moves if m.bead is Bead.UPPER and m.column != step.work.column}
    return any(
        move.column in upper and move.change * upper[move.column] < 0 for move in step.moves if move.bead is Bead.LOWER
    )


def runs_on(walkthrough: Walkthrough) -> bool:
    """Whether an exchange of this walkthrough runs on."""
    return any(step.runs_on for step in walkthrough.steps)


def draw_problems(
    want: Want, count: int, *, frame: Frame, seed: str, house: HouseStyle = HouseStyle(), method: str | None = None
) -> tuple[Problem, ...]:
    """`count` different problems of the wanted kind, the same for the same arguments.

    Raises `MethodError` when there are not that many, saying how many were found.
    """
    found = draw_walkthroughs(want, count, frame=frame, seed=seed, house=house, method=method)
    if len(found) >= count:
        return tuple(walkthrough.problem for walkthrough in found)
    raise MethodError(
        "draw-too-few",
        f"Only {len(found)} of {count} problems of this kind can be drawn",
        "Ask for fewer, for other digits, or allow more techniques",
    )


def draw_walkthroughs(
    want: Want, most: int, *, frame: Frame, seed: str, house: HouseStyle = HouseStyle(), method: str | None = None
) -> tuple[Walkthrough, ...]:
    """What `draw_problems` draws, worked: `most` different problems, or all that were found where there are fewer."""
    found: dict[str, Walkthrough] = {}
    steps_left = MOST_STEPS
    build = _BUILDERS[want.operation]
    sifts = _is_sifted(want, house, method)
    for numbers, signs in _candidates(want, Random(seed)):
        if len(found) >= most or steps_left <= 0:
            break
        if sifts and not _may_fit(want, numbers, signs, frame):
            continue
        problem = build(numbers, signs)
        text = str(problem)
        if text not in found and text not in want.banned and _has_wanted_digits(want, problem):
            walkthrough = _try_work(problem, frame, house, method)
            if walkthrough is not None and _is_wanted_work(want, walkthrough):
                found[text] = walkthrough
            elif walkthrough is not None:
                steps_left -= len(walkthrough.steps)
    return tuple(found.values())


def _is_sifted(want: Want, house: HouseStyle, method: str | None) -> bool:
    """Whether the digits alone tell what a problem needs: in sums by partners."""
    by_partners = method == PARTNERS.name or (method is None and house.inner is PARTNERS.inner)
    return by_partners and want.operation in _SIGNS


def _may_fit(want: Want, numbers: Sequence[int], signs: Sequence[str], frame: Frame) -> bool:
    """False only where the digits tell that a sum does not fit: most drawn ones need be neither built nor worked."""
    if want.zeros is not None and any(_has_zero(str(number)) for number in numbers) is not want.zeros:
        return False
    sketch = sketch_numbers(numbers, signs, frame.shape)
    return sketch is not None and _is_wanted(want, sketch.techniques, sketch.runs_on)


def _is_wanted(want: Want, techniques: frozenset[Technique], ran_on: bool) -> bool:
    return want.needs <= techniques <= want.allowed and want.runs_on in (None, ran_on)


def _is_wanted_work(want: Want, walkthrough: Walkthrough) -> bool:
    return _is_wanted(want, find_techniques(walkthrough), runs_on(walkthrough))


def _try_work(problem: Problem, frame: Frame, house: HouseStyle, method: str | None) -> Walkthrough | None:
    """The walkthrough; None when the problem is refused."""
    try:
        return work_problem(problem, frame, house=house, method=method)
    except EngineError:
        return None


def _has_wanted_digits(want: Want, problem: Problem) -> bool:
    """Whether zeros and remainder are as wanted; a division that gives 0 works nothing and is never wanted."""
    if not isinstance(problem, Quotient):
        return want.zeros in (None, any(_has_zero(word) for word in str(problem).split()))
    units, left = divide(problem)
    return units > 0 and want.zeros in (None, _has_zero(str(units))) and want.remainder in (None, left > 0)


def _has_zero(word: str) -> bool:
    return "0" in word and word.strip("0") != ""


def _candidates(want: Want, chance: Random) -> Iterator[tuple[tuple[int, ...], tuple[str, ...]]]:
    """Numbers of these digits and the signs between: all in drawn order when they are few, else many drawn ones."""
    least = 1 if want.operation in _SIGNS else 2  # nobody needs a frame to multiply or divide by 1
    ranges = [range(max(least, 10 ** (digits - 1)), 10**digits) for digits in want.digits]
    rows = product(_SIGNS.get(want.operation, "?"), repeat=len(ranges) - 1)
    signs = list(rows) if want.signs is None else [want.signs]
    many = prod(r.stop - r.start for r in ranges) * len(signs)  # len() of a range has a limit
    if many <= ENUMERATE_BELOW:
        for index in _shuffle(many, chance):
            chosen, sign = divmod(index, len(signs))
            yield _pick_numbers(chosen, ranges), signs[sign]
        return
    spans = [(r.start, r.stop - r.start) for r in ranges]
    for _ in range(MOST_TRIES):
        numbers = tuple([start + _draw_below(size, chance) for start, size in spans])
        if want.operation is Operation.DIVIDE and want.remainder is False:
            numbers = _without_remainder(numbers, ranges[0])
        yield numbers, signs[int(chance.random() * len(signs))]


def _draw_below(limit: int, chance: Random) -> int:
    """A number from 0 to less than `limit`; a long one is drawn in pieces, so that its last digits are drawn too."""
    if limit <= _MOST_AT_ONCE:
        return int(chance.random() * limit)
    last = _draw_below(_MOST_AT_ONCE, chance)
    return _draw_below(limit // _MOST_AT_ONCE, chance) * _MOST_AT_ONCE + last


def _without_remainder(numbers: tuple[int, ...], dividends: range) -> tuple[int, ...]:
    """The nearest dividend below, or above, that comes out and has as many digits; the same where there is none."""
    dividend, divisor = numbers
    below = dividend - dividend % divisor
    fitting = [exact for exact in (below, below + divisor) if exact in dividends]
    return (*fitting[:1], divisor) if fitting else numbers


def _shuffle(many: int, chance: Random) -> Iterator[int]:
    """The numbers below `many`, each once, in drawn order; only as many are drawn as are asked for."""
    swapped: dict[int, int] = {}
    for last in range(many - 1, -1, -1):
        drawn = int(chance.random() * (last + 1))
        yield swapped.get(drawn, drawn)
        swapped[drawn] = swapped.get(last, last)


def _pick_numbers(index: int, ranges: list[range]) -> tuple[int, ...]:
    """The numbers that stand at `index` when all choices from `ranges` are listed, the last one changing fastest."""
    numbers = []
    for choices in reversed(ranges):
        index, place = divmod(index, len(choices))
        numbers.append(choices[place])
    return tuple(reversed(numbers))


def _build_sum(numbers: Sequence[int], signs: Sequence[str]) -> Problem:
    rest = [Term("+" if sign == "+" else "-", Number(n)) for sign, n in zip(signs, numbers[1:], strict=True)]
    return Sum((Term("+", Number(numbers[0])), *rest))


_SIGNS = {Operation.ADD: "+", Operation.TAKE: "-", Operation.ADD_TAKE: "+-"}
"""The signs that may stand between the numbers of a sum."""

_BUILDERS: dict[Operation, Callable[[Sequence[int], Sequence[str]], Problem]] = {
    Operation.ADD: _build_sum,
    Operation.TAKE: _build_sum,
    Operation.ADD_TAKE: _build_sum,
    Operation.MULTIPLY: lambda numbers, signs: Product(Number(numbers[0]), Number(numbers[1])),
    Operation.DIVIDE: lambda numbers, signs: Quotient(Number(numbers[0]), Number(numbers[1])),
}
