"""The table of slips: each one's name, how likely it is, why, and the procedure that makes it.

`weight` orders the causes of one wrong answer; a larger one is named first. The weights are a judgement from PROCEDURES
§5 (common practice, no source): what a learner who knows the moves forgets most often stands above what needs two
misunderstandings at once. Where nothing tells which of two is the commoner they weigh the same, and both are named.
"""

from __future__ import annotations

from dataclasses import dataclass

from beadwright.engine.hand import Technique
from beadwright.engine.methods.roots import ODD_NUMBER
from beadwright.engine.slips import digits
from beadwright.engine.slips.digits import DigitSlip


@dataclass(frozen=True, slots=True)
class Slip:
    """A wrong procedure. `work_digit` makes it in one digit; without, it spans more or lies in the reading.

    `techniques` are those by which a digit is worked that it can be made in.
    """

    name: str
    weight: int
    because: str
    work_digit: DigitSlip | None = None
    techniques: frozenset[Technique] = frozenset()


_EXCHANGES = frozenset({Technique.PARTNER_OF_10, Technique.BOTH_PARTNERS})
_PARTNERS = _EXCHANGES | {Technique.PARTNER_OF_5}
_COUNT = frozenset({Technique.COUNT})

_TABLE = (
    Slip(
        "borrow-through-zero",
        95,
        "only where an exchange meets a 0, and then the usual one",
        digits.borrow_through_zero,
        _EXCHANGES | _COUNT,
    ),
    Slip(
        "runs-out-at-nine",
        94,
        "only where an exchange meets a 9, and then the usual one",
        digits.runs_out_at_nine,
        _EXCHANGES | _COUNT,
    ),
    Slip(
        "exchange-dropped",
        90,
        "two columns to mind at once: one is forgotten",
        digits.exchange_dropped,
        _EXCHANGES | _COUNT,
    ),
    Slip("lower-beads-left", 80, "the second half of a partner of 5 is forgotten", digits.lower_beads_left, _PARTNERS),
    Slip("wrong-way-round", 75, "carried over from work on paper"),
    Slip(
        "five-for-ten",
        70,
        "the partner of the other family is nearer to hand",
        digits.five_for_ten,
        _PARTNERS - {Technique.BOTH_PARTNERS},
    ),
    Slip(
        "partner-off-by-one",
        90,
        "a partner half known: nothing tells whether this or a half forgotten is the commoner",
        digits.partner_off_by_one,
        _PARTNERS | _COUNT,
    ),
    Slip("set-and-clear-swapped", 60, "the right partner, the wrong way", digits.set_and_clear_swapped, _PARTNERS),
    Slip("zero-of-quotient-dropped", 92, "a column at rest is easily passed over: nothing is worked there"),
    Slip("no-0-held", 88, "a product below ten looks like one digit"),
    Slip("multiplicand-digit-left", 85, "the last act of a digit, when its products are done"),
    Slip("remainder-not-checked", 82, "the products came out, so the digit seems right"),
    Slip("quotient-one-column-off", 78, "two rules for one place"),
    Slip("product-one-column-off", 74, "the hand lands one column off between two products"),
    Slip("decimal-marker-lost", 72, "places are counted in the head, apart from the beads"),
    Slip("table-fact-wrong", 68, "facts near each other in the table"),
    Slip("product-skipped", 57, "a pair lost among many"),
    Slip("multiplicand-digit-cleared-early", 57, "the products still to come are lost with it, as when one is skipped"),
    Slip("digit-skipped", 55, "a place lost while listening or reading", digits.digit_skipped, frozenset(Technique)),
    Slip("wrong-neighbour", 50, "the hand lands one column off in an exchange", digits.wrong_neighbour, _EXCHANGES),
    Slip("column-drift", 45, "the whole number one column off"),
    Slip(
        "upper-bead-as-one",
        40,
        "a beginner's slip, rare once reading is sure",
        digits.upper_bead_as_one,
        frozenset({Technique.SET}),
    ),
)

SLIPS: dict[str, Slip] = {slip.name: slip for slip in _TABLE}
"""The table by name; of slips that weigh the same, the one to be named first stands first."""

_IN_ODD_NUMBERS = {"digit-skipped": SLIPS["partner-off-by-one"].weight}
"""Where dozens of digits are taken away in turn, a place is lost as easily as a partner is half known."""


def find_weight(slip: str, method: str) -> int:
    """How likely a slip is in work by this method (PROCEDURES §5, common practice, no source)."""
    usual = SLIPS[slip].weight
    return _IN_ODD_NUMBERS.get(slip, usual) if method == ODD_NUMBER.name else usual
