"""Numbers as they stand on a frame: digits with a number of places, and mixed numbers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Number:
    """A whole or decimal number never below zero: `units` of its last place, `places` digits after the marker."""

    units: int
    places: int = 0

    def __post_init__(self) -> None:
        if self.units < 0 or self.places < 0:
            raise ValueError(f"a number on a frame is never below zero: {self.units}, {self.places} places")

    @property
    def exact(self) -> Fraction:
        """The value, exactly."""
        return Fraction(self.units, 10**self.places)

    @property
    def digits(self) -> str:
        """The digits without marker and without leading zeros; `0` for nothing."""
        return str(self.units)

    def with_places(self, places: int) -> Number:
        """The same value written with more places; raises `ValueError` when digits would be lost."""
        if places < self.places:
            raise ValueError(f"{self} does not fit {places} places")
        return Number(self.units * 10 ** (places - self.places), places)

    def __str__(self) -> str:
        return write_number(self.units, self.places)


def write_number(units: int, places: int) -> str:
    """The text of a number: `units` of its last place, with so many places.

    >>> write_number(1250, 2), write_number(5, 1)
    ('12.50', '0.5')
    """
    if places == 0:
        return str(units)
    text = str(units).rjust(places + 1, "0")
    return f"{text[:-places]}.{text[-places:]}"


@dataclass(frozen=True, slots=True)
class MixedNumber:
    """A fraction or mixed number as written: `7/8`, `1 7/8`. Not reduced; the denominator is at least 1."""

    whole: int
    numerator: int
    denominator: int

    def __post_init__(self) -> None:
        if min(self.whole, self.numerator) < 0 or self.denominator < 1:
            raise ValueError(f"not a mixed number: {self.whole} {self.numerator}/{self.denominator}")

    @property
    def exact(self) -> Fraction:
        """The value, exactly."""
        return self.whole + Fraction(self.numerator, self.denominator)

    def __str__(self) -> str:
        if self.numerator == 0:
            return str(self.whole)
        part = f"{self.numerator}/{self.denominator}"
        return f"{self.whole} {part}" if self.whole > 0 else part


Quantity = Number | MixedNumber
"""A number of a fraction problem."""
