"""Names of columns: by place from the ones column (ones, tens, tenths), or by number from the right."""

from __future__ import annotations

from typing import NamedTuple

from beadwright.render.words import Words


class ColumnName(NamedTuple):
    """How a column is spoken of: `place` alone (tens), `the` (the tens), `on` (on the tens).

    `read` and `also` say what it reads, first in a row and after another, `holds` in a list; their field is `digit`.
    """

    place: str
    the: str
    on: str
    read: str
    also: str
    holds: str


def name_column(column: int, ones_column: int | None, words: Words) -> ColumnName:
    """The name of a column by its place, the ones standing in `ones_column`; by its number when that is None.

    Columns count from the right. A place beyond the table's names goes by its number too.

    >>> from beadwright.render.words import load_words
    >>> name_column(5, 1, load_words("en")).on, name_column(3, 4, load_words("en")).place
    ('on the ten thousands', 'tenths')
    """
    place = None if ones_column is None else find_place(column - ones_column, words)
    if place is None:
        kind, fields = "column", {"column": str(column)}
    else:
        kind, fields = "place", {"place": place}
    entry = {part: words.text(f"places.{kind}.{part}", **fields, digit="{digit}") for part in ColumnName._fields}
    return ColumnName(**entry)


def find_place(power: int, words: Words) -> str | None:
    """The name of the place of ten to the `power` (0: ones, 1: tens, −1: tenths); None beyond the table's names."""
    if power >= 0:
        return _find_named(power, "places.whole", words)
    return _find_named(-power, "places.decimal", words)


def _find_named(power: int, key: str, words: Words) -> str | None:
    """The name among the first three, else its position in a group of three with the group's scale."""
    scale, position = divmod(power, 3)
    if scale == 0:
        return words.items(f"{key}.first")[position]
    scales = words.items(f"{key}.scales")
    if scale > len(scales):
        return None
    return words.items(f"{key}.group")[position].format(scale=scales[scale - 1])
