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
from itertools import pairwise
from typing import NamedTuple

from beadwright.engine import (
    Action,
    Answer,
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
        self._last = len(walkthrough.steps)
        self._words = words
        self._phrases = find_phrases(words, right.start.shape, find_named_ones(right))
        self._numbers = _format_terms(right.problem, words)
        self._ends = _find_number_ends(walkthrough.steps) if isinstance(right.problem, Sum) else frozenset()
        wording = None if isinstance(walkthrough, Slipped) else right.house.wording
        self._tellings = find_tellings(self._phrases, wording)
        self._answer = None if isinstance(walkthrough, Slipped) else walkthrough.answer

    def say(self, step: Step) -> Said:
        """What is said at `step`."""
        work, remark = step.work, step.remark
        if work is not None:
            told = self._tellings.find(step, work)
            return Said(self._with_end(told.lead_with(self._say_lead(step, work, told.act)), step), told.short)
        if remark is None:
            raise ValueError(f"step {step.number} has neither work nor a remark")
        text = say_remark(remark, self._phrases)
        return Said(self._with_end(text, step), text)

    def _say_lead(self, step: Step, work: Work, act: str) -> str:
        """What is about to be done, and what the digit comes from."""
        source = work.source
        if not isinstance(source, FromTerm):
            return capitalise(_find_lead(self._words, step.purpose, work.action, source).replace(_ACT, act))
        number = self._numbers[source.term - 1]
        if number == str(work.digit):
            return capitalise(act)  # a number of one digit is told by the act alone
        return capitalise(_find_term_lead(self._words, step.purpose, work.action, number).replace(_ACT, act))

    def _with_end(self, text: str, step: Step) -> str:
        """The sentence, and after the last digit of a sum's number what the frame reads; at the very end the answer."""
        if step.number == self._last and self._answer is not None:
            told = step.remark is not None and step.remark.topic in _TELL_ANSWER
            return text if told else f"{text} {self._say_answer(self._answer)}"
        if step.number not in self._ends:
            return text
        read = step.reads[0].text
        if len(read) == 1:
            return text  # one digit has just been read
        return f"{text} {self._words.text('speech.end.number', number=format_number(read, self._words))}"

    def _say_answer(self, answer: Answer) -> str:
        number = format_number(answer.text, self._words)
        if answer.remainder is None:
            return self._words.text("speech.end.answer", number=number)
        remainder = format_number(answer.remainder.text, self._words)
        return self._words.text("speech.end.remainder", number=number, remainder=remainder)


_ACT = "\0"  # stands for the act in a lead that is kept; no table holds it


@lru_cache(maxsize=4096)
def _find_term_lead(words: Words, purpose: Purpose, action: Action, number: str) -> str:
    """The lead of a digit of this number, the act left open: the number's other digits have the same."""
    return words.text(f"speech.lead.{_name_done(purpose, action)}-term", act=_ACT, number=number)


@lru_cache(maxsize=4096)
def _find_lead(words: Words, purpose: Purpose, action: Action, source: object) -> str:
    """The lead of a digit that comes from such a source, the act left open: what it tells is told over and over."""
    fields: dict[str, str | int] = {"act": _ACT}
    if isinstance(source, FromProduct):
        fields["first"], fields["second"] = source.factors
        fields["product"] = str(int(source.product))
        fields["part"] = words.text(f"speech.part.{source.place}")
    elif isinstance(source, FromOddNumber):
        fields["odd"] = source.odd_number
    elif isinstance(source, FromRoot):
        fields["group"] = source.root_group
    return words.text(f"speech.lead.{_name_done(purpose, action)}-{_SOURCES[type(source)]}", **fields)


def _name_done(purpose: Purpose, action: Action) -> str:
    return action if purpose in _BY_ACTION else f"{purpose}-{action}"


def _find_number_ends(steps: Sequence[Step]) -> frozenset[int]:
    """The numbers of the steps that are each the last to work on a term of a sum."""
    terms = [*map(find_term, steps), None]
    ends = enumerate(pairwise(terms), start=1)
    return frozenset(number for number, (term, following) in ends if term not in (None, following))


def find_term(step: Step) -> int | None:
    """The number of the term that a step works on, or speaks of; None when it belongs to none."""
    if step.work is not None:
        return step.work.source.term if isinstance(step.work.source, FromTerm) else None
    if step.remark is None:
        return None
    return next((int(fact) for name, fact in step.remark.facts if name == "term"), None)


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
