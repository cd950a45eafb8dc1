"""Markers for what the engine reads: problems, numbers on a frame, beads."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, cast, get_args

from beadwright.course.values import Json, Marker, as_text, fail
from beadwright.engine import Number, Problem, ProblemError, parse_problem


@dataclass(frozen=True, slots=True)
class ProblemText(Marker):
    """A problem as the engine parses it, such as `48 + 37` or `954 ÷ 23 to 2 places`."""

    def read(self, value: object, source: Any) -> Problem:
        """The problem."""
        if isinstance(value, get_args(Problem)):
            return cast("Problem", value)
        try:
            return parse_problem(as_text(value))
        except ProblemError as error:
            raise fail("problem-text", reason=error.reason, next_step=error.next_step) from None

    def json(self, source: Any) -> Json:
        """Text."""
        return {"type": "string", "minLength": 1, "maxLength": 400, "examples": ["48 + 37"]}


@dataclass(frozen=True, slots=True)
class NumberText(Marker):
    """A whole or decimal number as a frame shows it; groups of three may be parted by commas."""

    def read(self, value: object, source: Any) -> Number:
        """The number, with its places as written."""
        if isinstance(value, Number):
            return value
        found = re.fullmatch(r"([0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,60})(?:\.([0-9]{1,30}))?", as_text(value), re.ASCII)
        if found is None:
            raise fail("value-number")
        places = found[2] or ""
        return Number(int(found[1].replace(",", "") + places), len(places))

    def json(self, source: Any) -> Json:
        """Digits, as text or as what YAML takes for a number."""
        return {"type": ["string", "number"], "minimum": 0, "pattern": r"^[0-9,]+(\.[0-9]+)?$"}


@dataclass(frozen=True, slots=True)
class BeadPairs(Marker):
    """Upper and lower beads set in each column, leftmost first."""

    most: int = 104

    def read(self, value: object, source: Any) -> tuple[tuple[int, int], ...]:
        """The pairs; whether a column has so many beads is the frame's to say."""
        if not isinstance(value, tuple | list) or not 1 <= len(value) <= self.most:
            raise fail("value-beads")
        return tuple(self._read_pair(number, pair) for number, pair in enumerate(value))

    def _read_pair(self, number: int, pair: object) -> tuple[int, int]:
        if not isinstance(pair, tuple | list) or len(pair) != 2:
            raise fail("value-beads", at=number)
        upper, lower = (value if isinstance(value, str | int) else "" for value in pair)
        if re.fullmatch("[0-9]", str(upper)) is None or re.fullmatch("[0-9]", str(lower)) is None:
            raise fail("value-beads", at=number)
        return int(upper), int(lower)

    def json(self, source: Any) -> Json:
        """Pairs of digits."""
        digit = {"type": "integer", "minimum": 0, "maximum": 9}
        pair = {"type": "array", "items": digit, "minItems": 2, "maxItems": 2}
        return {"type": "array", "items": pair, "minItems": 1, "maxItems": self.most}
