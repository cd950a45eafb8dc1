"""Problems drawn by what they need, or mixed from what earlier lessons practise: the `draw` or `mix` of an item."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal, Self

from pydantic import Field, GetCoreSchemaHandler, ValidationInfo, model_validator
from pydantic_core import CoreSchema, core_schema

from beadwright.course.models_base import AProblem, Flag, Id, Line, Manner, Strict
from beadwright.course.values import Choice, Json, Listed, Whole, fail
from beadwright.engine import Operation, Technique, Want

MOST_NUMBERS = 20
MOST_DIGITS = 15
MOST_DIGITS_IN_ALL = 60  # work grows with it, and a draw tries thousands of problems
MOST_DRAWN = 60
MOST_MIXED = 30

DrawnAsk = Literal["answer", "next-move", "order-moves", "find-slip", "carry-out", "heard"]
MixedAsk = Literal["answer", "next-move", "carry-out", "heard"]
Need = Literal["direct", "partner-of-5", "partner-of-10", "both-partners", "count", "runs-on"]
_COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True, slots=True)
class Digits:
    """How many digits each number has: a list, or one number that counts for all of them."""

    def read(self, value: object, info: ValidationInfo) -> tuple[int, ...]:
        """The numbers of digits, one for each number of the problem."""
        two = info.data.get("operation") in (Operation.MULTIPLY, Operation.DIVIDE)
        terms: int | None = 2 if two else info.data.get("terms")
        written = value if isinstance(value, tuple | list) else (value,)
        for number, digits in enumerate(written):
            if not isinstance(digits, str | int) or re.fullmatch("[1-9]|1[0-5]", str(digits)) is None:
                at = {"at": number} if isinstance(value, tuple | list) else {}
                raise fail("item-digits", wanted=_name_numbers(terms), **at)
        if len(written) == 1:
            written = tuple(written) * (terms or 2)
        if not 2 <= len(written) <= MOST_NUMBERS or (terms is not None and len(written) != terms):
            raise fail("item-digits", wanted=_name_numbers(terms))
        counts = tuple(int(str(digits)) for digits in written)
        if sum(counts) > MOST_DIGITS_IN_ALL:
            raise fail("draw-size", most=MOST_DIGITS_IN_ALL, count=sum(counts))
        return counts

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """`read` in place of reading a tuple; it sees the fields before it."""
        return core_schema.with_info_plain_validator_function(
            self.read, metadata={"pydantic_js_functions": [lambda *_: self.json()]}
        )

    def json(self) -> Json:
        """One number of digits or a list of them."""
        one = {"type": "integer", "minimum": 1, "maximum": MOST_DIGITS}
        return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1, "maxItems": MOST_NUMBERS}]}


def _name_numbers(terms: int | None) -> str:
    count = terms or 2
    return f"{_COUNTS[count] if count < len(_COUNTS) else count} whole numbers"


class Drawn(Strict):
    """What every way of drawing problems has."""

    count: Annotated[int, Whole(1, MOST_DRAWN)] = 1
    """How many items this gives."""
    pool: Annotated[int, Whole(1, MOST_DRAWN)] | None = None
    """How many problems each item has for “another one”, its own among them; the course's number when left out."""
    seed: Annotated[int, Whole(0, 999_999_999)] = 0
    """Another number gives another choice of problems, the same one in each build."""
    ban: Annotated[tuple[AProblem, ...], Field(max_length=MOST_DRAWN), Listed()] = ()
    """Problems that are never drawn."""


class Draw(Drawn, Manner):
    """Items whose problems are drawn so that they need the wanted techniques and no harder ones."""

    operation: Annotated[Operation, Choice()]
    """What is worked: add, take, add-take (a mixture), multiply or divide."""
    terms: Annotated[int, Whole(2, MOST_NUMBERS)] | None = None
    """How many numbers a sum has, where `digits` does not say so by its length."""
    digits: Annotated[tuple[int, ...], Digits()]
    """How many digits each number has, such as [2, 2]; one number counts for all."""
    needs: Annotated[tuple[Annotated[Need, Choice()], ...], Field(max_length=6), Listed()] = ()
    """Techniques that each problem must need; `runs-on` asks for an exchange that runs on."""
    allow: Annotated[tuple[Annotated[Need, Choice(but=("runs-on",))], ...], Field(max_length=5), Listed()] | None = None
    """Techniques that a problem may need besides; when left out, those up to the hardest that is needed."""
    runs_on: Flag | None = None
    """Whether an exchange must run on (yes), must not (no), or may (left out)."""
    zeros: Flag | None = None
    """Whether a 0 must stand inside or at the end of a number, in division of the quotient (yes), must not, or may."""
    remainder: Flag | None = None
    """Whether a division must leave a remainder (yes), must not (no), or may (left out)."""
    ask: Annotated[DrawnAsk, Choice()] = "answer"
    """What each item asks for."""
    slip: Id | None = None
    """With `ask: find-slip`, the slip to make; any that fits when left out."""
    pin: Annotated[tuple[AProblem, ...], Field(max_length=MOST_DRAWN), Listed()] = ()
    """Problems that come first, as given."""

    @model_validator(mode="after")
    def _check_agreement(self) -> Self:
        if "runs-on" in self.needs and self.runs_on is False:
            raise fail("draw-runs-on", at="runs_on")
        if self.slip is not None and self.ask != "find-slip":
            raise fail("draw-slip", at="slip", ask=self.ask)
        banned = [problem for problem in self.pin if problem in self.ban]
        if banned:
            raise fail("draw-pinned", at="pin", problem=str(banned[0]))
        if len(self.pin) > self.count:
            raise fail("draw-pins", at="pin", most=self.count, count=len(self.pin))
        return self

    def want(self) -> Want:
        """What the engine is asked to draw; pinned problems are not drawn again."""
        needs = frozenset(Technique(name) for name in self.needs if name != "runs-on")
        return Want(
            operation=self.operation,
            digits=self.digits,
            needs=needs,
            allows=None if self.allow is None else frozenset(Technique(name) for name in self.allow),
            runs_on=True if "runs-on" in self.needs else self.runs_on,
            zeros=self.zeros,
            remainder=self.remainder,
            banned=frozenset(str(problem) for problem in (*self.ban, *self.pin)),
        )


class Mix(Drawn):
    """Items in turn from several lessons, so that each time a learner has to see anew what the problem asks for.

    Their problems are like those that the lessons practise, worked as there and on the frame used there.
    """

    of: Annotated[tuple[Line, ...], Field(min_length=2, max_length=MOST_MIXED), Listed()]
    """Lessons that this one builds on, by id, or objectives of theirs, as lesson/objective."""
    ask: Annotated[MixedAsk, Choice()] = "answer"
    """What each item asks for."""
