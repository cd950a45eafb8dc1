"""Arithmetic before it is written in a code: rows of numerals, signs and what holds rows inside.

One row serves every code, so that a problem in Nemeth and in UEB comes from the same value.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from beadwright.engine import FractionProblem, MixedNumber, Number, Percent, Problem, Product, Quotient, Root, Sum

SignName = Literal["+", "-", "×", "·", "÷"]
RelationName = Literal["=", "<", ">", ":", "::"]
Currency = Literal["", "$", "£", "€", "¢"]


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number as print writes it: digits, `.` as marker, `,` or a space between groups; `¢` stands after it."""

    text: str
    currency: Currency = ""


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign of operation; no space around it, unless the print is `spaced`."""

    name: SignName
    spaced: bool = False


@dataclass(frozen=True, slots=True)
class Relation:
    """A sign of comparison, with a space on either side."""

    name: RelationName


@dataclass(frozen=True, slots=True)
class Letters:
    """Letters that stand for numbers or units, unspaced."""

    text: str


@dataclass(frozen=True, slots=True)
class Word:
    """A word of print among the numbers, such as `of`, with a space on either side."""

    text: str


@dataclass(frozen=True, slots=True)
class PercentSign:
    """The percent sign after a numeral."""


@dataclass(frozen=True, slots=True)
class Omission:
    """A place left open for the answer."""


@dataclass(frozen=True, slots=True)
class Remainder:
    """The letter r between a quotient and its remainder, with a space on either side (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Fraction:
    """One row over another, with a horizontal line, or a slanted one where print has it so."""

    above: Row
    below: Row
    slanted: bool = False


@dataclass(frozen=True, slots=True)
class Mixed:
    """A whole number and a fraction side by side."""

    whole: Numeral
    part: Fraction


@dataclass(frozen=True, slots=True)
class Radical:
    """A root; `index` is empty for a square root. Without `bar` the sign has no line over what follows it."""

    inside: Row
    index: Row = ()
    bar: bool = True


@dataclass(frozen=True, slots=True)
class Enclosed:
    """A row in parentheses or brackets; a list where its parts are set off by commas."""

    opening: Literal["(", "["]
    parts: tuple[Row, ...]


Node = (
    Numeral
    | Sign
    | Relation
    | Letters
    | Word
    | PercentSign
    | Omission
    | Remainder
    | Fraction
    | Mixed
    | Radical
    | Enclosed
)
Row = tuple[Node, ...]


def build_problem_row(problem: Problem, *, currency: Currency = "", of: str = "of") -> Row:
    """The row of a problem, its numbers grouped as in print; `to … places` is no arithmetic and is left to the text.

    `of` is the word between a percentage and its number, in the language of the text.
    """
    if isinstance(problem, Sum):
        first, *rest = problem.terms
        signed: list[Node] = [*_build_number(first.number, currency)]
        for term in rest:
            signed += [Sign(term.sign), *_build_number(term.number, currency)]
        return tuple(signed)
    if isinstance(problem, Root):
        return (Radical(_build_number(problem.radicand, currency)),)
    if isinstance(problem, Percent):
        of_number = (PercentSign(), Word(of), *_build_number(problem.of, currency))
        return (*_build_number(problem.percent, ""), *of_number)
    return _build_pair(problem, currency)


def _build_pair(problem: Product | Quotient | FractionProblem, currency: Currency) -> Row:
    """The row of a problem of two numbers; money is divided or multiplied by a plain number."""
    if isinstance(problem, FractionProblem):
        second = _build_number(problem.second, currency if problem.operation in "+-" else "")
        return (*_build_number(problem.first, currency), Sign(problem.operation), *second)
    if isinstance(problem, Product):
        return (*_build_number(problem.first, currency), Sign("×"), *_build_number(problem.second, ""))
    return (*_build_number(problem.dividend, currency), Sign("÷"), *_build_number(problem.divisor, ""))


def build_equation_row(problem: Problem, answer: str | None, remainder: str | None = None) -> Row:
    """A problem with its answer after the equals sign; an open place for it where `answer` is None."""
    start = (*build_problem_row(problem), Relation("="))
    return (*start, Omission()) if answer is None else (*start, *build_answer_row(answer, remainder))


def build_answer_row(answer: str, remainder: str | None = None, *, currency: Currency = "") -> Row:
    """An answer as data writes it (`1034.5`, `1 7/8`), and the remainder where one is left."""
    if remainder is None:
        return build_number_row(answer, currency=currency)
    return (*build_number_row(answer, currency=currency), Remainder(), *build_number_row(remainder))


def build_number_row(text: str, *, currency: Currency = "") -> Row:
    """The row of one number as data writes it, grouped as in print.

    >>> build_number_row("1034.5")
    (Numeral(text='1,034.5', currency=''),)
    """
    if "/" not in text:
        return (Numeral(group_digits(text), currency),)
    whole, _, part = text.rpartition(" ")
    above, _, below = part.partition("/")
    fraction = Fraction((Numeral(group_digits(above)),), (Numeral(group_digits(below)),))
    return (fraction,) if whole == "" else (Mixed(Numeral(group_digits(whole)), fraction),)


def _build_number(number: Number | MixedNumber, currency: Currency) -> Row:
    return build_number_row(str(number), currency=currency)


def group_digits(text: str) -> str:
    """Digits with a comma before every third of the whole part."""
    whole, marker, decimals = text.partition(".")
    return f"{int(whole):,}{marker}{decimals}"
