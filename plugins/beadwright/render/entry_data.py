"""Each kind of entry as data: prompt, key, slips by wrong answer, hints, and what is shown when it is drawn.

`parts` are texts that scripts put in the place of the first entry's, by name.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import singledispatch

from beadwright.engine import NINE_BEAD, Frame, Step, Walkthrough
from beadwright.practice import (
    AnswerEntry,
    CarryOutEntry,
    ChoiceEntry,
    FindSlipEntry,
    NextMoveEntry,
    OrderEntry,
    PracticeItem,
    RatingEntry,
    ReadEntry,
    ReflectEntry,
    SetEntry,
    name_move,
)
from beadwright.practice.other_ways import OtherWay
from beadwright.practice.values import Check, Entry
from beadwright.render.braille import show_number, show_problem
from beadwright.render.hints import (
    find_order,
    say_answer_hints,
    say_check_hints,
    say_find_slip_hints,
    say_next_move_hints,
    say_order_hints,
    say_read_hints,
    say_set_hints,
)
from beadwright.render.item_data import Data, SharedData, find_form, list_beads, show_answer
from beadwright.render.layout import find_window
from beadwright.render.leads import capitalise
from beadwright.render.numbers import format_number, format_problem, say_number_text, say_problem
from beadwright.render.phrases import find_phrases, group_moves
from beadwright.render.prose import render_line, render_prose
from beadwright.render.reading import read_frame
from beadwright.render.slips import CauseSayer, find_walkthrough_phrases, name_slip, say_reading_cause
from beadwright.render.speech import find_named_ones, say_steps
from beadwright.render.words import Words


def build_pool_data(item: PracticeItem, shared: SharedData) -> list[Data]:
    """The data of an item's entries, in order."""
    pool = [build_entry_data(entry, item, shared) for entry in item.pool]
    if not item.hints:
        for entry in pool:
            entry.pop("hints", None)
    return pool


@singledispatch
def build_entry_data(entry: Entry, item: PracticeItem, shared: SharedData) -> Data:
    """One entry's data; raises `TypeError` for a kind without a form here."""
    raise TypeError(f"no data for {type(entry).__name__}")


def _start_problem(walkthrough: Walkthrough, prompt: str, shared: SharedData, **parts: str) -> Data:
    """What every entry about a problem has."""
    words, problem = shared.words, walkthrough.problem
    shown = format_problem(problem, words)
    return {
        "problem": str(problem),
        "prompt": words.text(f"ask.prompt.{prompt}", shown=shown, **parts),
        "say": say_problem(problem, words),
        "parts": {"shown": shown, "braille": show_problem(problem, shared.braille_code, words), **parts},
        "walkthrough": shared.place_working(walkthrough),
    }


@build_entry_data.register
def _(entry: AnswerEntry, item: PracticeItem, shared: SharedData) -> Data:
    walkthrough = entry.walkthrough
    data = _start_problem(walkthrough, find_answer_prompt(item), shared)
    data["key"] = {"text": walkthrough.answer.full_text, "accept": entry.accept, "form": find_form(walkthrough)}
    if item.ask == "heard":
        data["said"] = split_said(walkthrough, shared.words)
    if entry.other is not None:
        data["other"] = _build_other_way(entry.other, shared)
    return data | {
        "shown_key": show_answer(walkthrough, shared.words),
        "slips": shared.place_slips(entry.causes, CauseSayer(walkthrough, shared.words).say, str),
        "hints": say_answer_hints(entry, shared.words, entry.focus),
    }


def _build_other_way(other: OtherWay, shared: SharedData) -> Data:
    """What is said after a right answer, and the working to see then."""
    words = shared.words
    kind = other.kind if other.left is None else "opposite_left"
    shown = format_problem(other.walkthrough.problem, words)
    left = "" if other.left is None else format_number(str(other.left), words)
    text = words.text(f"ask.other_way.{kind}", shown=shown, back=format_number(str(other.back), words), left=left)
    return {"say": text, "shown": shown, "walkthrough": shared.place_working(other.walkthrough)}


def find_answer_prompt(item: PracticeItem) -> str:
    """Which prompt an item with a typed answer has: by what the learner has of the frame."""
    if item.ask == "heard":
        return "heard"
    return _name_starter("answer", item) if item.frame_is == "shown" else f"answer-{item.frame_is}"


def _name_starter(prompt: str, item: PracticeItem) -> str:
    """The prompt that says that a starter frame is meant, where it is: it is not heard from the problem."""
    return f"{prompt}-starter" if item.frame is not None and item.frame.shape == NINE_BEAD else prompt


