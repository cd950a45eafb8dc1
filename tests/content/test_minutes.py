"""The minutes of lessons and paths are believable.

The method: 100 words of text a minute (slow reading, aloud or in braille), a quarter of a minute for each step of a
worked example, a minute for each item; common practice, no source. What a lesson states has room on top, for talk and
for what is tried with the hands.
"""

import re

import pytest

from beadwright.course import Lesson, TextBlock, WalkthroughBlock, work_example
from tests.content.lessons import list_taught, load_shipped

WORDS_A_MINUTE = 100
MINUTES_A_STEP = 0.25
MINUTES_AN_ITEM = 1
_WORD = re.compile(r"[^\W_]+")


def estimate_minutes(lesson: Lesson) -> float:
    """What reading, following the examples and answering take."""
    course, _ = load_shipped()
    words = sum(len(_WORD.findall(block.text)) for block in lesson.body if isinstance(block, TextBlock))
    examples = [block.walkthrough for block in lesson.body if isinstance(block, WalkthroughBlock)]
    steps = sum(len(work_example(course, lesson, example).steps) for example in examples)
    items = sum(placed.asked for placed in lesson.items())
    return words / WORDS_A_MINUTE + steps * MINUTES_A_STEP + items * MINUTES_AN_ITEM


@pytest.mark.parametrize("lesson", list_taught(), ids=lambda lesson: lesson.id)
def test_a_lesson_takes_about_what_it_says(lesson: Lesson) -> None:
    assert 0.9 <= lesson.minutes / estimate_minutes(lesson) <= 1.7


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
