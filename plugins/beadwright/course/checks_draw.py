"""What the engine says about draws: do such problems exist, and do the pinned ones work."""

from __future__ import annotations

from collections.abc import Iterator

from beadwright.course.binding import Path
from beadwright.course.checks_shared import At, check_method, tell_refused
from beadwright.course.findings import Finding
from beadwright.course.models_draw import Draw, Drawn
from beadwright.course.models_items import DRAWN_KINDS, DrawnItem
from beadwright.course.models_lesson import PlacedItem, Practice
from beadwright.course.nearness import suggest_near
from beadwright.course.resolve import Setting, draw_own, work
from beadwright.engine import METHODS, SLIPS, FrameError, MethodError, Walkthrough, find_slipped


def check_draws_differ(at: At, path: Path, practice: Practice) -> Iterator[Finding]:
    """Two equal draws in one practice would give the same problems twice."""
    first: dict[Drawn, int] = {}
    for number, item in enumerate(practice.items):
        if not isinstance(item, DrawnItem):
            continue
        if item.drawn in first:
            line = at.located.find((*path, first[item.drawn])).node.place.line
            key = next(key for key, kind in DRAWN_KINDS.items() if isinstance(item, kind))
            yield at.located.finding("draw-doubled", (*path, number, key), line=line)
        first.setdefault(item.drawn, number)


def check_draw(at: At, placed: PlacedItem, draw: Draw, setting: Setting) -> Iterator[Finding]:
    """The draw gives as many problems as it says, and they are what it says."""
    path: Path = (*placed.path, "draw")
    yield from check_method(at, path, draw.method)
    if draw.slip is not None and draw.slip not in SLIPS:
        yield at.located.finding("slip-unknown", (*path, "slip"), near=suggest_near(draw.slip, SLIPS))
    if draw.method not in (None, *METHODS) or draw.slip not in (None, *SLIPS):
        return
    faults = list(_check_pins(at, path, draw, setting))
    yield from faults
    if faults:
        return
    try:
        own = draw_own(draw, setting, seed=f"{at.lesson_id}/{placed.practice.id}")
    except MethodError as error:
        yield tell_refused(at, "draw-impossible", path, error)
        return
    at.asked.add(own, at.course.pool if draw.pool is None else draw.pool)
    if draw.slip is not None:
        yield from _check_drawn_slip(at, path, draw.slip, own)


def _check_pins(at: At, path: Path, draw: Draw, setting: Setting) -> Iterator[Finding]:
    for number, problem in enumerate(draw.pin):
        try:
            work(problem, setting.frame, setting.house, setting.method)
        except FrameError as error:
            yield tell_refused(at, "problem-frame", (*path, "pin", number), error)
        except MethodError as error:
            yield tell_refused(at, "problem-method", (*path, "pin", number), error)


def _check_drawn_slip(at: At, path: Path, slip: str, own: tuple[Walkthrough, ...]) -> Iterator[Finding]:
    """Every item's own problem allows the slip; one finding, naming the first that does not."""
    for walkthrough in own:
        if slip not in {slipped.slip for slipped in find_slipped(walkthrough)}:
            near = f"{walkthrough.problem} does not allow it; choose needs or digits that make it possible."
            yield at.located.finding("slip-not-here", (*path, "slip"), near=near)
            return
