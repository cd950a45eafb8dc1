"""What counts for a figure, an example or an item once lesson and course have had their say."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from beadwright.course.models_base import FrameChoice, FrameIs, Manner
from beadwright.course.models_course import Course
from beadwright.course.models_draw import Draw
from beadwright.course.models_items import DrawItem, FrameItem, Item
from beadwright.course.models_lesson import Example, Figure, LessonFile, Practice
from beadwright.engine import (
    Frame,
    HouseStyle,
    MethodError,
    Problem,
    Walkthrough,
    draw_walkthroughs,
    work_problem,
)


def resolve_frame(course: Course, lesson: LessonFile, *own: FrameChoice | None) -> Frame:
    """The frame at rest: the first of `own` that is given, else the lesson's, else the course's."""
    usual = course.frame.build().name
    chosen = next((choice for choice in (*own, lesson.frame) if choice is not None), course.frame)
    return chosen.build(usual)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """All that decides how an item is worked and how it meets the learner."""

    frame: Frame
    house: HouseStyle
    method: str | None
    objective: str | None
    frame_is: FrameIs
    hints: bool
    timed: bool
    other_way: bool


def resolve_item(course: Course, lesson: LessonFile, practice: Practice, item: Item) -> Setting:
    """The setting of an item, from itself, its practice, its lesson and its course in that order."""
    own = item if isinstance(item, FrameItem) else None
    asked = item.draw if isinstance(item, DrawItem) else item
    manner = asked if isinstance(asked, Manner) else Manner()
    frame_is = None if own is None else own.frame_is
    hints = None if own is None else own.hints
    timed = None if own is None else own.timed
    other_way = None if own is None else own.other_way
    return Setting(
        frame=resolve_frame(course, lesson, None if own is None else own.frame, practice.frame),
        house=manner.house(course.house_style.build()),
        method=manner.method,
        objective=item.objective or practice.objective,
        frame_is=frame_is or practice.frame_is or "shown",
        hints=next((said for said in (hints, practice.hints) if said is not None), True),
        timed=next((said for said in (timed, practice.timed) if said is not None), False),
        other_way=next((said for said in (other_way, practice.other_way) if said is not None), False),
    )


def show_figure(course: Course, lesson: LessonFile, figure: Figure) -> Frame:
    """The frame with what a figure shows on it; raises `FrameError`."""
    return figure.show(resolve_frame(course, lesson, figure.frame))


def work_example(course: Course, lesson: LessonFile, example: Example) -> Walkthrough:
    """The walkthrough of a worked example; raises `FrameError` or `MethodError`."""
    frame = resolve_frame(course, lesson, example.frame)
    return work(example.problem, frame, example.house(course.house_style.build()), example.method)


@lru_cache(maxsize=2048)
def work(problem: Problem, frame: Frame, house: HouseStyle, method: str | None) -> Walkthrough:
    """The walkthrough of a problem, worked once however often it is asked for; raises as `work_problem` does.

    All that it depends on are frozen values, so remembering it changes nothing but time.
    """
    return work_problem(problem, frame, house=house, method=method)


def draw_own(draw: Draw, setting: Setting, *, seed: str) -> tuple[Walkthrough, ...]:
    """The worked problems of a draw's items, one each: the pinned ones, then drawn ones.

    `seed` names lesson and practice (`lesson-id/practice-id`); the draw's own seed is added. Raises `MethodError` when
    there are too few such problems, `FrameError` or `MethodError` for a pinned one that cannot be worked.
    """
    pinned = tuple(work(problem, setting.frame, setting.house, setting.method) for problem in draw.pin)
    drawn = draw_walkthroughs(
        draw.want(),
        max(0, draw.count - len(pinned)),
        frame=setting.frame,
        seed=f"{seed}/{draw.seed}",
        house=setting.house,
        method=setting.method,
    )
    own = pinned[: draw.count] + drawn
    if len(own) < draw.count:
        raise MethodError(
            "draw-too-few",
            f"Only {len(own)} of {draw.count} problems of this kind can be drawn",
            "Ask for fewer, for other digits, or allow more techniques",
        )
    return own
