"""Problems shared out fairly: sections of one level need the same techniques in the same amounts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations

from beadwright.course.resolve import work
from beadwright.engine import (
    EngineError,
    Frame,
    HouseStyle,
    MethodError,
    Number,
    Problem,
    Product,
    Quotient,
    Sum,
    Term,
    Walkthrough,
    draw_walkthroughs,
)
from beadwright.engine.solution import divide
from beadwright.render.sheets.orders import Order

Amounts = Counter[str]
"""How often each technique is needed, by its name; `runs-on`: exchanges that run on; `digits`: digits worked."""

MORE = 4
"""How many times as many problems are drawn as are dealt, so that like ones are found among them."""
MOST_POOL = 400
MOST_PERMUTED = 4
PASSES = 2
_RANKED = ("both-partners", "partner-of-10", "partner-of-5", "runs-on", "direct", "digits")


def count_amounts(walkthrough: Walkthrough) -> Amounts:
    """What one problem needs after its first number is set."""
    amounts: Amounts = Counter()
    for step in walkthrough.steps:
        if step.technique is None or step.technique in ("set", "clear"):
            continue
        amounts[str(step.technique)] += 1
        amounts["digits"] += 1
        if step.runs_on:
            amounts["runs-on"] += 1
    return amounts


def sum_amounts(walkthroughs: Sequence[Walkthrough]) -> Amounts:
    """What all of them need together."""
    total: Amounts = Counter()
    for walkthrough in walkthroughs:
        total.update(count_amounts(walkthrough))
    return total


def work_pins(order: Order, frame: Frame, house: HouseStyle) -> tuple[Walkthrough, ...]:
    """The problems that an order pins, worked; raises `EngineError`."""
    return tuple(work(problem, frame, order.build_house(house), order.method) for problem in order.pins)


def draw_pool(
    order: Order, wanted: int, *, frame: Frame, house: HouseStyle, seed: str, banned: frozenset[str], more: int = 1
) -> tuple[Walkthrough, ...]:
    """At least `wanted` different problems, `more` times as many where there are, none of them `banned` or pinned.

    Raises `MethodError` when there are too few.
    """
    style = order.build_house(house)
    banned |= {str(problem) for problem in order.pins}
    want = replace(order.want, banned=order.want.banned | banned)
    asked = max(wanted, min(wanted * more, MOST_POOL))
    pool: list[Walkthrough] = []
    # A quotient of so many digits is looked for among all that the dividend's digits give, which may take more of them.
    for times in (1,) if order.quotient is None else (2, 10, 50):
        drawn = draw_walkthroughs(
            want, asked * times, frame=frame, seed=f"{seed}/{order.seed}", house=style, method=order.method
        )
        fitting = [w for w in drawn if order.quotient is None or _has_quotient(w.problem, order.quotient)]
        placed = [_place(walkthrough, order, frame, banned) for walkthrough in fitting]
        pool = [walkthrough for walkthrough in placed if walkthrough is not None]
        if len(pool) >= wanted:
            return tuple(pool[:asked])
    raise MethodError(
        "draw-too-few",
        f"Only {len(pool)} of {wanted} problems of this kind can be drawn",
        "Ask for fewer, for other digits, or allow more techniques",
    )


def _has_quotient(problem: Problem, digits: int) -> bool:
    return isinstance(problem, Quotient) and len(str(divide(problem)[0])) == digits


def _place(walkthrough: Walkthrough, order: Order, frame: Frame, banned: frozenset[str]) -> Walkthrough | None:
    """The problem with its decimal places, worked again; None where it does not fit the frame or is banned."""
    if order.places == 0:
        return walkthrough
    problem = add_places(walkthrough.problem, order.places)
    if str(problem) in banned:
        return None
    try:
        return work(problem, frame, walkthrough.house, order.method)
    except EngineError:
        return None


def add_places(problem: Problem, places: int) -> Problem:
    """A problem of whole numbers with a decimal marker put in: in every term, the first factor, or the dividend.

    >>> from beadwright.engine import parse_problem
    >>> str(add_places(parse_problem("125 + 37"), 1))
    '12.5 + 3.7'
    """
    if isinstance(problem, Sum):
        return Sum(tuple(Term(term.sign, Number(term.number.units, places)) for term in problem.terms))
    if isinstance(problem, Product):
        return Product(Number(problem.first.units, places), problem.second)
    if isinstance(problem, Quotient):
        return Quotient(Number(problem.dividend.units, places), problem.divisor, problem.places)
    raise TypeError(f"{problem} has no place for a marker")


def deal(pool: Sequence[Walkthrough], sections: int, count: int) -> tuple[tuple[Walkthrough, ...], ...]:
    """`count` problems for each section: number by number, problems that need the same techniques as often as can be.

    Where the pool has too few that are quite alike, neighbours in what they need are taken, and given to the sections
    so that these come out as even as can be.
    """
    tuples, left = _find_alike(pool, sections, count)
    ordered = sorted(left, key=_rank)
    missing = count - len(tuples)
    tuples += [ordered[index * sections : (index + 1) * sections] for index in range(missing)]
    return _share_evenly(tuples, sections)


def _share_evenly(groups: Sequence[Sequence[Walkthrough]], sections: int) -> tuple[tuple[Walkthrough, ...], ...]:
    """One problem of each group for each section, each group turned so that sections need most nearly the same.

    Groups are turned in order, and once more when all others lie.
    """
    ranks = [[_rank(walkthrough) for walkthrough in group] for group in groups]
    turned = [tuple(range(sections)) for _ in groups]
    totals = [[0] * len(_RANKED) for _ in range(sections)]
    laid: set[int] = set()
    for index in [*range(len(groups))] * PASSES:
        if index in laid:
            _add(totals, ranks[index], turned[index], -1)
        turned[index] = min(_find_turns(sections), key=lambda turn: _find_spread(totals, ranks[index], turn))
        _add(totals, ranks[index], turned[index], 1)
        laid.add(index)
    return tuple(
        tuple(group[turn[section]] for group, turn in zip(groups, turned, strict=True)) for section in range(sections)
    )


def _find_turns(sections: int) -> list[tuple[int, ...]]:
    """The ways to give a group's problems to the sections: all while they are few, else in turn."""
    if sections <= MOST_PERMUTED:
        return list(permutations(range(sections)))
    return [tuple((section + turn) % sections for section in range(sections)) for turn in range(sections)]


