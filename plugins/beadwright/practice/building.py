"""From a lesson's practice to practice values: every item with its pool, the same for the same lesson in each build."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice
from typing import cast

from beadwright.course import (
    AnswerItem,
    CarryOutItem,
    ChoiceItem,
    Course,
    Draw,
    DrawItem,
    DrawnItem,
    FindSlipItem,
    FrameItem,
    HeardItem,
    Item,
    Lesson,
    Mixed,
    MixItem,
    NextMoveItem,
    OrderMovesItem,
    Practice,
    ProblemItem,
    RatingAsk,
    RatingItem,
    ReadItem,
    Reflection,
    ReflectItem,
    SetItem,
    Setting,
    mix_own,
    resolve_item,
    work,
)
from beadwright.engine import MethodError, Number, Step, Walkthrough
from beadwright.practice.entries import (
    build_answer,
    build_carry_out,
    build_choice,
    build_find_slip,
    build_order,
    build_read,
    build_reflect,
    build_set,
)
from beadwright.practice.focus import find_focus, find_like
from beadwright.practice.ids import make_id
from beadwright.practice.moves import build_next_move
from beadwright.practice.pools import Worked, draw_pools, mix_pools, vary_number, vary_problem
from beadwright.practice.values import Ask, Entry, PracticeItem, PracticeSet, Rated, RatingEntry

LOOK_FURTHER = 4


@dataclass(frozen=True, slots=True)
class Place:
    """Where an item stands: its course, lesson and practice. `seed` names lesson and practice."""

    course: Course
    lesson: Lesson
    practice: Practice

    @property
    def seed(self) -> str:
        """What all chance of this practice comes from; it does not change when a lesson is reordered."""
        return f"{self.lesson.id}/{self.practice.id}"


def build_practice(course: Course, lesson: Lesson, practice: Practice) -> PracticeSet:
    """The practice with every item's pool, key and predicted slips.

    The lesson has been checked; an item that cannot be worked raises as the engine does.
    """
    place = Place(course, lesson, practice)
    items: list[PracticeItem] = []
    for item in practice.items:
        for built in _build_items(place, item):
            items.append(_with_own_id(built, items))
    return PracticeSet(id=practice.id, title=practice.title, lesson=lesson.id, items=tuple(items))


def _with_own_id(item: PracticeItem, before: list[PracticeItem]) -> PracticeItem:
    """The item, its id told apart by a number where the same thing is asked twice."""
    taken = {other.id for other in before}
    name, number = item.id, 2
    while name in taken:
        name, number = f"{item.id}-{number}", number + 1
    return item if name == item.id else _rename(item, name)


def _rename(item: PracticeItem, name: str) -> PracticeItem:
    fields = {field: getattr(item, field) for field in PracticeItem.__dataclass_fields__}
    return PracticeItem(**{**fields, "id": name})


def _build_items(place: Place, item: Item) -> Iterator[PracticeItem]:
    setting = resolve_item(place.course, place.lesson, place.practice, item)
    if isinstance(item, DrawItem):
        for number, pool in enumerate(_build_drawn(place, item, setting), start=1):
            yield _build_item(place, item, setting, item.draw.ask, pool, _name_drawn(item, number))
    elif isinstance(item, MixItem):
        for number, (mixed, pool) in enumerate(_build_mixed(place, item, setting), start=1):
            own = replace(setting, frame=mixed.kind.setting.frame)
            yield _build_item(place, item, own, item.mix.ask, pool, _name_drawn(item, number), mixed.lesson)
    else:
        pool = tuple(_build_pool(place, item, setting))
        yield _build_item(place, item, setting, cast("Ask", str(getattr(item, "ask", ""))), pool, item.id)


def _name_drawn(item: DrawnItem, number: int) -> str | None:
    """The author's name for an item, with its number where there are several."""
    return item.id if item.id is None or item.drawn.count == 1 else f"{item.id}-{number}"


