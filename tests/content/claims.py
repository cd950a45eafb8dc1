"""Statements about numbers in prose, and whether they hold: `48 + 37 is 85`, `seven is ten less three`."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
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


def _holds(test: Callable[[list[int]], bool]) -> Callable[[str], bool]:
    return lambda text: test([read_number(found) for found in _NUMBER.findall(text)])


_KINDS: tuple[tuple[str, Callable[[str], bool]], ...] = (
    (rf"{N}(?: ?[+-] ?{N})+ (?:is|was|are|makes?|=) {N}(?! less| [+-])", _sum_is),
    (rf"{N} is {N} \+ {N}", _holds(lambda n: n[0] == n[1] + n[2])),
    (rf"{N} is {N} (?:less|-) {N}", _holds(lambda n: n[0] == n[1] - n[2])),
    (rf"{N} and {N} (?:make|are partners of|is|makes) {N}", _holds(lambda n: n[0] + n[1] == n[2])),
    (rf"{N} is the \**partner of (?:5|10)\** of {N}", _holds(lambda n: n[0] + n[2] == n[1])),
    (rf"partner of (?:5|10) of {N} is {N}", _holds(lambda n: n[1] + n[2] == n[0])),
    (rf"\**check digit\** of {N} is {N}", _holds(lambda n: find_check_digit(n[0]) == n[1])),
    (rf"{N} has the check digit {N}", _holds(lambda n: find_check_digit(n[0]) == n[1])),
    (rf"{N} is {N} and {N}", _holds(lambda n: n[0] == n[1] + n[2])),
)
_PATTERNS = tuple((re.compile(_START + pattern + _END, re.IGNORECASE), holds) for pattern, holds in _KINDS)


def find_claims(text: str) -> Iterator[Claim]:
    """Every statement of a known form in `text`."""
    unlinked = _LINK.sub(r"\1", text)
    plain = " ".join(unlinked.replace("−", "-").split())
    for pattern, holds in _PATTERNS:
        for found in pattern.finditer(plain):
            yield Claim(found[0], holds(found[0]))
