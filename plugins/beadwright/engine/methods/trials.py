"""Trial digits of a quotient, by house style. Source: PROCEDURES §3.7, common practice, no source."""

from __future__ import annotations

from typing import NamedTuple

from beadwright.engine.house import Trial


class Guess(NamedTuple):
    """A trial digit, 1 to 9, and the numbers it came from: `left` over `divisor` (the author's digit has none)."""

    style: Trial
    digit: int
    left: str
    divisor: str


def find_trial(style: Trial, divisor: str, left: str) -> Guess:
    """The trial digit for `left`: as many digits of what is left as the divisor has, or one more.

    `known` compares the whole numbers; `first-digit` the divisor's first digit with the first one (or two) of what is
    left; `rounded` the same with that digit one up when the second is 5 or more. A style of `given` without a digit
    of the author's is `known`. A guess above 9 is 9, below 1 is 1.

    >>> find_trial(Trial.ROUNDED, "46", "358").digit
    7
    """
    if style is Trial.FIRST_DIGIT or style is Trial.ROUNDED:
        above = left[: len(left) - len(divisor) + 1]
        below = int(divisor[0]) + (1 if style is Trial.ROUNDED and divisor[1:2] >= "5" else 0)
        return Guess(style, clamp_digit(int(above) // below), above, str(below))
    return Guess(Trial.KNOWN, clamp_digit(int(left) // int(divisor)), left, divisor)


def clamp_digit(guess: int) -> int:
    """A guess as a digit of a quotient: above 9 is 9, below 1 is 1."""
    return max(1, min(9, guess))
