"""Statements about numbers in prose, and whether they hold: `48 + 37 is 85`, `seven is ten less three`."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from math import prod
from typing import NamedTuple

_ONES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_TEENS = (
    "ten",
    "eleven",
    "twelve",
    *(f"{stem}teen" for stem in ("thir", "four", "fif", "six", "seven", "eigh", "nine")),
)
_TENS = tuple(f"{stem}ty" for stem in ("twen", "thir", "for", "fif", "six", "seven", "eigh", "nine"))
WORDS = {word: number for number, word in enumerate(_ONES + _TEENS)}
WORDS |= {ten: 20 + 10 * place for place, ten in enumerate(_TENS)}
WORDS |= {f"{ten}-{one}": WORDS[ten] + WORDS[one] for ten in _TENS for one in _ONES[1:]}

N = rf"(?:\d{{1,3}}(?:,\d{{3}})+|\d+|{'|'.join(sorted(WORDS, key=len, reverse=True))})"
_LINK = re.compile(r"\[([^\]]+)\]\([^)]*\)")
_NUMBER = re.compile(rf"\b{N}\b", re.IGNORECASE)
_START, _END = r"(?<![\w,.+-])(?<![+-] )", r"(?![\w-]|,\d|/\d)"
_DIGIT = rf"\b(?:{'|'.join(_ONES)})\b"
_DECIMAL = rf"(?:\d[\d,]*\.\d+|{N})"  # not part of a fraction, nor of a longer chain of signs
_PUT_IN = rf"(?:{_DIGIT} {_DIGIT}|{_DECIMAL}(?!\.\d|/\d| [×÷+-] ))"  # a partial product is said digit by digit
_IS = "(?:is|was|are|makes?|gives?|=)"


class Claim(NamedTuple):
    """A statement as it stands in the text, and whether it is true."""

    text: str
    holds: bool


def read_number(text: str) -> int:
    """A number written in digits, with or without commas, or in words up to ninety-nine."""
    plain = text.lower().replace(",", "")
    return int(plain) if plain.isdigit() else WORDS[plain]


def find_check_digit(number: int) -> int:
    """What is left of a number when nines are cast out."""
    return number % 9


def _sum_is(text: str) -> bool:
    expression, result = re.split(r"\s(?:is|was|are|makes?|=)\s", text)
    total = 0
    for sign, number in re.findall(rf"(^|[+-])\s*({N})", expression, re.IGNORECASE):
        total += -read_number(number) if sign == "-" else read_number(number)
    return total == read_number(result)


def _read_value(text: str) -> Fraction:
    """A number with or without decimals, or two digits said one after the other: `zero eight` is 8."""
    words = text.lower().split()
    if len(words) == 2:
        return Fraction(10 * WORDS[words[0]] + WORDS[words[1]])
    return Fraction(text.replace(",", "")) if "." in text else Fraction(read_number(text))


def _fits(pattern: str, test: Callable[..., bool]) -> tuple[str, Callable[[str], bool]]:
    """A kind of statement whose groups are numbers, and whether `test` holds for them (None where one is not there)."""

    def holds(text: str) -> bool:
        found = re.fullmatch(pattern, text, re.IGNORECASE)
        assert found is not None
        return test(*(None if group is None else _read_value(group) for group in found.groups()))

    return pattern, holds


def _divides(dividend: Fraction, divisor: Fraction, quotient: Fraction, left: Fraction | None) -> bool:
    rest = left or 0
    return rest < divisor and divisor * quotient + rest == dividend


def _has_root(number: Fraction, root: Fraction, left: Fraction | None) -> bool:
    rest = left or 0
    return root * root + rest == number and rest <= 2 * root


def _holds(test: Callable[[list[int]], bool]) -> Callable[[str], bool]:
    return lambda text: test([read_number(found) for found in _NUMBER.findall(text)])


_KINDS: tuple[tuple[str, Callable[[str], bool]], ...] = (
    (rf"{N}(?: [+-] {N})+ (?:is|was|are|makes?|=) {N}(?! less| [+-])", _sum_is),
    (rf"{N} is {N} \+ {N}", _holds(lambda n: n[0] == n[1] + n[2])),
    (rf"{N} is {N} (?:less|-) {N}", _holds(lambda n: n[0] == n[1] - n[2])),
    (rf"{N} and {N} (?:make|are partners of|is|makes) {N}", _holds(lambda n: n[0] + n[1] == n[2])),
    (rf"{N} is the \**partner of (?:5|10)\** of {N}", _holds(lambda n: n[0] + n[2] == n[1])),
    (rf"partner of (?:5|10) of {N} is {N}", _holds(lambda n: n[1] + n[2] == n[0])),
    (rf"\**check digit\** of {N} is {N}", _holds(lambda n: find_check_digit(n[0]) == n[1])),
    (rf"{N} has the check digit {N}", _holds(lambda n: find_check_digit(n[0]) == n[1])),
    (rf"{N} is {N} and {N}", _holds(lambda n: n[0] == n[1] + n[2])),
    _fits(rf"(?<!/)({_DECIMAL}) (?:×|times) ({_DECIMAL}) {_IS} ({_PUT_IN})", lambda *n: prod(n[:2]) == n[2]),
    _fits(rf"(?<!/)({_DECIMAL}) ÷ ({_DECIMAL}) {_IS} ({_PUT_IN})(?:,? remainder ({N}))?", _divides),
    _fits(rf"({_DECIMAL}) % of ({_DECIMAL}) {_IS} ({_PUT_IN})", lambda *n: n[0] * n[1] == 100 * n[2]),
    _fits(rf"half of ({_DECIMAL}) {_IS} ({_PUT_IN})", lambda whole, half: whole == 2 * half),
    _fits(rf"root of ({_DECIMAL}) {_IS} ({_PUT_IN})(?:,? remainder ({N}))?", _has_root),
)
_PATTERNS = tuple((re.compile(_START + pattern + _END, re.IGNORECASE), holds) for pattern, holds in _KINDS)


def find_claims(text: str) -> Iterator[Claim]:
    """Every statement of a known form in `text`."""
    unlinked = _LINK.sub(r"\1", text)
    plain = " ".join(unlinked.replace("−", "-").split())
    for pattern, holds in _PATTERNS:
        for found in pattern.finditer(plain):
            yield Claim(found[0], holds(found[0]))