def _add(totals: list[list[int]], ranks: Sequence[tuple[int, ...]], turn: Sequence[int], sign: int) -> None:
    for section, taken in enumerate(turn):
        for place, amount in enumerate(ranks[taken]):
            totals[section][place] += sign * amount


def _find_spread(totals: list[list[int]], ranks: Sequence[tuple[int, ...]], turn: Sequence[int]) -> int:
    """How far apart the sections would lie, over all techniques."""
    after = [
        [held + more for held, more in zip(totals[section], ranks[taken], strict=True)]
        for section, taken in enumerate(turn)
    ]
    return sum((max(column) - min(column)) ** 2 for column in zip(*after, strict=True))


def _find_alike(
    pool: Sequence[Walkthrough], sections: int, count: int
) -> tuple[list[list[Walkthrough]], list[Walkthrough]]:
    """Up to `count` groups of problems that need exactly the same, and what is left of the pool."""
    waiting: dict[tuple[tuple[str, int], ...], list[Walkthrough]] = {}
    tuples: list[list[Walkthrough]] = []
    used: set[int] = set()
    for walkthrough in pool:
        alike = waiting.setdefault(tuple(sorted(count_amounts(walkthrough).items())), [])
        alike.append(walkthrough)
        if len(alike) == sections and len(tuples) < count:
            tuples.append(list(alike))
            used.update(map(id, alike))
            alike.clear()
    return tuples, [walkthrough for walkthrough in pool if id(walkthrough) not in used]


def _rank(walkthrough: Walkthrough) -> tuple[int, ...]:
    amounts = count_amounts(walkthrough)
    return tuple(amounts[name] for name in _RANKED)
