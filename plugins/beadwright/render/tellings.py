"""What is told of a digit that is worked, whatever the digit comes from; each telling is put together once and kept.

A telling depends on the digit, its column, the moves and the wording; then on what the changed columns read. There are
a few thousand of these, and a course tells the same ones over and over.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from operator import itemgetter
from typing import Final, Literal, NamedTuple

from beadwright.engine import Action, Bead, ColumnShape, Frame, Move, Purpose, Step, Technique, Wording, Work
from beadwright.render.leads import GAP, capitalise, say_number_lead
from beadwright.render.phrases import ColumnMoves, Phrases, find_changed, find_phrases, group_moves
from beadwright.render.reasons import find_reasons
from beadwright.render.words import Words

MOST_KEPT = 20_000
_UNEXPLAINED = frozenset({Technique.SET, Technique.CLEAR, Technique.COUNT})
_NOW = "\1"  # stands for what the columns read now; no table holds it

BY_ACT: Final = "act"
BY_SOURCE: Final = "source"
Led = Purpose | Literal["act", "source"]
"""What a telling leads with: why a digit of a number is worked, with a gap for the number; the act alone, where the
number has no other digit; or a gap for a lead that tells another source."""


class Told(NamedTuple):
    """What is told at one step: `act` names the digit, `opening` does so at the head of a sentence.

    `parts` are the full reading, parted where its gap is; `short` is the short one.
    """

    act: str
    opening: str
    parts: tuple[str, ...]
    short: str


class Telling(NamedTuple):
    """What is told of a worked digit: `act` names it; the full and the short reading await what `columns` read then."""

    act: str
    full: str
    short: str
    columns: tuple[int, ...]


_Key = tuple[Technique | None, bool, Action, int, int, Led, tuple[Move, ...]]
_Kept = tuple[Callable[[tuple[tuple[int, int], ...]], object], dict[object, Told], Telling]
"""What takes the changed columns' beads out of a frame's, what is told by these, and the telling it is made of."""


class Tellings:
    """The tellings in one way of phrasing and one wording (None: plainly, without reasons and rules)."""

    def __init__(self, phrases: Phrases, wording: Wording | None) -> None:
        self._words = phrases.words
        self.phrases = phrases
        self._reasons = find_reasons(phrases)
        self._wording = wording
        self._kept: dict[_Key, _Kept] = {}
        self._count = 0

    def find(self, step: Step, work: Work, led: Led) -> Told:
        """What is told of the step that works this digit."""
        action, digit, column, _ = work
        _, _, _, technique, runs_on, moves, after, _, _ = step
        key = (technique, runs_on, action, digit, column, led, moves)
        try:
            pick, told, _ = self._kept[key]
            return told[pick(after.beads)]
        except KeyError:
            return self._keep(key, step, work, led)

    def _keep(self, key: _Key, step: Step, work: Work, led: Led) -> Told:
        """What is told of the step, put together and kept."""
        if self._count >= MOST_KEPT:
            self._kept.clear()
            self._count = 0
        if key not in self._kept:
            telling = self._build(step, work, led)
            self._kept[key] = (itemgetter(*[-number for number in telling.columns]), {}, telling)
        pick, told, telling = self._kept[key]
        found = told[pick(step.after.beads)] = self._tell(telling, step.after)
        self._count += 1
        return found

    def _tell(self, telling: Telling, after: Frame) -> Told:
        """What is told where the frame is then `after`."""
        now = self._words.text("speech.now", columns=self.phrases.reads(after, telling.columns))
        full, short = telling.full.replace(_NOW, now), telling.short.replace(_NOW, now)
        return Told(telling.act, capitalise(telling.act), tuple(full.split(GAP)), short)

    def _build(self, step: Step, work: Work, led: Led) -> Telling:
        groups = group_moves(step.moves)
        act = self.phrases.act(work, counted=step.technique is Technique.COUNT)
        moves = self._say_moves(step, work, groups)
        short = self._words.text("speech.short", act=capitalise(act), moves=moves, now=_NOW)
        return Telling(act, self._say_full(step, work, led, act, groups, moves), short, find_changed(step))

    def _say_lead(self, work: Work, led: Led, act: str) -> str:
        if led == BY_SOURCE:
            return GAP
        return capitalise(act) if led == BY_ACT else say_number_lead(self._words, Purpose(led), work.action, act)

    def _say_full(self, step: Step, work: Work, led: Led, act: str, groups: list[ColumnMoves], moves: str) -> str:
        """The sentence but for its gap and end; a step that needs no reason, or may give none, is told plainly."""
        words, lead = self._words, self._say_lead(work, led, act)
        if self._wording is None or step.technique is None or step.technique in _UNEXPLAINED:
            return words.text("speech.plain", lead=lead, moves=moves, now=_NOW)
        if self._wording is Wording.REASONS:
            why = self._reasons.say(step, groups)
            return words.text("speech.reasons", lead=lead, why=why, moves=moves, now=_NOW)
        rule = self.phrases.rule_act(work)
        rule_moves = self.phrases.rule(groups, work.column, runs_on=step.runs_on)
        if self._wording is Wording.RULES:
            # A rule says itself which digit it works; where that comes from needs telling only when it is not a term.
            key = "speech.rules_after" if led == BY_SOURCE else "speech.rules"
            return words.text(key, lead=lead, rule=capitalise(rule), moves=rule_moves, now=_NOW)
        why = self._reasons.say(step, groups)
        fields = {"lead": lead, "why": why, "moves": moves, "now": _NOW, "rule": rule, "rule_moves": rule_moves}
        return words.fill("speech.both", fields)

    def _say_moves(self, step: Step, work: Work, groups: list[ColumnMoves]) -> str:
        if step.technique is Technique.COUNT:
            counts = split_counts(work.column, step.moves)
            if len(counts) == work.digit:
                return self._say_counts(work, counts)
        if len(groups) == 1 and groups[0].column == work.column and work.action in (Action.SET, Action.CLEAR):
            way = 1 if work.action is Action.SET else -1
            upper, lower = way * groups[0].upper, way * groups[0].lower
            if upper >= 0 and lower >= 0:
                return self.phrases.beads(upper, lower)
        return self.phrases.moves(groups)

    def _say_counts(self, work: Work, counts: list[tuple[Move, ...]]) -> str:
        """Each count with its moves; what moves in the counted column itself goes without its name."""
        said = []
        for count, counted in enumerate(counts, start=1):
            groups = group_moves(counted)
            here = work.column if all(group.column == work.column for group in groups) else None
            fields = {"count": self.phrases.digit(count), "moves": self.phrases.moves(groups, here)}
            said.append(self._words.pattern("speech.count").format_map(fields))
        return self._words.pattern("speech.count_separator").join(said)


@lru_cache(maxsize=64)
def find_tellings(words: Words, shape: ColumnShape, ones_column: int | None, wording: Wording | None) -> Tellings:
    """The tellings of one way of phrasing and one wording; the same object each time, so that what it knows is kept."""
    return Tellings(find_phrases(words, shape, ones_column), wording)


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
