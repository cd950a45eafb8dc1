"""What a frame reads right after a slip: for practice that is checked at the end of each digit."""

from __future__ import annotations

from collections.abc import Iterator

from beadwright.engine.errors import FrameError
from beadwright.engine.hand import FromTerm, build_hand
from beadwright.engine.methods import METHODS
from beadwright.engine.slips.cause import Prediction, build_prediction, likelihood
from beadwright.engine.slips.digits import Place, find_change, wrong_way_round
from beadwright.engine.slips.occurrence import Occurrence
from beadwright.engine.slips.occurrences import DRIFTS, find_digit_slips, find_places, find_spanning_slips
from beadwright.engine.walkthrough import Walkthrough

Readings = dict[int, tuple[Prediction, ...]]
"""Causes by what the whole frame reads (column 1 being the ones), the likeliest first."""


def predict_readings(walkthrough: Walkthrough) -> dict[int, Readings]:
    """For each step that works a digit, the wrong readings that a slip in this digit leaves behind at once."""
    begun: set[FromTerm] = set()
    found: dict[int, Readings] = {}
    spanning = _find_spanning(walkthrough)
    for at, number in find_places(walkthrough):
        causes: dict[int, set[Prediction]] = {}
        source = at.work.source
        begins = isinstance(source, FromTerm) and source not in begun
        for reading, slip, variant in (*_find_digit_readings(at), *(_find_drifts(at) if begins else ())):
            causes.setdefault(reading, set()).add(build_prediction(slip, variant, at.work.column, number))
        for reading, cause in _find_spanning_readings(at, number, spanning.get(number, [])):
            causes.setdefault(reading, set()).add(cause)
        if isinstance(source, FromTerm):
            begun.add(source)
        found[number] = {reading: tuple(sorted(causes[reading], key=likelihood)) for reading in sorted(causes)}
    return found


def _find_spanning(walkthrough: Walkthrough) -> dict[int, list[Occurrence]]:
    """The slips that span several digits of a product or a quotient, by the step that goes wrong first."""
    right = build_hand(walkthrough.house, METHODS[walkthrough.method].inner)
    found: dict[int, list[Occurrence]] = {}
    for occurrence in find_spanning_slips(walkthrough, right):
        if occurrence.plan is None:  # with another plan, the steps before it are others too
            found.setdefault(occurrence.step, []).append(occurrence)
    return found


def _find_spanning_readings(at: Place, number: int, slips: list[Occurrence]) -> Iterator[tuple[int, Prediction]]:
    value = at.frame.value
    for occurrence in slips:
        try:
            moves = occurrence.hand(at.frame, at.work, number).moves
        except FrameError:
            continue
        change = find_change(at.frame, moves)
        if change is not None and change != at.due:
            yield value + change, build_prediction(occurrence.slip, occurrence.variant, occurrence.column, number)


def _find_digit_readings(at: Place) -> Iterator[tuple[int, str, str]]:
    value = at.frame.value
    for slip, variant in find_digit_slips(at):
        yield value + variant.change, slip, variant.name
    for made in wrong_way_round(at):
        change = (at.work.digit - 2 * at.frame.digit(at.work.column)) * 10 ** (at.work.column - 1)
        yield value + change, "wrong-way-round", made.variant


def _find_drifts(at: Place) -> Iterator[tuple[int, str, str]]:
    """The first digit of a number in a neighbouring column."""
    value, digit = at.frame.value, at.work.digit
    for name, way in DRIFTS.items():
        column = at.work.column + way
        if 0 < column <= at.frame.columns:
            reading = value + (-1 if at.takes else 1) * digit * 10 ** (column - 1)
            if 0 <= reading < 10**at.frame.columns:
                yield reading, "column-drift", name
