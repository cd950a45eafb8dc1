"""From a worked problem or a number to an entry of each kind: key, predicted slips, what hints speak of."""

from __future__ import annotations

from beadwright.course import Reflection, show_number
from beadwright.engine import Column, Frame, MethodError, Number, Step, Walkthrough, predict_slips
from beadwright.engine.chances import shuffle, shuffle_apart
from beadwright.engine.slips import build_slipped, predict_readings
from beadwright.practice.focus import find_focus
from beadwright.practice.other_ways import find_other_way
from beadwright.practice.readings import Causes, predict_misreadings, predict_missettings
from beadwright.practice.slip_options import choose_slip_options
from beadwright.practice.values import (
    Accept,
    AnswerEntry,
    CarryOutEntry,
    Check,
    ChoiceEntry,
    FindSlipEntry,
    Option,
    OrderEntry,
    ReadEntry,
    ReflectEntry,
    SetEntry,
)

LONGEST_WORK = 150
OPTION_NAMES = "abcdefghijklmnopqrstuvwxyz"
MARK_EVERY = 3


def predict(walkthrough: Walkthrough) -> Causes:
    """The wrong answers that slips give; none are looked for in work so long that nobody could follow where it slipped.

    Each slip of a long work is worked to its end, so the time grows with the square of its steps.
    """
    return predict_slips(walkthrough) if len(walkthrough.steps) <= LONGEST_WORK else {}


def build_answer(walkthrough: Walkthrough, accept: Accept = "value", *, other_way: bool = False) -> AnswerEntry:
    """A problem whose answer is typed; with `other_way`, another way to work it then."""
    other = find_other_way(walkthrough) if other_way else None
    return AnswerEntry(walkthrough, accept, predict(walkthrough), find_focus(walkthrough), other)


def build_read(frame: Frame, number: Number) -> ReadEntry:
    """A frame that shows `number` as it would be set; raises `FrameError` when it does not fit."""
    lowest, ones = place_number(number)
    shown = show_number(frame, number)
    return ReadEntry(shown, number, lowest, ones, predict_misreadings(shown, number, lowest))


def build_set(frame: Frame, number: Number) -> SetEntry:
    """A number to set on `frame`; raises `FrameError` when it does not fit."""
    lowest, ones = place_number(number)
    goal = show_number(frame, number)
    return SetEntry(goal, number, lowest, ones, predict_missettings(goal, number, lowest))


def place_number(number: Number) -> tuple[Column, Column]:
    """The columns of a number's last place and of its ones: 1, 4, 7, … just left of a unit mark (PROCEDURES §3.8)."""
    ones = 1 + MARK_EVERY * -(-number.places // MARK_EVERY)
    return Column(ones - number.places), Column(ones)


def build_order(walkthrough: Walkthrough, step: Step | None, *, seed: str) -> OrderEntry:
    """The moves of one step, or the steps of the whole problem, shuffled."""
    before = walkthrough.start if step is None else walkthrough.frames[step.number - 1]
    many = len([s for s in walkthrough.steps if s.moves]) if step is None else len(step.moves)
    order = tuple(range(many))
    return OrderEntry(walkthrough, before, step, order, tuple(shuffle_apart(order, seed)))


def build_find_slip(walkthrough: Walkthrough, slip: str | None, step: int | None, *, seed: str) -> FindSlipEntry:
    """A worked example with this slip, or with one drawn by the seed, and slips to choose from.

    Raises `MethodError` when the slip, or any, cannot be there.
    """
    likely = _find_worked_slips(walkthrough)
    if slip is None and not likely:
        raise MethodError("no-slip", f"No slip can happen in {walkthrough.problem}", "Choose another problem")
    slipped = build_slipped(walkthrough, shuffle(likely, seed)[0] if slip is None else slip, step=step)
    return FindSlipEntry(slipped, choose_slip_options(slipped, likely, seed=seed))


def _find_worked_slips(walkthrough: Walkthrough) -> list[str]:
    """The names of slips that can happen in working this problem, not in reading its answer."""
    predicted = predict(walkthrough).values()
    return sorted({cause.slip for causes in predicted for cause in causes if cause.step is not None})


def build_carry_out(walkthrough: Walkthrough) -> CarryOutEntry:
    """A whole problem to be worked, checked at the end of each digit."""
    readings = predict_readings(walkthrough) if len(walkthrough.steps) <= LONGEST_WORK else {}
    checks = tuple(
        Check(step, walkthrough.frames[step.number - 1], step.after.value, readings.get(step.number, {}))
        for step in walkthrough.steps
        if step.work is not None
    )
    return CarryOutEntry(walkthrough, checks, predict(walkthrough))


def build_reflect(reflection: Reflection) -> ReflectEntry:
    """A question for reflection."""
    return ReflectEntry(reflection.question, reflection.model)


def build_choice(question: str, options: list[tuple[str, str, bool]]) -> ChoiceEntry:
    """A question with its answers, each as text, why it is right or not, and whether it is right."""
    named = zip(OPTION_NAMES, options, strict=False)
    return ChoiceEntry(question, tuple(Option(name, text, because, right) for name, (text, because, right) in named))
