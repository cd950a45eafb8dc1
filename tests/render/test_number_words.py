"""Numbers said with an “and”, where a course's house style says so: in every form that says numbers in words."""

from pathlib import Path

import pytest
from pdfminer.high_level import extract_text

from beadwright.cli import main
from beadwright.course import load_course
from beadwright.engine import parse_problem
from beadwright.render import LessonLink, load_words, say_number, say_problem, write_lesson
from beadwright.render.editions import EditionStyle, make_editions
from tests.course.writing import write_course

PLAIN, WITH_AND = load_words("en"), load_words("en", "with-and")
COURSE = """\
id: and-test
title: And
edition: "1"
contact: [{name: Ines Varga}]
record: {send: Keep it.}
modules: [one]
house_style: {number_words: %s}
"""
LESSON = """\
title: Numbers
minutes: 5
objectives: [{id: a, text: Add}]
body:
  - practice:
      id: p
      title: Try
      objective: a
      items:
        - {id: heard, ask: heard, problem: 105 + 1230}
"""


@pytest.mark.parametrize(
    ("number", "said"),
    [
        # As British English says numbers: an “and” before tens and ones that follow hundreds or more, none before
        # hundreds (common practice, no source).
        (99, "ninety-nine"),
        (100, "one hundred"),
        (105, "one hundred and five"),
        (1_034, "one thousand and thirty-four"),
        (1_230, "one thousand two hundred and thirty"),
        (105_006, "one hundred and five thousand and six"),
        (2_000_300, "two million three hundred"),
        (13_000_021, "thirteen million and twenty-one"),
    ],
)
def test_an_and_stands_before_tens_and_ones(number: int, said: str) -> None:
    assert say_number(number, WITH_AND) == said
    assert say_number(number, PLAIN) == said.replace(" and ", " ")


def test_spanish_says_its_numbers_alike_in_both_ways() -> None:
    assert say_number(105, load_words("es", "with-and")) == say_number(105, load_words("es")) == "ciento cinco"


def test_a_problem_is_said_so() -> None:
    assert say_problem(parse_problem("105 + 1230"), WITH_AND) == (
        "one hundred and five plus one thousand two hundred and thirty"
    )


CONTEST = """\
title: Round
house_style: {number_words: %s}
levels:
  - id: a
    title: Hundreds
    minutes: 5
    sections: [heard]
    tie_break: 0
    draws: [{operation: add, digits: [3, 3], count: 1, pin: [105 + 230]}]
"""


@pytest.mark.parametrize(("way", "said"), [("plain", "one hundred five"), ("with-and", "one hundred and five")])
def test_page_data_and_sound_of_a_course_say_so(tmp_path: Path, way: str, said: str) -> None:
    loaded = load_course(write_course(tmp_path, {"course.yml": COURSE % way, "modules/01-one.lesson.yml": LESSON}))
    course = loaded.course
    assert course is not None
    words = load_words(course.language, course.house_style.number_words)
    link = LessonLink(loaded.lessons[0], 1, "one.html")
    page = write_lesson(course, link, [link], words, for_trainers=False)
    assert f"{said} plus one thousand" in " ".join(page.slots.values())
    files = make_editions(course, link, [link], words, EditionStyle(braille=False, large_print=False)).files
    assert [file.said for file in files if file.kind == "sound"] == [
        f"Problem 1. {said} plus {say_number(1230, words)}"
    ]


@pytest.mark.parametrize(("way", "said"), [("plain", "one hundred five"), ("with-and", "one hundred and five")])
def test_a_contests_script_and_sound_say_so_in_text_print_and_braille(tmp_path: Path, way: str, said: str) -> None:
    spec = tmp_path / "round.yml"
    spec.write_text(CONTEST % way, encoding="utf-8")
    out = tmp_path / "out"
    assert main(["sheet", str(spec), "--out", str(out), "--uncontracted"]) == 0
    script = (out / "a" / "heard-1-script.txt").read_text(encoding="utf-8")
    assert said in script
    assert said in (out / "a" / "heard-1-sound" / "01.txt").read_text(encoding="utf-8")
    assert said.upper() in " ".join((out / "a" / "heard-1-script.brf").read_text("ascii").split())
    assert said in " ".join(extract_text(out / "a" / "heard-1-script.pdf").split())
