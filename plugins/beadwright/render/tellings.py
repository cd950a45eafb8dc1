"""What is told of a digit that is worked, whatever the digit comes from; each telling is put together once and kept.

A telling depends on the digit, its column, the moves and the wording. There are a few hundred of these, and a course
tells the same ones over and over. What the changed columns read then is kept beside them.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from operator import itemgetter
from typing import NamedTuple

from beadwright.engine import Action, Bead, Frame, FromTerm, Move, Step, Technique, Wording, Work
from beadwright.render.phrases import ColumnMoves, Phrases, find_changed, group_moves
from beadwright.render.reasons import find_reasons

MOST_KEPT = 20_000
_UNEXPLAINED = frozenset({Technique.SET, Technique.CLEAR, Technique.COUNT})
_LEAD, _NOW = "\0", "\1"  # stand for the lead and for what the columns read now; no table holds them


class Columns:
    """Columns, leftmost first: `pick` takes their beads out of a frame's, `told` keeps what is told by these."""

    def __init__(self, numbers: tuple[int, ...]) -> None:
        self.numbers = numbers
        self.pick = itemgetter(*[-number for number in numbers])
        self.told: dict[object, str] = {}


class Telling(NamedTuple):
    """What is told of a worked digit: `act` names it; the full and the short reading await what `columns` read then.

    The full one awaits its lead too.
    """

    act: str
    full: str
    short: str
    columns: Columns


class Told(NamedTuple):
    """What is told at one step: `act` names the digit, `short` is the short reading; the full one awaits its lead."""

    act: str
    short: str
    unled: str

    def lead_with(self, lead: str) -> str:
        """The whole sentence, with what is about to be done and where the digit comes from."""
        return self.unled.replace(_LEAD, lead)


_Key = tuple[Technique | None, bool, Action, int, int, bool, tuple[Move, ...]]


class Tellings:
    """The tellings in one way of phrasing and one wording (None: plainly, without reasons and rules)."""

    def __init__(self, phrases: Phrases, wording: Wording | None) -> None:
        self._words = phrases.words
        self._phrases = phrases
        self._reasons = find_reasons(phrases)
        self._wording = wording
        self._kept: dict[_Key, Telling] = {}
        self._columns: dict[tuple[int, ...], Columns] = {}

    def find(self, step: Step, work: Work) -> Told:
        """What is told of the step that works this digit."""
        action, digit, column, source = work
        key = (step.technique, step.runs_on, action, digit, column, isinstance(source, FromTerm), step.moves)
        telling = self._kept.get(key)
        if telling is None:
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            telling = self._kept[key] = self._build(step, work)
        now = self._say_now(telling.columns, step.after)
        return Told(telling.act, telling.short.replace(_NOW, now), telling.full.replace(_NOW, now))

    def _say_now(self, columns: Columns, after: Frame) -> str:
        """What these columns read now."""
        beads = columns.pick(after.beads)
        text = columns.told.get(beads)
        if text is None:
            if len(columns.told) >= MOST_KEPT:
                columns.told.clear()
            reads = self._phrases.reads(after, columns.numbers)
            text = columns.told[beads] = self._words.text("speech.now", columns=reads)
        return text

    def _build(self, step: Step, work: Work) -> Telling:
        groups = group_moves(step.moves)
        act = self._phrases.act(work, counted=step.technique is Technique.COUNT)
        moves = self._say_moves(step, work, groups)
        short = self._words.text("speech.short", act=capitalise(act), moves=moves, now=_NOW)
        changed = find_changed(step)
        columns = self._columns.setdefault(changed, Columns(changed))
        return Telling(act, self._say_full(step, work, groups, moves), short, columns)

    def _say_full(self, step: Step, work: Work, groups: list[ColumnMoves], moves: str) -> str:
        """The sentence but for its lead and end; a step that needs no reason, or may give none, is told plainly."""
        words = self._words
        if self._wording is None or step.technique is None or step.technique in _UNEXPLAINED:
            return words.text("speech.plain", lead=_LEAD, moves=moves, now=_NOW)
        if self._wording is Wording.REASONS:
            why = self._reasons.say(step, groups)
            return words.text("speech.reasons", lead=_LEAD, why=why, moves=moves, now=_NOW)
        rule = self._phrases.rule_act(work)
        rule_moves = self._phrases.rule(groups, work.column, runs_on=step.runs_on)
        if self._wording is Wording.RULES:
            # A rule says itself which digit it works; where that comes from needs telling only when it is not a term.
            key = "speech.rules" if isinstance(work.source, FromTerm) else "speech.rules_after"
            return words.text(key, lead=_LEAD, rule=capitalise(rule), moves=rule_moves, now=_NOW)
        why = self._reasons.say(step, groups)
        fields = {"lead": _LEAD, "why": why, "moves": moves, "now": _NOW, "rule": rule, "rule_moves": rule_moves}
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
