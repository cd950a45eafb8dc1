"""Items as parts of a page: the problem with its form, whole before any script runs, and the answer folded."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, NamedTuple

from markupsafe import Markup, escape

from beadwright.engine import Frame, Walkthrough
from beadwright.practice import (
    AnswerEntry,
    CarryOutEntry,
    ChoiceEntry,
    FindSlipEntry,
    NextMoveEntry,
    PracticeItem,
    PracticeSet,
    RatingEntry,
    ReadEntry,
    ReflectEntry,
    SetEntry,
)
from beadwright.render.course_pages import LessonLink
from beadwright.render.entry_data import build_pool_data, find_slip_window
from beadwright.render.figures import render_figure, render_worked_frame
from beadwright.render.folds import build_fold
from beadwright.render.item_data import Data, SharedData, build_item_data
from beadwright.render.layout import find_window
from beadwright.render.prose import render_line, render_prose
from beadwright.render.speech import find_named_ones
from beadwright.render.svg import draw_svg
from beadwright.render.templates import render_part
from beadwright.render.words import Words

SCRIPTS = (
    "arrival",
    "frame",
    "stepper",
    "grading",
    "record-core",
    "review-core",
    "record",
    "record-file",
    "stopwatch",
    "item-typed",
    "item-frame",
    "item-chosen",
    "item-order",
    "item-slip",
    "item-words",
    "item-heard",
    "item-telling",
    "item",
    "progress",
    "place",
    "record-page",
    "review",
    "round",
)
"""The scripts that items need, in the order in which a page loads them, after `words`."""
SCRIPT_SECTIONS = ("list", "frame", "stepper", "practice", "record", "progress", "review", "round")
"""The sections of the language table that these scripts read."""

_BODIES = {
    "answer": "answer",
    "read": "read",
    "set": "frame",
    "carry-out": "frame",
    "next-move": "moves",
    "order-moves": "order",
    "find-slip": "slip",
    "choice": "choice",
    "reflect": "reflect",
    "rating": "rating",
    "heard": "heard",
}
"""The part of the page that each kind of item has inside its form."""

_ASKED = ("moves", "order", "slip", "choice")
"""The parts whose answers stand as a group below their question."""

_CHECKS = {"set": "check_frame", "carry-out": "check_digit", "reflect": "", "rating": ""}
"""The words of the key that checks, where they are not the usual ones."""


class Numbered(NamedTuple):
    """An item's number among those of its practice, how many there are, and the id of the practice's heading."""

    number: int
    of: int
    practice: str


@dataclass(slots=True)
class PracticePage:
    """The items of one page. It renders practices in turn and keeps what they share; `finish` gives that, once.

    `lesson` is the lesson's id; `edition`, `pass_mark` and `braille_code` are the course's. `for_trainers` shows the
    notes. `pages` are the pages of the course's lessons, by id.
    """

    words: Words
    lesson: str
    edition: str = ""
    pass_mark: Decimal = Decimal("0.8")
    braille_code: str = "nemeth"
    for_trainers: bool = False
    pages: Mapping[str, LessonLink] = field(default_factory=dict)
    shared: SharedData = field(init=False)
    _frames: dict[str, Markup] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.shared = SharedData(self.words, self.braille_code)

    def show_walkthrough(self, walkthrough: Walkthrough, walkthrough_id: str) -> None:
        """Let items of this problem refer to the walkthrough that the page itself shows, under this id."""
        self.shared.show_working(walkthrough, walkthrough_id)

    def render_practice(self, practice: PracticeSet) -> Markup:
        """A practice's items in order.

        Its page also needs a heading with the practice's id, `finish`, and `render_shapes` for the items' frames.
        """
        count = len(practice.items)
        items = [
            self.render_item(item, Numbered(number, count, practice.id))
            for number, item in enumerate(practice.items, start=1)
        ]
        return render_part("practice", words=self.words, id=practice.id, items=items)

    def render_item(self, item: PracticeItem, numbered: Numbered | None = None) -> Markup:
        """One item; without a number where it stands alone."""
        pool = build_pool_data(item, self.shared)
        body = _BODIES[item.ask]
        own = Markup("") if item.prompt is None else render_prose(item.prompt)
        tells_problem = item.prompt is None or item.drawn
        prompt = self._build_prompt(item, pool[0]) if tells_problem else Markup("")
        return render_part(
            "item",
            words=self.words,
            dom=name_item(item.id),
            ask=item.ask,
            title=self._say_title(item, numbered),
            practice="" if numbered is None else numbered.practice,
            own=own,
            taught=self.pages.get(item.taught or ""),
            prompt=prompt,
            asked=_find_line(prompt or own) if body in _ASKED else "",
            described="own" if item.prompt is not None else "prompt",
            shown=self._render_shown(item),
            body=body,
            note=render_prose(item.note) if item.note is not None and self.for_trainers else "",
            hints="hints" in pool[0],
            more=len(pool) > 1,
            braille=pool[0].get("parts", {}).get("braille", "") if tells_problem else "",
            code=self.braille_code,
            check=self._find_check(item),
            fold=build_fold(item.pool[0], self.shared),
            data=build_item_data(item, self.lesson, pool),
            **self._find_body(item, pool),
        )

    def finish(self) -> Markup:
        """What all items of the page share; empty where it has none to show it."""
        data = self.shared.build() | {
            "lesson": self.lesson,
            "edition": self.edition,
            "pass_mark": float(self.pass_mark),
        }
        return render_part("practice-data", data=data, frames=list(self._frames.items()))

    def _say_title(self, item: PracticeItem, numbered: Numbered | None) -> str:
        kind = self.words.text(f"ask.kind.{item.ask}")
        if numbered is None:
            return kind[:1].upper() + kind[1:]
        name = self.words.text("ask.item", number=numbered.number, count=numbered.of)
        return self.words.text("ask.of_kind", item=name, kind=kind)

    def _find_check(self, item: PracticeItem) -> str:
        key = _CHECKS.get(item.ask, "check")
        return self.words.text(f"ask.{key}") if key else ""

    def _build_prompt(self, item: PracticeItem, entry: Data) -> Markup:
        """The prompt with a place for each text that changes when another entry is drawn."""
        first = item.pool[0]
        if isinstance(first, ChoiceEntry | ReflectEntry):
            return render_prose(first.question)
        if isinstance(first, RatingEntry):
            when = self.words.text(f"ask.when.{first.when}")
            return Markup("<p><strong>{}</strong> {}</p>").format(when, first.question)
        return Markup("<p>{}</p>").format(mark_parts(entry["prompt"], entry["parts"]))

    def _render_shown(self, item: PracticeItem) -> Markup:
        """The figure of a frame to read, or of the frame before a step."""
        first = item.pool[0]
        if isinstance(first, ReadEntry):
            frames = [entry.frame for entry in item.pool if isinstance(entry, ReadEntry)]
            return self._render_figure(item, frames, first.ones)
        if isinstance(first, NextMoveEntry):
            frames = [entry.before for entry in item.pool if isinstance(entry, NextMoveEntry)]
            walkthrough = first.walkthrough
            by_number = find_named_ones(walkthrough) is None
            return self._render_figure(item, frames, walkthrough.ones_column, by_number=by_number)
        return Markup("")

    def _render_figure(self, item: PracticeItem, frames: list[Frame], ones: int, *, by_number: bool = False) -> Markup:
        """The first frame, with room for the others: scripts only change the columns' states."""
        return render_figure(
            frames[0],
            self.words,
            figure_id=f"{name_item(item.id)}-figure",
            digits=False,
            columns=find_window(frames, lowest=ones),
            ones_column=ones,
            by_number=by_number,
        )

    def _find_body(self, item: PracticeItem, pool: list[Data]) -> Mapping[str, Any]:
        """What the part inside the form needs besides the item itself."""
        first, data = item.pool[0], pool[0]
        body: dict[str, Any] = {"timed": item.timed, "opens_frame": ""}
        if "key" in data and isinstance(data["key"], dict) and "form" in data["key"]:
            body["form"] = data["key"]["form"]
            body["decimal"] = any("." in entry["key"]["text"] for entry in pool)
        if isinstance(first, AnswerEntry) and item.frame is not None:
            if item.frame_is != "hidden" and item.ask == "answer":
                body["opens_frame"] = self._keep_frame(item.frame, first.walkthrough)
            body |= {"problem": data["parts"]["shown"], "said": data["say"]}
        if isinstance(first, SetEntry | CarryOutEntry) and item.frame is not None:
            body |= {"frame": self._render_worked(item, item.frame), "digits": isinstance(first, CarryOutEntry)}
        if isinstance(first, ChoiceEntry):
            options = [{"id": option.id, "text": render_line(option.text)} for option in first.options]
            return body | {"options": options, "several": first.has_several}
        if isinstance(first, ReflectEntry):
            return body | {"model": first.model is not None}
        if isinstance(first, RatingEntry):
            return body | {"rated": first.items, "points": first.points}
        if isinstance(first, FindSlipEntry):
            sentences = list(self.shared.sentences)
            steps = zip(data["steps"], data["readings"], strict=True)
            body["steps"] = [(sentences[said], sentences[reading]) for said, reading in steps]
            body["picture"] = self._draw_slip(item, first)
        return body | {"options": data.get("options", [])}

    def _draw_slip(self, item: PracticeItem, first: FindSlipEntry) -> Markup:
        """The frame after a step; scripts change it with the step that is chosen. Its words stand with each step."""
        slipped = first.slipped
        ones = slipped.right.ones_column
        name = self.words.text("practice.picture_after", number=1)
        return draw_svg(slipped.steps[0].after, name=name, columns=find_slip_window(item), ones_column=ones)

    def _render_worked(self, item: PracticeItem, frame: Frame) -> Markup:
        """A frame at rest to work on, with as many columns as the item's entries need and one more."""
        goals = [entry.goal if isinstance(entry, SetEntry) else frame for entry in item.pool]
        worked = [entry for entry in item.pool if isinstance(entry, CarryOutEntry)]
        goals += [check.step.after for entry in worked for check in entry.checks]
        ones = (
            worked[0].walkthrough.ones_column
            if worked
            else next((entry.ones for entry in item.pool if isinstance(entry, SetEntry)), 1)
        )
        shown = find_window(goals, lowest=ones)[0]
        return render_worked_frame(
            frame,
            self.words,
            frame_id=f"{name_item(item.id)}-frame",
            ones_column=ones,
            shown=shown,
            by_number=bool(worked) and find_named_ones(worked[0].walkthrough) is None,
        )

    def _keep_frame(self, frame: Frame, worked: Walkthrough) -> str:
        """The id of a frame that items of this page can open; each kind stands in the page once."""
        ones, by_number = worked.ones_column, find_named_ones(worked) is None
        name = f"bw-opens-{frame.name}-{frame.columns}-{ones}{'-by-number' if by_number else ''}"
        if name not in self._frames:
            self._frames[name] = render_worked_frame(
                frame,
                self.words,
                frame_id=f"{name}-frame",
                ones_column=ones,
                shown=min(frame.columns, ones + 3),
                by_number=by_number,
            )
        return name


