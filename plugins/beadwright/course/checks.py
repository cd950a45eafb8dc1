"""Checks of the course file and the glossary, and of the way lessons need one another."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator

from beadwright.course.binding import Path
from beadwright.course.checks_certificate import check_certificate
from beadwright.course.checks_engine import check_work
from beadwright.course.checks_lesson import check_lesson
from beadwright.course.drafts import Draft
from beadwright.course.findings import Finding, quote
from beadwright.course.models_course import Course, Glossary
from beadwright.course.models_lesson import LessonFile
from beadwright.course.nearness import suggest_near
from beadwright.course.parts import Parts, check_doubled


def check_parts(parts: Parts) -> Iterator[Finding]:
    """What is wrong between the parts of a course."""
    if parts.course is not None:
        yield from _check_course(parts, parts.course)
    if parts.glossary is not None:
        yield from _check_glossary(parts.glossary)
    for lesson_id, lesson in parts.lessons.items():
        yield from _check_listed(parts, lesson_id, lesson)
        yield from _check_needs(parts, lesson_id, lesson)
        yield from check_lesson(parts, lesson)
        yield from check_work(parts, lesson_id, lesson)


def _check_course(parts: Parts, draft: Draft[Course]) -> Iterator[Finding]:
    course = draft.model
    modules: list[tuple[Path, str]] = [(("modules", i, "lesson"), m.lesson) for i, m in enumerate(course.modules)]
    yield from check_doubled(draft, modules)
    yield from _check_known(parts, draft, modules)
    yield from check_doubled(draft, ((("paths", i, "id"), way.id) for i, way in enumerate(course.paths)))
    for number, way in enumerate(course.paths):
        lessons = [(("paths", number, "lessons", i), lesson) for i, lesson in enumerate(way.lessons)]
        yield from _check_known(parts, draft, lessons)
    asked = course.certificate.lessons or ()
    yield from _check_known(parts, draft, [(("certificate", "lessons", i), name) for i, name in enumerate(asked)])
    yield from check_certificate(parts, draft)
    rated = () if course.confidence is None else course.confidence.items
    yield from check_doubled(draft, ((("confidence", "items", i, "id"), item.id) for i, item in enumerate(rated)))


def _check_known(parts: Parts, draft: Draft[Course], names: Iterable[tuple[Path, str]]) -> Iterator[Finding]:
    for path, name in names:
        if path[0] not in draft.lost and name not in parts.lesson_ids:
            yield draft.located.finding("lesson-unknown", path, near=suggest_near(name, parts.lesson_ids))


def _check_glossary(draft: Draft[Glossary]) -> Iterator[Finding]:
    if draft.lost:
        return
    terms = [term.term.lower() for term in draft.model.terms]
    yield from check_doubled(draft, ((("terms", i, "term"), term) for i, term in enumerate(terms)))
    for number, term in enumerate(draft.model.terms):
        for index, other in enumerate(term.see):
            if other.lower() not in terms:
                yield draft.located.finding(
                    "term-unknown", ("terms", number, "see", index), near=suggest_near(other, terms)
                )


def _check_listed(parts: Parts, lesson_id: str, lesson: Draft[LessonFile]) -> Iterator[Finding]:
    course = parts.course_with("modules")
    if course is not None and lesson_id not in course.lessons_in_order():
        yield lesson.located.finding("lesson-unlisted", (), found=quote(lesson_id), id=lesson_id)


def _check_needs(parts: Parts, lesson_id: str, lesson: Draft[LessonFile]) -> Iterator[Finding]:
    for number, need in enumerate(() if "needs" in lesson.lost else lesson.model.needs):
        path: Path = ("needs", number)
        if need == lesson_id:
            yield lesson.located.finding("needs-itself", path)
        elif need not in parts.lesson_ids:
            others = [other for other in parts.lesson_ids if other != lesson_id]
            yield lesson.located.finding("lesson-unknown", path, near=suggest_near(need, others))
        else:
            yield from _check_order(parts, lesson_id, lesson, path)


def _check_order(parts: Parts, lesson_id: str, lesson: Draft[LessonFile], path: Path) -> Iterator[Finding]:
    """The lesson needed comes before. A circle of needs has such a place too, and is told there as what it is."""
    need = lesson.model.needs[int(path[1])]
    course = parts.course_with("modules")
    order = () if course is None else course.lessons_in_order()
    is_listed = need in order and lesson_id in order
    if is_listed and order.index(need) < order.index(lesson_id):
        return
    circle = _find_way(parts, need, lesson_id)
    if circle:
        yield lesson.located.finding("needs-circle", path, circle=" → ".join((lesson_id, *circle)))
    elif is_listed:
        yield lesson.located.finding("needs-order", path)


def _find_way(parts: Parts, start: str, goal: str) -> tuple[str, ...]:
    """The shortest way from lesson to lesson by what they need; empty when there is none."""
    came_from: dict[str, str] = {start: start}
    waiting = deque([start])
    while waiting and goal not in came_from:
        here = waiting.popleft()
        draft = parts.lessons.get(here)
        for need in () if draft is None or "needs" in draft.lost else draft.model.needs:
            if need not in came_from:
                came_from[need] = here
                waiting.append(need)
    return _follow_back(came_from, start, goal) if goal in came_from else ()


def _follow_back(came_from: dict[str, str], start: str, goal: str) -> tuple[str, ...]:
    way = [goal]
    while way[-1] != start:
        way.append(came_from[way[-1]])
    return tuple(reversed(way))
