"""Why the beads of a step move as they do: too few at rest, partners, an exchange that runs on.

Source of the reasons: PROCEDURES §3.1–3.5, common practice, no source.
"""

from __future__ import annotations

from functools import lru_cache

from beadwright.engine import Action, Step, Technique
from beadwright.render.phrases import ColumnMoves, Phrases

_PARTNERED = (Technique.PARTNER_OF_10, Technique.BOTH_PARTNERS)


class Reasons:
    """The reasons of steps in one way of phrasing; each reason is put together once and kept."""

    def __init__(self, phrases: Phrases) -> None:
        self._phrases = phrases
        self._digits: dict[tuple[Action, Technique, int, int], str] = {}
        self._takers: dict[tuple[Action, int], str] = {}

    def say(self, step: Step, groups: list[ColumnMoves]) -> str:
        """The reasons of a step that works a digit by a technique, as sentences without the last full stop."""
        work, technique = step.work, step.technique
        if work is None or technique is None:
            raise ValueError(f"step {step.number} works no digit")
        text = self._say_digit(work.action, technique, work.digit, work.column)
        if technique not in _PARTNERED:
            return text
        further = []
        if step.runs_on:
            further.append(self._say_run(work.action, work.column, groups))
        taker = max(groups)
        if taker.upper != 0:
            further.append(self._say_taker(work.action, taker.column))
        for sentence in further:
            text = self._phrases.words.text("speech.why.further", before=text, after=sentence)
        return text

    def _say_digit(self, action: Action, technique: Technique, digit: int, column: int) -> str:
        key = (action, technique, digit, column)
        text = self._digits.get(key)
        if text is None:
            phrases = self._phrases
            text = self._digits[key] = phrases.words.text(
                f"speech.why.{action}.{technique}",
                on=phrases.column(column).on,
                digit=phrases.digit(digit),
                partner_of_10=phrases.digit(10 - digit),
                partner_of_5=phrases.digit(abs(5 - digit)),
            )
        return text

    def _say_run(self, action: Action, column: int, groups: list[ColumnMoves]) -> str:
        """Which columns the exchange runs through, nearest first, and where it ends."""
        phrases = self._phrases
        end = max(groups).column
        through = [phrases.column(passed).on for passed in range(column + 1, end)]
        return phrases.words.text(
            f"speech.why.{action}.runs_on", columns=phrases.row(through), the=phrases.column(end).the
        )

    def _say_taker(self, action: Action, column: int) -> str:
        """Why the column that gives or takes the 1 does so by its upper bead."""
        text = self._takers.get((action, column))
        if text is None:
            on = self._phrases.column(column).on
            text = self._takers[(action, column)] = self._phrases.words.text(f"speech.why.{action}.left", on=on)
        return text


@lru_cache(maxsize=64)
def find_reasons(phrases: Phrases) -> Reasons:
    """The reasons that go with these phrases; the same object each time, so that what it knows is kept."""
    return Reasons(phrases)
