"""Pictures of tables: where bars, lines and spots lie, and the same in words. Templates only draw.

Lengths are in units of the picture's own width, which the page stretches to the room there is.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from beadwright.records.tables import Cell, Picture, Table, Word
from beadwright.records.wording import format_cell, format_heading, format_title, format_value
from beadwright.render import Words

WIDTH = 640
MOST_BARS = 16
MOST_SPOTS = 2000
_ROW, _BAR = 34, 13
_HEIGHT, _EDGE = 260, 40
_LONGEST_LABEL = 84


@dataclass(frozen=True, slots=True)
class Mark:
    """A bar from `x` to the right, a point of a line, or a spot; `kind` numbers the series it belongs to, from 0."""

    x: float
    y: float
    length: float
    text: str
    kind: int


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture ready for its template, `twin` being the sentences that say the same."""

    form: str
    name: str
    title: str
    width: int
    height: int
    marks: tuple[Mark, ...]
    labels: tuple[Mark, ...]
    guides: tuple[Mark, ...]
    twin: tuple[str, ...]


def draw_picture(table: Table, words: Words) -> Drawn | None:
    """The picture of a table, None where it has none or nothing to draw."""
    picture = table.picture
    if picture is None or len(table.rows) == 0:
        return None
    draw = {"bars": _draw_bars, "lines": _draw_lines, "spots": _draw_spots}[picture.form]
    return draw(table, picture, words)


def _find(table: Table, key: str) -> int:
    return [column.key for column in table.columns].index(key)


def _number(cell: Cell) -> float | None:
    return None if cell is None or isinstance(cell, str | Word) else float(cell)


def _name(table: Table, picture: Picture, row: tuple[Cell, ...], words: Words) -> str:
    """What a row is called in the picture."""
    return ", ".join(format_cell(row[_find(table, key)], "text", words) for key in picture.label)


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST_LABEL else f"{text[: _LONGEST_LABEL - 1].rstrip()}…"


def _draw_bars(table: Table, picture: Picture, words: Words) -> Drawn | None:
    places = [_find(table, key) for key in picture.values]
    rows = [row for row in table.rows if _number(row[places[0]]) is not None]
    if rows == []:
        return None
    shown = rows[:MOST_BARS]
    top = picture.top or max(_number(row[place]) or 0 for row in rows for place in places) or 1
    step = _ROW + (_BAR + 3) * (len(places) - 1)
    marks, labels = [], []
    for number, row in enumerate(shown):
        name = _cut(_name(table, picture, row, words))
        labels.append(Mark(0, number * step + 11, 0, name, 0))
        for series, place in enumerate(places):
            value = _number(row[place])
            text = format_cell(row[place], table.columns[place].kind, words)
            y = number * step + 15 + series * (_BAR + 3)
            marks.append(Mark(0, y, (WIDTH - 80) * max(0.0, min(1.0, (value or 0) / top)), text, series))
    twin = _tell_bars(table, picture, rows, len(shown), words)
    return _finish(table, picture, words, len(shown) * step + 4, marks, labels, [], twin)


def _tell_bars(
    table: Table, picture: Picture, rows: list[tuple[Cell, ...]], shown: int, words: Words
) -> tuple[str, ...]:
    place = _find(table, picture.values[0])
    kind = table.columns[place].kind
    ordered = sorted(rows, key=lambda row: _number(row[place]) or 0)
    least, most = ordered[0], ordered[-1]
    said = words.text(
        "report.twin.bars",
        count=len(rows),
        most=_name(table, picture, most, words),
        high=format_cell(most[place], kind, words),
        least=_name(table, picture, least, words),
        low=format_cell(least[place], kind, words),
    )
    series = [format_heading(table.columns[_find(table, key)], words) for key in picture.values]
    second = [words.text("report.twin.second", first=series[0], second=series[1])] if len(series) > 1 else []
    part = [words.text("report.twin.shown", shown=shown, count=len(rows))] if shown < len(rows) else []
    return (said, *second, *part)


