"""The minutes of lessons and paths are believable.

The method: 100 words of text a minute (slow reading, aloud or in braille), a quarter of a minute for each step of a
worked example, a minute for each item; common practice, no source. What a lesson states has room on top, for talk and
for what is tried with the hands. A part may be a little shorter than its estimate, a lesson hardly: who
stops after each part has to be able to trust its minutes.
"""

import re
from collections.abc import Sequence
from itertools import pairwise

import pytest

from beadwright.course import Lesson, PartBlock, PracticeBlock, TextBlock, WalkthroughBlock, work_example
from tests.content.lessons import list_taught, load_shipped

WORDS_A_MINUTE = 100
MINUTES_A_STEP = 0.25
MINUTES_AN_ITEM = 1
_WORD = re.compile(r"[^\W_]+")


def estimate_minutes(lesson: Lesson, blocks: Sequence[object] | None = None) -> float:
    """What reading, following the examples and answering take; of some of its blocks, or of all."""
    course, _ = load_shipped()
    blocks = lesson.body if blocks is None else blocks
    words = sum(len(_WORD.findall(block.text)) for block in blocks if isinstance(block, TextBlock))
    examples = [block.walkthrough for block in blocks if isinstance(block, WalkthroughBlock)]
    steps = sum(len(work_example(course, lesson, example).steps) for example in examples)
    practices = {block.practice.id for block in blocks if isinstance(block, PracticeBlock)}
    items = sum(placed.asked for placed in lesson.items() if placed.practice.id in practices)
    return words / WORDS_A_MINUTE + steps * MINUTES_A_STEP + items * MINUTES_AN_ITEM


def test_the_parts_of_a_lesson_take_as_long_as_it_takes() -> None:
    for lesson in list_taught():
        assert sum(map(estimate_part, list_parts(lesson))) == pytest.approx(estimate_minutes(lesson))


def list_parts(lesson: Lesson) -> list[tuple[Lesson, int, int]]:
    """Each part as (lesson, its first block, the block after its last)."""
    starts = [number for number, block in enumerate(lesson.body) if isinstance(block, PartBlock)]
    return [(lesson, start, end) for start, end in pairwise([*starts, len(lesson.body)])]


def estimate_part(part: tuple[Lesson, int, int]) -> float:
    """The same for a part."""
    lesson, start, end = part
    return estimate_minutes(lesson, lesson.body[start:end])


@pytest.mark.parametrize("lesson", list_taught(), ids=lambda lesson: lesson.id)
def test_a_part_is_done_in_about_its_minutes(lesson: Lesson) -> None:
    for part in list_parts(lesson):
        block = lesson.body[part[1]]
        assert isinstance(block, PartBlock)
        assert block.part.minutes is not None
        assert block.part.minutes >= 0.85 * estimate_part(part), block.part.title


@pytest.mark.parametrize("lesson", list_taught(), ids=lambda lesson: lesson.id)
def test_a_lesson_takes_about_what_it_says(lesson: Lesson) -> None:
    assert 0.98 <= lesson.minutes / estimate_minutes(lesson) <= 1.5


def test_a_path_takes_about_what_its_lessons_say() -> None:
    course, lessons = load_shipped()
    by_id = {lesson.id: lesson for lesson in lessons}
    hours = {}
    for path in course.paths:
        taken = [by_id[lesson] for lesson in path.lessons]
        stated = sum(lesson.minutes for lesson in taken)
        assert 1 <= stated / sum(map(estimate_minutes, taken)) <= 1.4, path.id
        hours[path.id] = stated / 60
    assert 18 <= hours["teacher"] <= 22
    assert hours["parent"] < hours["paraprofessional"] < hours["teacher"]


def test_credit_is_about_the_hours_of_a_lesson() -> None:
    course, lessons = load_shipped()
    minutes = {lesson.id: lesson.minutes for lesson in lessons}
    for module in course.modules:
        if module.credit is not None:
            assert abs(float(module.credit) * 60 - minutes[module.lesson]) <= 15, module.lesson
