"""A booklet as plain data for the typesetter's template. It lays out; nothing is worked out there."""

from __future__ import annotations

from typing import Any

from beadwright.engine import Problem, Product, Quotient, Sum
from beadwright.render.booklet import (
    Asked,
    Block,
    Booklet,
    FillIn,
    FrameShown,
    Heading,
    Listing,
    NewPage,
    Paragraph,
    Spans,
    Table,
)
from beadwright.render.numbers import format_number, format_wanted
from beadwright.render.print.pictures import draw_picture, find_shape
from beadwright.render.words import Words

Data = dict[str, Any]
_KEPT = str.maketrans({" ": "\u00a0"})
LONGEST_KEPT = 16
"""Characters of an expression that is kept on one line; longer ones may break at their spaces."""


def build_data(booklet: Booklet, words: Words) -> Data:
    """The booklet's title, language and blocks, every block with its `kind`."""
    return {
        "title": booklet.title,
        "language": booklet.language,
        "answer": words.text("editions.answer_place"),
        "blocks": [_build_block(block, words) for block in booklet.blocks],
    }


def show_text(spans: Spans) -> str:
    """Text as it is printed; a short expression never breaks in the middle."""
    return "".join(span if isinstance(span, str) else _keep(span.text) for span in spans)


def _keep(text: str) -> str:
    return text.translate(_KEPT) if len(text) <= LONGEST_KEPT else text


def _build_block(block: Block, words: Words) -> Data:
    match block:
        case Heading(level=level, spans=spans, idea=idea):
            return {"kind": "heading", "level": level, "text": show_text(spans), "idea": idea}
        case Paragraph(spans=spans, label=label):
            return {"kind": "paragraph", "text": show_text(spans), "label": label}
        case Listing(entries=entries, kept=kept):
            listed = [{"marker": e.marker, "text": show_text(e.spans), "depth": e.depth} for e in entries]
            return {"kind": "list", "runs": _group_by_depth(listed), "kept": kept}
        case Table(head=head, rows=rows):
            shown = [[show_text(cell) for cell in row] for row in rows]
            return {"kind": "table", "head": [show_text(cell) for cell in head], "rows": shown}
        case FrameShown(name=name, reading=reading, lead=lead):
            picture = draw_picture(block)
            size = {"columns": block.columns[0] - block.columns[1] + 1, "shape": find_shape(picture)}
            return {"kind": "frame", "svg": picture, "name": name, "reading": reading, "lead": show_text(lead), **size}
        case Asked():
            return _build_problem(block, words)
        case FillIn(marker=marker, spans=spans, labels=labels, lines=lines):
            places = {"labels": list(labels), "lines": lines}
            return {"kind": "fill-in", "marker": marker, "text": show_text(spans), **places}
        case NewPage():
            return {"kind": "page"}


def _group_by_depth(entries: list[Data]) -> list[Data]:
    """Entries in runs that lie equally deep, since each run is a list of its own."""
    runs: list[Data] = []
    for entry in entries:
        if not runs or runs[-1]["depth"] != entry["depth"]:
            runs.append({"depth": entry["depth"], "entries": []})
        runs[-1]["entries"].append(entry)
    return runs


def _build_problem(asked: Asked, words: Words) -> Data:
    data = {"kind": "problem", "number": f"{asked.number}.", "text": _keep(asked.shown), "rows": [], "divisor": ""}
    if not asked.vertical or format_wanted(asked.problem, words) != "":  # columns have no room for words
        return data
    if isinstance(asked.problem, Quotient):
        divisor, dividend = (format_number(str(n), words) for n in (asked.problem.divisor, asked.problem.dividend))
        return data | {"divisor": divisor, "rows": [["", dividend]]}
    return data | {"rows": _stack(asked.problem, words)}


def _stack(problem: Problem, words: Words) -> list[list[str]]:
    """The rows of a vertical problem: sign and number; empty for a kind that stands on a line."""
    if isinstance(problem, Product):
        numbers, signs = [str(problem.first), str(problem.second)], ["", "×"]
    elif isinstance(problem, Sum):
        # Decimals get as many places as the longest, so that markers stand in one column.
        numbers = [str(term.number.with_places(problem.places)) for term in problem.terms]
        signs = ["", *("−" if term.sign == "-" else "+" for term in problem.terms[1:])]
    else:
        return []
    return [[sign, format_number(number, words)] for sign, number in zip(signs, numbers, strict=True)]
