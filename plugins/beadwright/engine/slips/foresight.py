"""What comes of a slip in a sum, by value alone.

Which digits a sum works, and in which columns, is fixed before any bead moves, and a digit worked rightly changes what
the frame reads by itself in its place or is refused. So what follows a slip need not be worked bead by bead, which
takes ten times as long. The run through a hand that slips (`find_slipped`) stays the measure: tests hold the two
together.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromTerm, Work
from beadwright.engine.number import write_number
from beadwright.engine.slips.cause import Cause, build_prediction
from beadwright.engine.slips.digits import Place
from beadwright.engine.slips.occurrences import DRIFTS, find_digit_slips, find_places
from beadwright.engine.walkthrough import Walkthrough


def foresee_causes(walkthrough: Walkthrough) -> Iterator[Cause]:
    """Each wrong answer that one slip in working or reading this sum gives."""
    places = walkthrough.answer.decimals
    unread = 10 ** (walkthrough.ones_column - places - 1)
    for end, slip, variant, column, number in (*_foresee_ends(walkthrough), *_misread_end(walkthrough)):
        text = write_number(end // unread, places)
        if text != walkthrough.answer.text:
            yield text, build_prediction(slip, variant, column, number)


End = tuple[int, str, str, Column, int | None]
"""What the whole frame reads in the end, and the slip, its variant, its column and its step."""


def _misread_end(walkthrough: Walkthrough) -> Iterator[End]:
    end = walkthrough.steps[-1].after
    value = end.value
    for variant, columns in find_misreadings(end):
        misread = value - sum(4 * 10 ** (column - 1) for column in columns)
        yield misread, "upper-bead-as-one", variant, columns[0], None


def find_misreadings(frame: Frame) -> list[tuple[str, list[Column]]]:
    """The columns whose upper bead may be read as 1: in all of them, or in one; by the variant's name."""
    columns = [Column(len(frame.beads) - index) for index, (upper, _) in enumerate(frame.beads) if upper > 0]
    every = [("read-all", columns)] if len(columns) > 1 else []
    return [*every, *(("read", [column]) for column in columns)]


def _foresee_ends(walkthrough: Walkthrough) -> Iterator[End]:
    columns = walkthrough.start.columns
    places = list(find_places(walkthrough))
    works = [at.work for at, _ in places]
    value = walkthrough.start.value
    for (at, number), later in zip(places, _sum_up_later(places), strict=True):
        for slip, variant in find_digit_slips(at):
            reads = value + variant.change
            if reads + later.least >= 0 and reads + later.most < 10**columns:
                yield reads + later.change, slip, variant.name, at.work.column, number
        value += at.due
    yield from _foresee_term_slips(places, works, columns)


class Later(NamedTuple):
    """What the digits after one do to what the frame reads: in all, and at the least and the most on the way."""

    change: int
    least: int
    most: int


def _sum_up_later(places: list[tuple[Place, int]]) -> list[Later]:
    """For each digit what those after it do, worked rightly."""
    found: list[Later] = []
    change = least = most = 0
    for at, _ in reversed(places):
        found.append(Later(change, least, most))
        change, least, most = at.due + change, min(0, at.due + least), max(0, at.due + most)
    return found[::-1]


def _foresee_term_slips(places: list[tuple[Place, int]], works: list[Work], columns: int) -> Iterator[End]:
    """The slips that span a number: it drifts, or the smaller digit is taken from the larger throughout."""
    begun, turned = set(), set()
    for index, (at, number) in enumerate(places):
        if not isinstance(at.work.source, FromTerm):
            continue
        term, value, column = at.work.source.term, at.frame.value, at.work.column
        if term not in begun:
            begun.add(term)
            for name, way in DRIFTS.items():
                end = work_on(value, _shift_term(works[index:], term, way), columns)
                if end is not None:
                    yield end, "column-drift", name, column, number
        if at.takes and term not in turned and at.frame.digit(column) < at.work.digit:
            turned.add(term)
            end = work_on(value, works[index:], columns, turned=term)
            if end is not None:
                yield end, "wrong-way-round", "turned", column, number


def _shift_term(works: Iterable[Work], term: int, way: int) -> Iterator[Work]:
    for work in works:
        yield work._replace(column=Column(work.column + way)) if work.source == FromTerm(term) else work


def work_on(value: int, works: Iterable[Work], columns: int, *, turned: int | None = None) -> int | None:
    """What a frame of so many columns that reads `value` reads after these digits; None when it refuses one.

    In the term numbered `turned`, the smaller digit is taken from the larger.
    """
    for work in works:
        if not 0 < work.column <= columns:
            return None
        place = 10 ** (work.column - 1)
        if work.action is not Action.TAKE:
            value += work.digit * place
        elif work.source == FromTerm(turned or 0) and value // place % 10 < work.digit:
            value += (work.digit - 2 * (value // place % 10)) * place
        else:
            value -= work.digit * place
        if not 0 <= value < 10**columns:
            return None
    return value
