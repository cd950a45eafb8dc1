"""Item analysis on first tries: how hard an item is, how well it tells apart, how far a lesson can be trusted.

The first try is the measurement; what comes after has had feedback.
"""

from __future__ import annotations

from collections.abc import Iterator

from beadwright.records.outline import LessonOutline, Outline
from beadwright.records.statistics import find_item_total, find_reliability
from beadwright.records.tables import Cell, Table, Word, columns
from beadwright.records.tally import Tally

FEW = 30
"""With fewer complete learners than this, correlations and alpha are too uncertain to act upon."""
LOW_DISCRIMINATION = 0.15
"""Below, an item is worth a look (rule of thumb for point-biserials)."""
HARD, EASY = 0.3, 0.95
LEAST_TO_LOOK = 5
"""An item that fewer have tried is not judged at all."""


def build_items(tally: Tally, outline: Outline) -> Table:
    """One row a graded item that somebody tried, those worth a look first."""
    rows = [row for lesson in outline.lessons for row in _list_items(tally, lesson)]
    rows.sort(key=lambda row: row[-1] is None)
    heads = columns("lesson item ask asks technique", tried="whole", difficulty="share", complete="whole")
    fields: dict[str, str | int] = {
        "few": FEW, "least": LEAST_TO_LOOK, "hard": round(100 * HARD), "easy": round(100 * EASY),
        "low": f"{LOW_DISCRIMINATION:.2f}",
    }  # fmt: skip
    return Table(
        "items", (*heads, *columns(discrimination="number"), *columns("look")), tuple(rows), (("items", fields),)
    )


def _list_items(tally: Tally, lesson: LessonOutline) -> Iterator[tuple[Cell, ...]]:
    scores = tally.complete[lesson.id]
    for number, item in enumerate(lesson.items):
        tries = tally.items[lesson.id, item.id]
        difficulty = tries.share
        if difficulty is None:
            continue
        total = find_item_total(scores, number)
        look = _judge_item(tries.all, difficulty, total if scores.people >= FEW else None)
        asked = (
            lesson.title,
            item.id,
            Word("report.ask", item.ask),
            item.asks,
            Word("report.technique", item.technique or "none"),
        )
        yield (*asked, tries.all, difficulty, scores.people, total, look)


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


def build_reliability(tally: Tally, outline: Outline) -> Table:
    """One row a lesson: KR-20 of first tries with its 95 % confidence interval, and whether the numbers suffice."""
    rows: list[tuple[Cell, ...]] = []
    for lesson in outline.lessons:
        if len(lesson.items) < 2:
            continue
        scores = tally.complete[lesson.id]
        found = find_reliability(scores)
        warning = _warn(None if found is None else scores.people)
        values = (None, None, None) if found is None else (found.alpha, found.low, found.high)
        rows.append((lesson.title, len(lesson.items), scores.people, *values, warning))
    heads = columns("lesson", items="whole", complete="whole", alpha="number", low="number", high="number")
    return Table("reliability", (*heads, *columns("warning")), tuple(rows), (("reliability", {"few": FEW}),))
