"""Multiplying and dividing as on paper: the numbers that a spatial layout has between problem and answer."""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine import Number, Product, Quotient


@dataclass(frozen=True, slots=True)
class Working:
    """Texts that stand one below the other. For a division, quotient and partials are as wide as the dividend.

    `partials` of a product are its partial products; of a division, in turn what is taken and what is left.
    """

    divisor: str
    dividend: str
    partials: tuple[str, ...]
    answer: str


def find_partial_products(problem: Product) -> Working:
    """The partial products, last digit of the multiplier first, each with its zeros; none for one digit that is not 0.

    Where the product has a marker, every partial product has a blank in that cell.

    >>> from beadwright.engine import parse_problem
    >>> [text.strip() for text in find_partial_products(parse_problem("345.7 × 2.77")).partials]
    ['24 199', '241 990', '691 400']
    """
    places = problem.first.places + problem.second.places
    answer = str(Number(problem.first.units * problem.second.units, places))
    digits = problem.second.digits
    products = [
        problem.first.units * int(digit) * 10**place for place, digit in enumerate(reversed(digits)) if digit != "0"
    ]
    partials = [_leave_marker_blank(units, places) for units in products] if len(products) > 1 else []
    return Working("", "", tuple(partials), answer)


def _leave_marker_blank(units: int, places: int) -> str:
    text = str(units)
    return text if places == 0 or len(text) <= places else f"{text[:-places]} {text[-places:]}"


def find_division_work(problem: Quotient) -> Working:
    """The quotient's digits above the dividend's, and the numbers of the working below it, for a whole divisor.

    Zeros that the quotient's places need are added to the dividend.
    """
    dividend = str(problem.dividend.with_places(max(problem.dividend.places, problem.places)))
    divisor = problem.divisor.units
    columns = _find_columns(dividend)
    ones = len(dividend.partition(".")[0]) - 1
    quotient = [sign if sign == "." else " " for sign in dividend]
    partials: list[str] = []
    held = 0
    for column, digit in columns:
        taken, left = divmod(held * 10 + int(digit), divisor)
        if taken > 0:
            partials.append(_end_in(taken * divisor, column, dividend))
            partials.append(_bring_down(left, column, columns, divisor, dividend))
        if partials or column >= ones:
            quotient[column] = str(taken)
        held = left
    return Working(str(divisor), dividend, tuple(partials), "".join(quotient))


def _find_columns(dividend: str) -> list[tuple[int, str]]:
    """The dividend's digits with the place of each in its text."""
    return [(place, sign) for place, sign in enumerate(dividend) if sign != "."]


def _bring_down(left: int, column: int, columns: list[tuple[int, str]], divisor: int, dividend: str) -> str:
    """What is left with the next digits brought down, up to the first that the divisor goes into, or to the end."""
    held, last = left, column
    for place, digit in columns:
        if place > column:
            held, last = held * 10 + int(digit), place
            if held >= divisor:
                break
    return _end_in(held, last, dividend)


def _end_in(number: int, column: int, dividend: str) -> str:
    """A number whose last digit stands in this place of the dividend's text, with a blank below the marker."""
    text, digits = [" "] * (column + 1), str(number)
    place = column
    for digit in reversed(digits):
        if place >= 0 and dividend[place] == ".":
            place -= 1
        text[place] = digit
        place -= 1
    return "".join(text)
