"""The part of a lesson's page that offers its other forms."""

from __future__ import annotations

from markupsafe import Markup

from beadwright.render.editions.making import EditionFile, LessonEditions
from beadwright.render.templates import render_part
from beadwright.render.words import Words


def render_editions(editions: LessonEditions, folder: str, words: Words) -> Markup:
    """Links to a lesson's files in `folder`, as seen from its page; empty where there are none."""
    if not editions.files:
        return Markup("")
    braille = [file for file in editions.files if file.kind in ("nemeth", "ueb")]
    return render_part(
        "editions",
        words=words,
        folder=folder,
        plain=[(file, _label(file, words)) for file in editions.files if file.kind != "sound"],
        sounds=[(file, _label(file, words)) for file in editions.files if file.kind == "sound"],
        braille_names=[file.name for file in braille],
    )


def _label(file: EditionFile, words: Words) -> str:
    if file.kind == "print":
        return words.text("editions.print", size=file.number)
    if file.kind == "sound":
        return words.text("editions.sound", number=file.number, seconds=file.seconds)
    return words.text(f"editions.braille_{file.kind}", cells=file.number)
