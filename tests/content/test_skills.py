"""Nothing is used before it is taught: not in examples, not in items, not in what “another one” can give."""

import itertools
from functools import lru_cache

from beadwright.course import PartBlock
from beadwright.engine import find_techniques
from tests.content.lessons import RUN_ON_TAUGHT, TEACHES, Worked, find_worked, list_taught, load_shipped

LONG_PROBLEMS_BEGIN = "several-columns"


@lru_cache(maxsize=1)
def list_worked() -> tuple[Worked, ...]:
    """Every problem of the teaching lessons, in the order of the course."""
    course, _ = load_shipped()
    return tuple(worked for lesson in list_taught() for worked in find_worked(course, lesson))


def test_the_lessons_stand_in_the_order_of_skills() -> None:
    assert [lesson.id for lesson in list_taught()] == list(TEACHES)


def test_each_lesson_needs_the_one_before() -> None:
    """But for the last: who has sums can watch sums, so the shorter path can have it."""
    *lessons, last = list_taught()
    assert [lesson.needs for lesson in lessons] == [(), *((before.id,) for before in lessons[:-1])]
    assert (last.id, last.needs) == ("watching-a-student", ("several-columns",))


def test_no_problem_needs_a_technique_that_comes_later() -> None:
    taught: set[str] = set()
    known = {}
    for lesson_id, adds in TEACHES.items():
        taught |= adds
        known[lesson_id] = frozenset(taught)
    early = [
        f"{worked.lesson}: {worked.walkthrough.problem} needs {', '.join(sorted(new))}"
        for worked in list_worked()
        if (new := {str(t) for t in find_techniques(worked.walkthrough)} - known[worked.lesson])
    ]
    assert early == []
    assert len(list_worked()) > 500


def test_each_technique_is_shown_in_the_lesson_that_teaches_it() -> None:
    shown = {
        (worked.lesson, str(technique)) for worked in list_worked() for technique in find_techniques(worked.walkthrough)
    }
    assert {(lesson, technique) for lesson, adds in TEACHES.items() for technique in adds} <= shown


def test_no_exchange_runs_on_before_that_is_taught() -> None:
    lesson_id, part = RUN_ON_TAUGHT
    lesson = next(lesson for lesson in list_taught() if lesson.id == lesson_id)
    titles = [block.part.title if isinstance(block, PartBlock) else "" for block in lesson.body]
    first = (list(TEACHES).index(lesson_id), titles.index(part))
    running = [worked for worked in list_worked() if any(step.runs_on for step in worked.walkthrough.steps)]
    early = [
        f"{worked.lesson}: {worked.walkthrough.problem}"
        for worked in running
        if (list(TEACHES).index(worked.lesson), worked.block) < first
    ]
    assert early == []
    assert running != []


def test_both_frames_are_worked_where_both_fit() -> None:
    """The starter frame meets every idea until the last moves, which it does not need."""
    for lesson in itertools.takewhile(lambda lesson: lesson.id != LONG_PROBLEMS_BEGIN, list_taught()):
        names = {worked.walkthrough.start.name for worked in list_worked() if worked.lesson == lesson.id}
        wanted = {"nine-bead"} if lesson.id == "readiness" else {"nine-bead", "five-and-four"}
        assert names == wanted, lesson.id
