"""Courses of any size to measure builds with: no two lessons alike, each as long as a lesson of the course that ships.

A lesson has three walkthroughs and twenty items, nearly all with a pool to draw further problems from, between
paragraphs, a figure and a table.
"""

from __future__ import annotations

from pathlib import Path
from random import Random

WALKTHROUGHS = 3
ITEMS = 20
PARAGRAPHS = 12
_LEFT = "{text: The left, right: true, because: The tens are there.}"
_RIGHT = "{text: The right, because: Those are the ones.}"
_SETTINGS = """\
site_name: A course to measure
docs_dir: content
use_directory_urls: false
theme: {name: material}
plugins:
  - search
  - beadwright:
      editions: %s
"""
_COURSE = """\
id: measured
title: A course to measure
edition: "1"
contact: [{name: Ines Varga}]
record: {send: Save your record and send it.}
modules:
"""
_SENTENCES = (
    "Put the left hand on the tens and the right hand on the ones before anything moves.",
    "What the column holds decides how a digit is set, and not the digit alone.",
    "Read the number aloud from the left, and name the columns that hold nothing.",
    "When no bead is at rest for it, ten goes to the left and the partner is cleared here.",
    "A student who is asked for the reason finds a slip sooner than one who is asked for the answer.",
    "Say the move first, make it then, and check with the other hand that it is made.",
    "Leave time between two problems; the hands learn in the pause as much as in the work.",
)


def write_course(folder: Path, lessons: int, *, editions: bool = False) -> Path:
    """Write a course of so many lessons; gives its `mkdocs.yml`."""
    modules = folder / "content" / "modules"
    modules.mkdir(parents=True)
    names = [f"lesson-{number}" for number in range(1, lessons + 1)]
    for number, name in enumerate(names, start=1):
        (modules / f"{number:04}-{name}.lesson.yml").write_text(write_lesson(number), encoding="utf-8")
    listed = "".join(f"  - {name}\n" for name in names)
    (folder / "content" / "course.yml").write_text(f"{_COURSE}{listed}", encoding="utf-8")
    (folder / "content" / "index.md").write_text("# Start\n\n<!-- bw:lessons -->\n", encoding="utf-8")
    config = folder / "mkdocs.yml"
    config.write_text(_SETTINGS % ("{}" if editions else "false"), encoding="utf-8")
    return config


def write_lesson(number: int, *, walkthroughs: int = WALKTHROUGHS, items: int = ITEMS) -> str:
    """The text of one lesson file; another number gives other words and other problems."""
    chance = Random(number)
    prose = [_write_prose(chance) for _ in range(PARAGRAPHS)]
    shown = [f"  - walkthrough: {_write_sum(chance)}\n" for _ in range(walkthroughs)]
    asked = "".join(f"        - {item}\n" for item in _write_items(chance, number, items))
    return (
        f"title: Lesson {number}\nminutes: 45\nobjectives: [{{id: add, text: Add with partners}}]\nbody:\n"
        f"  - part: {{title: Shown, minutes: 20}}\n{''.join(prose[:4])}"
        f"  - figure: {{reads: {chance.randrange(100, 1000)}, caption: A number on the frame}}\n"
        f"{prose[4]}{''.join(map(''.join, zip(shown, prose[5:], strict=False)))}{''.join(shown[len(prose) - 5 :])}"
        f"  - part: {{title: Alone, minutes: 25}}\n{''.join(prose[8:])}"
        f"  - practice:\n      id: alone\n      title: Your turn\n      objective: add\n      items:\n{asked}"
    )


def _write_prose(chance: Random) -> str:
    said = " ".join(chance.choice(_SENTENCES) for _ in range(5))
    return f"  - text: |\n      {said} Try it with {chance.randrange(10, 1000)}.\n"


def _write_sum(chance: Random) -> str:
    """A sum of two numbers of three digits without zeros, so that every step has a move."""
    first, second = ("".join(str(chance.randrange(1, 10)) for _ in range(3)) for _ in range(2))
    return f"{first} + {second}"


def _write_items(chance: Random, number: int, count: int) -> list[str]:
    """Drawn items for the most part, then one of each kind that a lesson of this course has."""
    single = [
        f"{{ask: next-move, problem: {_write_sum(chance)}, at: 2}}",
        f"{{ask: order-moves, problem: {_write_sum(chance)}}}",
        f"{{ask: carry-out, problem: {_write_sum(chance)}}}",
        f"{{ask: read, reads: {chance.randrange(1000, 10_000)}}}",
        f"{{ask: set, reads: {chance.randrange(1000, 10_000)}}}",
        f"{{ask: answer, problem: {chance.randrange(500, 1000)} - {chance.randrange(100, 500)}}}",
        f"{{ask: answer, problem: {chance.randrange(12, 100)} × {chance.randrange(3, 10)}}}",
        f"{{ask: choice, question: Which comes first?, options: [{_LEFT}, {_RIGHT}]}}",
    ]
    drawn = count - len(single)
    adds = drawn // 2
    draws = [
        f"operation: add, digits: [2, 2], needs: partner-of-10, count: {adds}, ask: answer",
        f"operation: take, digits: [3, 2], count: {drawn - adds - 2}, ask: answer",
        "operation: add, digits: [2, 2], needs: both-partners, count: 2, ask: find-slip",
    ]
    return [*(f"{{draw: {{{draw}, seed: {number}}}}}" for draw in draws), *single]
