"""Practice: what a lesson's items cost to build and to carry, and how often a slip is named rightly."""

from __future__ import annotations

import gzip
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from random import Random

from beadwright.course import Course, Lesson, PracticeBlock, load_course
from beadwright.engine import (
    EngineError,
    Prediction,
    Walkthrough,
    build_frame,
    parse_problem,
    predict_slips,
    work_problem,
)
from beadwright.practice import PracticeSet, build_practice
from beadwright.render import load_words
from beadwright.render.items import PracticePage
from tests.bench.measure import Table
from tests.support import ROOT
from tests.support.heldout import tally, write_items

ROUNDS = 3
ITEMS_IN_GOAL = 20
ITEMS_ON_PAGE = 40
PROBLEMS = 600
HELD_OUT_SEED = 1_234


def run() -> list[Table]:
    """What is measured, as tables."""
    return [measure_lessons(), *measure_diagnosis(), measure_held_out()]


def measure_lessons() -> Table:
    """Each lesson of the course that ships: processor time for its items' data, and what they weigh in a page."""
    loaded = load_course(ROOT / "content")
    rows = []
    for lesson in loaded.lessons:
        blocks = [block for block in lesson.body if isinstance(block, PracticeBlock)]
        if loaded.course is not None and blocks:
            rows.append(_measure_lesson(loaded.course, lesson))
    heads = ("lesson", "items", f"ms a {ITEMS_IN_GOAL} items", f"KB a {ITEMS_ON_PAGE} items", "gzipped")
    return Table("Practice items, built and as parts of a page", heads, rows)


def _measure_lesson(course: Course, lesson: Lesson) -> list[str]:
    times = []
    for _ in range(ROUNDS):
        started = time.process_time()
        sets = _build(course, lesson)
        html = _render(lesson, sets)
        times.append(time.process_time() - started)
    count = sum(len(practice.items) for practice in sets)
    data = html.encode()
    return [
        lesson.id,
        str(count),
        f"{1000 * min(times) * ITEMS_IN_GOAL / count:.0f}",
        f"{len(data) / 1024 * ITEMS_ON_PAGE / count:.0f}",
        f"{len(gzip.compress(data)) / 1024 * ITEMS_ON_PAGE / count:.0f}",
    ]


def _build(course: Course, lesson: Lesson) -> list[PracticeSet]:
    return [build_practice(course, lesson, block.practice) for block in lesson.body if isinstance(block, PracticeBlock)]


def _render(lesson: Lesson, sets: list[PracticeSet]) -> str:
    page = PracticePage(load_words("en"), lesson.id)
    return "".join(page.render_practice(practice) for practice in sets) + page.finish()


def measure_diagnosis() -> Iterator[Table]:
    """Every slip at every place of many problems: is it named first, or tied first, when its answer comes back?

    Shown alone beside it: the share of cases in which no other slip is named with it.
    """
    rows = []
    confused: Counter[tuple[str, str]] = Counter()
    for name, draw in DRAWS.items():
        told = _diagnose(draw, confused)
        shares = [f"{100 * count / told.total():.1f} %" for count in (told["alone"] + told["tied"], told["alone"])]
        rows.append([name, str(told.total()), *shares])
    heads = ("problems", "cases", "named first or tied", "named first alone")
    yield Table("Slips given back as wrong answers", heads, rows)
    pairs = [[made, named, str(count)] for (made, named), count in confused.most_common(12)]
    yield Table("Slips most often named as another", ("made", "named first", "cases"), pairs)


def measure_held_out() -> Table:
    """Learners who share no code with the engine's slips, on fresh problems, judged by the data of a page."""
    rows = []
    for name, items in write_items(HELD_OUT_SEED).items():
        with tempfile.TemporaryDirectory() as folder:
            told = tally(Path(folder), items)
        places, total = told.places, told.places.total()
        shares = [f"{100 * count / total:.1f} %" for count in (total * told.share, places["first"], places["none"])]
        often = ", ".join(f"{made} as {named}: {count}" for (made, named), count in told.missed.most_common(2))
        rows.append([name, str(total), *shares, often or "–"])
    heads = ("problems", "mistakes", "named first or tied", "named first alone", "not foreseen", "missed most often")
    return Table("Simulated learners' slips, looked up in a page", heads, rows)


def _diagnose(draw: Callable[[Random], str], confused: Counter[tuple[str, str]]) -> Counter[str]:
    chance, told = Random(1), Counter[str]()
    for walkthrough in _work_many(draw, chance):
        for causes in predict_slips(walkthrough).values():
            for cause in causes:
                place = _find_place(cause, causes)
                told[place] += 1
                if place == "later":
                    confused[cause.slip, causes[0].slip] += 1
    return told


def _find_place(cause: Prediction, causes: Sequence[Prediction]) -> str:
    """Whether a slip heads its answer's causes `alone`, is `tied` with others at the head, or comes `later`."""
    head = {other.slip for other in causes if other.weight == causes[0].weight}
    if cause.slip not in head:
        return "later"
    return "alone" if len(head) == 1 else "tied"


def _work_many(draw: Callable[[Random], str], chance: Random) -> Iterator[Walkthrough]:
    frame = build_frame()
    for _ in range(PROBLEMS):
        try:
            yield work_problem(parse_problem(draw(chance)), frame)
        except EngineError:
            continue


def _draw_taking(chance: Random) -> str:
    numbers = sorted((chance.randrange(10, 1000), chance.randrange(10, 1000)))
    return f"{numbers[1]} - {numbers[0]}"


DRAWS: dict[str, Callable[[Random], str]] = {
    "adding": lambda chance: f"{chance.randrange(10, 1000)} + {chance.randrange(10, 1000)}",
    "taking away": _draw_taking,
    "three numbers": lambda chance: (
        f"{chance.randrange(100, 1000)} + {chance.randrange(10, 100)} - {chance.randrange(10, 100)}"
    ),
    "products": lambda chance: f"{chance.randrange(11, 100)} × {chance.randrange(2, 100)}",
    "quotients": lambda chance: f"{chance.randrange(100, 10_000)} ÷ {chance.randrange(2, 100)}",
}
