"""A contest as values: its levels, the problems of each section, and a tie-break set; never a problem drawn twice.

A problem that somebody pins is in every section of its level, so that no section is asked something else instead.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from beadwright.course.resolve import work
from beadwright.engine import EngineError, Frame, MethodError, Walkthrough
from beadwright.render.sheets.dealing import MORE, Amounts, deal, draw_pool, sum_amounts, work_pins
from beadwright.render.sheets.grades import build_grade_orders
from beadwright.render.sheets.orders import Order, build_order
from beadwright.render.sheets.spec import ContestSpec, LevelSpec, Medium, SheetSpec


@dataclass(frozen=True, slots=True)
class Section:
    """One section of a level: the medium it reads, its number among those of that medium (from 1), its problems."""

    medium: Medium
    number: int
    problems: tuple[Walkthrough, ...]


@dataclass(frozen=True, slots=True)
class Level:
    """A level with its sections and the problems kept for a tie."""

    spec: LevelSpec
    sections: tuple[Section, ...]
    tie_break: tuple[Walkthrough, ...]

    def compare_sections(self) -> tuple[Amounts, ...]:
        """What each section needs, in the order of the sections."""
        return tuple(sum_amounts(section.problems) for section in self.sections)

    @property
    def widest_difference(self) -> int:
        """The largest difference between any two sections in how often any technique is needed."""
        amounts = self.compare_sections()
        names = {name for each in amounts for name in each}
        return max((max(a[name] for a in amounts) - min(a[name] for a in amounts) for name in names), default=0)


@dataclass(frozen=True, slots=True)
class Event:
    """A contest with all its problems."""

    spec: ContestSpec
    levels: tuple[Level, ...]


def build_event(spec: ContestSpec, banned: frozenset[str] = frozenset()) -> Event:
    """All problems of a contest, the same for the same file, none of those that are drawn `banned`.

    Raises `MethodError` where there are too few, or a pinned one cannot be worked.
    """
    frame = spec.frame.build()
    used = {*banned, *(str(problem) for level in spec.levels for draw in level.draws for problem in draw.pin)}
    return Event(spec, tuple(_build_level(spec, level, frame, used) for level in spec.levels))


def _build_level(spec: ContestSpec, level: LevelSpec, frame: Frame, used: set[str]) -> Level:
    graded = () if level.grade is None else build_grade_orders(level.grade)
    orders = (*graded, *map(build_order, level.draws))
    if not orders:
        raise MethodError("draw-none", f"The level {level.id} draws no problems", "Give it draws or a grade")
    pins = Counter(str(problem) for order in orders for problem in order.pins)
    for problem, times in pins.items():
        if times > 1:
            raise MethodError("draw-pins", f"The level {level.id} pins {problem} {times} times", "Pin it once")
    hands: list[list[Walkthrough]] = [[] for _ in level.sections]
    spare: list[list[Walkthrough]] = []
    for number, order in enumerate(orders):
        try:
            dealt, left = _deal_order(spec, level, order, f"{spec.seed}/{level.id}/{number}", frame, used)
        except EngineError as error:
            where = f"level {level.id}, draw {number + 1}"
            raise MethodError(error.code, f"In {where}: {error.reason}", error.next_step) from error
        for hand, problems in zip(hands, dealt, strict=True):
            hand.extend(problems)
        spare.append(left)
    tie_break = _take_turns(spare, level.tie_break)
    used.update(str(walkthrough.problem) for walkthrough in tie_break)
    counts: dict[Medium, int] = {}
    sections = []
    for medium, hand in zip(level.sections, hands, strict=True):
        counts[medium] = counts.get(medium, 0) + 1
        sections.append(Section(medium, counts[medium], tuple(hand)))
    return Level(level, tuple(sections), tie_break)


def _deal_order(
    spec: ContestSpec, level: LevelSpec, order: Order, seed: str, frame: Frame, used: set[str]
) -> tuple[tuple[tuple[Walkthrough, ...], ...], list[Walkthrough]]:
    """One order's problems for each section, and those left over; what is dealt is `used` from then on."""
    sections, house = len(level.sections), spec.house_style.build()
    pinned = work_pins(order, frame, house)
    count = order.count - len(pinned)
    pool = draw_pool(
        order,
        count * sections + level.tie_break,
        frame=frame,
        house=house,
        seed=seed,
        banned=frozenset(used),
        more=MORE,
    )
    dealt = deal(pool, sections, count)
    taken = {str(walkthrough.problem) for hand in dealt for walkthrough in hand}
    used.update(taken)
    return tuple((*pinned, *hand) for hand in dealt), [
        walkthrough for walkthrough in pool if str(walkthrough.problem) not in taken
    ]


def _take_turns(spare: list[list[Walkthrough]], count: int) -> tuple[Walkthrough, ...]:
    """`count` of the problems left over, one of each draw in turn."""
    taken: list[Walkthrough] = []
    for turn in range(max(map(len, spare), default=0)):
        taken += [left[turn] for left in spare if turn < len(left) and left[turn] not in taken]
    return tuple(taken[:count])


def build_sheet_problems(spec: SheetSpec) -> tuple[Walkthrough, ...]:
    """The worked problems of a practice sheet, given ones first, none twice; raises `EngineError`."""
    frame, house = spec.frame.build(), spec.house_style.build()
    found: dict[str, Walkthrough] = {}
    for problem in spec.problems:
        found.setdefault(str(problem), work(problem, frame, house, None))
    for number, draw in enumerate(spec.draws):
        order = build_order(draw)
        found.update((str(walkthrough.problem), walkthrough) for walkthrough in work_pins(order, frame, house))
        pool = draw_pool(
            order,
            draw.count - len(order.pins),
            frame=frame,
            house=house,
            seed=f"{spec.seed}/sheet/{number}",
            banned=frozenset(found),
        )
        found.update((str(walkthrough.problem), walkthrough) for walkthrough in pool)
    if not found:
        raise MethodError("draw-none", "The sheet has no problems", "Give it problems or draws")
    return tuple(found.values())
