"""What holds for every walkthrough, whatever it works; then the judge of its kind of problem has the word."""

from collections.abc import Callable, Mapping
from typing import Any

from tests.referee.beads import FIVE_AND_FOUR, NINE_BEAD, Board, RuleError, move_beads, read_columns, require
from tests.referee.fractions import is_fraction_problem, judge_fractions
from tests.referee.products import is_product, judge_product
from tests.referee.quotients import is_quotient, judge_quotient
from tests.referee.repeated import is_repeated, judge_repeated
from tests.referee.roots import is_root, judge_root
from tests.referee.rules import rule_on
from tests.referee.seen import Seen, SeenStep, see_data
from tests.referee.sums import is_sum, judge_sum

KINDS: list[tuple[Callable[[Seen], bool], Callable[[Seen], None]]] = [
    (lambda seen: is_sum(seen.problem), judge_sum),
    (is_product, judge_product),
    (is_quotient, judge_quotient),
    (is_repeated, judge_repeated),
    (is_root, judge_root),
    (is_fraction_problem, judge_fractions),
]
"""Which walkthroughs are of a kind, and who judges them."""

SCHEMA = "beadwright/walkthrough/1"
SLIPPED_SCHEMA = "beadwright/slipped/1"


def check_data(data: Mapping[str, Any]) -> None:
    """Judge a walkthrough's plain data; raises `RuleError`."""
    require(data["schema"] == SCHEMA, "schema", data["schema"])
    check_seen(see_data(data))


def check_seen(seen: Seen) -> None:
    """Judge a walkthrough; raises `RuleError` that names the problem."""
    try:
        _check_frame(seen)
        _check_steps(seen)
        judges = [judge for matches, judge in KINDS if matches(seen)]
        require(len(judges) == 1, "there is no judge for this kind of problem")
        judges[0](seen)
    except RuleError as error:
        raise RuleError(f"{seen.problem} by {seen.method} on {seen.frame['name']}, {seen.house}: {error}") from error


def _check_frame(seen: Seen) -> None:
    frame, columns = seen.frame, seen.frame["columns"]
    shape = {"five-and-four": FIVE_AND_FOUR, "nine-bead": NINE_BEAD}.get(frame["name"])
    require(seen.shape == shape, "a frame called", frame["name"], "has not", seen.shape)
    require(seen.start == ((0, 0),) * columns, "the start is not the frame at rest")
    two = columns == 26 and shape == FIVE_AND_FOUR
    marks = [3, 6, 9, 12, 16, 19, 22, 25] if two else list(range(3, columns, 3))  # each frame's own
    require(frame["marks"] == marks, "marks", frame["marks"])
    require(frame["joined"] == (13 if two else None), "joined", frame["joined"])


def _check_steps(seen: Seen) -> None:
    board, shape, style = seen.start, seen.shape, seen.style
    for number, step in enumerate(seen.steps, start=1):
        require(step.number == number, "step", step.number, "stands at place", number)
        after = move_beads(board, step.moves, shape)
        require(after == step.after, "step", number, "ends as", step.after, "but the moves give", after)
        if step.work is None:
            require(step.moves == () and step.technique is None and not step.runs_on, "step", number, "works nothing")
        else:
            ruling = rule_on(shape, board, *step.work, style)
            told = (step.technique, step.runs_on, step.moves)
            require(told == ruling, "step", number, "tells", told, "but the rules say", ruling)
        _check_reads(step)
        board = after


def _check_reads(step: SeenStep) -> None:
    """What a step reads stands on the frame, marker and leading zeros apart."""
    for part, text, (highest, lowest) in step.reads:
        held = read_columns(step.after, highest, lowest)
        digits = text.replace(".", "")
        require(held.lstrip("0") == digits.lstrip("0"), part, "is read as", text, "where", held, "stands")


def check_slipped(data: Mapping[str, Any]) -> None:
    """Judge a worked example with a slip: every move legal, the first wrong step wrong, the wrong answer standing."""
    require(data["schema"] == SLIPPED_SCHEMA, "schema", data["schema"])
    seen = see_data(data)
    board, first_wrong = seen.start, None
    for number, step in enumerate(seen.steps, start=1):
        require(step.number == number, "step", step.number, "stands at place", number)
        after = move_beads(board, step.moves, seen.shape)
        require(after == step.after, "step", number, "ends as", step.after, "but the moves give", after)
        if first_wrong is None and not _is_right(seen, step, board):
            first_wrong = number
        board = after
    require(first_wrong == data["first_wrong_step"], "step", first_wrong, "is the first wrong one")
    said, _, remainder = data["wrong_answer"].partition(" r ")
    answer = data["answer"]
    for text, columns in ((said, answer["columns"]), (remainder, (answer["remainder"] or {}).get("columns"))):
        if columns is not None:
            held = read_columns(board, *columns).lstrip("0")
            require(held == text.replace(".", "").lstrip("0"), "the wrong answer is not", held)
    require(data["wrong_answer"] != data["true_answer"], "the answer is right")


def _is_right(seen: Seen, step: SeenStep, board: Board) -> bool:
    if step.work is None:
        return step.moves == ()
    return rule_on(seen.shape, board, *step.work, seen.style).moves == step.moves
