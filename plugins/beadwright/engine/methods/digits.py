"""Working the digits of a number one after the other: a number that is set, a product of two digits, one factor again.

Columns count from the right. Source: PROCEDURES §3.6, §3.7, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from beadwright.engine.hand import Action, FromProduct, Source, find_term
from beadwright.engine.walkthrough import Purpose
from beadwright.engine.working import Working

_SET, _SETTING, _PRODUCT = Action.SET, Purpose.SET, Purpose.PRODUCT  # looked up once: every digit asks for one

_VALUES = {str(digit): digit for digit in range(10)}  # quicker than reading a number of one digit


def place_digits(digits: str, highest: int) -> Iterator[tuple[int, int]]:
    """(column, digit) of each digit, the first one in column `highest`."""
    for index, digit in enumerate(digits):
        yield highest - index, int(digit)


def set_number(working: Working, digits: str, highest: int, term: int) -> None:
    """Set the number that is term `term` of the problem; a 0 is said to hold its column."""
    source = find_term(term)
    for index, digit in enumerate(digits):
        if digit == "0":
            working.say("zero-holds", column=highest - index, term=term)
        else:
            working.work(_SETTING, _SET, highest - index, _VALUES[digit], source)


def work_product(working: Working, action: Action, factors: tuple[int, int], tens_column: int) -> None:
    """Add or take away a product of two digits, always two digits: tens in `tens_column`, ones in the next.

    A 0 in front holds its column, a 0 at the end adds nothing: both are said and move nothing.
    """
    first, second = factors
    if 0 in factors:
        working.say(f"{action}-nothing", first=first, second=second, column=tens_column)
        return
    tens, ones = find_product_digits(factors)
    for column, (digit, source) in ((tens_column, tens), (tens_column - 1, ones)):
        if digit > 0:
            working.work(_PRODUCT, action, column, digit, source)
        else:
            topic = f"{action}-{source.place}-zero"
            working.say(topic, first=first, second=second, product=source.product, column=column)


@cache
def find_product_digits(factors: tuple[int, int]) -> tuple[tuple[int, FromProduct], tuple[int, FromProduct]]:
    """The tens and the ones of a product of two digits, each with what it comes from."""
    tens, ones = divmod(factors[0] * factors[1], 10)
    product = f"{tens}{ones}"
    return (tens, FromProduct(factors, product, "tens")), (ones, FromProduct(factors, product, "ones"))


def work_number(working: Working, action: Action, digits: str, highest: int, source: Source, purpose: Purpose) -> None:
    """Add or take away each digit of a number, the first one in column `highest`; a 0 is no step."""
    for index, digit in enumerate(digits):
        if digit != "0":
            working.work(purpose, action, highest - index, _VALUES[digit], source)
