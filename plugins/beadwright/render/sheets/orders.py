"""What to draw for one section, wherever it was asked for: in a file, or by a level of the table of grades."""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine import HouseStyle, Problem, Want
from beadwright.render.sheets.spec import DrawMany


@dataclass(frozen=True, slots=True)
class Order:
    """`count` problems of a kind. `places` and `quotient` as in `DrawMany`; `pins` are the first of them, as given."""

    want: Want
    count: int
    places: int = 0
    quotient: int | None = None
    pins: tuple[Problem, ...] = ()
    method: str | None = None
    seed: int = 0
    draw: DrawMany | None = None

    def build_house(self, usual: HouseStyle) -> HouseStyle:
        """The house style with what the draw sets in place of the usual."""
        return usual if self.draw is None else self.draw.house(usual)


def build_order(draw: DrawMany) -> Order:
    """The order that a file states."""
    return Order(draw.want(), draw.count, draw.places, draw.quotient, tuple(draw.pin), draw.method, draw.seed, draw)
