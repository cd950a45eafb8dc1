"""The house style of a course: every setting that moves a bead or changes a word. Source: PROCEDURES §3."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class Order(StrEnum):
    """Which column of an exchange is worked first."""

    LEFT_FIRST = "left-first"
    RIGHT_FIRST = "right-first"


class Wording(StrEnum):
    """How the same moves are told: with the reason, as a short rule, or both."""

    REASONS = "reasons"
    RULES = "rules"
    BOTH = "both"


class Trial(StrEnum):
    """How the trial digit of a quotient is found."""

    KNOWN = "known"
    FIRST_DIGIT = "first-digit"
    ROUNDED = "rounded"
    GIVEN = "given"


class KeptFactor(StrEnum):
    """Whether multiplier and divisor are remembered or set at the far left."""

    REMEMBERED = "remembered"
    SET = "set"


class FirstFactor(StrEnum):
    """What the first factor written is."""

    MULTIPLICAND = "multiplicand"
    MULTIPLIER = "multiplier"


class Inner(StrEnum):
    """How one digit is added or taken away in a column."""

    PARTNERS = "partners"
    COUNTING = "counting"


class Rounding(StrEnum):
    """What happens to a decimal quotient after its last place."""

    CUT = "cut"
    HALF_UP = "half-up"


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseStyle:
    """A course's choices where handbooks differ. The defaults are those of PROCEDURES §3.

    `trial_digits` belong to one walkthrough: with `Trial.GIVEN`, the author's trial digits in the order in which they
    are tried. Digits that are not given are known ones.
    """

    add_order: Order = Order.LEFT_FIRST
    take_order: Order = Order.LEFT_FIRST
    wording: Wording = Wording.REASONS
    trial: Trial = Trial.KNOWN
    kept_factor: KeptFactor = KeptFactor.REMEMBERED
    first_factor: FirstFactor = FirstFactor.MULTIPLICAND
    inner: Inner = Inner.PARTNERS
    rounding: Rounding = Rounding.CUT
    trial_digits: tuple[int, ...] = ()

    def to_data(self) -> dict[str, Any]:
        """Plain data in the shape of a walkthrough's `house_style`; `trial_digits` only where some are given."""
        data: dict[str, Any] = {
            "exchange": {"add": str(self.add_order), "take": str(self.take_order)},
            "wording": str(self.wording),
            "trial": str(self.trial),
            "kept_factor": str(self.kept_factor),
            "first_factor": str(self.first_factor),
            "inner": str(self.inner),
            "rounding": str(self.rounding),
        }
        return data | {"trial_digits": list(self.trial_digits)} if self.trial_digits else data

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> HouseStyle:
        """The house style of such data; raises `ValueError` or `KeyError` for a value that is none."""
        return cls(
            add_order=Order(data["exchange"]["add"]),
            take_order=Order(data["exchange"]["take"]),
            wording=Wording(data["wording"]),
            trial=Trial(data["trial"]),
            kept_factor=KeptFactor(data["kept_factor"]),
            first_factor=FirstFactor(data["first_factor"]),
            inner=Inner(data["inner"]),
            rounding=Rounding(data["rounding"]),
            trial_digits=tuple(data.get("trial_digits", ())),
        )
