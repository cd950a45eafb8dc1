"""The report in a few sentences, each leading to the table that it is taken from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from statistics import median_high

from beadwright.records.report import Report
from beadwright.records.tables import Cell, Table, Word
from beadwright.records.wording import format_cell, format_title
from beadwright.render import Words

FIRST = 3
"""So many slips and objectives are named."""
MOST_NAMED = 12
LEAST_BEGUN = 5
"""An objective that fewer have begun is not named."""

Row = Mapping[str, Cell]


@dataclass(frozen=True, slots=True)
class Point:
    """A sentence, what it lists, if anything, and the table it leads to: its section and title."""

    text: str
    listed: tuple[str, ...]
    section: str
    title: str


def summarize(report: Report, words: Words) -> tuple[Point, ...]:
    """What a trainer asks first: who is done, what to teach again, whom to talk to, whether confidence grew."""
    tables = {table.name: table for table in report.tables}
    told = (
        ("finished", _tell_done(tables["learners"], len(report.outline.lessons), words)),
        ("slips", _tell_slips(tables["slips"], words)),
        ("objectives", _tell_objectives(tables["objectives"], words)),
        ("sureness", _tell_sureness(tables["sureness"], words)),
        ("ratings", _tell_ratings(tables["ratings"], len(report.outline.points), words)),
        ("items", _tell_items(tables["items"], words)),
    )
    return tuple(
        Point(text, listed, name.replace("_", "-"), format_title(tables[name], words))
        for name, points in told
        for text, listed in points
    )


_Told = Iterator[tuple[str, tuple[str, ...]]]


def _rows(table: Table) -> list[Row]:
    keys = [column.key for column in table.columns]
    return [dict(zip(keys, row, strict=True)) for row in table.rows]


def _number(cell: Cell) -> float:
    return float(cell) if isinstance(cell, int | float) else 0.0


def _show(row: Row, key: str, words: Words) -> str:
    return format_cell(row[key], "text" if isinstance(row[key], str | Word) else "number", words)


def _tell_done(learners: Table, lessons: int, words: Words) -> _Told:
    done = [int(_number(row["done"])) for row in _rows(learners)]
    if len(done) > 0:
        counts = {"all": done.count(lessons), "none": done.count(0), "middle": median_high(done), "lessons": lessons}
        yield words.text("report.short.done", count=len(done), **counts), ()


def _tell_slips(slips: Table, words: Words) -> _Told:
    """The slips that happened to most people; one that happened to one person is that person's."""
    rows = [row for row in _rows(slips) if _is_slip(row["slip"]) and _number(row["learners"]) > 1]
    rows.sort(key=lambda row: (-_number(row["learners"]), -_number(row["answers"])))
    if len(rows) > 0:
        yield words.text("report.short.slips"), _list(rows[:FIRST], "slip", ("slip", "lesson", "learners"), words)


def _is_slip(cell: Cell) -> bool:
    return isinstance(cell, Word) and cell.section == "practice.slips"


def _tell_objectives(objectives: Table, words: Words) -> _Told:
    rows = [row for row in _rows(objectives) if _number(row["begun"]) >= LEAST_BEGUN and _number(row["rate_met"]) < 1]
    rows.sort(key=lambda row: _number(row["rate_met"]))
    if len(rows) > 0:
        listed = _list(rows[:FIRST], "objective", ("objective", "lesson", "met", "begun"), words)
        yield words.text("report.short.objectives"), listed


def _list(rows: Sequence[Row], name: str, keys: Sequence[str], words: Words) -> tuple[str, ...]:
    return tuple(words.text(f"report.short.{name}", **{key: _show(row, key, words) for key in keys}) for row in rows)


def _tell_sureness(sureness: Table, words: Words) -> _Told:
    for kind in ("sure-wrong", "right-unsure"):
        rows = [row for row in _rows(sureness) if isinstance(row["kind"], Word) and row["kind"].name == kind]
        if len(rows) > 0:
            names = [_show(row, "learner", words) for row in rows[:MOST_NAMED]]
            more = [words.text("report.short.more", count=len(rows) - MOST_NAMED)] if len(rows) > MOST_NAMED else []
            yield words.text(f"report.short.{kind}", count=len(rows)), (*names, *more)
        elif len(sureness.rows) > 0:
            yield words.text(f"report.short.{kind}-nobody"), ()


def _tell_ratings(ratings: Table, points: int, words: Words) -> _Told:
    for row in _rows(ratings):
        if isinstance(row["rated"], Word) and row["p"] is not None:
            shown = {key: _show(row, key, words) for key in ("before", "after")} | {
                "p": format_cell(row["p"], "p", words)
            }
            yield words.text("report.short.ratings", count=int(_number(row["pairs"])), points=points, **shown), ()


def _tell_items(items: Table, words: Words) -> _Told:
    look = len([row for row in _rows(items) if row["look"] is not None])
    if look > 0:
        yield words.text("report.short.items", count=look, items=len(items.rows)), ()