def _draw_lines(table: Table, picture: Picture, words: Words) -> Drawn | None:
    place = _find(table, picture.values[0])
    points = [(row, value) for row in table.rows if (value := _number(row[place])) is not None]
    if len(points) < 2:
        return None
    top, kind = picture.top or max(value for _, value in points) or 1, table.columns[place].kind
    wide, high = WIDTH - 2 * _EDGE, _HEIGHT - 2 * _EDGE
    marks = [
        Mark(
            _EDGE + wide * number / (len(points) - 1),
            _EDGE + high * (1 - value / top),
            0,
            f"{_name(table, picture, row, words)}: {format_value(value, kind, words)}",
            0,
        )
        for number, (row, value) in enumerate(points)
    ]
    ends = [_name(table, picture, row, words) for row, _ in (points[0], points[-1])]
    labels = [Mark(_EDGE, _HEIGHT - 8, 0, ends[0], 0), Mark(WIDTH - _EDGE, _HEIGHT - 8, 0, ends[1], 1)]
    guides = [
        Mark(_EDGE, _EDGE + high * (1 - part), wide, format_value(part * top, kind, words), 0) for part in (0, 0.5, 1)
    ]
    values = [value for _, value in points]
    told = {"begin": values[0], "end": values[-1], "high": max(values), "low": min(values)}
    fields = {name: format_value(value, kind, words) for name, value in told.items()}
    twin = words.text("report.twin.lines", first=ends[0], last=ends[1], **fields)
    return _finish(table, picture, words, _HEIGHT, marks, labels, guides, (twin,))


def _draw_spots(table: Table, picture: Picture, words: Words) -> Drawn | None:
    across, up = (_find(table, key) for key in picture.values)
    by = _find(table, picture.by or picture.label[0])
    kinds = list(dict.fromkeys(format_cell(row[by], "text", words) for row in table.rows))
    low, top = 1.0, picture.top or 1.0
    wide, high = WIDTH - 2 * _EDGE, _HEIGHT - 2 * _EDGE
    marks = [
        Mark(
            _EDGE + wide * (_number(row[across]) or 0),
            _EDGE + high * (1 - ((_number(row[up]) or low) - low) / (top - low)),
            0,
            _name(table, picture, row, words),
            kinds.index(format_cell(row[by], "text", words)) % 3,
        )
        for row in table.rows[:MOST_SPOTS]
    ]
    labels = [
        Mark(WIDTH / 2, _HEIGHT - 8, 0, format_heading(table.columns[across], words), 2),
        Mark(_EDGE, _EDGE - 14, 0, format_heading(table.columns[up], words), 0),
    ]
    guides = []
    if picture.marks is not None:
        x, y = picture.marks
        guides = [
            Mark(_EDGE + wide * x, _EDGE, high, format_value(x, table.columns[across].kind, words), 1),
            Mark(_EDGE, _EDGE + high * (1 - (y - low) / (top - low)), wide, format_value(y, "number", words), 0),
        ]
    counts = Counter(format_cell(row[by], "text", words) for row in table.rows)
    shapes = words.items("report.twin.shapes")
    twin = tuple(
        words.text("report.twin.spots", shape=shapes[number % 3], kind=kind, count=counts[kind])
        for number, kind in enumerate(kinds)
    )
    return _finish(table, picture, words, _HEIGHT, marks, labels, guides, twin)


def _finish(
    table: Table,
    picture: Picture,
    words: Words,
    height: int,
    marks: list[Mark],
    labels: list[Mark],
    guides: list[Mark],
    twin: tuple[str, ...],
) -> Drawn:
    title = words.text("report.picture", title=format_title(table, words))
    return Drawn(picture.form, table.name, title, WIDTH, height, tuple(marks), tuple(labels), tuple(guides), twin)
