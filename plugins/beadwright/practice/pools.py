"""Problems and numbers for “another one”: the author's own first, then others of the same kind."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from beadwright.course import Draw, Mix, Mixed, Setting, name_seed, work
from beadwright.engine import Number, Walkthrough, draw_walkthroughs
from beadwright.engine.likeness import TRIES, draw_like, draw_like_number

Worked = tuple[Walkthrough, ...]


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


def mix_pools(mixed: Sequence[Mixed], mix: Mix, *, seed: str, pool: int) -> tuple[Worked, ...]:
    """For each item of a mix, up to `pool` worked problems of its kind, its own first.

    None comes twice in the whole mix where there are enough; else items of the same kind share the further ones.
    """
    own = {str(each.own.problem) for each in mixed} | {str(problem) for problem in mix.ban}
    taken = set(own)
    pools = []
    for number, each in enumerate(mixed):
        more = f"{name_seed(mix, seed)}/{number}/more"
        found = each.kind.draw(pool - 1, seed=more, banned=taken)
        if len(found) < pool - 1:
            found = each.kind.draw(pool - 1, seed=more, banned=own)
        taken.update(str(walkthrough.problem) for walkthrough in found)
        pools.append((each.own, *found))
    return tuple(pools)


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
    others = draw_like(
        walkthrough, pool - 1, frame=setting.frame, seed=seed, house=setting.house, method=setting.method
    )
    return (walkthrough, *others)


def vary_number(number: Number, *, seed: str, pool: int) -> tuple[Number, ...]:
    """The number itself, then others with as many digits and zeros in the same places, as many as there are."""
    found = {number: None}
    chance = Random(seed)
    others = 9 ** sum(digit != "0" for digit in number.digits)
    for _ in range(TRIES):
        if len(found) >= min(pool, others):
            break
        found.setdefault(draw_like_number(number, chance))
    return tuple(found)
