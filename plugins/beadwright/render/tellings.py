"""What is told of a digit that is worked, whatever the digit comes from; each telling is put together once and kept.

A telling depends on the digit, its column, the moves, what the changed columns read then, and the wording. There are a
few thousand of these, and a course tells the same ones over and over.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from beadwright.engine import Action, Bead, FromTerm, Move, Step, Technique, Wording, Work
from beadwright.render.phrases import ColumnMoves, Phrases, find_changed, group_moves
from beadwright.render.reasons import find_reasons

MOST_KEPT = 20_000
_UNEXPLAINED = frozenset({Technique.SET, Technique.CLEAR, Technique.COUNT})
_LEAD = "\0"  # stands for the lead; no table holds it


class Telling(NamedTuple):
    """What is told of a worked digit: `act` names it, `short` is the short reading; the full one awaits its lead."""

    act: str
    short: str
    unled: str

    def lead_with(self, lead: str) -> str:
        """The whole sentence, with what is about to be done and where the digit comes from."""
        return self.unled.replace(_LEAD, lead)


_Key = tuple[Technique | None, bool, Action, int, int, bool, tuple[Move, ...], tuple[tuple[int, int], ...]]


class Tellings:
    """The tellings in one way of phrasing and one wording (None: plainly, without reasons and rules)."""

    def __init__(self, phrases: Phrases, wording: Wording | None) -> None:
        self._words = phrases.words
        self._phrases = phrases
        self._reasons = find_reasons(phrases)
        self._wording = wording
        self._kept: dict[_Key, Telling] = {}

    def find(self, step: Step, work: Work) -> Telling:
        """What is told of the step that works this digit."""
        action, digit, column, source = work
        moves, beads = step.moves, step.after.beads
        shown = (beads[-column], *[beads[-move.column] for move in moves])
        key = (step.technique, step.runs_on, action, digit, column, isinstance(source, FromTerm), moves, shown)
        told = self._kept.get(key)
        if told is None:
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            told = self._kept[key] = self._build(step, work)
        return told

    def _build(self, step: Step, work: Work) -> Telling:
        words, phrases = self._words, self._phrases
        groups = group_moves(step.moves)
        act = phrases.act(work, counted=step.technique is Technique.COUNT)
        now = words.text("speech.now", columns=phrases.reads(step.after, find_changed(step)))
        moves = self._say_moves(step, work, groups)
        short = words.text("speech.short", act=capitalise(act), moves=moves, now=now)
        return Telling(act, short, self._say_full(step, work, groups, moves, now))

    def _say_full(self, step: Step, work: Work, groups: list[ColumnMoves], moves: str, now: str) -> str:
        """The whole sentence but for its lead; a step that needs no reason, or may give none, is told plainly."""
        words = self._words
        if self._wording is None or step.technique is None or step.technique in _UNEXPLAINED:
            return words.text("speech.plain", lead=_LEAD, moves=moves, now=now)
        if self._wording is Wording.REASONS:
            why = self._reasons.say(step, groups)
            return words.text("speech.reasons", lead=_LEAD, why=why, moves=moves, now=now)
        rule = self._phrases.rule_act(work)
        rule_moves = self._phrases.rule(groups, work.column, runs_on=step.runs_on)
        if self._wording is Wording.RULES:
            # A rule says itself which digit it works; where that comes from needs telling only when it is not a term.
            key = "speech.rules" if isinstance(work.source, FromTerm) else "speech.rules_after"
            return words.text(key, lead=_LEAD, rule=capitalise(rule), moves=rule_moves, now=now)
        why = self._reasons.say(step, groups)
        fields = {"lead": _LEAD, "why": why, "moves": moves, "now": now, "rule": rule, "rule_moves": rule_moves}
        return words.text("speech.both", **fields)

    def _say_moves(self, step: Step, work: Work, groups: list[ColumnMoves]) -> str:
        if step.technique is Technique.COUNT:
            counts = split_counts(work.column, step.moves)
            if len(counts) == work.digit:
                return self._say_counts(work, counts)
        if len(groups) == 1 and groups[0].column == work.column and work.action in (Action.SET, Action.CLEAR):
            way = 1 if work.action is Action.SET else -1
            upper, lower = way * groups[0].upper, way * groups[0].lower
            if upper >= 0 and lower >= 0:
                return self._phrases.beads(upper, lower)
        return self._phrases.moves(groups)

    def _say_counts(self, work: Work, counts: list[tuple[Move, ...]]) -> str:
        """Each count with its moves; what moves in the counted column itself goes without its name."""
        said = []
        for count, counted in enumerate(counts, start=1):
            groups = group_moves(counted)
            here = work.column if all(group.column == work.column for group in groups) else None
            fields = {"count": self._phrases.digit(count), "moves": self._phrases.moves(groups, here)}
            said.append(self._words.pattern("speech.count").format_map(fields))
        return self._words.pattern("speech.count_separator").join(said)


@lru_cache(maxsize=64)
def find_tellings(phrases: Phrases, wording: Wording | None) -> Tellings:
    """The tellings of one way of phrasing and one wording; the same object each time, so that what it knows is kept."""
    return Tellings(phrases, wording)


def capitalise(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def split_counts(column: int, moves: Sequence[Move]) -> list[tuple[Move, ...]]:
    """The moves of a count in `column`, one at a time: each part changes what the frame holds by one there."""
    lowest = min([column, *(move.column for move in moves)])
    one = 10 ** (column - lowest)
    counts, part, change = [], [], 0
    for move in moves:
        part.append(move)
        worth = 5 if move.bead is Bead.UPPER else 1
        change += move.change * worth * 10 ** (move.column - lowest)
        if abs(change) == one:
            counts.append(tuple(part))
            part, change = [], 0
    if part:
        counts.append(tuple(part))
    return counts
