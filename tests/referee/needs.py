"""Which techniques a sum needs, found by the rules alone."""

from typing import NamedTuple

from tests.referee.beads import FIVE_AND_FOUR, Board, Shape, move_beads, read_columns
from tests.referee.rules import Style, rule_on
from tests.referee.sums import expect_work, lay_out


class Needs(NamedTuple):
    """The techniques of all digits after the first number, and whether an exchange runs on."""

    techniques: frozenset[str]
    runs_on: bool


def find_needs(problem: str, shape: Shape, columns: int, style: Style) -> Needs:
    """What a sum needs that this frame can hold; a neighbour that takes or gives the 1 by its partner of 5 counts."""
    board: Board = ((0, 0),) * columns
    techniques: set[str] = set()
    runs_on = False
    for _, work, source in expect_work(lay_out(problem), style.way):
        ruling = rule_on(shape, board, *work, style)
        if source["term"] > 1:
            techniques.add(ruling.technique)
            runs_on = runs_on or ruling.runs_on
            exchanges = ruling.technique in ("partner-of-10", "both-partners")
            if exchanges and shape == FIVE_AND_FOUR and _meets_a_five(board, work[0], work[2]):
                techniques.add("partner-of-5")
        board = move_beads(board, ruling.moves, shape)
    return Needs(frozenset(techniques), runs_on)


def _meets_a_five(board: Board, action: str, column: int) -> bool:
    """Whether the first column on the left that can take (give) a 1 holds 4 (5), the others being passed over."""
    passed, needs_partner = ("9", "4") if action == "add" else ("0", "5")
    left = read_columns(board, len(board), column + 1)
    return left.rstrip(passed).endswith(needs_partner)
