"""The part of a lesson's page that offers its other forms."""

from __future__ import annotations

from markupsafe import Markup

from beadwright.render.editions.values import EditionFile, LessonEditions
from beadwright.render.templates import render_part
from beadwright.render.words import Words

_BRAILLE = ("nemeth", "ueb")


def render_editions(editions: LessonEditions, folder: str, words: Words) -> Markup:
    """Links to a lesson's files in `folder`, as seen from its page; empty where there are none."""
    if not editions.files:
        return Markup("")

    def label(*, papers: bool, sound: bool = False) -> list[tuple[EditionFile, str]]:
        return [
            (file, label_file(file, words))
            for file in editions.files
            if (file.part != "lesson") is papers and (file.kind == "sound") is sound
        ]

    return render_part(
        "editions",
        words=words,
        folder=folder,
        split_cells=split_cells,
        plain=label(papers=False),
        sounds=label(papers=False, sound=True),
        papers=label(papers=True),
        braille_names=[file.name for file in editions.files if file.kind in _BRAILLE],
    )


def render_forms(editions: LessonEditions, folder: str, words: Words) -> Markup:
    """Links to the forms of a sheet in `folder`, as seen from its page; empty where there are none."""
    if not editions.files:
        return Markup("")
    return render_part(
        "forms", folder=folder, files=[(file, label_file(file, words)) for file in editions.files], words=words
    )


def split_cells(said: str) -> list[str]:
    """The pages of a sheet in braille, each a text of lines."""
    return said.split("\f")


def label_file(file: EditionFile, words: Words) -> str:
    """What a link to a file says."""
    if file.part != "lesson":
        form = words.text(f"editions.form.{file.kind}", cells=file.number, size=file.number)
        return words.text(f"editions.{file.part}", form=form)
    if file.kind == "print":
        return words.text("editions.print", size=file.number)
    if file.kind == "sound":
        return words.text("editions.sound", number=file.number, seconds=file.seconds)
    return words.text(f"editions.braille_{file.kind}", cells=file.number)
