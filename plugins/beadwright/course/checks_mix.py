"""What is wrong with a mix: what it names, and whether there are enough problems there."""

from __future__ import annotations

from collections.abc import Iterator

from beadwright.course.binding import Path
from beadwright.course.checks_shared import At, tell_refused
from beadwright.course.findings import Finding
from beadwright.course.mixing import mix_own, read_source
from beadwright.course.models_items import MixItem
from beadwright.course.models_lesson import PlacedItem
from beadwright.course.nearness import suggest_near
from beadwright.course.parts import YAML_LOST
from beadwright.engine import MethodError


def check_mix(at: At, placed: PlacedItem, item: MixItem) -> Iterator[Finding]:
    """The lessons named come before this one, the objectives are theirs, and the problems wanted exist."""
    path: Path = (*placed.path, "mix")
    known = _find_needed(at)
    faults = [
        fault for number, text in enumerate(item.mix.of) for fault in _check_source(at, path, number, text, known)
    ]
    yield from faults
    named = {read_source(text).lesson for text in item.mix.of}
    if faults or any(at.lessons[name].lost & {"body", "frame", YAML_LOST} for name in named):
        return
    lessons = {name: at.lessons[name].model for name in named}
    try:
        mixed = mix_own(at.course, lessons, placed.practice, item, seed=f"{at.lesson_id}/{placed.practice.id}")
    except MethodError as error:
        yield tell_refused(at, "mix-impossible", path, error)
        return
    at.asked.add([each.own for each in mixed], at.course.pool if item.mix.pool is None else item.mix.pool)


def _find_needed(at: At) -> list[str]:
    """The lessons that this one builds on, directly or through others, as far as they could be read."""
    found: dict[str, None] = {}
    waiting = list(at.lesson.needs)
    while waiting:
        name = waiting.pop(0)
        if name in at.lessons and name not in found and name != at.lesson_id:
            found[name] = None
            waiting.extend(at.lessons[name].model.needs)
    return list(found)


def _check_source(at: At, path: Path, number: int, text: str, known: list[str]) -> Iterator[Finding]:
    source, place = read_source(text), (*path, "of", number)
    if source.lesson not in known:
        yield at.located.finding("mix-lesson", place, near=suggest_near(source.lesson, known))
    elif source.objective is not None and "objectives" not in at.lessons[source.lesson].lost:
        objectives = [objective.id for objective in at.lessons[source.lesson].model.objectives]
        if source.objective not in objectives:
            near = suggest_near(source.objective, objectives)
            yield at.located.finding("mix-objective", place, lesson=source.lesson, near=near)
