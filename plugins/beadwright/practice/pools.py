"""Problems and numbers for “another one”: the author's own first, then others of the same kind."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from beadwright.course import Draw, Setting, work
from beadwright.engine import (
    EngineError,
    Number,
    Operation,
    Problem,
    Product,
    Quotient,
    Sum,
    Term,
    Walkthrough,
    Want,
    draw_walkthroughs,
    find_techniques,
)

Worked = tuple[Walkthrough, ...]

TRIES = 400


def draw_pools(draw: Draw, setting: Setting, *, seed: str, pool: int) -> tuple[Worked, ...]:
    """For each item of a draw, `pool` worked problems, its own first; none comes twice where there are enough.

    The items' own problems are the first of what `course.draw_own` draws with the same seed. Where there are too few,
    items share the further ones, and pools are as long as there are problems.
    """
    pins = tuple(work(problem, setting.frame, setting.house, setting.method) for problem in draw.pin)
    wanted = draw.count * pool - len(pins)
    drawn = draw_walkthroughs(
        draw.want(),
        max(0, wanted),
        frame=setting.frame,
        seed=f"{seed}/{draw.seed}",
        house=setting.house,
        method=setting.method,
    )
    return share_out((*pins, *drawn), draw.count, pool)


def share_out(worked: Worked, count: int, pool: int) -> tuple[Worked, ...]:
    """The first `count` to one item each, then the further ones in turn; round again where they run out."""
    first, further = worked[:count], worked[count:]
    if len(further) >= count * (pool - 1):
        each = pool - 1
        return tuple((own, *further[index * each : (index + 1) * each]) for index, own in enumerate(first))
    size = min(pool, len(worked))
    around = (*further, *first)
    pools = []
    for index, own in enumerate(first):
        start = index * size % len(around)
        others = [other for other in (*around[start:], *around[:start]) if other is not own]
        pools.append((own, *others[: size - 1]))
    return tuple(pools)


def vary_problem(walkthrough: Walkthrough, setting: Setting, *, seed: str, pool: int) -> Worked:
    """The problem itself, then others with as many digits that need the same techniques; itself alone if none do."""
    problem = walkthrough.problem
    want = _find_want(walkthrough)
    if want is None:
        others = _vary_decimals(walkthrough, setting, seed, pool - 1) if isinstance(problem, Sum) else ()
        return (walkthrough, *others)
    others = draw_walkthroughs(
        want, pool - 1, frame=setting.frame, seed=seed, house=setting.house, method=setting.method
    )
    return (walkthrough, *others)


def _find_want(walkthrough: Walkthrough) -> Want | None:
    """What to draw so as to get problems like this one; None where drawing does not give such problems."""
    problem = walkthrough.problem
    numbers = _whole_numbers(problem)
    if numbers is None:
        return None
    techniques = find_techniques(walkthrough)
    is_sum = isinstance(problem, Sum)
    return Want(
        operation=_find_operation(problem),
        digits=tuple(len(number.digits) for number in numbers),
        needs=techniques if is_sum else frozenset(),
        allows=techniques if is_sum else None,
        runs_on=any(step.runs_on for step in walkthrough.steps) if is_sum else None,
        zeros=any("0" in number.digits for number in numbers),
        banned=frozenset({str(problem)}),
    )


def _whole_numbers(problem: Problem) -> tuple[Number, ...] | None:
    """The numbers of a problem that is drawn from whole numbers of 1 and more."""
    if isinstance(problem, Sum):
        numbers = tuple(term.number for term in problem.terms)
    elif isinstance(problem, Product):
        numbers = (problem.first, problem.second)
    elif isinstance(problem, Quotient) and problem.places == 0:
        numbers = (problem.dividend, problem.divisor)
    else:
        return None
    return numbers if all(number.places == 0 and number.units > 0 for number in numbers) else None


def _find_operation(problem: Problem) -> Operation:
    if isinstance(problem, Product):
        return Operation.MULTIPLY
    if isinstance(problem, Quotient):
        return Operation.DIVIDE
    signs = {term.sign for term in problem.terms[1:]} if isinstance(problem, Sum) else set()
    if len(signs) > 1:
        return Operation.ADD_TAKE
    return Operation.ADD if signs == {"+"} else Operation.TAKE


def _vary_decimals(walkthrough: Walkthrough, setting: Setting, seed: str, most: int) -> Worked:
    """Sums of numbers with the same places and digits that need the same techniques."""
    problem = walkthrough.problem
    if not isinstance(problem, Sum):
        return ()
    wanted = find_techniques(walkthrough)
    found: dict[Problem, Walkthrough] = {}
    for other in _like_sums(problem, seed):
        if len(found) >= most:
            break
        try:
            worked = work(other, setting.frame, setting.house, setting.method)
        except EngineError:
            continue
        if other != problem and other not in found and find_techniques(worked) == wanted:
            found[other] = worked
    return tuple(found.values())


def _like_sums(problem: Sum, seed: str) -> Iterator[Sum]:
    chance = Random(seed)
    for _ in range(TRIES):
        yield Sum(tuple(Term(term.sign, _draw_like(term.number, chance)) for term in problem.terms))


def _draw_like(number: Number, chance: Random) -> Number:
    """A number with as many digits and places, and zeros where this one has them."""
    digits = ["0" if digit == "0" else str(1 + int(chance.random() * 9)) for digit in number.digits]
    return Number(int("".join(digits)), number.places)


def vary_number(number: Number, *, seed: str, pool: int) -> tuple[Number, ...]:
    """The number itself, then others with as many digits and zeros in the same places, as many as there are."""
    found = {number: None}
    chance = Random(seed)
    others = 9 ** sum(digit != "0" for digit in number.digits)
    for _ in range(TRIES):
        if len(found) >= min(pool, others):
            break
        found.setdefault(_draw_like(number, chance))
    return tuple(found)
