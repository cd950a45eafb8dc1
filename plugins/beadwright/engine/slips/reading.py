"""Slips in reading a right frame: the marker in a wrong place, the zeros of a quotient passed over.

Source: PROCEDURES §5, common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from beadwright.engine.frame import Column
from beadwright.engine.number import Number
from beadwright.engine.problem import Percent, Product, Quotient
from beadwright.engine.slips.cause import Cause, build_prediction
from beadwright.engine.walkthrough import Answer, Walkthrough


def find_misread_places(walkthrough: Walkthrough) -> Iterator[Cause]:
    """Each wrong answer that comes of reading the right digits in a wrong place, with the slip."""
    answer = walkthrough.answer
    if answer.columns is None or answer.parts != ():
        return
    units = int(answer.text.replace(".", ""))
    if units == 0:  # 0 wherever the marker is
        return
    seen = {answer.text}
    for variant, places in _find_wrong_places(walkthrough):
        text = _write(units, places)
        if text not in seen:
            seen.add(text)
            cause = build_prediction("decimal-marker-lost", variant, Column(answer.columns[0]), None)
            yield _write_whole(text, answer), cause
    yield from _pass_over_zeros(walkthrough)


def _find_wrong_places(walkthrough: Walkthrough) -> Iterator[tuple[str, int]]:
    """Ways to lose the marker, and the places that the answer is then read with (below 0: zeros before the marker)."""
    problem, answer = walkthrough.problem, walkthrough.answer
    if answer.decimals > 0:
        yield "none", 0
    if isinstance(problem, Product):
        yield "first-only", problem.first.places
        yield "second-only", problem.second.places
    if isinstance(problem, Percent):
        yield "percent-only", answer.decimals - 2
    if isinstance(problem, Quotient) and answer.decimals > 0 and answer.columns is not None:
        yield "dividend-marker", walkthrough.ones_column - answer.columns[1]


def _write(units: int, places: int) -> str:
    return str(Number(units, places) if places >= 0 else Number(units * 10**-places))


def _write_whole(text: str, answer: Answer) -> str:
    return text if answer.remainder is None else f"{text} r {answer.remainder.text}"


def _pass_over_zeros(walkthrough: Walkthrough) -> Iterator[Cause]:
    """A whole quotient read without the zeros inside it."""
    answer = walkthrough.answer
    if not isinstance(walkthrough.problem, Quotient) or answer.decimals > 0 or answer.columns is None:
        return
    read = re.sub(r"(?<=[1-9])0+(?=[1-9])", "", answer.text)
    if read != answer.text:
        column = Column(answer.columns[0] - answer.text.index("0"))
        yield _write_whole(read, answer), build_prediction("zero-of-quotient-dropped", "read", column, None)
