"""What is drawn, for the trainer to see: each draw's problems with the techniques they need."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from beadwright.course import Course, DrawnItem, Lesson
from beadwright.engine import EASIEST_FIRST, RUNS_ON, Walkthrough, find_techniques
from beadwright.practice.building import build_practice
from beadwright.practice.values import Entry, FindSlipEntry, PracticeItem


def list_drawn(course: Course, lessons: Iterable[Lesson]) -> Iterator[str]:
    """Lines of text: for each practice that draws, its items' own problems, then those that “another one” gives.

    A problem can then be pinned or banned in the lesson (`draw: {pin: …}`, `mix: {ban: …}`). The lessons have been
    checked.
    """
    for lesson in lessons:
        practices = {
            id(placed.practice): placed.practice for placed in lesson.items() if isinstance(placed.item, DrawnItem)
        }
        for practice in practices.values():
            yield f"{lesson.file}: {practice.id}"
            for item in build_practice(course, lesson, practice).items:
                if item.drawn:
                    yield from _list_item(item)


def _list_item(item: PracticeItem) -> Iterator[str]:
    own, *others = [_find_walkthrough(entry) for entry in item.pool]
    yield f"  {item.id} ({item.ask}): {_tell(own)}"
    for other in others:
        yield f"    or {_tell(other)}"


def _find_walkthrough(entry: Entry) -> Walkthrough:
    if isinstance(entry, FindSlipEntry):
        return entry.slipped.right
    found = getattr(entry, "walkthrough", None)
    if not isinstance(found, Walkthrough):
        raise TypeError(f"nothing is worked in {entry!r}")
    return found


def _tell(walkthrough: Walkthrough) -> str:
    """A problem with its answer and the techniques it needs, the easiest first."""
    found = find_techniques(walkthrough)
    names = [str(technique) for technique in EASIEST_FIRST if technique in found]
    names += sorted(str(technique) for technique in found - set(EASIEST_FIRST))
    if any(step.runs_on for step in walkthrough.steps):
        names.append(RUNS_ON)
    return f"{walkthrough.problem} is {walkthrough.answer.full_text}: {', '.join(names) or 'nothing to work'}"
