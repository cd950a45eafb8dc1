"""Moves to choose from: those of a step, and those that slips or near misses would make in their place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from beadwright.engine import Bead, Column, Frame, Move, Prediction, Step, Walkthrough
from beadwright.engine.slips import Variant, build_prediction, find_digit_slips, find_places, likelihood
from beadwright.practice.values import Codes, NextMoveEntry, name_move

WRONG_MOVES = 4
LEAST_OPTIONS = 6


def build_next_move(walkthrough: Walkthrough, step: Step) -> NextMoveEntry:
    """The choice of moves before `step`: its own, and at least a few wrong ones, in the order of the columns."""
    before = walkthrough.frames[step.number - 1]
    slips = [slip for at, _ in find_places(walkthrough, step=step.number) for slip in find_digit_slips(at)]
    right = list(dict.fromkeys(step.moves))
    wanted = max(len(right) + WRONG_MOVES, LEAST_OPTIONS)
    options = list(right)
    for move in (*_slip_moves(slips), *_near_moves(before, step)):
        if len(options) < wanted and move not in options and _is_there(before, move):
            options.append(move)
    options.sort(key=_place)
    return NextMoveEntry(walkthrough, before, step, tuple(options), _find_causes(slips, step, options))


def _slip_moves(slips: list[tuple[str, Variant]]) -> list[Move]:
    """The wrong moves of slips, those of the likeliest slip first."""
    return [move for _, variant in slips for move in variant.moves]


def _near_moves(before: Frame, step: Step) -> Iterator[Move]:
    """Moves that a learner might take for right where few slips are possible."""
    work = step.work
    if work is None:
        return
    way = -1 if step.moves and step.moves[-1].change < 0 else 1
    for move in step.moves:
        yield move._replace(change=-move.change)
        for off in (1, -1):
            yield move._replace(change=move.change + off)
        yield move._replace(bead=Bead.UPPER if move.bead is Bead.LOWER else Bead.LOWER, change=way)
    for column in (work.column + 1, work.column - 1):
        yield Move(Column(column), Bead.LOWER, way)
        yield Move(Column(column), Bead.LOWER, -way)
    upper, lower = before.shape.split(10 - work.digit)
    yield Move(work.column, Bead.LOWER, -way * lower)
    yield Move(work.column, Bead.UPPER, -way * upper)


def _is_there(before: Frame, move: Move) -> bool:
    """Whether the beads before the step allow this move by itself."""
    if move.change == 0 or not 0 < move.column <= before.columns:
        return False
    upper, lower = before.beads_in(move.column)
    held, most = (upper, before.shape.upper) if move.bead is Bead.UPPER else (lower, before.shape.lower)
    return 0 <= held + move.change <= most


def _place(move: Move) -> tuple[int, bool, int]:
    """Where a move stands among the options: columns from the left, the upper bead first, setting before clearing."""
    return (-move.column, move.bead is Bead.LOWER, -move.change)


def _find_causes(
    slips: list[tuple[str, Variant]], step: Step, options: list[Move]
) -> Mapping[Codes, tuple[Prediction, ...]]:
    """Slips by the moves they make, where all of these can be chosen and are not the right ones."""
    right = name_choice(step.moves, options)
    causes: dict[Codes, set[Prediction]] = {}
    column = None if step.work is None else step.work.column
    for slip, variant in slips:
        codes = name_choice(variant.moves, options)
        if column is not None and codes not in ((), right) and all(move in options for move in variant.moves):
            causes.setdefault(codes, set()).add(build_prediction(slip, variant.name, column, step.number))
    return {codes: tuple(sorted(causes[codes], key=likelihood)) for codes in sorted(causes)}


def name_choice(moves: tuple[Move, ...], options: list[Move] | tuple[Move, ...]) -> Codes:
    """The codes of chosen moves, each once, in the order of the options."""
    return tuple(name_move(option) for option in options if option in moves)
