"""Problems as text and as values: `48 + 37 - 12`, `12.5 × 0.4`, `954 ÷ 23 to 2 places`, `15% of 80`, `√1444`.

A problem's text parses back to the same problem.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from typing import Literal

from beadwright.engine.errors import ProblemError
from beadwright.engine.number import MixedNumber, Number, Quantity

LONGEST_TEXT = 400
MOST_TERMS = 50
MOST_DIGITS = 60
MOST_PLACES = 30

Sign = Literal["+", "-"]
FractionSign = Literal["+", "-", "×", "÷"]


@dataclass(frozen=True, slots=True)
class Term:
    """One number of a sum with the sign it is worked with."""

    sign: Sign
    number: Number


@dataclass(frozen=True, slots=True)
class Sum:
    """Adding and taking away in turn: whole numbers or decimals, at least two terms, the first one added."""

    terms: tuple[Term, ...]

    @property
    def places(self) -> int:
        """The most places of any term."""
        return max([term.number.places for term in self.terms])

    def find_totals(self, places: int) -> list[int]:
        """The running totals after each term, in units of the last of so many places."""
        total, totals = 0, []
        for term in self.terms:
            units = term.number.units * 10 ** (places - term.number.places)
            total += units if term.sign == "+" else -units
            totals.append(total)
        return totals

    def __str__(self) -> str:
        first, *rest = self.terms
        return " ".join([str(first.number), *(f"{term.sign} {term.number}" for term in rest)])


@dataclass(frozen=True, slots=True)
class Product:
    """Two factors, in the order written."""

    first: Number
    second: Number

    @property
    def exact(self) -> Fraction:
        """The product, exactly."""
        return self.first.exact * self.second.exact

    def __str__(self) -> str:
        return f"{self.first} × {self.second}"


@dataclass(frozen=True, slots=True)
class Quotient:
    """A dividend over a divisor that is not 0, to so many places (0: whole quotient and remainder)."""

    dividend: Number
    divisor: Number
    places: int = 0

    @property
    def exact(self) -> Fraction:
        """The quotient, exactly."""
        return self.dividend.exact / self.divisor.exact

    def __str__(self) -> str:
        wanted = "" if self.places == 0 else f" to {self.places} place{'s' if self.places > 1 else ''}"
        return f"{self.dividend} ÷ {self.divisor}{wanted}"


@dataclass(frozen=True, slots=True)
class Percent:
    """So many percent of a number."""

    percent: Number
    of: Number

    @property
    def exact(self) -> Fraction:
        """The part, exactly."""
        return self.percent.exact * self.of.exact / 100

    def __str__(self) -> str:
        return f"{self.percent}% of {self.of}"


@dataclass(frozen=True, slots=True)
class FractionProblem:
    """Two numbers, at least one of them written as a fraction, and one of the four operations."""

    first: Quantity
    operation: FractionSign
    second: Quantity

    @property
    def exact(self) -> Fraction:
        """The result, exactly (may be below zero)."""
        first, second = self.first.exact, self.second.exact
        results: dict[str, Callable[[], Fraction]] = {
            "+": lambda: first + second,
            "-": lambda: first - second,
            "×": lambda: first * second,
            "÷": lambda: first / second,
        }
        return results[self.operation]()

    def __str__(self) -> str:
        return f"{self.first} {self.operation} {self.second}"


@dataclass(frozen=True, slots=True)
class Root:
    """The square root of a number, as many whole and decimal digits as its pairs of digits give."""

    radicand: Number

    @property
    def exact(self) -> tuple[int, int]:
        """Root and remainder in units of the root's last place and of the completed radicand's last place."""
        units = self.radicand.with_places(self.radicand.places + self.radicand.places % 2).units
        return isqrt(units), units - isqrt(units) ** 2

    def __str__(self) -> str:
        return f"√{self.radicand}"


_FRACTION_SIGNS: dict[str, FractionSign] = {"+": "+", "-": "-", "×": "×", "÷": "÷"}

Problem = Sum | Product | Quotient | Percent | FractionProblem | Root
"""What `parse_problem` gives and the procedures work; `str` of it is a text that parses back to it."""

_TOKEN = re.compile(
    r"\s*(?:(?P<number>\d[\d,]*(?:\.\d+|/\d+)?|\.\d+)|(?P<word>of|to|places?|sqrt|x)(?![A-Za-z])|(?P<sign>[-+×÷√%*/−]))",
    re.ASCII,
)
_SAME = {"−": "-", "*": "×", "x": "×", "/": "÷", "sqrt": "√", "place": "places"}
# Blanks that come along when a problem is pasted from a document: no-break, figure, thin and narrow ones.
_BLANKS = str.maketrans("\u00a0\u2007\u2009\u202f", "    ")
_GROUPED = re.compile(r"\d{1,3}(,\d{3})+|\d+")


@dataclass(frozen=True, slots=True)
class _Token:
    text: str
    position: int

    @property
    def is_number(self) -> bool:
        return self.text[0].isdigit() or self.text[0] == "."


def parse_problem(text: str) -> Problem:
    """The problem that `text` states; raises `ProblemError` with the position where it stopped making sense.

    >>> str(parse_problem("1,048+37 − 12"))
    '1048 + 37 - 12'
    """
    if len(text) > LONGEST_TEXT:
        raise ProblemError("problem-long", f"A problem has at most {LONGEST_TEXT} characters", "Write a shorter one")
    tokens = _split_tokens(text)
    if not tokens:
        raise _unclear(text, 0, "a problem is missing")
    kinds = [token.text if not token.is_number else "n" for token in tokens]
    return _parse_shape(text, tokens, kinds)


def _split_tokens(text: str) -> list[_Token]:
    text = text.translate(_BLANKS).rstrip()
    tokens, position = [], 0
    while position < len(text):
        found = _TOKEN.match(text, position)
        if found is None:
            rest = text[position:].lstrip()
            raise _unclear(text, len(text) - len(rest), f"“{rest[:12]}” is not part of a problem")
        token = found.group("number") or found.group("word") or found.group("sign")
        tokens.append(_Token(_SAME.get(token, token), found.end() - len(token)))
        position = found.end()
    return tokens


def _unclear(text: str, position: int, why: str) -> ProblemError:
    return ProblemError(
        "problem-unclear",
        f"{why[0].upper()}{why[1:]}" if why[0].isalpha() else why,
        "Write a problem like 48 + 37, 306 × 4, 837 ÷ 3, 3/4 + 1 1/8, 15% of 80 or √1444",
        position=position,
    )


def _parse_shape(text: str, tokens: list[_Token], kinds: list[str]) -> Problem:
    if kinds[0] == "√":
        if kinds != ["√", "n"]:
            raise _unclear(text, tokens[min(2, len(tokens) - 1)].position, "a root is √ and one number")
        return Root(_parse_number(text, tokens[1]))
    if kinds == ["n", "%", "of", "n"]:
        return Percent(_parse_number(text, tokens[0]), _parse_number(text, tokens[3]))
    places, tokens = _split_places(text, tokens)
    operands, signs = _split_operands(text, tokens)
    return _build_problem(text, operands, signs, places)


def _split_places(text: str, tokens: list[_Token]) -> tuple[int | None, list[_Token]]:
    """Take `to 2 places` off the end."""
    if [t.text for t in tokens[-3:-2]] != ["to"] or tokens[-1].text != "places" or not tokens[-2].text.isdigit():
        return None, tokens
    wanted = int(tokens[-2].text)
    if not 0 < wanted <= MOST_PLACES:
        raise _unclear(text, tokens[-2].position, f"a quotient can have 1 to {MOST_PLACES} places")
    return wanted, tokens[:-3]


def _split_operands(text: str, tokens: list[_Token]) -> tuple[list[Quantity], list[_Token]]:
    operands: list[Quantity] = []
    signs: list[_Token] = []
    rest = list(tokens)
    while True:
        operands.append(_take_quantity(text, rest))
        if not rest:
            return operands, signs
        if rest[0].text not in ("+", "-", "×", "÷"):
            raise _unclear(text, rest[0].position, f"“{rest[0].text}” cannot stand here")
        signs.append(rest.pop(0))


def _take_quantity(text: str, rest: list[_Token]) -> Quantity:
    if not rest:
        raise _unclear(text, len(text.rstrip()), "a number is missing at the end")
    token = rest.pop(0)
    if not token.is_number:
        raise _unclear(text, token.position, f"a number should stand before “{token.text}”")
    if "/" in token.text:
        return _parse_fraction(text, token, 0)
    if rest and "/" in rest[0].text:
        if "." in token.text:
            raise _unclear(text, token.position, "a mixed number starts with a whole number")
        return _parse_fraction(text, rest.pop(0), _parse_number(text, token).units)
    return _parse_number(text, token)


def _parse_number(text: str, token: _Token) -> Number:
    whole, _, decimals = token.text.partition(".")
    if "/" in token.text or (whole and not _GROUPED.fullmatch(whole)):
        raise _unclear(text, token.position, f"“{token.text}” is not a whole or decimal number here")
    if len(token.text) > MOST_DIGITS:
        raise _unclear(text, token.position, f"a number can have at most {MOST_DIGITS} digits")
    return Number(int(whole.replace(",", "") + decimals or "0"), len(decimals))


def _parse_fraction(text: str, token: _Token, whole: int) -> Quantity:
    above, _, below = token.text.partition("/")
    if not above.isdigit() or int(below[:MOST_DIGITS]) == 0 or len(token.text) > MOST_DIGITS:
        raise _unclear(text, token.position, f"“{token.text}” is not a fraction: a whole number over 1 or more")
    return MixedNumber(whole, int(above), int(below)) if int(above) > 0 else Number(whole)


def _build_problem(text: str, operands: list[Quantity], signs: list[_Token], places: int | None) -> Problem:
    if not signs:
        raise _unclear(text, len(text.rstrip()), "one number alone is not a problem")
    if places is not None and (len(signs) > 1 or signs[0].text != "÷"):
        raise _unclear(text, text.rindex("to"), "“to … places” goes with one ÷")
    if any(isinstance(operand, MixedNumber) for operand in operands):
        return _build_fraction_problem(text, operands, signs, places)
    numbers = [operand for operand in operands if isinstance(operand, Number)]
    if all(sign.text in "+-" for sign in signs):
        return _build_sum(text, numbers, signs)
    if len(signs) > 1:
        raise _unclear(text, signs[1].position, "× and ÷ take two numbers and stand alone")
    if signs[0].text == "×":
        return Product(numbers[0], numbers[1])
    if numbers[1].units == 0:
        raise _unclear(text, signs[0].position, "nothing can be divided by 0")
    _refuse_fewer_places(text, numbers, places)
    return Quotient(numbers[0], numbers[1], places or 0)


def _refuse_fewer_places(text: str, numbers: list[Number], places: int | None) -> None:
    """A quotient is worked as far as the dividend has digits: it cannot be wanted to fewer places (PROCEDURES §3.8)."""
    least = numbers[0].places - numbers[1].places
    if places is not None and places < least:
        by_itself = f"{least} place{'s' if least > 1 else ''}"
        why = f"this quotient has {by_itself} by itself: write “to {by_itself}” or more, or leave “to … places” out"
        raise _unclear(text, text.rindex("to"), why)


def _build_sum(text: str, numbers: list[Number], signs: list[_Token]) -> Sum:
    if len(numbers) > MOST_TERMS:
        raise _unclear(text, signs[-1].position, f"a sum can have at most {MOST_TERMS} numbers")
    terms = [Term("+", numbers[0])]
    for sign, number in zip(signs, numbers[1:], strict=True):
        terms.append(Term("+" if sign.text == "+" else "-", number))
    return Sum(tuple(terms))


def _build_fraction_problem(
    text: str, operands: list[Quantity], signs: list[_Token], places: int | None
) -> FractionProblem:
    if len(operands) != 2 or places is not None:
        raise _unclear(text, signs[-1].position, "fractions are worked two at a time")
    operation = signs[0].text
    if operation == "÷" and operands[1].exact == 0:
        raise _unclear(text, signs[0].position, "nothing can be divided by 0")
    return FractionProblem(operands[0], _FRACTION_SIGNS[operation], operands[1])
