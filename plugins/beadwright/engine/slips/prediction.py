"""Wrong answers that slips predict, worked examples with a slip in them, and the diagnosis of an answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from beadwright.engine.errors import FrameError, MethodError
from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Hand, build_hand
from beadwright.engine.methods import METHODS, Plan
from beadwright.engine.methods.products import PARTIAL_PRODUCTS
from beadwright.engine.problem import Sum
from beadwright.engine.slips.cause import Cause, Prediction, build_prediction, rank_causes
from beadwright.engine.slips.foresight import find_misreadings, foresee_causes
from beadwright.engine.slips.occurrence import Occurrence
from beadwright.engine.slips.occurrences import find_occurrences
from beadwright.engine.slips.reading import find_misread_places
from beadwright.engine.slips.table import SLIPS
from beadwright.engine.walkthrough import Answer, ReplayError, Step, Walkthrough, check_answer, replay
from beadwright.engine.working import Working

SLIPPED_SCHEMA = "beadwright/slipped/1"

MOST_STEPS = 60_000
"""How many steps are worked to predict slips: each slip is worked to the end, so the time would grow with the square.

Only long repeated work comes near. There a slip late in the work mostly gives what the same slip gave early on.
"""


@dataclass(frozen=True, slots=True)
class Slipped:
    """A worked example with one slip in it: every bead move is legal, the answer is wrong. Replayed when made."""

    right: Walkthrough
    slip: str
    variant: str
    column: Column
    first_wrong_step: int
    steps: tuple[Step, ...]
    answer: Answer

    def __post_init__(self) -> None:
        check_answer(replay(self.right.start, self.steps, rightly=False), self.answer)
        if self.answer.full_text == self.right.answer.full_text:
            raise ReplayError(f"{self.slip} does not change the answer of {self.right.problem}")

    def to_data(self) -> dict[str, Any]:
        """Plain data in the shape of schema `beadwright/slipped/1`, without language and sentences."""
        return self.right.to_data() | {
            "schema": SLIPPED_SCHEMA,
            "steps": [step.to_data() for step in self.steps],
            "answer": self.answer.to_data(),
            "slip": self.slip,
            "variant": self.variant,
            "first_wrong_step": self.first_wrong_step,
            "wrong_answer": self.answer.full_text,
            "true_answer": self.right.answer.full_text,
        }


def find_slipped(
    walkthrough: Walkthrough,
    *,
    slip: str | None = None,
    variant: str | None = None,
    step: int | None = None,
    most_steps: int | None = None,
) -> Iterator[Slipped]:
    """Every worked example with one slip that these beads allow and that ends in a wrong answer.

    Only those with this slip, this variant of it, at this step, where these are given. With `most_steps`, no further
    one is tried once so many steps have been worked.
    """

    def is_wanted(found: Occurrence) -> bool:
        return step in (None, found.step) and slip in (None, found.slip) and variant in (None, found.variant)

    for occurrence, working, answer in _work_slips(walkthrough, is_wanted, step=step, most_steps=most_steps):
        yield _build_slipped(walkthrough, occurrence, working, answer)


def _work_slips(
    walkthrough: Walkthrough,
    is_wanted: Callable[[Occurrence], bool] = lambda found: True,
    *,
    step: int | None = None,
    most_steps: int | None = None,
) -> Iterator[tuple[Occurrence, Working, Answer]]:
    """Each of these slips worked to its wrong answer; what comes before it is taken over from the right work.

    Of those that lie in one digit only the ones at `step`, where it is given.
    """
    plan, right = _plan_again(walkthrough)
    worked_steps = 0
    for occurrence in find_occurrences(walkthrough, right, step=step):
        if not is_wanted(occurrence):
            continue
        if most_steps is not None and worked_steps >= most_steps:
            return
        worked, known = (
            (plan, walkthrough.steps[: occurrence.step - 1]) if occurrence.plan is None else (occurrence.plan, ())
        )
        working = Working(walkthrough.start, walkthrough.house, occurrence.hand, known)
        try:
            answer = worked.work(working)
        except FrameError:
            continue
        finally:
            worked_steps += len(working.steps)
        if answer.full_text != walkthrough.answer.full_text:
            yield occurrence, working, answer


def _plan_again(walkthrough: Walkthrough) -> tuple[Plan, Hand]:
    """The plan that made a walkthrough, and the hand that worked it."""
    procedure = METHODS[walkthrough.method]
    plan = procedure.plan(walkthrough.problem, walkthrough.start, walkthrough.house)
    return plan, build_hand(walkthrough.house, procedure.inner)


def _build_slipped(walkthrough: Walkthrough, occurrence: Occurrence, working: Working, answer: Answer) -> Slipped:
    steps = [step._replace(technique=None) if step.moves == () else step for step in working.steps]
    slip, variant, column = occurrence.slip, occurrence.variant, occurrence.column
    return Slipped(walkthrough, slip, variant, column, occurrence.step, tuple(steps), answer)


def find_slips_alike(slipped: Slipped) -> frozenset[str]:
    """The slips that leave the same beads at the step that goes wrong, its own among them."""
    right, number = slipped.right, slipped.first_wrong_step
    before, work = right.frames[number - 1], right.steps[number - 1].work
    beads = slipped.steps[number - 1].after.beads

    def may_be_alike(found: Occurrence) -> bool:
        if found.step != number or work is None or found.plan is not None:
            return found.step == number
        try:
            return before.apply_all(found.hand(before, work, number).moves).beads == beads
        except FrameError:
            return False

    made = _work_slips(right, may_be_alike, step=number)
    return frozenset(found.slip for found, working, _ in made if working.steps[number - 1].after.beads == beads)


def build_slipped(
    walkthrough: Walkthrough, slip: str, *, step: int | None = None, variant: str | None = None
) -> Slipped:
    """The first worked example with this slip, at `step` and of this `variant` when given.

    Raises `MethodError` when there is none.
    """
    if slip not in SLIPS:
        raise MethodError("slip-name", f"There is no slip called {slip!r}", f"Use one of {', '.join(SLIPS)}")
    for slipped in find_slipped(walkthrough, slip=slip, variant=variant, step=step):
        return slipped
    where = "" if step is None else f" at step {step}"
    raise MethodError(
        "slip-not-there",
        f"{slip} cannot happen in {walkthrough.problem}{where}",
        "Choose another slip, another step or another problem",
    )


def predict_slips(walkthrough: Walkthrough) -> dict[str, tuple[Prediction, ...]]:
    """Wrong answers by text (`41 r 10` where something is left), each with its causes, the likeliest first."""
    causes: dict[str, list[Prediction]] = {}
    for text, cause in find_causes(walkthrough):
        causes.setdefault(text, []).append(cause)
    return {text: rank_causes(found) for text, found in sorted(causes.items())}


def find_causes(walkthrough: Walkthrough) -> Iterable[Cause]:
    """Each wrong answer that one slip gives, in working or in reading, with the slip; in no order."""
    misread = find_misread_places(walkthrough)
    if isinstance(walkthrough.problem, Sum) or walkthrough.method == PARTIAL_PRODUCTS.name:
        return (*foresee_causes(walkthrough, most_steps=MOST_STEPS), *misread)
    return (*_work_out_causes(walkthrough), *_misread_answers(walkthrough), *misread)


def _work_out_causes(walkthrough: Walkthrough) -> Iterator[Cause]:
    for found, _, answer in _work_slips(walkthrough, most_steps=MOST_STEPS):
        yield (
            answer.full_text,
            build_prediction(found.slip, found.variant, found.column, found.step, walkthrough.method),
        )


def _misread_answers(walkthrough: Walkthrough) -> Iterator[Cause]:
    """The right frame read wrongly: the upper bead as 1, in all columns or in one."""
    plan, right = _plan_again(walkthrough)
    working = Working(walkthrough.start, walkthrough.house, right, walkthrough.steps)
    plan.work(working)
    end = working.frame
    for variant, misread in find_misreadings(end):
        working.frame = _with_upper_as_one(end, misread)
        text = plan.answer(working).full_text
        if text != walkthrough.answer.full_text:
            yield text, build_prediction("upper-bead-as-one", variant, misread[0], None)


def _with_upper_as_one(frame: Frame, columns: list[Column]) -> Frame:
    beads = [
        frame.shape.split(sum(held)) if frame.columns - index in columns else held
        for index, held in enumerate(frame.beads)
    ]
    return frame._replace(beads=tuple(beads))


def diagnose(walkthrough: Walkthrough, answer: str) -> tuple[Prediction, ...]:
    """The likeliest causes of this wrong answer, best first; empty when it is right or no slip gives it."""
    return predict_slips(walkthrough).get(answer, ())
