"""Options that say how a house works: the order of an exchange, the wording, trial digits and the rest."""

import argparse
from collections.abc import Iterable
from enum import StrEnum

from beadwright.engine import FirstFactor, HouseStyle, Inner, KeptFactor, Order, Rounding, Trial, Wording

_USUAL = HouseStyle()


class OptionError(ValueError):
    """Options that do not go together, or a value that is none; the message says what would do."""


def add_house_options(parser: argparse.ArgumentParser) -> None:
    """Add an option for each setting of a house style."""
    house = parser.add_argument_group("house style")
    orders = _list_values(Order)
    house.add_argument(
        "--exchange", choices=orders, default=str(_USUAL.add_order), help="column worked first (%(default)s)"
    )
    house.add_argument("--exchange-adding", "--exchange-add", choices=orders, help="the same when adding")
    house.add_argument("--exchange-taking", "--exchange-take", choices=orders, help="the same when taking away")
    _add_setting(house, "--wording", Wording, _USUAL.wording, "how moves are told")
    _add_setting(house, "--inner", Inner, _USUAL.inner, "how a digit is added or taken away")
    _add_setting(house, "--kept-factor", KeptFactor, _USUAL.kept_factor, "multiplier and divisor")
    _add_setting(house, "--first-factor", FirstFactor, _USUAL.first_factor, "what the first factor is")
    _add_setting(house, "--trial", Trial, _USUAL.trial, "how a quotient digit is tried")
    house.add_argument("--trial-digits", metavar="DIGITS", default="", help="trial digits to use, such as 84")
    _add_setting(house, "--rounding", Rounding, _USUAL.rounding, "the last place of a decimal quotient")


def _add_setting(group: argparse._ArgumentGroup, name: str, kind: type[StrEnum], usual: StrEnum, what: str) -> None:
    group.add_argument(name, choices=_list_values(kind), default=str(usual), help=f"{what} (%(default)s)")


def _list_values(kind: Iterable[StrEnum]) -> list[str]:
    return [str(value) for value in kind]


def build_house(options: argparse.Namespace) -> HouseStyle:
    """The house style of these options; trial digits that are given are the ones tried.

    Raises `OptionError` for trial digits that are none.
    """
    if options.trial_digits != "" and not (options.trial_digits.isascii() and options.trial_digits.isdigit()):
        raise OptionError(f"trial digits are digits such as 84, not {options.trial_digits!r}")
    given = tuple(int(digit) for digit in options.trial_digits)
    return HouseStyle(
        add_order=Order(options.exchange_adding or options.exchange),
        take_order=Order(options.exchange_taking or options.exchange),
        wording=Wording(options.wording),
        inner=Inner(options.inner),
        kept_factor=KeptFactor(options.kept_factor),
        first_factor=FirstFactor(options.first_factor),
        trial=Trial.GIVEN if given else Trial(options.trial),
        trial_digits=given,
        rounding=Rounding(options.rounding),
    )
