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
    Action,
    FromNothing,
    FromOddNumber,
    FromProduct,
    FromQuotient,
    FromRoot,
    FromTerm,
    Percent,
    Problem,
    Purpose,
    Quotient,
    Root,
    Slipped,
    Step,
    Sum,
    Walkthrough,
    Work,
)
from beadwright.render.numbers import format_number
from beadwright.render.phrases import find_phrases
from beadwright.render.remarks import say_remark
from beadwright.render.tellings import capitalise, find_tellings
from beadwright.render.words import Words

_BY_ACTION = frozenset({Purpose.SET, Purpose.ADD, Purpose.TAKE, Purpose.COUNT, Purpose.CLEAR})
_SOURCES: dict[type[object], str] = {
    FromProduct: "product",
    FromQuotient: "quotient",
    FromOddNumber: "odd",
    FromRoot: "root",
    FromNothing: "nothing",
}
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
        self._words = words
        self._phrases = find_phrases(words, right.start.shape, find_named_ones(right))
        self._numbers = _format_terms(right.problem, words)
        self._ends = _find_number_ends(walkthrough.steps) if isinstance(right.problem, Sum) else set()
        wording, self._last, self._answer = None, 0, walkthrough.answer
        if right is walkthrough:
            wording, self._last = right.house.wording, len(walkthrough.steps)
            self._ends.add(self._last)
        self._tellings = find_tellings(self._phrases, wording)

    def say(self, step: Step) -> Said:
        """What is said at `step`."""
        number, purpose, work, _, _, _, _, _, remark = step
        if work is not None:
            act, opening, short, unled = self._tellings.find(step, work)
            lead = self._find_lead(purpose, work)
            text = (act if lead[0] else opening).join(lead).join(unled)
        elif remark is not None:
            text = short = say_remark(remark, self._phrases)
        else:
            raise ValueError(f"step {step.number} has neither work nor a remark")
        if number in self._ends:
            text += self._say_end(step)
        return _new(Said, (text, short))  # type: ignore[no-any-return]

    def _find_lead(self, purpose: Purpose, work: Work) -> Lead:
        """What is about to be done, and what the digit comes from."""
        source = work.source
        if type(source) is not FromTerm:
            return _find_lead(self._words, purpose, work.action, source)
        number = self._numbers[source.term - 1]
        if len(number) == 1 and number == str(work.digit):
            return _ACT_ALONE  # a number of one digit is told by the act alone
        return _find_term_lead(self._words, purpose, work.action, number)

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
        return f" {words.text('speech.end.answer', **fields)}"
    return f" {words.text('speech.end.remainder', **fields, remainder=format_number(remainder, words))}"


Lead = tuple[str, ...]
"""What is said of a digit's purpose, parted where the act stands; its first letter is large."""

_ACT = "\0"  # stands for the act while a lead is made; no table holds it
_ACT_ALONE: Lead = ("", "")
_new: Any = tuple.__new__  # what a named tuple is made by in the end; every step makes one


@lru_cache(maxsize=4096)
def _find_term_lead(words: Words, purpose: Purpose, action: Action, number: str) -> Lead:
    """The lead of a digit of this number: the number's other digits have the same."""
    return _part_lead(words.text(f"speech.lead.{_name_done(purpose, action)}-term", act=_ACT, number=number))


@lru_cache(maxsize=4096)
def _find_lead(words: Words, purpose: Purpose, action: Action, source: object) -> Lead:
    """The lead of a digit that comes from such a source: what it tells is told over and over."""
    fields: dict[str, str | int] = {"act": _ACT}
    if isinstance(source, FromProduct):
        fields["first"], fields["second"] = source.factors
        fields["product"] = str(int(source.product))
        fields["part"] = words.text(f"speech.part.{source.place}")
    elif isinstance(source, FromOddNumber):
        fields["odd"] = source.odd_number
    elif isinstance(source, FromRoot):
        fields["group"] = source.root_group
    return _part_lead(words.text(f"speech.lead.{_name_done(purpose, action)}-{_SOURCES[type(source)]}", **fields))


def _part_lead(text: str) -> Lead:
    return tuple(capitalise(text).split(_ACT))


def _name_done(purpose: Purpose, action: Action) -> str:
    return action if purpose in _BY_ACTION else f"{purpose}-{action}"


def _find_number_ends(steps: Sequence[Step]) -> set[int]:
    """The numbers of the steps that are each the last to work on a term of a sum, or to speak of it."""
    last: dict[int, int] = {}
    for step in steps:
        if step.work is None:
            facts = () if step.remark is None else step.remark.facts
            last |= {int(fact): step.number for name, fact in facts if name == "term"}
        elif isinstance(step.work.source, FromTerm):
            last[step.work.source.term] = step.number
    return set(last.values())


def find_named_ones(walkthrough: Walkthrough) -> int | None:
    """The column of the ones where columns go by place; None where they go by number from the right.

    In other methods a frame carries several numbers at once, each with ones of its own.
    """
    return walkthrough.ones_column if walkthrough.method in _BY_PLACE else None


def _format_terms(problem: Problem, words: Words) -> list[str]:
    """The numbers of a problem in the order written, as a reader sees them."""
    if isinstance(problem, Sum):
        numbers: list[object] = [term.number for term in problem.terms]
    elif isinstance(problem, Quotient):
        numbers = [problem.dividend, problem.divisor]
    elif isinstance(problem, Percent):
        numbers = [problem.percent, problem.of]
    elif isinstance(problem, Root):
        numbers = [problem.radicand]
    else:
        numbers = [problem.first, problem.second]
    return [format_number(str(number), words) for number in numbers]