def split_said(walkthrough: Walkthrough, words: Words) -> list[str]:
    """A problem in words, split so that a pause can follow each number."""
    whole = say_problem(walkthrough.problem, words)
    data = walkthrough.problem
    numbers = [say_number_text(str(term.number), words) for term in getattr(data, "terms", ())]
    parts, rest = [], whole
    for number in numbers:
        before, found, after = rest.partition(number)
        parts.append(f"{before}{found}".strip())
        rest = after
    return [part for part in (*parts, rest.strip()) if part]


@build_entry_data.register
def _(entry: ReadEntry, item: PracticeItem, shared: SharedData) -> Data:
    words = shared.words
    phrases = find_phrases(words, entry.frame.shape, entry.ones)
    described = read_frame(entry.frame, words, ones_column=entry.ones, lowest=entry.lowest, digits=False)
    return {
        "problem": str(entry.number),
        "prompt": words.text("ask.prompt.read"),
        "say": words.text("ask.say.read"),
        "parts": {"described": described},
        "beads": list_beads(entry.frame),
        "key": {"text": str(entry.number), "accept": "value", "form": "number"},
        "shown_key": format_number(str(entry.number), words),
        "slips": shared.place_slips(entry.causes, lambda c: say_reading_cause(c, phrases, setting=False), str),
        "hints": say_read_hints(entry, words),
    }


@build_entry_data.register
def _(entry: SetEntry, item: PracticeItem, shared: SharedData) -> Data:
    words = shared.words
    phrases = find_phrases(words, entry.goal.shape, entry.ones)
    shown = format_number(str(entry.number), words)
    return {
        "problem": str(entry.number),
        "prompt": words.text(f"ask.prompt.{_name_starter('set', item)}", shown=shown),
        "say": words.text("ask.say.set", number=say_number_text(str(entry.number), words)),
        "parts": {"shown": shown, "braille": show_number(str(entry.number), shared.braille_code)},
        "lowest": entry.lowest,
        "places": entry.number.places,
        "key": {"text": str(entry.number), "accept": "value", "form": "number", "beads": list_beads(entry.goal)},
        "shown_key": shown,
        "slips": shared.place_slips(entry.causes, lambda c: say_reading_cause(c, phrases, setting=True), str),
        "hints": say_set_hints(entry, words),
    }


@build_entry_data.register
def _(entry: NextMoveEntry, item: PracticeItem, shared: SharedData) -> Data:
    walkthrough, words = entry.walkthrough, shared.words
    phrases = find_walkthrough_phrases(walkthrough, words)
    described = read_frame(entry.before, words, ones_column=phrases.ones_column, digits=False)
    data = _start_problem(walkthrough, "next-move", shared, act=say_act(entry.step, walkthrough, words))
    data["parts"]["described"] = described
    options = [
        {"id": name_move(move), "text": capitalise(phrases.moves(group_moves((move,))))} for move in entry.options
    ]
    right = [option["id"] for option in options if option["id"] in {name_move(move) for move in entry.step.moves}]
    return data | {
        "at": entry.step.number,
        "beads": list_beads(entry.before),
        "options": options,
        "key": {"steps": [right]},
        "shown_key": phrases.moves(group_moves(entry.step.moves)),
        "slips": shared.place_slips(entry.causes, CauseSayer(walkthrough, words).say, " ".join),
        "hints": say_next_move_hints(entry, words),
    }


def say_act(step: Step, walkthrough: Walkthrough, words: Words) -> str:
    """What a step does: `add 7 on the ones`."""
    if step.work is None:
        raise ValueError(f"step {step.number} works no digit")
    return find_walkthrough_phrases(walkthrough, words).act(step.work, counted=False)


@build_entry_data.register
def _(entry: OrderEntry, item: PracticeItem, shared: SharedData) -> Data:
    walkthrough, words = entry.walkthrough, shared.words
    if entry.step is None:
        data = _start_problem(walkthrough, "order-moves", shared)
        steps = [step for step in walkthrough.steps if step.moves]
        said = [
            short.short
            for step, short in zip(walkthrough.steps, say_steps(walkthrough, words), strict=True)
            if step in steps
        ]
        named = [(f"s{said.index(text) + 1}", text) for text in said]
        key = [[name] for name, _ in named]
    else:
        data = _start_problem(walkthrough, "order-moves-step", shared, act=say_act(entry.step, walkthrough, words))
        phrases = find_walkthrough_phrases(walkthrough, words)
        named = [(name_move(m), capitalise(phrases.moves(group_moves((m,))))) for m in entry.step.moves]
        key = [[name for name, _ in named]]
        data["at"] = entry.step.number
        data["order"] = str(find_order(entry.step, entry))
    texts = [{"id": named[place][0], "text": named[place][1]} for place in entry.shuffled]
    return data | {"options": texts, "key": {"steps": key}, "hints": say_order_hints(entry, words)}


