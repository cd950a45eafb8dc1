"""The other forms of each lesson in the site: made when the lesson has changed, else taken from the cache."""

from __future__ import annotations

import json
import logging
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from mkdocs.config import config_options
from mkdocs.config.base import BaseConfigOption, Config, ValidationError

from beadwright.course import Course, Loaded
from beadwright.render import LESSON_FOLDER, LessonLink, Page, Words
from beadwright.render.braille import Geometry
from beadwright.render.editions import (
    EditionFile,
    EditionStyle,
    LessonEditions,
    describe_inputs,
    list_missing,
    make_editions,
    render_editions,
)
from beadwright.render.print import PaperName, PrintStyle

log = logging.getLogger("mkdocs.plugins.beadwright")

FOLDER = "editions"
CACHE = Path(".cache") / "beadwright" / FOLDER
_INDEX = "index.json"


class EditionsConfig(Config):  # type: ignore[no-untyped-call]  # untyped in MkDocs
    """What a trainer may set under `editions:` of the plugin; `false` for a form leaves it out."""

    braille = config_options.Type(bool, default=True)
    """Braille files (BRF), arithmetic in the course's code."""
    print = config_options.Type(bool, default=True)
    """Large print (PDF)."""
    sound = config_options.Type(bool, default=True)
    """Sound of heard items (MP3)."""
    cells = config_options.ListOfItems(config_options.Type(int), default=[40])
    """Cells in a braille line; a file for each number, such as [40, 20]."""
    lines = config_options.Type(int, default=25)
    """Lines on a braille page."""
    contracted = config_options.Type(bool, default=True)
    """Contracted braille; uncontracted where false."""
    size = config_options.Type(int, default=18)
    """Points of large print, 18 to 36."""
    paper: config_options.Choice[PaperName] = config_options.Choice(("us-letter", "a4"), default="us-letter")
    """Paper of large print."""
    pace = config_options.Type(int, default=140)
    """Words a minute of the voice."""
    pause = config_options.Type((int, float), default=2.0)
    """Seconds after each number that the voice says."""


class Editions(BaseConfigOption[EditionStyle]):
    """The setting `editions:`: keys as in `EditionsConfig`, or false for none."""

    def __init__(self) -> None:
        super().__init__()
        self.default = {}  # what is not set is read like no keys

    def run_validation(self, value: object) -> EditionStyle:
        """The style; raises `ValidationError` that says what a setting should be."""
        if value is False:
            return EditionStyle(braille=False, large_print=False, sound=False)
        if value is not None and not isinstance(value, dict | bool):
            raise ValidationError("should be keys such as braille: false, or false for none")
        own = EditionsConfig()
        own.load_dict(value if isinstance(value, dict) else {})
        errors, warnings = own.validate()
        for key, problem in (*errors, *warnings):
            raise ValidationError(f"{key}: {problem}")
        try:
            return build_style(own)
        except ValueError as error:
            raise ValidationError(str(error)) from None


def build_style(own: EditionsConfig) -> EditionStyle:
    """The style that the settings give; raises `ValueError` for sizes that nothing can be made in."""
    for cells in own.cells:
        Geometry(cells, own.lines)
    return EditionStyle(
        braille=own.braille,
        large_print=own.print,
        sound=own.sound,
        cells=tuple(own.cells),
        lines=own.lines,
        contracted=own.contracted,
        print_style=PrintStyle(size=own.size, paper=own.paper),
        pace=own.pace,
        pause=float(own.pause),
    )


def tell(line: str, level: int) -> None:
    """Say a line, in a quiet build too: what was not made must not be missed."""
    if log.isEnabledFor(level):
        log.log(level, line)
    else:
        print(line, file=sys.stderr)


class CourseEditions:
    """The editions of all lessons: made or taken from the cache at once, written when the site is built."""

    def __init__(self, course: Course, loaded: Loaded, words: Words, style: EditionStyle, root: Path) -> None:
        self._words = words
        self._style = style
        links = [LessonLink(each, n, f"{each.id}.html") for n, each in enumerate(loaded.lessons, start=1)]
        self._cache = _Cache(root / CACHE)
        self._made = {} if not style.needs_anything else dict(self._make(course, links))

    def _make(self, course: Course, links: Sequence[LessonLink]) -> Iterator[tuple[str, LessonEditions]]:
        for line in list_missing(self._style):
            tell(line, logging.INFO)
        for link in links:
            name = describe_inputs(course, link, links, self._words, self._style)
            editions = self._cache.load(name, link.lesson.id)
            if editions is None:
                editions = make_editions(course, link, links, self._words, self._style)
                self._cache.store(name, editions)
            for fault in editions.faults:
                tell(fault, logging.WARNING)
            yield link.lesson.id, editions
        self._cache.drop_unused()

    def offer(self, made: Mapping[str, Page]) -> dict[str, Page]:
        """The course's pages by source path, each lesson's with the list of its other forms at its end."""
        pages = dict(made)
        for lesson, editions in self._made.items():
            uri = f"{LESSON_FOLDER}/{lesson}.md"
            page = pages[uri]
            part = render_editions(editions, f"../{FOLDER}/{lesson}", self._words)
            pages[uri] = replace(page, slots={**page.slots, "end": f"{page.slots['end']}{part}"})
        return pages

    def write(self, site: Path) -> None:
        """Put all files into the site."""
        for lesson, editions in self._made.items():
            folder = site / FOLDER / lesson
            for file in editions.files:
                folder.mkdir(parents=True, exist_ok=True)
                (folder / file.name).write_bytes(file.data)


class _Cache:
    """Editions on disk, each under the name of what it was made from."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._used: set[str] = set()

    def load(self, name: str, lesson: str) -> LessonEditions | None:
        """What is kept under a name; None when nothing is, or it is damaged."""
        self._used.add(name)
        folder = self._folder / name
        try:
            index: list[dict[str, Any]] = json.loads((folder / _INDEX).read_text(encoding="utf-8"))
            files = [EditionFile(**entry, data=(folder / entry["name"]).read_bytes()) for entry in index]
        except (OSError, ValueError, TypeError, KeyError):
            return None
        return LessonEditions(lesson, tuple(files))

    def store(self, name: str, editions: LessonEditions) -> None:
        """Keep editions without faults; a folder that cannot be written to only costs time at the next build."""
        if editions.faults:
            return
        folder = self._folder / name
        index = [
            {"name": f.name, "kind": f.kind, "number": f.number, "seconds": f.seconds, "said": f.said}
            for f in editions.files
        ]
        try:
            folder.mkdir(parents=True, exist_ok=True)
            for file in editions.files:
                (folder / file.name).write_bytes(file.data)
            (folder / _INDEX).write_text(json.dumps(index), encoding="utf-8")  # last: without it nothing is kept
        except OSError as error:
            log.info("Other forms of lessons are not kept for the next build: %s", error)

    def drop_unused(self) -> None:
        """Remove what no lesson has asked for in this build."""
        if not self._folder.is_dir():
            return
        for folder in self._folder.iterdir():
            if folder.name not in self._used and folder.is_dir():
                for file in folder.iterdir():
                    file.unlink()
                folder.rmdir()
