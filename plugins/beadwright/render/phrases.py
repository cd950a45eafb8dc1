"""The pieces of sentences about one kind of frame: columns, moves, what columns read. Each is phrased once and kept.

A walkthrough says the same few hundred pieces over and over, so phrasing a step is mostly looking up.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from beadwright.engine import Action, Bead, ColumnShape, Frame, Move, Step, Work
from beadwright.render.places import ColumnName, name_column
from beadwright.render.words import Words

_LEFT = -1
"""In place of a column's number: the next column on the left of the one that is worked."""


class ColumnMoves(NamedTuple):
    """What moves in one column at one time: upper and lower beads, > 0 set, < 0 cleared."""

    column: int
    upper: int
    lower: int


def group_moves(moves: Iterable[Move]) -> list[ColumnMoves]:
    """Moves that follow each other in one column, the upper bead before the lower beads, as one."""
    groups: list[ColumnMoves] = []
    for column, bead, change in moves:
        joins = bool(groups) and bead is Bead.LOWER and groups[-1].column == column and groups[-1].lower == 0
        if joins:
            groups[-1] = ColumnMoves(column, groups[-1].upper, change)
        elif bead is Bead.LOWER:
            groups.append(ColumnMoves(column, 0, change))
        else:
            groups.append(ColumnMoves(column, change, 0))
    return groups


def _name_way(upper: int, lower: int) -> str:
    """The table's name for a kind of move: what happens to the upper bead, then to the lower beads."""
    if upper == 0:
        return "lower_set" if lower > 0 else "lower_clear"
    if lower == 0:
        return "upper_set" if upper > 0 else "upper_clear"
    if upper > 0:
        return "both_set" if lower > 0 else "upper_set_lower_clear"
    return "upper_clear_lower_set" if lower > 0 else "both_clear"


class Phrases:
    """Phrases about one kind of frame whose ones stand in `ones_column` (None: columns go by number).

    It only remembers what the table says; two of the same table, shape and ones column say the same.
    """

    def __init__(self, words: Words, shape: ColumnShape, ones_column: int | None) -> None:
        self.words = words
        self.ones_column = ones_column
        self._parts = "nine_bead" if shape.upper == 0 else "five_and_four"
        self._columns: dict[int, ColumnName] = {}
        self._acts: dict[tuple[str, Action, int, int], str] = {}
        self._moves: dict[tuple[str, int, int, int], str] = {}
        self._reads: dict[tuple[int, int, bool], str] = {}
        self._small = words.items("numbers.small")
        self._and = words.pattern("list.last")
        self._comma = words.pattern("list.next")
        self._separator = words.pattern("list.separator")

    def column(self, column: int) -> ColumnName:
        """The name of a column, counted from the right."""
        name = self._columns.get(column)
        if name is None:
            name = self._columns[column] = name_column(column, self.ones_column, self.words)
        return name

    def digit(self, digit: int) -> str:
        """A digit, or ten, in words."""
        return self._small[digit]

    def act(self, work: Work, *, counted: bool) -> str:
        """What is done: `add 7 on the ones`, counted or not."""
        return self._act("speech.act.count_" if counted else "speech.act.", work)

    def rule_act(self, work: Work) -> str:
        """What is done, as a rule says it: `plus 7 on the ones`."""
        return self._act("speech.rule.", work)

    def _act(self, style: str, work: Work) -> str:
        key = (style, work.action, work.digit, work.column)
        text = self._acts.get(key)
        if text is None:
            name = self.column(work.column)
            act = f"{style}{work.action}"
            text = self._acts[key] = self.words.text(act, digit=work.digit, on=name.on, the=name.the)
        return text

    def row(self, items: list[str]) -> str:
        """Items in a row with the language's last joint: `a, b and c`."""
        if len(items) < 3:
            return items[0] if len(items) == 1 else self._and.format(before=items[0], after=items[1])
        text = items[0]
        for item in items[1:-1]:
            text = self._comma.format(before=text, after=item)
        return self._and.format(before=text, after=items[-1])

    def moves(self, groups: list[ColumnMoves], here: int | None = None) -> str:
        """What moves, in order, each column named; moves in column `here` go without its name."""
        if groups == []:
            return self.words.text("speech.no_move")
        said = [self._move("moves", group, None if group.column == here else group.column) for group in groups]
        return self._separator.join(said)

    def rule(self, groups: list[ColumnMoves], column: int, *, runs_on: bool) -> str:
        """What moves by value, as a rule worked in `column` says it: its own column goes unnamed, the next is `left`.

        Where an exchange runs on there is more than one column on the left, so each is named.
        """
        if groups == []:
            return self.words.text("speech.no_move")
        left = None if runs_on else column + 1
        return self._separator.join([self._rule(group, column, left) for group in groups])

    def _rule(self, group: ColumnMoves, column: int, left: int | None) -> str:
        if group.column == left:
            return self._move("rule_moves", group, _LEFT)
        return self._move("rule_moves", group, None if group.column == column else group.column)

    def _move(self, style: str, group: ColumnMoves, place: int | None) -> str:
        key = (style, 0 if place is None else place, group.upper, group.lower)
        text = self._moves.get(key)
        if text is None:
            way = _name_way(group.upper, group.lower)
            text = self.words.text(f"speech.{style}.{way}", count=abs(group.lower))
            if place == _LEFT:
                text = self.words.text("speech.placed_left", move=text)
            elif place is not None:
                text = self.words.text("speech.placed", move=text, on=self.column(place).on)
            self._moves[key] = text
        return text

    def beads(self, upper: int, lower: int) -> str:
        """Beads by kind, as they are set or described: `the upper bead and 3 lower beads`, `7 beads`."""
        kind = "both" if upper > 0 and lower > 0 else "upper" if upper > 0 else "lower" if lower > 0 else "none"
        return self.words.text(f"beads.{self._parts}.{kind}", count=lower, words=self._small[lower])

    def reads(self, frame: Frame, columns: Iterable[int]) -> str:
        """What these columns read now, in this order."""
        items: list[str] = []
        for column in columns:
            upper, lower = frame.beads[-column]
            key = (column, 5 * upper + lower, not items)
            text = self._reads.get(key)
            if text is None:
                name = self.column(column)
                text = self._reads[key] = (name.also if items else name.read).format(digit=key[1])
            items.append(text)
        return self.row(items)


@lru_cache(maxsize=64)
def find_phrases(words: Words, shape: ColumnShape, ones_column: int | None) -> Phrases:
    """The phrases of one table, shape and ones column; the same object each time, so that what it knows is kept."""
    return Phrases(words, shape, ones_column)


def find_changed(step: Step) -> tuple[int, ...]:
    """The columns that a step speaks of, leftmost first: those whose beads move, and the one it works."""
    columns: set[int] = {move.column for move in step.moves}
    if step.work is not None:
        columns.add(step.work.column)
    return tuple(sorted(columns, reverse=True))
