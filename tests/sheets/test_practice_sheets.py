"""A lesson's practice sheet: problems of its kinds, none of its own, numbered like the key, with right answers."""

import re
from functools import cache

import pytest

from beadwright.course import Course, Lesson, load_course
from beadwright.render import load_words
from beadwright.render.booklet import Asked, FrameShown, Listing, Papers, build_practice_sheet, list_items, show_spans
from tests.support import ROOT

WORDS = load_words("en")


@cache
def load() -> tuple[Course, dict[str, Lesson]]:
    loaded = load_course(ROOT / "content")
    assert loaded.course is not None
    return loaded.course, {lesson.id: lesson for lesson in loaded.lessons}


def build(lesson: str) -> Papers:
    course, lessons = load()
    papers = build_practice_sheet(course, lessons[lesson], WORDS)
    assert papers is not None
    return papers


def read_key(papers: Papers) -> dict[int, str]:
    (listing,) = [block for block in papers.key.blocks if isinstance(block, Listing)]
    return {int(entry.marker.rstrip(".")): show_spans(entry.spans) for entry in listing.entries}


def calculate(problem: str) -> int:
    """What Python makes of a sum, not we."""
    plain = problem.replace("−", "-").replace(",", "")
    assert re.fullmatch(r"[\d +-]+", plain), problem
    return int(eval(plain))


@pytest.mark.parametrize("lesson", ["partner-of-5", "partner-of-10", "several-columns"])
def test_every_problem_has_its_place_and_its_answer_in_the_key(lesson: str) -> None:
    papers = build(lesson)
    key = read_key(papers)
    asked = [block for block in papers.sheet.blocks if isinstance(block, Asked)]
    assert list(key) == list(range(1, len(key) + 1))
    assert len(asked) == 12
    for block in asked:
        assert key[block.number] == f"{block.shown} = {calculate(block.shown):,}"


@pytest.mark.parametrize("lesson", ["partner-of-5", "partner-of-10", "set-read-clear"])
def test_nothing_on_it_is_asked_in_the_lesson_or_twice(lesson: str) -> None:
    course, lessons = load()
    own = {
        str(item.pool[0].walkthrough.problem)
        for block in lessons[lesson].body
        for item in list_items(course.model_copy(update={"pool": 1}), lessons[lesson], block)
        if hasattr(item.pool[0], "walkthrough")
    }
    problems = [str(block.problem) for block in build(lesson).sheet.blocks if isinstance(block, Asked)]
    assert len(problems) == len(set(problems))
    assert not own & set(problems)


def test_numbers_to_set_and_frames_to_read_have_their_numbers_in_the_key() -> None:
    papers = build("set-read-clear")
    key = read_key(papers)
    asked = [entry for block in papers.sheet.blocks if isinstance(block, Listing) for entry in block.entries]
    frames = [block for block in papers.sheet.blocks if isinstance(block, FrameShown)]
    assert [int(entry.marker.rstrip(".")) for entry in asked] == list(key)
    for number, text in key.items():
        said = show_spans(asked[number - 1].spans)
        assert text in said or said == "What number does this frame show?"
    # Each bead above counts 5, each below 1 (PROCEDURES §2); a frame of nine has no upper ones.
    for shown, text in zip(frames, list(key.values())[-len(frames) :], strict=True):
        digits = "".join(str(5 * upper + lower) for upper, lower in shown.frame.beads).lstrip("0")
        assert digits == text.replace(",", "")
        assert text not in shown.reading


def test_a_lesson_without_more_to_work_has_no_sheet() -> None:
    course, lessons = load()
    assert build_practice_sheet(course, lessons["looking-back"], WORDS) is None
