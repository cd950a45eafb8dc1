"""Lasting names of items: the author's, or made from what is graded, so that a record keeps its meaning."""

from __future__ import annotations

import json
from hashlib import sha256

from beadwright.engine import Frame
from beadwright.practice.values import (
    AnswerEntry,
    Ask,
    CarryOutEntry,
    ChoiceEntry,
    Entry,
    FindSlipEntry,
    NextMoveEntry,
    OrderEntry,
    RatingEntry,
    ReadEntry,
    ReflectEntry,
    SetEntry,
    name_move,
)

HASH_LENGTH = 8


def make_id(practice: str, ask: Ask, frame: Frame | None, entry: Entry) -> str:
    """`<practice>-<hash>`: the hash is of what is graded, not of where the item stands or how it is worded."""
    kind = [] if frame is None else [frame.name, frame.columns]
    graded = json.dumps([ask, kind, find_graded(entry)], ensure_ascii=True, separators=(",", ":"))
    return f"{practice}-{sha256(graded.encode()).hexdigest()[:HASH_LENGTH]}"


def find_graded(entry: Entry) -> list[object]:
    """What of an entry decides whether an answer is right, as plain data."""
    if isinstance(entry, AnswerEntry):
        return [str(entry.walkthrough.problem), entry.accept]
    if isinstance(entry, ReadEntry | SetEntry):
        return [str(entry.number), entry.lowest]
    if isinstance(entry, CarryOutEntry):
        return [str(entry.walkthrough.problem), [check.reads for check in entry.checks]]
    if isinstance(entry, NextMoveEntry):
        return [str(entry.walkthrough.problem), entry.step.number, [name_move(move) for move in entry.step.moves]]
    if isinstance(entry, OrderEntry):
        step = None if entry.step is None else [name_move(move) for move in entry.step.moves]
        return [str(entry.walkthrough.problem), step]
    if isinstance(entry, FindSlipEntry):
        slipped = entry.slipped
        return [str(slipped.right.problem), slipped.slip, slipped.variant, slipped.first_wrong_step]
    return _find_written(entry)


def _find_written(entry: ChoiceEntry | ReflectEntry | RatingEntry) -> list[object]:
    """What an author wrote to be answered; the words are the question here."""
    if isinstance(entry, ChoiceEntry):
        return [entry.question, [[option.text, option.right] for option in entry.options]]
    if isinstance(entry, ReflectEntry):
        return [entry.question]
    return [entry.when, [rated.id for rated in entry.items]]
