"""Which slips to offer beside the one that was made: none that would be as true of the same beads."""

from __future__ import annotations

from collections.abc import Iterable

from beadwright.engine import SLIPS, Step
from beadwright.engine.chances import shuffle
from beadwright.engine.slips import Slipped, find_slips_alike

SLIP_OPTIONS = 4

# An exchange that stops at a 9 or passes a 0 has a half that was left out as well, so both names would be right.
_TOLD_BY_OTHERS = frozenset({"exchange-dropped", "runs-out-at-nine", "borrow-through-zero"})
_NEED_AN_UPPER_BEAD = frozenset({"upper-bead-as-one", "lower-beads-left", "five-for-ten"})
_IN_EXCHANGES = frozenset(
    {"exchange-dropped", "wrong-neighbour", "runs-out-at-nine", "borrow-through-zero", "five-for-ten"}
)


def choose_slip_options(slipped: Slipped, likely: Iterable[str], *, seed: str) -> tuple[str, ...]:
    """The slip that was made among others, shuffled: `likely` ones first, then ones that are made in working a digit.

    Those of exchanges come last, so that a problem without an exchange is not beset with words that nobody needs there.
    """
    digits = [slip.name for slip in SLIPS.values() if slip.work_digit is not None]
    filling = sorted(shuffle(digits, seed), key=lambda name: name in _IN_EXCHANGES)
    unfit = _find_as_true(slipped) | _find_out_of_place(slipped)
    drawn = dict.fromkeys((*shuffle(list(likely), seed), *filling))
    others = [name for name in drawn if name != slipped.slip and name not in unfit]
    return tuple(shuffle([slipped.slip, *others[: SLIP_OPTIONS - 1]], f"{seed}/options"))


def _find_as_true(slipped: Slipped) -> frozenset[str]:
    """Slips that leave the beads of the step as they are here, or whose name would describe them just as well."""
    number = slipped.first_wrong_step
    true = set(find_slips_alike(slipped))
    if slipped.slip in _TOLD_BY_OTHERS:
        true |= _TOLD_BY_OTHERS
    if _count_beads_off(slipped.steps[number - 1], slipped.right.steps[number - 1]) == 1:
        true.add("partner-off-by-one")
    return frozenset(true)


def _count_beads_off(wrong: Step, right: Step) -> int:
    """How many beads stand otherwise than they should."""
    pairs = zip(wrong.after.beads, right.after.beads, strict=True)
    return sum(abs(upper - due_upper) + abs(lower - due_lower) for (upper, lower), (due_upper, due_lower) in pairs)


def _find_out_of_place(slipped: Slipped) -> frozenset[str]:
    """Slips that need an upper bead, on a frame that has none."""
    return frozenset() if slipped.right.start.shape.upper > 0 else _NEED_AN_UPPER_BEAD
