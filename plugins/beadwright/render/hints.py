"""Hints in three levels: which column, which technique, which beads."""

from __future__ import annotations

from beadwright.engine import Frame, Order, Step, Technique
from beadwright.practice import CarryOutEntry, FindSlipEntry, NextMoveEntry, OrderEntry, ReadEntry, SetEntry
from beadwright.practice.values import AnswerEntry, Check
from beadwright.render.leads import capitalise
from beadwright.render.phrases import Phrases, find_phrases, group_moves
from beadwright.render.slips import find_walkthrough_phrases, name_slip, takes_away
from beadwright.render.words import Words

Hints = tuple[str, ...]
"""Three sentences, each saying more than the one before; none where no bead moves."""


def say_answer_hints(entry: AnswerEntry | CarryOutEntry, words: Words, focus: Step | None) -> Hints:
    """About the hardest digit of the problem."""
    phrases = find_walkthrough_phrases(entry.walkthrough, words)
    return (words.text("hints.none"),) if focus is None else say_step_hints(focus, phrases)


def say_step_hints(step: Step, phrases: Phrases) -> Hints:
    """About one digit: its column and what is done, the technique, the moves."""
    words, work = phrases.words, step.work
    if work is None:
        return (words.text("hints.none"),)
    act = phrases.act(work, counted=step.technique is Technique.COUNT)
    where = words.text("hints.where", act=act)
    return (where, _say_technique(step, words), _say_moves(step, phrases))


def say_check_hints(check: Check, phrases: Phrases) -> Hints:
    """About the digit that is due."""
    return say_step_hints(check.step, phrases)


def _say_technique(step: Step, words: Words) -> str:
    action = "take" if takes_away(step) else "add"
    key = f"hints.how.{step.technique}"
    text = words.text(f"{key}.{action}" if f"{key}.{action}" in words.entries else key)
    return f"{text} {words.text(f'hints.how.runs_on.{action}')}" if step.runs_on else text


def _say_moves(step: Step, phrases: Phrases) -> str:
    return capitalise(phrases.words.text("hints.beads", moves=phrases.moves(group_moves(step.moves))))


def say_next_move_hints(entry: NextMoveEntry, words: Words) -> Hints:
    """About the step that is due: what its column holds, the technique, the moves."""
    phrases = find_walkthrough_phrases(entry.walkthrough, words)
    work = entry.step.work
    if work is None:
        return (words.text("hints.none"),)
    beads = phrases.beads(*entry.before.beads_in(work.column))
    held = capitalise(words.text("hints.held", the=phrases.column(work.column).the, beads=beads))
    return (held, _say_technique(entry.step, words), _say_moves(entry.step, phrases))


def say_order_hints(entry: OrderEntry, words: Words) -> Hints:
    """About the order of a step's moves, or of a problem's steps."""
    phrases = find_walkthrough_phrases(entry.walkthrough, words)
    if entry.step is None:
        first = next(step for step in entry.walkthrough.steps if step.moves)
        said = phrases.moves(group_moves(first.moves))
        return (words.text("hints.order_all_where"), words.text("hints.order_all_how"), _say_first(said, words))
    first_move = entry.step.moves[:1]
    where = words.text("hints.order_where", on=phrases.column(first_move[0].column).on)
    how = words.text(f"hints.{_find_order_key(entry)}")
    return (where, how, _say_first(phrases.moves(group_moves(first_move)), words))


def _say_first(move: str, words: Words) -> str:
    return words.text("hints.order_beads", move=move)


def _find_order_key(entry: OrderEntry) -> str:
    step = entry.step
    if step is None or len({move.column for move in step.moves}) == 1:
        return "order_how_one"
    return "order_how_left" if find_order(step, entry) is Order.LEFT_FIRST else "order_how_right"


def find_order(step: Step, entry: OrderEntry) -> Order:
    """The house's order of an exchange for what this step does."""
    house = entry.walkthrough.house
    return house.take_order if takes_away(step) else house.add_order


def say_find_slip_hints(entry: FindSlipEntry, words: Words) -> Hints:
    """About the slip in a worked example: its column, how far all is right, its name."""
    slipped = entry.slipped
    phrases = find_walkthrough_phrases(slipped.right, words)
    right = slipped.first_wrong_step - 1
    how = words.text("hints.slip_how", count=right) if right > 0 else words.text("hints.slip_how_none")
    return (
        words.text("hints.slip_where", on=phrases.column(slipped.column).on),
        how,
        words.text("hints.slip_what", name=name_slip(slipped.slip, words)),
    )


def say_read_hints(entry: ReadEntry, words: Words) -> Hints:
    """About a frame to read: where it starts, what the beads are worth, what each column holds."""
    phrases = find_phrases(words, entry.frame.shape, entry.ones)
    columns = find_digit_columns(entry)
    where = words.text("hints.read_where", the=phrases.column(columns[0]).the)
    how = words.text("hints.read_how" if entry.frame.shape.upper > 0 else "hints.read_how_nine")
    return (where, how, words.text("hints.read_beads", beads=say_columns(entry.frame, columns, phrases)))


def say_set_hints(entry: SetEntry, words: Words) -> Hints:
    """About a number to set: where it starts, how a digit is made, which beads each column takes."""
    phrases = find_phrases(words, entry.goal.shape, entry.ones)
    columns = find_digit_columns(entry)
    where = words.text("hints.set_where", on=phrases.column(columns[0]).on)
    how = words.text("hints.set_how" if entry.goal.shape.upper > 0 else "hints.set_how_nine")
    return (where, how, words.text("hints.set_beads", beads=say_columns(entry.goal, columns, phrases)))


def find_digit_columns(entry: ReadEntry | SetEntry) -> list[int]:
    """The columns of the number's digits, highest first."""
    highest = entry.lowest + len(entry.number.digits) - 1
    return list(range(max(highest, entry.ones), entry.lowest - 1, -1))


def say_columns(frame: Frame, columns: list[int], phrases: Phrases) -> str:
    """What is set in each column: `on the hundreds 3 lower beads, on the tens no bead`."""
    words = phrases.words
    parts = [
        words.text("reading.column", on=phrases.column(column).on, beads=phrases.beads(*frame.beads_in(column)))
        for column in columns
    ]
    return words.pattern("list.separator").join(parts)
