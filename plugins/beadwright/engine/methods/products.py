"""Multiplication by partial products of two digits, and percent as multiplication.

The last digit of the multiplicand is worked first and cleared when it has met every digit of the multiplier, first to
last. Source: PROCEDURES §3.6 and §3.8, common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromTerm
from beadwright.engine.house import FirstFactor, HouseStyle, KeptFactor
from beadwright.engine.methods.digits import set_number, work_product
from beadwright.engine.number import Number
from beadwright.engine.problem import Percent, Problem, Product
from beadwright.engine.room import ProductRoom, check_room, find_free_columns
from beadwright.engine.walkthrough import Answer, Owner
from beadwright.engine.working import Working

PERCENT_PLACES = 2


@dataclass(frozen=True, slots=True)
class ProductProcedure:
    """Multiplying by partial products."""

    name: str = "partial-products"
    inner: None = None

    def does(self, problem: Problem, frame: Frame) -> bool:
        """Products and percents of whole numbers and decimals, on frames whose columns have an upper bead."""
        return isinstance(problem, Product | Percent) and frame.shape.upper > 0

    def plan(self, problem: Problem, frame: Frame, house: HouseStyle) -> ProductPlan:
        """Digits and digits and one for the frame; with the multiplier set, its digits and a column at rest too."""
        factors, more_places = _find_factors(problem)
        multiplicand, multiplier = order_factors(factors, house)
        kept = house.kept_factor is KeptFactor.SET
        room = ProductRoom(
            multiplicand=len(multiplicand.number.digits),
            multiplier=len(multiplier.number.digits),
            places=multiplicand.number.places + multiplier.number.places + more_places,
            kept=kept,
        )
        check_room(problem, frame, room.needed)
        free = find_free_columns(frame, room.multiplier if kept else 0)
        return ProductPlan(multiplicand, multiplier, room, free)


PARTIAL_PRODUCTS = ProductProcedure()


@dataclass(frozen=True, slots=True)
class Factor:
    """A factor, and the place of it in the problem as written (1 is the first number)."""

    number: Number
    term: int


def _find_factors(problem: Problem) -> tuple[tuple[Number, Number], int]:
    """The two factors as written, and how many more places the product has than both together."""
    if isinstance(problem, Percent):
        return (problem.percent, problem.of), PERCENT_PLACES
    if isinstance(problem, Product):
        return (problem.first, problem.second), 0
    raise TypeError(f"not a product: {problem}")


def order_factors(factors: tuple[Number, Number], house: HouseStyle) -> tuple[Factor, Factor]:
    """Multiplicand and multiplier, as the house names the first factor written."""
    first, second = Factor(factors[0], 1), Factor(factors[1], 2)
    return (first, second) if house.first_factor is FirstFactor.MULTIPLICAND else (second, first)


@dataclass(frozen=True, slots=True)
class ProductPlan:
    """A product laid out on a frame. `free` is the highest column that no multiplier and no rest beside it takes."""

    multiplicand: Factor
    multiplier: Factor
    room: ProductRoom
    free: int

    @property
    def ones_column(self) -> Column:
        """The column of the product's ones."""
        return self.room.ones_column

    def work(self, working: Working) -> Answer:
        """Set the factors; take the multiplicand's digits from last to first and clear each when it is done."""
        self._set_factors(working)
        last = self.room.multiplier + 2 + self.room.shift
        for column, digit in enumerate(reversed(self.multiplicand.number.digits), start=last):
            self._work_digit(working, column, int(digit))
        answer = self.answer(working)
        working.say("product-done", product=answer.text)
        return answer

    def _set_factors(self, working: Working) -> None:
        self._say_places(working)
        multiplier = self.multiplier.number.digits
        if self.room.kept:
            working.owners = self._own_multiplier(working)
            set_number(working, multiplier, working.frame.columns, self.multiplier.term)
        else:
            working.say("multiplier-remembered", multiplier=multiplier)
        working.owners = (*self._own_multiplier(working), self._own_multiplicand(self.room.lowest + len(multiplier)))
        set_number(working, self.multiplicand.number.digits, self.room.start, self.multiplicand.term)

    def _say_places(self, working: Working) -> None:
        working.say(
            "product-start" if self.room.shift == 0 else "product-start-shifted",
            multiplicand=self.multiplicand.number.digits,
            multiplier=self.multiplier.number.digits,
            multiplicand_digits=self.room.multiplicand,
            multiplier_digits=self.room.multiplier,
            count=self.room.shift,
            column=self.room.start,
        )
        more_places = self.room.places - self.multiplicand.number.places - self.multiplier.number.places
        if more_places > 0:
            working.say("percent-places", count=more_places)
        beyond = self.ones_column - working.frame.columns
        if beyond > 0:
            working.say("product-marker-beyond", count=self.room.places, beyond=beyond)
        elif self.room.places > 0:
            marked = working.frame.is_left_of_mark(self.ones_column)
            topic = "product-marker" if marked else "product-marker-between"
            working.say(topic, count=self.room.places, ones_column=self.ones_column)

    def _work_digit(self, working: Working, column: int, digit: int) -> None:
        """Work one digit of the multiplicand, which stands in `column`, with every digit of the multiplier."""
        working.owners = (*self._own_multiplier(working), *self._share(column - 1))
        if digit == 0:
            working.say("multiplicand-zero", column=column)
        else:
            for index, other in enumerate(self.multiplier.number.digits):
                work_product(working, Action.ADD, (digit, int(other)), column - 1 - index)
        working.owners = (*self._own_multiplier(working), *self._share(column))
        if digit > 0:
            working.clear(column, FromTerm(self.multiplicand.term))

    def _share(self, highest: int) -> tuple[Owner, ...]:
        """The product owns the columns up to `highest`, the multiplicand what of it is left of them."""
        lowest, ones = self.room.lowest, self.ones_column
        if highest >= self.room.start:
            return (Owner("product", self.free, lowest, ones),)
        return self._own_multiplicand(highest), Owner("product", highest, lowest, ones)

    def _own_multiplicand(self, highest_below: int) -> Owner:
        return Owner("multiplicand", self.room.start, highest_below + 1, highest_below + 1)

    def _own_multiplier(self, working: Working) -> tuple[Owner, ...]:
        if not self.room.kept:
            return ()
        highest = working.frame.columns
        lowest = highest - self.room.multiplier + 1
        return (Owner("multiplier", highest, lowest, lowest),)

    def answer(self, working: Working) -> Answer:
        """The product, in the columns that own it."""
        reading = Owner("product", self.free, self.room.lowest, self.ones_column).read(working.frame)
        return Answer(reading.text, reading.columns, self.room.places)