@build_entry_data.register
def _(entry: FindSlipEntry, item: PracticeItem, shared: SharedData) -> Data:
    slipped, words = entry.slipped, shared.words
    high, low = find_slip_window(item)
    wrong = format_number(slipped.answer.text, words)
    data = _start_problem(slipped.right, "find-slip", shared, wrong=wrong)
    return data | {
        "steps": shared.place_sentences(said.full for said in say_steps(slipped, words)),
        "readings": shared.place_sentences(read_steps(entry, words)),
        "after": [list_beads(step.after)[-high:][: high - low + 1] for step in slipped.steps],
        "options": [{"id": slip, "text": capitalise(name_slip(slip, words))} for slip in entry.options],
        "key": {"step": slipped.first_wrong_step, "slip": slipped.slip},
        "column": slipped.column,
        "coach": words.text(f"slips.coach.{slipped.slip}"),
        "hints": say_find_slip_hints(entry, words),
    }


def find_slip_window(item: PracticeItem) -> tuple[int, int]:
    """The highest and the lowest column that the figures of worked examples with a slip need."""
    found = [entry.slipped for entry in item.pool if isinstance(entry, FindSlipEntry)]
    frames = [step.after for slipped in found for step in slipped.steps]
    return find_window(frames, lowest=found[0].right.ones_column)


def read_steps(entry: FindSlipEntry, words: Words) -> Iterator[str]:
    """Which beads the frame shows after each step of a worked example with a slip; the number is left to find."""
    before: Frame | None = None
    for step in entry.slipped.steps:
        if step.after == before:
            yield words.text("ask.after_unchanged")
            continue
        before = step.after
        reading = read_frame(step.after, words, ones_column=find_named_ones(entry.slipped.right), digits=False)
        yield words.text("ask.after_step", reading=f"{reading[:1].lower()}{reading[1:]}")


@build_entry_data.register
def _(entry: CarryOutEntry, item: PracticeItem, shared: SharedData) -> Data:
    walkthrough, words = entry.walkthrough, shared.words
    data, sayer = _start_problem(walkthrough, "carry-out", shared), CauseSayer(walkthrough, words)
    end = walkthrough.steps[-1].after
    return data | {
        "key": {
            "text": walkthrough.answer.full_text,
            "accept": "value",
            "form": find_form(walkthrough),
            "beads": list_beads(end),
        },
        "shown_key": show_answer(walkthrough, words),
        "ones": walkthrough.ones_column,
        "checks": [_build_check(check, walkthrough, shared, sayer) for check in entry.checks],
        "slips": shared.place_slips(entry.causes, sayer.say, str),
        "hints": say_check_hints(entry.checks[0], find_walkthrough_phrases(walkthrough, words)),
    }


def _build_check(check: Check, walkthrough: Walkthrough, shared: SharedData, sayer: CauseSayer) -> Data:
    """One digit's end: what the whole frame reads then, column 1 being the ones."""
    words = shared.words
    return {
        "step": check.step.number,
        "reads": str(check.reads),
        "slips": shared.place_slips(check.causes, sayer.say, str),
        "hints": say_check_hints(check, find_walkthrough_phrases(walkthrough, words)),
    }


@build_entry_data.register
def _(entry: ChoiceEntry, item: PracticeItem, shared: SharedData) -> Data:
    return {
        "prompt": entry.question,
        "options": [{"id": o.id, "text": o.text, "because": str(render_line(o.because))} for o in entry.options],
        "key": {"options": [option.id for option in entry.options if option.right]},
    }


@build_entry_data.register
def _(entry: ReflectEntry, item: PracticeItem, shared: SharedData) -> Data:
    model = None if entry.model is None else str(render_prose(entry.model))
    return {"prompt": entry.question, "model": model, "key": None}


@build_entry_data.register
def _(entry: RatingEntry, item: PracticeItem, shared: SharedData) -> Data:
    return {
        "prompt": entry.question,
        "when": entry.when,
        "items": [rated.id for rated in entry.items],
        "of": len(entry.points),
        "key": None,
    }
