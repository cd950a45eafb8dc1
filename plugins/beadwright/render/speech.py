"""What is said at each step: sentences that are whole without any picture.

A full sentence names the digit, its column and its number, the reason or the rule as the course's wording has it, each
move in order, and what the changed columns read then; where a number is done, what the frame reads. The short one
leaves out reasons and numbers. Source of the wordings: PROCEDURES §3.5.

To teach a new purpose, source or topic to speak, add its words to the table: `speech.lead.<purpose>-<source>`,
`speech.topic.<topic>`; nothing here changes unless a source brings facts of a new kind.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from beadwright.engine import (
    FromTerm,
    Percent,
    Problem,
    Quotient,
    Root,
    Slipped,
    Step,
    Sum,
    Walkthrough,
)
from beadwright.render.leads import find_lead
from beadwright.render.numbers import format_number
from beadwright.render.remarks import say_remark
from beadwright.render.tellings import BY_ACT, BY_SOURCE, find_tellings
from beadwright.render.words import Words

_TELL_ANSWER = frozenset({"product-done", "quotient-done", "quotient-exact", "quotient-rounded", "taking-done"})
"""Topics that end a walkthrough by telling the answer themselves."""
_BY_PLACE = frozenset({"partners", "counting", "repeated-adding", "repeated-taking-away"})
"""Methods whose numbers all stand ones over ones, so that a column has one place."""


class Said(NamedTuple):
    """What is said at one step: in full, and in short (the act, the moves, the columns that changed)."""

    full: str
    short: str


def say_steps(walkthrough: Walkthrough | Slipped, words: Words) -> tuple[Said, ...]:
    """What is said at each step, in the wording of the walkthrough's house style.

    A worked example with a slip is told plainly, without reasons and without rules, so that the telling does not
    give the slip away; its moves and readings are those made.
    """
    speaker = Speaker(walkthrough, words)
    return tuple([speaker.say(step) for step in walkthrough.steps])


class Speaker:
    """Phrases the steps of one walkthrough."""

    def __init__(self, walkthrough: Walkthrough | Slipped, words: Words) -> None:
        right = walkthrough.right if isinstance(walkthrough, Slipped) else walkthrough
        wording, self._last = (right.house.wording, len(walkthrough.steps)) if right is walkthrough else (None, 0)
        self._words = words
        self._tellings = find_tellings(words, right.start.shape, find_named_ones(right), wording)
        self._numbers = _format_terms(right.problem, words)
        self._ends = {self._last}
        if isinstance(right.problem, Sum):
            self._ends |= _find_number_ends(walkthrough.steps)
        self._answer = walkthrough.answer

    def say(self, step: Step) -> Said:
        """What is said at `step`."""
        number, purpose, work, _, _, _, _, _, remark = step
        if work is not None:
            source = work.source
            if type(source) is FromTerm:
                filling = self._numbers[source.term - 1]
                alone = len(filling) == 1 and filling == str(work.digit)
                _, _, parts, short = self._tellings.find(step, work, BY_ACT if alone else purpose)
            else:
                act, opening, parts, short = self._tellings.find(step, work, BY_SOURCE)
                lead = find_lead(self._words, purpose, work.action, source)
                filling = (act if lead[0] else opening).join(lead)
            text = filling.join(parts)
        elif remark is not None:
            text = short = say_remark(remark, self._tellings.phrases)
        else:
            raise ValueError(f"step {step.number} has neither work nor a remark")
        if number in self._ends:
            text += self._say_end(step)
        return _new(Said, (text, short))  # type: ignore[no-any-return]

    def _say_end(self, step: Step) -> str:
        """After the last digit of a sum's number what the frame reads; at the end of right work the answer."""
        if step.number != self._last:
            return _say_number(step.owners[0].read(step.after).text, self._words)
        if step.remark is not None and step.remark.topic in _TELL_ANSWER:
            return ""
        left = self._answer.remainder
        return _say_answer(self._answer.text, None if left is None else left.text, self._words)


@lru_cache(maxsize=4096)
def _say_number(number: str, words: Words) -> str:
    if len(number) == 1:
        return ""  # one digit has just been read
    return f" {words.text('speech.end.number', number=format_number(number, words))}"


@lru_cache(maxsize=4096)
def _say_answer(number: str, remainder: str | None, words: Words) -> str:
    fields = {"number": format_number(number, words)}
    if remainder is None:
        return f" {words.fill('speech.end.answer', fields)}"
    return f" {words.fill('speech.end.remainder', fields | {'remainder': format_number(remainder, words)})}"


_new: Any = tuple.__new__  # what a named tuple is made by in the end; every step makes one


def _find_number_ends(steps: Sequence[Step]) -> set[int]:
    """The numbers of the steps that are each the last to work on a term of a sum, or to speak of it."""
    last: dict[int, int] = {}
    for number, _, work, _, _, _, _, _, remark in steps:
        if work is None:
            facts = () if remark is None else remark.facts
            last |= {int(fact): number for name, fact in facts if name == "term"}
        elif type(source := work.source) is FromTerm:
            last[source.term] = number
    return set(last.values())


def find_named_ones(walkthrough: Walkthrough) -> int | None:
    """The column of the ones where columns go by place; None where they go by number from the right.

    In other methods a frame carries several numbers at once, each with ones of its own.
    """
    return walkthrough.ones_column if walkthrough.method in _BY_PLACE else None


def _format_terms(problem: Problem, words: Words) -> list[str]:
    """The numbers of a problem in the order written, as a reader sees them."""
    if isinstance(problem, Sum):
        return [format_number(str(term.number), words) for term in problem.terms]
    if isinstance(problem, Quotient):
        numbers: tuple[object, ...] = (problem.dividend, problem.divisor)
    elif isinstance(problem, Percent):
        numbers = (problem.percent, problem.of)
    elif isinstance(problem, Root):
        numbers = (problem.radicand,)
    else:
        numbers = (problem.first, problem.second)
    return [format_number(str(number), words) for number in numbers]
