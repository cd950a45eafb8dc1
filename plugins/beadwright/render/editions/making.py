"""A lesson's files in braille, large print and sound, each with what its page says of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

import beadwright
from beadwright.course import Course
from beadwright.paths import templates_dir
from beadwright.practice import AnswerEntry, PracticeItem
from beadwright.render import braille, sound
from beadwright.render.booklet import Booklet, build_lesson, number_items
from beadwright.render.braille.edition import BrailleStyle, write_booklet
from beadwright.render.course_pages import LessonLink
from beadwright.render.entry_data import split_said
from beadwright.render.print import MISSING as PRINT_MISSING
from beadwright.render.print import PrintError, PrintStyle, find_typst, print_booklet
from beadwright.render.words import Words

_ROOMS = ("booklet", "braille", "editions", "print", "sound")


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionStyle:
    """Which forms are made, and how: cells in a line (a braille file each), lines on a page, contraction, voice."""

    braille: bool = True
    large_print: bool = True
    sound: bool = True
    cells: tuple[int, ...] = (40,)
    lines: int = 25
    contracted: bool = True
    print_style: PrintStyle = field(default_factory=PrintStyle)
    pace: int = 140
    pause: float = 2.0

    @property
    def needs_anything(self) -> bool:
        """Whether any form is wanted at all."""
        return self.braille or self.large_print or self.sound


@dataclass(frozen=True, slots=True)
class EditionFile:
    """A file by its name, its kind (`nemeth`, `ueb`, `print`, `sound`), and for its label: cells, points, item, length.

    `said` is the text of a sound.
    """

    name: str
    kind: str
    number: int
    data: bytes
    seconds: int = 0
    said: str = ""


@dataclass(frozen=True, slots=True)
class LessonEditions:
    """The files of one lesson, and lines that say what of it could not be made."""

    lesson: str
    files: tuple[EditionFile, ...]
    faults: tuple[str, ...] = ()


def list_missing(style: EditionStyle) -> tuple[str, ...]:
    """What is wanted and cannot be made on this machine: a line for each, with how to get it."""
    wanted = (
        (style.braille and braille.find_liblouis() is None, braille.MISSING),
        (style.large_print and not find_typst(), PRINT_MISSING),
        (style.sound and not sound.find_voice(), sound.MISSING),
    )
    return tuple(line for is_missing, line in wanted if is_missing)


def describe_inputs(
    course: Course, link: LessonLink, links: Sequence[LessonLink], words: Words, style: EditionStyle
) -> str:
    """A name for all that a lesson's files are made from: the same name, the same files."""
    parts = (
        beadwright.__version__,
        _hash_sources(),
        repr(build_lesson(course, link, links, words)),
        repr(sorted((number, item.id) for number, item in number_items(course, link.lesson))),
        course.braille_code,
        repr(style),
        repr(list_missing(style)),
        repr(sorted(words.section("editions").items(), key=str)),
    )
    return sha256("\0".join(parts).encode()).hexdigest()


def _hash_sources() -> str:
    """The code and the template that make the files: while they are worked on, old files are no good."""
    here = Path(__file__).resolve().parent.parent
    paths = [path for room in _ROOMS for path in sorted((here / room).glob("*.py"))]
    paths += sorted(path for path in (templates_dir() / "print").rglob("*") if path.is_file())
    digest = sha256()
    for path in paths:
        digest.update(path.read_bytes())
    return digest.hexdigest()


def make_editions(
    course: Course, link: LessonLink, links: Sequence[LessonLink], words: Words, style: EditionStyle
) -> LessonEditions:
    """The files of a lesson in every form that is wanted and can be made here.

    A text that braille, typesetter or voice refuses costs that file alone, and is among the faults.
    """
    booklet = build_lesson(course, link, links, words)
    files: list[EditionFile] = []
    faults: list[str] = []
    for make in (_make_braille, _make_print, _make_sound):
        try:
            files.extend(make(course, link, booklet, words, style))
        except (braille.BrailleError, PrintError, sound.SoundError) as error:
            faults.append(f"{link.lesson.file}: {' '.join(str(error).split())}")
    return LessonEditions(link.lesson.id, tuple(files), tuple(faults))


def _make_braille(
    course: Course, link: LessonLink, booklet: Booklet, words: Words, style: EditionStyle
) -> Iterator[EditionFile]:
    if not style.braille:
        return
    code = course.braille_code
    for cells in style.cells:
        geometry = braille.Geometry(cells, style.lines)
        pages = write_booklet(booklet, BrailleStyle(code=code, contracted=style.contracted, geometry=geometry), words)
        yield EditionFile(f"{link.lesson.id}-{code}-{cells}.brf", code, cells, pages.to_brf())


def _make_print(
    course: Course, link: LessonLink, booklet: Booklet, words: Words, style: EditionStyle
) -> Iterator[EditionFile]:
    if style.large_print and find_typst():
        size = style.print_style.size
        data = print_booklet(booklet, words, style.print_style)
        yield EditionFile(f"{link.lesson.id}-print-{size}.pdf", "print", size, data)


def _make_sound(
    course: Course, link: LessonLink, booklet: Booklet, words: Words, style: EditionStyle
) -> Iterator[EditionFile]:
    if not style.sound or not sound.find_voice():
        return
    settings = sound.SoundStyle(pace=style.pace, pause=style.pause, language=course.language)
    for number, item in number_items(course, link.lesson):
        track = _build_track(item, number, words)
        if track is not None:
            made = sound.record(track, settings)
            name = f"{link.lesson.id}-{number:02}.mp3"
            yield EditionFile(name, "sound", number, made.data, round(made.seconds), track.text)


def _build_track(item: PracticeItem, number: int, words: Words) -> sound.Track | None:
    """The track of a heard item; None for any other."""
    entry = item.pool[0]
    if item.ask != "heard" or not isinstance(entry, AnswerEntry):
        return None
    return sound.build_track(number, split_said(entry.walkthrough, words), words)
