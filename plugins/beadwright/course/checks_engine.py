"""What the engine says about a lesson's figures, examples and items: does it fit, can it be worked, does it exist."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from beadwright.course.binding import Path
from beadwright.course.checks_draw import check_draw, check_draws_differ
from beadwright.course.checks_mix import check_mix
from beadwright.course.checks_shared import MOST_STEPS, Asked, At, check_method, tell_refused
from beadwright.course.drafts import Draft
from beadwright.course.findings import Finding
from beadwright.course.models_items import (
    CarryOutItem,
    DrawItem,
    FindSlipItem,
    MixItem,
    NextMoveItem,
    OrderMovesItem,
    ProblemItem,
    ReadItem,
    SetItem,
    show_number,
)
from beadwright.course.models_lesson import (
    MOST_ITEMS,
    Example,
    FigureBlock,
    LessonFile,
    PlacedItem,
    PracticeBlock,
    WalkthroughBlock,
)
from beadwright.course.nearness import name_choices, suggest_near
from beadwright.course.parts import Parts
from beadwright.course.resolve import Setting, resolve_item, show_figure, work, work_example
from beadwright.engine import METHODS, SLIPS, FrameError, MethodError, Walkthrough, find_slipped


def check_work(parts: Parts, lesson_id: str, lesson: Draft[LessonFile]) -> Iterator[Finding]:
    """What of a lesson cannot be shown or worked. Nothing is said where the frame itself is not known."""
    course = parts.course_with("frame", "house_style")
    if course is None or "frame" in lesson.lost:
        return
    at = At(course, lesson_id, lesson.model, lesson.located, parts.lessons, Asked())
    for number, block in enumerate(lesson.model.body):
        if isinstance(block, FigureBlock):
            yield from _check_shown(
                at, ("body", number, "figure"), partial(show_figure, course, lesson.model, block.figure)
            )
        elif isinstance(block, WalkthroughBlock):
            yield from _check_example(at, ("body", number, "walkthrough"), block.walkthrough)
        elif isinstance(block, PracticeBlock):
            yield from check_draws_differ(at, ("body", number, "practice", "items"), block.practice)
    asked = 0
    for placed in lesson.model.items():
        asked += placed.asked
        if asked > MOST_ITEMS:  # that there are too many is a finding of its own, and working them could take hours
            return
        yield from _check_item(at, placed)
        if at.asked.steps > MOST_STEPS:
            yield at.located.finding("lesson-steps", placed.path, most=MOST_STEPS, count=at.asked.steps)
            return


def _check_shown(at: At, path: Path, show: Callable[[], object]) -> Iterator[Finding]:
    try:
        show()
    except FrameError as error:
        key = "beads" if at.located.find((*path, "beads")).whole else "reads"
        yield tell_refused(at, "figure-frame", (*path, key), error)


def _check_example(at: At, path: Path, example: Example) -> Iterator[Finding]:
    yield from check_method(at, path, example.method)
    if example.method in (None, *METHODS):
        yield from _check_worked(at, path, lambda: work_example(at.course, at.lesson, example))


def _check_worked(at: At, path: Path, make: Callable[[], object]) -> Iterator[Finding]:
    """A problem that the frame cannot hold, or that no method or not this one does."""
    path = (*path, "problem")
    try:
        make()
    except FrameError as error:
        yield tell_refused(at, "problem-frame", path, error)
    except MethodError as error:
        yield tell_refused(at, "problem-method", path, error)


def _check_item(at: At, placed: PlacedItem) -> Iterator[Finding]:
    item, path = placed.item, placed.path
    setting = resolve_item(at.course, at.lesson, placed.practice, item)
    if isinstance(item, ReadItem):
        yield from _check_shown(at, path, partial(item.show, setting.frame))
    elif isinstance(item, SetItem):
        yield from _check_shown(at, path, partial(show_number, setting.frame, item.reads))
    elif isinstance(item, ProblemItem):
        yield from _check_problem(at, path, item, setting)
    elif isinstance(item, DrawItem):
        yield from check_draw(at, placed, item.draw, setting)
    elif isinstance(item, MixItem):
        yield from check_mix(at, placed, item)


def _check_problem(at: At, path: Path, item: ProblemItem, setting: Setting) -> Iterator[Finding]:
    yield from check_method(at, path, item.method)
    if item.method not in (None, *METHODS):
        return
    faults = list(_check_worked(at, path, lambda: work(item.problem, setting.frame, setting.house, setting.method)))
    yield from faults
    if faults:
        return
    walkthrough = work(item.problem, setting.frame, setting.house, setting.method)
    at.asked.add([walkthrough], at.course.pool if item.prompt is None else 1)
    if isinstance(item, NextMoveItem):
        yield from _check_step(at, path, walkthrough, item.at, least=1)
    elif isinstance(item, OrderMovesItem) and item.at is not None:
        yield from _check_step(at, path, walkthrough, item.at, least=2)
    elif isinstance(item, (OrderMovesItem, CarryOutItem)):
        yield from _check_moving(at, path, walkthrough, least=2 if isinstance(item, OrderMovesItem) else 1)
    elif isinstance(item, FindSlipItem):
        yield from _check_slip(at, path, walkthrough, item.slip, item.at)


def _check_step(at: At, path: Path, walkthrough: Walkthrough, number: int, *, least: int) -> Iterator[Finding]:
    """The step asked for has at least so many moves."""
    fitting = [str(step.number) for step in walkthrough.steps if len(step.moves) >= least]
    if str(number) not in fitting:
        what = "a move" if least == 1 else "two moves or more"
        near = f"Choose from {name_choices(fitting, joined='and')}." if fitting else "Choose another problem."
        yield at.located.finding("step-unknown", (*path, "at"), what=what, near=near)


def _check_moving(at: At, path: Path, walkthrough: Walkthrough, *, least: int) -> Iterator[Finding]:
    """Beads move in so many steps at least: with fewer there is nothing to order, or nothing to carry out."""
    if len([step for step in walkthrough.steps if step.moves]) < least:
        what = "a step that moves a bead" if least == 1 else "two steps or more that move beads"
        yield at.located.finding("problem-unmoved", (*path, "problem"), what=what)


def _check_slip(at: At, path: Path, walkthrough: Walkthrough, slip: str, step: int | None) -> Iterator[Finding]:
    if slip not in SLIPS:
        yield at.located.finding("slip-unknown", (*path, "slip"), near=suggest_near(slip, SLIPS))
        return
    allowed = [slipped for slipped in find_slipped(walkthrough) if slipped.slip == slip]
    steps = sorted({slipped.first_wrong_step for slipped in allowed})
    if not steps:
        names = sorted({slipped.slip for slipped in find_slipped(walkthrough)})
        near = f"{walkthrough.problem} allows {name_choices(names, joined='and')}."
        yield at.located.finding("slip-not-here", (*path, "slip"), near=near)
    elif step is not None and step not in steps:
        near = f"Choose from {name_choices([str(number) for number in steps], joined='and')}."
        yield at.located.finding("step-unknown", (*path, "at"), what="this slip", near=near)