def _build_item(
    place: Place,
    item: Item,
    setting: Setting,
    ask: Ask,
    pool: tuple[Entry, ...],
    name: str | None,
    taught: str | None = None,
) -> PracticeItem:
    frame = setting.frame if isinstance(item, FrameItem) else None
    return PracticeItem(
        id=make_id(place.practice.id, ask, frame, pool[0]) if name is None else name,
        ask=ask,
        objective=setting.objective,
        frame=frame,
        frame_is=setting.frame_is,
        hints=setting.hints,
        timed=setting.timed,
        drawn=isinstance(item, DrawnItem),
        prompt=item.prompt if isinstance(item, FrameItem) else None,
        note=item.note,
        pool=pool,
        taught=taught,
    )


def _build_pool(place: Place, item: Item, setting: Setting) -> Iterator[Entry]:
    """The entries of an item that is not drawn, its own first."""
    if isinstance(item, ProblemItem):
        yield from _build_problem_pool(place, item, setting)
    elif isinstance(item, ReadItem):
        number = Number(item.show(setting.frame).value) if item.reads is None else item.reads
        yield from (build_read(setting.frame, n) for n in _vary_number(place, item, number))
    elif isinstance(item, SetItem):
        yield from (build_set(setting.frame, n) for n in _vary_number(place, item, item.reads))
    elif isinstance(item, ChoiceItem):
        yield build_choice(item.question, [(o.text, o.because, o.right) for o in item.options])
    elif isinstance(item, ReflectItem):
        yield build_reflect(item)
    elif isinstance(item, RatingItem):
        yield build_rating(place.course, item)
    else:
        raise TypeError(f"no such kind of item: {type(item).__name__}")


def _vary_number(place: Place, item: ReadItem | SetItem, number: Number) -> tuple[Number, ...]:
    return vary_number(number, seed=f"{place.seed}/{item.ask}/{number}", pool=_find_pool_size(place, item))


def _find_pool_size(place: Place, item: FrameItem) -> int:
    """The course's number; 1 where the author's own prompt speaks of the one problem."""
    return place.course.pool if item.prompt is None else 1


def _build_problem_pool(place: Place, item: ProblemItem, setting: Setting) -> Iterator[Entry]:
    own = work(item.problem, setting.frame, setting.house, setting.method)
    seed = f"{place.seed}/{item.problem}"
    size = _find_pool_size(place, item)
    # Not every problem of a kind allows a given slip, so more of them are looked through.
    further = LOOK_FURTHER if isinstance(item, FindSlipItem) and size > 1 else 1
    pool = vary_problem(own, setting, seed=seed, pool=size * further)
    if isinstance(item, AnswerItem):
        yield from (build_answer(worked, item.accept, other_way=setting.other_way) for worked in pool)
    elif isinstance(item, HeardItem):
        yield from (build_answer(worked, other_way=setting.other_way) for worked in pool)
    elif isinstance(item, CarryOutItem):
        yield from (build_carry_out(worked) for worked in pool)
    elif isinstance(item, NextMoveItem):
        yield from _build_next_moves(pool, own.steps[item.at - 1])
    elif isinstance(item, OrderMovesItem):
        step = None if item.at is None else own.steps[item.at - 1]
        yield from _build_orders(pool, step, seed)
    elif isinstance(item, FindSlipItem):
        yield build_find_slip(own, item.slip, item.at, seed=f"{seed}/0")
        yield from islice(_build_slipped(pool[1:], item.slip, f"{seed}/more"), size - 1)


def _build_next_moves(pool: Worked, asked: Step) -> Iterator[Entry]:
    """The step asked for, and in other problems a step that needs the same technique."""
    yield build_next_move(pool[0], asked)
    for worked in pool[1:]:
        step = find_like(worked, asked)
        if step is not None:
            yield build_next_move(worked, step)


def _build_orders(pool: Worked, asked: Step | None, seed: str) -> Iterator[Entry]:
    for number, worked in enumerate(pool):
        step = asked if asked is None or number == 0 else find_like(worked, asked, least_moves=2)
        many = len(step.moves) if step is not None else len([each for each in worked.steps if each.moves])
        if many > 1 and (asked is None or step is not None):
            yield build_order(worked, step, seed=f"{seed}/{number}")


