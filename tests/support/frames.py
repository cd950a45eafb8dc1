"""Problems worked by their text, in a house style given in a few words."""

from typing import NamedTuple

from beadwright.engine import Frame, HouseStyle, Order, Walkthrough, build_frame, parse_problem, work_problem

COLUMNS = {"five-and-four": 13, "nine-bead": 4}


class Way(NamedTuple):
    """A frame, a method and the orders of exchanges."""

    frame: str = "five-and-four"
    method: str = "partners"
    add: str = "left-first"
    take: str = "left-first"

    def __str__(self) -> str:
        return f"{self.frame} {self.method} {self.add} {self.take}"

    @property
    def house(self) -> HouseStyle:
        """The house style with these orders."""
        return HouseStyle(add_order=Order(self.add), take_order=Order(self.take))

    def build(self, columns: int | None = None) -> Frame:
        """The frame at rest, of so many columns or as many as suit most tests."""
        return build_frame(self.frame, columns=columns or COLUMNS[self.frame])


ORDERS = ("left-first", "right-first")
WAYS = [
    Way(frame, method, order, order) for frame in COLUMNS for method in ("partners", "counting") for order in ORDERS
]
"""Both frames, both methods, both orders."""


USUAL = Way()


def work(text: str, way: Way = USUAL, *, columns: int | None = None) -> Walkthrough:
    """The walkthrough of a problem's text."""
    return work_problem(parse_problem(text), way.build(columns), house=way.house, method=way.method)
