"""A booklet as plain text, which needs nothing to be read."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill

from beadwright.render.booklet import (
    Asked,
    Block,
    Booklet,
    FillIn,
    FrameShown,
    Heading,
    Listing,
    Paragraph,
    Table,
    show_spans,
)

WIDTH = 78
ROOM = "_" * 30


def write_text(booklet: Booklet) -> str:
    """The booklet's blocks with an empty line between them."""
    return "\n\n".join(part for block in booklet.blocks if (part := "\n".join(_write_block(block)))) + "\n"


def _write_block(block: Block) -> Iterator[str]:
    match block:
        case Heading(spans=spans):
            text = show_spans(spans)
            yield text
            yield "=" * min(len(text), WIDTH)
        case Paragraph(spans=spans, label=label):
            yield fill(f"{label} {show_spans(spans)}".strip(), WIDTH)
        case Listing(entries=entries):
            for entry in entries:
                indent = " " * (2 * entry.depth)
                start = f"{indent}{entry.marker} " if entry.marker else indent
                yield fill(show_spans(entry.spans), WIDTH, initial_indent=start, subsequent_indent=" " * len(start))
        case Table(head=head, rows=rows):
            for row in rows:
                pairs = zip(map(show_spans, head), map(show_spans, row), strict=True)
                yield fill("; ".join(f"{name}: {cell}" for name, cell in pairs), WIDTH, subsequent_indent="  ")
        case FrameShown(reading=reading):
            yield fill(reading, WIDTH)
        case Asked(number=number, shown=shown):
            yield f"{number}. {shown}"
        case FillIn(marker=marker, spans=spans, labels=labels, lines=lines):
            room = ROOM if labels == () and lines == 0 else ""
            yield fill(f"{marker} {show_spans(spans)} {room}".strip(), WIDTH, subsequent_indent="   ")
            yield from (f"   {label} {ROOM}" for label in labels)
            yield from [f"   {ROOM}"] * lines
        case _:
            return
