"""The page of a round to work alone: conditions, what the learner chooses, problems one by one, the score."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from markupsafe import Markup

from beadwright.engine import Walkthrough
from beadwright.render.braille import show_problem
from beadwright.render.editions import EditionFile, LessonEditions, label_file, split_cells
from beadwright.render.entry_data import split_said
from beadwright.render.item_data import Data, SharedData, find_form, show_answer
from beadwright.render.numbers import format_problem, say_problem
from beadwright.render.pages import Page, escape_markdown, slot_line, write_front_matter
from beadwright.render.sheets import HomeLevel, HomeRound
from beadwright.render.templates import render_part
from beadwright.render.words import Words

ROUND_FOLDER = "rounds"
SCHEMA = "beadwright/round/1"
TIMES = ("set", "half", "twice", "open", "none")
"""Choices of time: as set, half as much again, twice as much, measured without an end, not measured."""
_NO_END = ("open", "none")
_FACTORS = {"set": 1.0, "half": 1.5, "twice": 2.0}


def write_round(
    played: HomeRound, made: Mapping[str, LessonEditions], folder: str, words: Words, *, braille_code: str = "nemeth"
) -> Page:
    """A round's page; `made` has the files of its levels by the level's id, which lie in `folder` as seen from it.

    `braille_code` is the code that its problems are shown in when a reader asks for braille.
    """
    title = words.text("round.title", title=played.title)
    chunks = [write_front_matter(title, kind="round"), f"# {escape_markdown(title)}", words.text("round.intro")]
    slots: dict[str, str] = {}
    for level in played.levels:
        if level.title != played.title:
            chunks.append(f"## {escape_markdown(level.title)} {{: #round-{level.id} }}")
        chunks.append(slot_line(f"round-{level.id}"))
        files = made[level.id].files if level.id in made else ()
        slots[f"round-{level.id}"] = _render_level(
            played, level, files, f"{folder}/{played.name}-{level.id}", SharedData(words, braille_code)
        )
    return Page("\n\n".join(chunks) + "\n", slots)


def _render_level(
    played: HomeRound, level: HomeLevel, files: Sequence[EditionFile], folder: str, shared: SharedData
) -> Markup:
    words = shared.words
    forms = {find_form(problem) for problems in level.sets for problem in problems}
    first = [(format_problem(problem.problem, words), show_answer(problem, words)) for problem in level.sets[0]]
    return render_part(
        "round",
        words=words,
        level=level,
        dom=f"round-{level.id}-box",
        name=level.title,
        told=_list_conditions(level, words),
        times=[(name, _say_time(name, level, words)) for name in TIMES if level.minutes is not None or name in _NO_END],
        pauses=sorted({1, 2, 3, 5, 8, level.pause}),
        forms=[form for form in ("number", "remainder", "fraction") if form in forms],
        problems=first,
        code=shared.braille_code,
        folder=folder,
        split_cells=split_cells,
        papers=[(file, label_file(file, words)) for file in files if file.part != "lesson"],
        data=build_round_data(played, level, files, folder, shared),
    )


def _list_conditions(level: HomeLevel, words: Words) -> list[str]:
    """What holds for the level, as it is told before it begins."""
    told = [words.text("round.count", count=len(level.sets[0]))]
    if level.minutes is not None:
        told.append(words.text("round.minutes", count=level.minutes))
    if level.conditions is not None:
        told.append(words.text(f"contest.conditions.{level.conditions}"))
    return told


def _say_time(name: str, level: HomeLevel, words: Words) -> str:
    minutes = 0 if level.minutes is None else level.minutes * _FACTORS.get(name, 0)
    shown = f"{minutes:g}".replace(".", words.pattern("numbers.marker"))
    return words.text(f"round.time.{name}", minutes=shown)


def build_round_data(
    played: HomeRound, level: HomeLevel, files: Sequence[EditionFile], folder: str, shared: SharedData
) -> Data:
    """What the script reads: the time in minutes (or none) for each choice, and the sets of problems.

    A problem is an entry as in practice, with `sounds` where all that is said of it has been made as sound.
    """
    sounds = {file.said: f"{folder}/{file.name}" for file in files if file.kind == "part"}
    minutes, words = level.minutes, shared.words
    return {
        "schema": SCHEMA,
        "id": f"{played.name}/{level.id}",
        "minutes": {} if minutes is None else {name: minutes * factor for name, factor in _FACTORS.items()},
        "marker": words.pattern("numbers.marker"),
        "grouping": words.pattern("numbers.grouping"),
        "sets": [[_build_entry(problem, sounds, shared) for problem in problems] for problems in level.sets],
    }


def _build_entry(walkthrough: Walkthrough, sounds: Mapping[str, str], shared: SharedData) -> dict[str, Any]:
    words = shared.words
    said = split_said(walkthrough, words)
    shown = format_problem(walkthrough.problem, words)
    entry = {
        "problem": str(walkthrough.problem),
        "prompt": shown,
        "parts": {"braille": show_problem(walkthrough.problem, shared.braille_code, words)},
        "say": say_problem(walkthrough.problem, words),
        "said": said,
        "key": {"text": walkthrough.answer.full_text, "accept": "value", "form": find_form(walkthrough)},
        "shown_key": show_answer(walkthrough, words),
    }
    return entry | {"sounds": [sounds[part] for part in said]} if all(part in sounds for part in said) else entry
