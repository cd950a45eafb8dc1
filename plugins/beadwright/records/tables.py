"""Tables: the one form in which page, workbook and data file get every number of the report."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the language table, `<section>.<name>`; the data file has its name, and `count` if there is one.

    What learners typed never becomes a `Word`, so it cannot pass for one.
    """

    section: str
    name: str
    count: int | None = None

    def to_data(self) -> str:
        """The name, which stays the same in every language."""
        return self.name if self.count is None else f"{self.name} {self.count}"


Cell = str | int | float | Word | None
"""What stands in a table. None: there is nothing to say, such as the mean of nobody."""

Kind = Literal["text", "whole", "number", "share", "p"]
"""How a column is written: words, a whole number, a number with a decimal, a share of 1 as percent, a probability."""


Note = tuple[str, Mapping[str, str | int]]
"""A sentence of `report.notes` by its name, and its fields."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its key in the data, how it is written, its heading where the language table has none for the key."""

    key: str
    kind: Kind = "text"
    heading: str | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """A table by the name of its words in `report.tables`. Each row has a cell for each column.

    `notes` have to be read with it.
    """

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    notes: tuple[Note, ...] = ()
    picture: Picture | None = None

    def to_data(self) -> Iterator[dict[str, str | int | float | None]]:
        """A mapping for each row, made when it is asked for: a table of learners may have a hundred thousand."""
        keys = [column.key for column in self.columns]
        for row in self.rows:
            yield dict(zip(keys, (cell.to_data() if isinstance(cell, Word) else cell for cell in row), strict=True))


@dataclass(frozen=True, slots=True)
class Picture:
    """What is drawn of a table: a picture of this form, from the columns `values` of its rows, called by `label`.

    `bars`: a bar a row, or two, the second beside the first. `lines`: rows are points in order, from one column.
    `spots`: the two columns are across and up, and `by` tells kinds of spot apart.
    """

    form: Literal["bars", "lines", "spots"]
    label: tuple[str, ...]
    values: tuple[str, ...]
    by: str | None = None
    top: float | None = None
    marks: tuple[float, float] | None = None
    """Where `spots` are divided, across and up."""


def columns(text: str = "", **kinds: Kind) -> tuple[Column, ...]:
    """Columns by key: those of `text`, parted by spaces, are words; then each key with its kind.

    >>> [column.kind for column in columns("lesson", count="whole")]
    ['text', 'whole']
    """
    return (*(Column(key) for key in text.split()), *(Column(key, kind) for key, kind in kinds.items()))