def _build_slipped(pool: Worked, slip: str | None, seed: str) -> Iterator[Entry]:
    """Worked examples with this slip, or with one that fits, of those problems that allow it."""
    for worked in pool:
        drawn = f"{seed}/{worked.problem}"
        try:
            yield build_find_slip(worked, slip, None, seed=drawn)
        except MethodError:
            continue


def _build_drawn(place: Place, item: DrawItem, setting: Setting) -> Iterator[tuple[Entry, ...]]:
    """For each item of a draw, its entries."""
    draw = item.draw
    pools = draw_pools(draw, setting, seed=place.seed, pool=_find_drawn_pool_size(place, item))
    for number, worked in enumerate(pools):
        seed = f"{place.seed}/{draw.seed}/{draw.ask}/{number}"
        yield tuple(_build_drawn_entries(draw, worked, seed, other_way=setting.other_way))


def _find_drawn_pool_size(place: Place, item: DrawnItem) -> int:
    return place.course.pool if item.drawn.pool is None else item.drawn.pool


def _build_mixed(place: Place, item: MixItem, setting: Setting) -> Iterator[tuple[Mixed, tuple[Entry, ...]]]:
    """For each item of a mix, where it comes from and its entries."""
    lessons = {lesson.id: lesson for lesson in place.lesson.mixed}
    mixed = mix_own(place.course, lessons, place.practice, item, seed=place.seed)
    pools = mix_pools(mixed, item.mix, seed=place.seed, pool=_find_drawn_pool_size(place, item))
    for each, worked in zip(mixed, pools, strict=True):
        entries = (_build_drawn_entry(item.mix.ask, w, place.seed, other_way=setting.other_way) for w in worked)
        yield each, tuple(entries)


def _build_drawn_entries(draw: Draw, pool: Worked, seed: str, *, other_way: bool) -> Iterator[Entry]:
    if draw.ask == "find-slip":
        yield from _build_slipped(pool, draw.slip, seed)
        return
    for walkthrough in pool:
        yield _build_drawn_entry(draw.ask, walkthrough, f"{seed}/{walkthrough.problem}", other_way=other_way)


def _build_drawn_entry(ask: Ask, walkthrough: Walkthrough, seed: str, *, other_way: bool) -> Entry:
    if ask == "carry-out":
        return build_carry_out(walkthrough)
    if ask == "next-move":
        step = find_focus(walkthrough)
        if step is None:
            raise MethodError("no-move", f"No bead moves in {walkthrough.problem}", "Ask for other digits")
        return build_next_move(walkthrough, step)
    if ask == "order-moves":
        return build_order(walkthrough, find_focus(walkthrough, least_moves=2), seed=seed)
    return build_answer(walkthrough, other_way=other_way)


def build_rating(course: Course, asked: RatingAsk) -> RatingEntry:
    """The course's confidence items that are asked here; raises `ValueError` when the course has none."""
    scale = course.confidence
    if scale is None:
        raise ValueError("the course has no confidence items")
    chosen = [item for item in scale.items if asked.items is None or item.id in asked.items]
    return RatingEntry(asked.when, scale.question, scale.points, tuple(Rated(item.id, item.text) for item in chosen))


def build_lone_item(course: Course, lesson: Lesson, asked: Reflection | RatingAsk) -> PracticeItem:
    """A question for reflection or confidence items that stand in a lesson by themselves."""
    rates = isinstance(asked, RatingAsk)
    entry: Entry = build_rating(course, asked) if isinstance(asked, RatingAsk) else build_reflect(asked)
    ask: Ask = "rating" if rates else "reflect"
    return PracticeItem(
        id=make_id(ask, ask, None, entry),
        ask=ask,
        objective=None,
        frame=None,
        frame_is="shown",
        hints=False,
        timed=False,
        drawn=False,
        prompt=None,
        note=None,
        pool=(entry,),
    )
