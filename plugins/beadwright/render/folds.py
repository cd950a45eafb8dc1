"""The folded answer and working of an item, for those without scripts. Scripts take it away; it is not printed."""

from __future__ import annotations

from typing import NamedTuple

from markupsafe import Markup

from beadwright.engine import Walkthrough
from beadwright.practice import (
    AnswerEntry,
    CarryOutEntry,
    ChoiceEntry,
    FindSlipEntry,
    NextMoveEntry,
    OrderEntry,
    ReadEntry,
    ReflectEntry,
    SetEntry,
)
from beadwright.practice.values import Entry
from beadwright.render.item_data import SharedData, show_answer
from beadwright.render.numbers import format_number, format_problem
from beadwright.render.phrases import group_moves
from beadwright.render.prose import render_line, render_prose
from beadwright.render.slips import find_walkthrough_phrases, name_slip
from beadwright.render.speech import say_steps


class Fold(NamedTuple):
    """The words to unfold by, the answer, and the steps of the working (none where there are no steps)."""

    name: str
    answer: str | Markup
    steps: list[str | Markup]


def build_fold(entry: Entry, shared: SharedData) -> Fold | None:
    """The fold of an item's first entry; None where nothing is to be found out."""
    words = shared.words
    if isinstance(entry, AnswerEntry | CarryOutEntry):
        answer = words.text("ask.fold_answer", answer=show_answer(entry.walkthrough, words))
        return Fold(_name(entry.walkthrough, shared), answer, _list_steps(entry.walkthrough, shared))
    if isinstance(entry, NextMoveEntry):
        moves = find_walkthrough_phrases(entry.walkthrough, words).moves(group_moves(entry.step.moves))
        return Fold(words.text("ask.fold_plain"), words.text("ask.fold_moves", moves=moves), [])
    if isinstance(entry, OrderEntry):
        return Fold(words.text("ask.fold_plain"), words.text("ask.fold_order"), _list_order(entry, shared))
    if isinstance(entry, FindSlipEntry):
        slip = name_slip(entry.slipped.slip, words)
        found = words.text("ask.fold_slip", step=entry.slipped.first_wrong_step, slip=slip[:1].upper() + slip[1:])
        right = entry.slipped.right
        return Fold(_name(right, shared), found, _list_steps(right, shared))
    return _build_plain_fold(entry, shared)


def _build_plain_fold(entry: Entry, shared: SharedData) -> Fold | None:
    words = shared.words
    plain = words.text("ask.fold_plain")
    if isinstance(entry, ReadEntry | SetEntry):
        return Fold(plain, words.text("ask.fold_answer", answer=format_number(str(entry.number), words)), [])
    if isinstance(entry, ChoiceEntry):
        right = [
            Markup("<strong>{}</strong> {}").format(render_line(o.text), render_line(o.because))
            for o in entry.options
            if o.right
        ]
        return Fold(plain, right[0] if len(right) == 1 else "", list(right) if len(right) > 1 else [])
    if isinstance(entry, ReflectEntry) and entry.model is not None:
        return Fold(plain, render_prose(entry.model), [])
    return None


def _name(walkthrough: Walkthrough, shared: SharedData) -> str:
    return shared.words.text("ask.fold", shown=format_problem(walkthrough.problem, shared.words))


def _list_steps(walkthrough: Walkthrough, shared: SharedData) -> list[str | Markup]:
    return [said.full for said in say_steps(walkthrough, shared.words)]


def _list_order(entry: OrderEntry, shared: SharedData) -> list[str | Markup]:
    """Moves or steps in their right order."""
    if entry.step is None:
        said = zip(entry.walkthrough.steps, say_steps(entry.walkthrough, shared.words), strict=True)
        return [short.short for step, short in said if step.moves]
    phrases = find_walkthrough_phrases(entry.walkthrough, shared.words)
    moves = [phrases.moves(group_moves((move,))) for move in entry.step.moves]
    return [move[:1].upper() + move[1:] for move in moves]
