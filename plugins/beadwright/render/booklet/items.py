"""Practice items as blocks, and their answers for the end of a booklet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count, product
from string import ascii_lowercase
from typing import Any

from beadwright.engine import Frame
from beadwright.practice import (
    ChoiceEntry,
    FindSlipEntry,
    NextMoveEntry,
    OrderEntry,
    PracticeItem,
    RatingEntry,
    ReadEntry,
    ReflectEntry,
)
from beadwright.practice.values import Entry as PracticeEntry
from beadwright.render.booklet.arithmetic import find_formulas
from beadwright.render.booklet.blocks import Block, Entry, FrameShown, Listing, Paragraph, Spans
from beadwright.render.booklet.prose import read_line
from beadwright.render.entry_data import build_entry_data
from beadwright.render.item_data import SharedData
from beadwright.render.layout import find_window
from beadwright.render.reading import name_frame, read_frame
from beadwright.render.speech import find_named_ones, say_steps
from beadwright.render.words import Words


@dataclass(frozen=True, slots=True)
class ItemBlocks:
    """An item with its number in the booklet: what is asked, and the answer (nothing where none can be said)."""

    number: int
    asked: tuple[Block, ...]
    answer: Spans


def build_item(item: PracticeItem, number: int, words: Words, entry: PracticeEntry | None = None) -> ItemBlocks:
    """One entry of an item: the first, the one that its page shows before another is drawn, unless another is given."""
    entry = item.pool[0] if entry is None else entry
    data = build_entry_data(entry, item, SharedData(words))
    marker = f"{number}."
    asked = (Listing((Entry(marker, _say_prompt(item, entry, data, words)),)), *_show_rest(entry, data, words))
    return ItemBlocks(number, asked, _find_answer(entry, data, words))


def _say_prompt(item: PracticeItem, entry: PracticeEntry, data: dict[str, Any], words: Words) -> Spans:
    own = () if item.prompt is None else read_line(item.prompt)
    if item.prompt is not None and not item.drawn:
        return own
    if item.ask == "heard":
        usual = find_formulas(words.text("editions.heard"))
    elif isinstance(entry, RatingEntry):
        usual = find_formulas(f"{words.text(f'ask.when.{entry.when}')} {entry.question}")
    else:
        usual = read_line(data["prompt"])
    return (*own, " ", *usual) if own else usual


def _show_rest(entry: PracticeEntry, data: dict[str, Any], words: Words) -> Iterator[Block]:
    """What stands below the prompt: a frame, steps, answers to choose from."""
    if isinstance(entry, ReadEntry):
        yield show_frame(entry.frame, words, entry.ones, lowest=entry.lowest, digits=False)
    if isinstance(entry, NextMoveEntry):
        yield show_frame(entry.before, words, find_named_ones(entry.walkthrough), digits=False)
    if isinstance(entry, FindSlipEntry):
        yield Listing(tuple(_list_slipped(entry, words)))
        yield Paragraph((words.text("ask.which_slip"),))
    if isinstance(entry, RatingEntry):
        yield Listing(tuple(Entry("•", find_formulas(rated.text), 1) for rated in entry.items))
        yield Listing(tuple(Entry(f"{n}", find_formulas(point), 1) for n, point in enumerate(entry.points, start=1)))
    elif data.get("options"):
        options = zip(_count_letters(), data["options"], strict=False)
        yield Listing(tuple(Entry(f"{letter}.", read_line(option["text"]), 1) for letter, option in options))


def _list_slipped(entry: FindSlipEntry, words: Words) -> Iterator[Entry]:
    for step, said in enumerate(say_steps(entry.slipped, words), start=1):
        yield Entry(f"{step}.", find_formulas(said.full), 1)


def _find_answer(entry: PracticeEntry, data: dict[str, Any], words: Words) -> Spans:
    """The answer in words; options by their letters."""
    if isinstance(entry, RatingEntry):
        return ()
    if isinstance(entry, ReflectEntry):
        return () if entry.model is None else read_line(entry.model)
    if isinstance(entry, ChoiceEntry):
        return _say_choices(entry)
    if isinstance(entry, OrderEntry):
        return (", ".join(_find_letters(data, [name for step in data["key"]["steps"] for name in step])),)
    if isinstance(entry, NextMoveEntry):
        letters = ", ".join(_find_letters(data, data["key"]["steps"][0]))
        return find_formulas(f"{letters}: {data['shown_key']}")
    if isinstance(entry, FindSlipEntry):
        letter = _find_letters(data, [entry.slipped.slip])[0]
        return (words.text("editions.slip_answer", step=entry.slipped.first_wrong_step, letter=letter),)
    shown = data["parts"].get("shown", "")
    if isinstance(entry, ReadEntry) or shown == data["shown_key"]:
        return find_formulas(data["shown_key"])
    return find_formulas(f"{shown} = {data['shown_key']}")


def _count_letters() -> Iterator[str]:
    """What options are called on paper: a to z, then aa, ab and so on."""
    for length in count(1):
        yield from map("".join, product(ascii_lowercase, repeat=length))


def _find_letters(data: dict[str, Any], ids: list[str]) -> list[str]:
    """The letters of these options, in the order of `ids`."""
    places = {option["id"]: letter for letter, option in zip(_count_letters(), data["options"], strict=False)}
    return [places[name] for name in ids]


def _say_choices(entry: ChoiceEntry) -> Spans:
    said: list[str | Any] = []
    for letter, option in zip(_count_letters(), entry.options, strict=False):
        if option.right:
            said += [f"{' ' if said else ''}{letter}: ", *read_line(option.because)]
    return tuple(said)


def show_frame(
    frame: Frame,
    words: Words,
    ones_column: int | None,
    *,
    lowest: int | None = None,
    digits: bool = True,
    lead: Spans = (),
) -> FrameShown:
    """The frame with all that its picture shows in words."""
    ones = 1 if ones_column is None else ones_column
    name = name_frame(frame, words, ones_column=ones_column, lowest=lowest)
    return FrameShown(
        frame=frame,
        reading=read_frame(frame, words, ones_column=ones_column, lowest=lowest, digits=digits),
        name=name if digits else words.text("figure.told"),
        columns=find_window([frame], lowest=ones),
        ones_column=ones,
        lead=lead,
    )
