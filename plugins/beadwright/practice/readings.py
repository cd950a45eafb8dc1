"""Slips in reading a frame and in setting a number: what the wrong number is, and which slip gives it.

The weights order the slips of one wrong number; a larger one is named first. They are a judgement from PROCEDURES §5
(common practice, no source): what a beginner's fingers pass over most often stands first.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from beadwright.engine import Column, Frame, Number, Prediction

Causes = dict[str, tuple[Prediction, ...]]
"""Causes of wrong answers by the wrong answer's text, the likeliest first."""


class ReadingSlip(NamedTuple):
    """A slip in reading or setting: how likely it is, and why."""

    weight: int
    because: str


READING_SLIPS: dict[str, ReadingSlip] = {
    "upper-bead-as-one": ReadingSlip(90, "all beads feel alike until the bar is felt for"),
    "upper-bead-missed": ReadingSlip(85, "fingers that sweep below the bar alone do not meet it"),
    "zero-ignored": ReadingSlip(80, "an empty column is passed over like a gap"),
    "column-drift": ReadingSlip(70, "the hand starts one column off the unit mark"),
    "digits-reversed": ReadingSlip(60, "the columns were read from the wrong end"),
    "bead-miscounted": ReadingSlip(50, "one bead too many or too few under the finger"),
}


class Wrong(NamedTuple):
    """A wrong number in units of the last place, and how it came about."""

    units: int
    slip: str
    variant: str
    column: Column


def predict_misreadings(frame: Frame, number: Number, lowest: Column) -> Causes:
    """Wrong readings of a frame that shows `number`, its last place in the column `lowest`."""
    wrong = (*_misread_upper(frame, lowest), *_misread_digits(number, lowest), *_miscount(frame, lowest, number))
    return _gather(number, wrong)


def predict_missettings(frame: Frame, number: Number, lowest: Column) -> Causes:
    """What a frame on which `number` was set wrongly reads, its last place in the column `lowest`."""
    wrong = (*_misset_upper(frame, lowest, number), *_misread_digits(number, lowest), *_miscount(frame, lowest, number))
    return _gather(number, wrong)


def _gather(number: Number, wrong: tuple[Wrong, ...]) -> Causes:
    causes: dict[str, set[Prediction]] = {}
    for units, slip, variant, column in wrong:
        if units >= 0 and units != number.units:
            cause = Prediction(slip, column, None, READING_SLIPS[slip].weight, variant)
            causes.setdefault(str(Number(units, number.places)), set()).add(cause)
    return {text: tuple(sorted(causes[text], key=_likelihood)) for text in sorted(causes)}


def _likelihood(cause: Prediction) -> tuple[int, str, int, str]:
    return (-cause.weight, cause.slip, -cause.column, cause.variant)


def _place(column: int, lowest: int) -> int:
    """What one lower bead of a column is worth, in units of the last place."""
    place: int = 10 ** (column - lowest)
    return place


def _columns_with_upper(frame: Frame, lowest: int) -> list[Column]:
    return [Column(c) for c in range(frame.columns, lowest - 1, -1) if frame.beads_in(c)[0] > 0]


def _units(frame: Frame, lowest: int) -> int:
    return int(frame.value // 10 ** (lowest - 1))


def _misread_upper(frame: Frame, lowest: Column) -> Iterator[Wrong]:
    """The upper bead counted as 1, or not met at all: in all columns, or in one."""
    columns, units = _columns_with_upper(frame, lowest), _units(frame, lowest)
    for slip, lost in (("upper-bead-as-one", 4), ("upper-bead-missed", 5)):
        if len(columns) > 1:
            yield Wrong(units - lost * sum(_place(c, lowest) for c in columns), slip, "all", columns[0])
        for column in columns:
            yield Wrong(units - lost * _place(column, lowest), slip, "one", column)


def _misset_upper(frame: Frame, lowest: Column, number: Number) -> Iterator[Wrong]:
    """The upper bead set as if it were 1: upper and four lower for 5, upper and one lower for 2."""
    if frame.shape.upper == 0:
        return
    for column, digit in _each_digit(number, lowest):
        if 1 <= digit <= 5:
            yield Wrong(number.units + 4 * _place(column, lowest), "upper-bead-as-one", "set", column)


def _misread_digits(number: Number, lowest: Column) -> Iterator[Wrong]:
    """The right digits in wrong places: a 0 passed over, all of it one column off, read from the wrong end."""
    digits = str(number.units)
    highest = Column(lowest + len(digits) - 1)
    held = digits.replace("0", "")
    if held not in ("", digits):
        first_zero = Column(highest - digits.index("0"))
        yield Wrong(int(held), "zero-ignored", "all", first_zero)
    if number.units > 0:
        yield Wrong(number.units * 10, "column-drift", "left", highest)
    if digits[-1] == "0" and number.units > 0:
        yield Wrong(number.units // 10, "column-drift", "right", highest)
    if len(digits) > 1:
        yield Wrong(int(digits[::-1]), "digits-reversed", "all", highest)


def _miscount(frame: Frame, lowest: Column, number: Number) -> Iterator[Wrong]:
    """One lower bead too many or too few in one column."""
    for column, digit in _each_digit(number, lowest):
        lower = frame.shape.split(digit)[1]
        if lower > 0:
            yield Wrong(number.units - _place(column, lowest), "bead-miscounted", "too-few", column)
        if digit > 0 and lower < frame.shape.lower:
            yield Wrong(number.units + _place(column, lowest), "bead-miscounted", "too-many", column)


def _each_digit(number: Number, lowest: int) -> list[tuple[Column, int]]:
    digits = str(number.units)
    return [(Column(lowest + len(digits) - 1 - index), int(digit)) for index, digit in enumerate(digits)]
