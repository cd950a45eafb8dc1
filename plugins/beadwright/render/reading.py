"""A frame read out: what its columns hold and which beads are set, so that nothing is left to a picture."""

from __future__ import annotations

from beadwright.engine import Frame
from beadwright.render.leads import capitalise
from beadwright.render.numbers import format_number
from beadwright.render.phrases import Phrases, find_phrases
from beadwright.render.words import Words


def read_frame(
    frame: Frame, words: Words, *, ones_column: int | None = 1, lowest: int | None = None, digits: bool = True
) -> str:
    """The frame in words: the number, each column in use, and which beads are set there.

    Columns from the highest in use down to `lowest` are read, by default to the ones, or as far as beads are set; with
    `ones_column` None they go by number, and those at rest are passed over. Without `digits` only beads are told, for a
    reader who is to find the number.

    >>> from beadwright.engine import build_frame
    >>> from beadwright.render.words import load_words
    >>> read_frame(build_frame().with_number(305), load_words("en"))
    '305: hundreds 3, tens 0, ones 5. On the hundreds 3 lower beads, on the tens no bead, on the ones the upper bead.'
    """
    phrases = find_phrases(words, frame.shape, ones_column)
    columns = _find_read(frame, ones_column, lowest)
    separator = words.pattern("list.separator")
    if columns == []:
        return words.text("reading.at_rest")
    beads = capitalise(separator.join(_read_beads(frame, column, phrases) for column in columns))
    if not digits:
        return words.text("reading.beads", beads=beads)
    held = separator.join(_read_column(frame, column, phrases) for column in columns)
    if ones_column is None:
        return words.text("reading.columns", columns=capitalise(held), beads=beads)
    number = format_number(_read_number(frame, columns[0], columns[-1], ones_column), words)
    return words.text("reading.number", number=number, columns=held, beads=beads)


def name_frame(frame: Frame, words: Words, *, ones_column: int | None = 1, lowest: int | None = None) -> str:
    """A short name for a picture of the frame: what each column in use holds.

    >>> from beadwright.engine import build_frame
    >>> from beadwright.render.words import load_words
    >>> name_frame(build_frame().with_number(305), load_words("en"))
    'Frame: hundreds 3, tens 0, ones 5'
    """
    phrases = find_phrases(words, frame.shape, ones_column)
    columns = _find_read(frame, ones_column, lowest)
    if columns == []:
        return words.text("reading.name_at_rest")
    held = words.pattern("list.separator").join(_read_column(frame, column, phrases) for column in columns)
    return words.text("reading.name", columns=held)


def _find_read(frame: Frame, ones_column: int | None, lowest: int | None) -> list[int]:
    """The columns to read, leftmost first; none when the whole frame is at rest."""
    used = [column for column in range(frame.columns, 0, -1) if frame.digit(column) != 0]
    if ones_column is None or used == []:
        return used
    last = min(ones_column if lowest is None else lowest, used[-1])
    return list(range(max(used[0], ones_column), last - 1, -1))


def _read_number(frame: Frame, highest: int, lowest: int, ones_column: int) -> str:
    whole, decimals = frame.digits(highest, ones_column), frame.digits(ones_column - 1, lowest)
    return whole if decimals == "" else f"{whole}.{decimals}"


def _read_column(frame: Frame, column: int, phrases: Phrases) -> str:
    return phrases.column(column).holds.format(digit=frame.digit(column))


def _read_beads(frame: Frame, column: int, phrases: Phrases) -> str:
    key = "reading.column_by_number" if phrases.ones_column is None else "reading.column"
    return phrases.words.text(key, on=phrases.column(column).on, beads=phrases.beads(*frame.beads_in(column)))
