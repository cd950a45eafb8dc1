"""The page of a contest that is shown as an example: every file of it, with what it is for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from beadwright.render.editions import EditionFile, LessonEditions, split_cells
from beadwright.render.pages import Page, escape_markdown, slot_line, write_front_matter
from beadwright.render.sheets import HomeRound
from beadwright.render.templates import render_part
from beadwright.render.words import Words

ROLES = ("paper", "script", "sound", "key", "tie-break", "fairness")
"""What a level has, in the order in which it is needed."""


def write_event(played: HomeRound, made: LessonEditions, folder: str, words: Words) -> Page:
    """The page of the contest of a round; its files lie in `folder` as seen from it."""
    title = words.text("event.title", title=played.title)
    home = words.text("event.home", round=f"[{escape_markdown(played.title)}]({played.name}.md)")
    chunks = [write_front_matter(title, kind="event"), f"# {escape_markdown(title)}", words.text("event.intro"), home]
    slots: dict[str, str] = {}
    for level in played.levels:
        files = [file for file in made.files if file.name.startswith(f"{level.id}/")]
        chunks += [f"## {escape_markdown(level.title)} {{: #event-{level.id} }}", slot_line(f"event-{level.id}")]
        slots[f"event-{level.id}"] = _render_files(files, ROLES, folder, words)
    scores = [file for file in made.files if file.part == "scores"]
    if scores:
        chunks += [
            f"## {escape_markdown(words.text('event.role.scores'))} {{: #event-scores }}",
            slot_line("event-scores"),
        ]
        slots["event-scores"] = _render_files(scores, ("scores",), folder, words)
    return Page("\n\n".join(chunks) + "\n", slots)


def _render_files(files: Sequence[EditionFile], roles: Sequence[str], folder: str, words: Words) -> Markup:
    parts = [(role, _group(role, files, words)) for role in roles]
    return render_part("event", words=words, folder=folder, roles=[(role, rows) for role, rows in parts if rows])


def _group(role: str, files: Sequence[EditionFile], words: Words) -> list[dict[str, Any]]:
    """The files of one role by what they belong to, each with its label, and the cells of a paper in braille."""
    rows: dict[str, dict[str, Any]] = {}
    for file in files:
        if file.part != role or (role == "sound" and file.kind == "text"):
            continue
        row = rows.setdefault(file.of, {"of": file.of, "files": [], "cells": [], "said": []})
        row["files"].append((file, _label(file, len(row["files"]), words)))
        if role == "sound":
            row["said"].append(file.said)
        elif file.said:
            row["cells"].append((file, split_cells(file.said)))
    return list(rows.values())


def _label(file: EditionFile, place: int, words: Words) -> str:
    if file.kind == "sound":
        return words.text("event.track", number=place) if place > 0 else words.text("event.track_start")
    form = words.text(f"editions.form.{file.kind}", cells=file.number, size=file.number)
    return form[:1].upper() + form[1:]
