"""Levels of a public grading table for bead arithmetic: rows and digits of sums, digits of factors and of quotients.

Grades 1 to 6 of the chambers of commerce and 7 to 9 of the federation that goes on below them in Japan, as of April
2002: fifty items in a paper of grades 1 to 6 (ten sums, twenty products, twenty quotients). The split of the digits of
a product between its factors is our own: as even as can be, the multiplicand not shorter.
"""

from __future__ import annotations

from typing import NamedTuple

from beadwright.engine import Operation, Want
from beadwright.render.sheets.orders import Order


class Grade(NamedTuple):
    """Rows and digits of each number of a sum, digits of both factors together, of divisor and quotient together."""

    rows: int
    digits: int
    product: int
    quotient: int
    minutes: int
    items: tuple[int, int, int]
    """How many sums, products and quotients."""


GRADES: dict[int, Grade] = {
    1: Grade(10, 10, 11, 10, 30, (10, 20, 20)),
    2: Grade(10, 8, 9, 8, 30, (10, 20, 20)),
    3: Grade(10, 6, 7, 6, 30, (10, 20, 20)),
    4: Grade(10, 5, 7, 6, 30, (10, 20, 20)),
    5: Grade(10, 4, 6, 5, 30, (10, 20, 20)),
    6: Grade(10, 3, 5, 4, 30, (10, 20, 20)),
    7: Grade(10, 2, 4, 4, 20, (10, 10, 10)),
    8: Grade(8, 2, 4, 3, 20, (10, 10, 10)),
    9: Grade(5, 2, 3, 0, 20, (10, 20, 0)),
}
_ONE_DIGIT_DIVISORS = (7, 8)
_ONE_DIGIT_MULTIPLIERS = (8, 9)


def build_grade_orders(number: int) -> tuple[Order, ...]:
    """What to draw for one section of a grade; sums mix adding and taking away.

    Raises `KeyError` for a number that is no grade of the table.
    """
    grade = GRADES[number]
    sums, products, quotients = grade.items
    second = 1 if number in _ONE_DIGIT_MULTIPLIERS else grade.product // 2
    orders = [
        Order(Want(operation=Operation.ADD_TAKE, digits=(grade.digits,) * grade.rows), sums),
        Order(Want(operation=Operation.MULTIPLY, digits=(grade.product - second, second)), products),
    ]
    if quotients > 0:
        divisor = 1 if number in _ONE_DIGIT_DIVISORS else grade.quotient // 2
        quotient = grade.quotient - divisor
        # Divisor and quotient of so many digits make a dividend of as many in all, or one fewer; the first are taken.
        want = Want(operation=Operation.DIVIDE, digits=(grade.quotient, divisor), remainder=False)
        orders.append(Order(want, quotients, quotient=quotient))
    return tuple(orders)