def _find_line(html: Markup) -> Markup:
    r"""What one paragraph says; empty where it is not one and nothing else.

    >>> _find_line(Markup("<p>Which <em>step</em>?</p>"))
    Markup('Which <em>step</em>?')
    >>> _find_line(Markup("<p>Look.</p>\n<p>Which step?</p>"))
    Markup('')
    """
    found = re.fullmatch(r"<p>((?:(?!</p>).)*)</p>", html, re.DOTALL)
    return Markup(found[1] if found else "")  # noqa: S704 - a part of what is HTML already


def name_item(item_id: str) -> str:
    """The id of an item's element in its page.

    >>> name_item("next-1")
    'item-next-1'
    """
    return f"item-{item_id}"


def mark_parts(text: str, parts: Mapping[str, str]) -> Markup:
    """A sentence as HTML with each of `parts` that it contains in an element of its own, the longest first."""
    marked = str(escape(text))
    for name, part in sorted(parts.items(), key=lambda pair: -len(pair[1])):
        shown = str(escape(part))
        kind = "bw-problem" if name in ("shown", "wrong") else "bw-part"
        if shown in marked:
            marked = marked.replace(shown, f'<span class="{kind}" data-bw-part="{name}">\x00{name}\x00</span>', 1)
    for name, part in parts.items():
        marked = marked.replace(f"\x00{name}\x00", str(escape(part)))
    return Markup(marked)  # noqa: S704 - escaped above, only spans of ours added


def render_practice(practice: PracticeSet, words: Words) -> Markup:
    """A practice by itself, with what its items share."""
    page = PracticePage(words, practice.lesson)
    return page.render_practice(practice) + page.finish()


def render_lone_item(item: PracticeItem, words: Words) -> Markup:
    """An item that stands in a lesson by itself; it shares nothing."""
    return PracticePage(words, "").render_item(item)
