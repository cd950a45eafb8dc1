"""Item analysis on first tries: how hard an item is, how well it tells apart, how far a lesson can be trusted.

The first try is the measurement; what comes after has had feedback.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from beadwright.records.merging import Person
from beadwright.records.outline import LessonOutline, Outline
from beadwright.records.statistics import find_item_total, find_reliability
from beadwright.records.tables import Cell, Table, Word, columns

FEW = 30
"""With fewer complete learners than this, correlations and alpha are too uncertain to act upon."""
LOW_DISCRIMINATION = 0.15
"""Below, an item is worth a look (rule of thumb for point-biserials)."""
HARD, EASY = 0.3, 0.95
LEAST_TO_LOOK = 5
"""An item that fewer have tried is not judged at all."""


def build_items(people: Sequence[Person], outline: Outline) -> Table:
    """One row a graded item that somebody tried, those worth a look first."""
    rows = [row for lesson in outline.lessons for row in _list_items(people, lesson)]
    rows.sort(key=lambda row: row[-1] is None)
    heads = columns("lesson item ask asks technique", tried="whole", difficulty="share", complete="whole")
    fields: dict[str, str | int] = {
        "few": FEW, "least": LEAST_TO_LOOK, "hard": round(100 * HARD), "easy": round(100 * EASY),
        "low": f"{LOW_DISCRIMINATION:.2f}",
    }  # fmt: skip
    return Table(
        "items", (*heads, *columns(discrimination="number"), *columns("look")), tuple(rows), (("items", fields),)
    )


def _find_complete(people: Sequence[Person], lesson: LessonOutline) -> list[list[float]]:
    """First tries as 1 and 0, of those who tried every item of the lesson."""
    tries = (person.first.get(lesson.id, {}) for person in people)
    # Nobody has tried every item who has tried fewer.
    full = [first for first in tries if len(first) >= len(lesson.items) and lesson.item_ids <= first.keys()]
    return [[float(first[item.id].right is True) for item in lesson.items] for first in full]


def _list_items(people: Sequence[Person], lesson: LessonOutline) -> list[tuple[Cell, ...]]:
    scores = _find_complete(people, lesson)
    tried: dict[str, list[bool]] = defaultdict(list)
    for person in people:
        for item_id, attempt in person.first.get(lesson.id, {}).items():
            tried[item_id].append(attempt.right is True)
    rows: list[tuple[Cell, ...]] = []
    for number, item in enumerate(lesson.items):
        tries = tried.get(item.id, [])
        if len(tries) == 0:
            continue
        difficulty = tries.count(True) / len(tries)
        total = find_item_total(scores, number)
        look = _judge_item(len(tries), difficulty, total if len(scores) >= FEW else None)
        asked = (
            lesson.title,
            item.id,
            Word("report.ask", item.ask),
            item.asks,
            Word("report.technique", item.technique or "none"),
        )
        rows.append((*asked, len(tries), difficulty, len(scores), total, look))
    return rows


def _judge_item(tried: int, difficulty: float, discrimination: float | None) -> Cell:
    """Why an item is worth a look; nothing when it is not."""
    if tried < LEAST_TO_LOOK:
        return None
    if discrimination is not None and discrimination < 0:
        return Word("report.look", "against")
    if difficulty < HARD:
        return Word("report.look", "hard")
    if discrimination is not None and discrimination < LOW_DISCRIMINATION and difficulty <= EASY:
        return Word("report.look", "weak")
    return Word("report.look", "easy") if difficulty > EASY else None


def _warn(complete: int | None) -> Cell:
    """Whether the numbers suffice for alpha; None of people means that there is no alpha at all."""
    if complete is None:
        return Word("report.warning", "none")
    return Word("report.warning", "few") if complete < FEW else None


def build_reliability(people: Sequence[Person], outline: Outline) -> Table:
    """One row a lesson: KR-20 of first tries with its 95 % confidence interval, and whether the numbers suffice."""
    rows: list[tuple[Cell, ...]] = []
    for lesson in outline.lessons:
        if len(lesson.items) < 2:
            continue
        scores = _find_complete(people, lesson)
        found = find_reliability(scores)
        warning = _warn(None if found is None else len(scores))
        values = (None, None, None) if found is None else (found.alpha, found.low, found.high)
        rows.append((lesson.title, len(lesson.items), len(scores), *values, warning))
    heads = columns("lesson", items="whole", complete="whole", alpha="number", low="number", high="number")
    return Table("reliability", (*heads, *columns("warning")), tuple(rows), (("reliability", {"few": FEW}),))
