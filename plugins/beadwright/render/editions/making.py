"""The files of a lesson, and of a level of a round, each with what its page says of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache, partial
from itertools import chain

from beadwright.course import Course
from beadwright.course.loading import COURSE_NAME
from beadwright.practice import AnswerEntry, PracticeItem
from beadwright.render import braille, sound
from beadwright.render.booklet import (
    Booklet,
    Papers,
    build_lesson,
    build_practice_sheet,
    build_trainer_sheets,
    number_items,
)
from beadwright.render.braille.edition import BrailleStyle, write_booklet
from beadwright.render.course_pages import LessonLink
from beadwright.render.editions.values import EditionFile, EditionStyle, LessonEditions, Part
from beadwright.render.entry_data import split_said
from beadwright.render.print import MISSING as PRINT_MISSING
from beadwright.render.print import PrintError, find_typst, print_booklet
from beadwright.render.sheets.home import HomeLevel, HomeRound
from beadwright.render.sheets.making import Forms, make_contest
from beadwright.render.sheets.papers import write_home_level
from beadwright.render.sheets.plain import write_text
from beadwright.render.sheets.scores import MISSING as SCORES_MISSING
from beadwright.render.sheets.spec import ContestSpec
from beadwright.render.words import Words

_PAPERS: tuple[Part, ...] = ("sheet", "key")
Make = Callable[[], Iterable[EditionFile]]


def list_missing(style: EditionStyle) -> tuple[str, ...]:
    """What is wanted and cannot be made on this machine: a line for each, with how to get it."""
    wanted = (
        (style.braille and braille.find_liblouis() is None, braille.MISSING),
        (style.large_print and not find_typst(), PRINT_MISSING),
        (style.sound and not sound.find_voice(), sound.MISSING),
    )
    return tuple(line for is_missing, line in wanted if is_missing)


def make_editions(
    course: Course, link: LessonLink, links: Sequence[LessonLink], words: Words, style: EditionStyle
) -> LessonEditions:
    """A lesson in braille and large print, the sound of its heard items, and a practice sheet with its key.

    What is wanted and can be made here. A text that braille, typesetter or voice refuses costs that form alone, and is
    among the faults.
    """
    lesson = link.lesson
    booklet = build_lesson(course, link, links, words)
    papers = cache(lambda: build_practice_sheet(course, lesson, words))
    forms = (
        *_list_forms(lesson.id, lambda: booklet, "lesson", course, words, style),
        lambda: _record_items(course, link, words, style),
        *_list_papers(lesson.id, papers, course, words, style),
    )
    return _make(lesson.id, lesson.file, forms)


def make_trainer_sheets(
    course: Course, links: Sequence[LessonLink], words: Words, style: EditionStyle
) -> dict[str, LessonEditions]:
    """The facilitators' sheets to fill in, by the names of their pages, in all forms."""
    sheets = build_trainer_sheets(links, course.language, words)
    return {
        name: _make(name, COURSE_NAME, _list_blank(name, sheet, course, words, style)) for name, sheet in sheets.items()
    }


def _list_blank(name: str, sheet: Booklet, course: Course, words: Words, style: EditionStyle) -> Iterator[Make]:
    """A sheet to fill in; in both codes where it has arithmetic, since it is a student's code that counts there."""

    def write_braille() -> Iterator[EditionFile]:
        codes = sorted(braille.CODES, key=lambda code: code != course.braille_code)
        seen: set[bytes] = set()
        for file in chain.from_iterable(_write_braille(name, sheet, "blank", code, words, style) for code in codes):
            if file.data not in seen:
                seen.add(file.data)
                yield file

    yield write_braille
    yield lambda: _write_print(name, sheet, "blank", words, style)
    yield lambda: _write_text(name, lambda: sheet, "blank")


def make_level(
    course: Course, played: HomeRound, level: HomeLevel, words: Words, style: EditionStyle
) -> LessonEditions:
    """A level of a round to work alone: its sheet with the key, and the sound of every part of its problems."""
    papers = write_home_level(played, level, course.language, words)
    name = f"{played.name}-{level.id}"
    forms = (
        *_list_papers(name, lambda: papers, course, words, style),
        lambda: _record_parts(level, course, words, style),
    )
    return _make(name, played.file, forms)


def make_example(spec: ContestSpec, name: str, words: Words, style: EditionStyle) -> LessonEditions:
    """All files of a contest, by their paths; `words` are those of its papers."""
    forms = Forms(
        geometry=braille.Geometry(style.cells[0], style.lines),
        contracted=style.contracted,
        sound=style.sound,
        pace=style.pace,
        print_style=style.print_style,
    )
    made, _ = make_contest(spec, words, forms)
    unwanted = {*(() if style.braille else braille.CODES), *(() if style.large_print else ("print",))}
    numbers = dict.fromkeys(braille.CODES, style.cells[0]) | {"print": style.print_style.size}
    files = [
        EditionFile(path, each.form, numbers.get(each.form, 0), made.files[path], 0, each.said, each.role, each.of)
        for path, each in made.listed.items()
        if each.form not in unwanted
    ]
    missing = {braille.MISSING, PRINT_MISSING, sound.MISSING, SCORES_MISSING}
    faults = tuple(f"{name}: {line}" for line in made.missing if line not in missing)
    return LessonEditions(name, tuple(files), faults)


def _make(name: str, file: str, forms: Iterable[Make]) -> LessonEditions:
    """All files of the forms; `file` is the author's, for what is said when a form cannot be made."""
    files: list[EditionFile] = []
    faults: list[str] = []
    for form in forms:
        try:
            files.extend(form())
        except (braille.BrailleError, PrintError, sound.SoundError) as error:
            faults.append(f"{file}: {' '.join(str(error).split())}")
    return LessonEditions(name, tuple(files), tuple(dict.fromkeys(faults)))


def _list_papers(
    name: str, papers: Callable[[], Papers | None], course: Course, words: Words, style: EditionStyle
) -> Iterator[Make]:
    """A sheet and its key in all forms, and as plain text, which every machine can make."""

    def find(part: Part) -> Booklet | None:
        found = papers()
        return None if found is None else found.sheet if part == "sheet" else found.key

    for part in _PAPERS:
        booklet = partial(find, part)
        yield from _list_forms(f"{name}-{part}", booklet, part, course, words, style)
        yield partial(_write_text, f"{name}-{part}", booklet, part)


def _list_forms(
    name: str, booklet: Callable[[], Booklet | None], part: Part, course: Course, words: Words, style: EditionStyle
) -> Iterator[Make]:
    """A booklet in braille, for each length of line, and in large print."""
    yield lambda: _write_braille(name, booklet(), part, course.braille_code, words, style)
    yield lambda: _write_print(name, booklet(), part, words, style)


def _write_braille(
    name: str, booklet: Booklet | None, part: Part, code: str, words: Words, style: EditionStyle
) -> Iterator[EditionFile]:
    if not style.braille or booklet is None:
        return
    for cells in style.cells:
        geometry = braille.Geometry(cells, style.lines)
        pages = write_booklet(booklet, BrailleStyle(code=code, contracted=style.contracted, geometry=geometry), words)
        data = pages.to_brf()
        said = braille.read_cells(data) if part == "sheet" else ""
        yield EditionFile(f"{name}-{code}-{cells}.brf", code, cells, data, said=said, part=part)


def _write_print(
    name: str, booklet: Booklet | None, part: Part, words: Words, style: EditionStyle
) -> Iterator[EditionFile]:
    if style.large_print and booklet is not None and find_typst():
        size = style.print_style.size
        data = print_booklet(booklet, words, style.print_style)
        yield EditionFile(f"{name}-print-{size}.pdf", "print", size, data, part=part)


def _write_text(name: str, booklet: Callable[[], Booklet | None], part: Part) -> Iterator[EditionFile]:
    found = booklet()
    if found is not None:
        yield EditionFile(f"{name}.txt", "text", 0, write_text(found).encode(), part=part)


def _record_items(course: Course, link: LessonLink, words: Words, style: EditionStyle) -> Iterator[EditionFile]:
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


def _list_parts(level: HomeLevel, words: Words) -> tuple[str, ...]:
    """Everything that is said of a level's problems, each part once, in order."""
    problems = (problem for problems in level.sets for problem in problems)
    return tuple(dict.fromkeys(part for problem in problems for part in split_said(problem, words)))


def _record_parts(level: HomeLevel, course: Course, words: Words, style: EditionStyle) -> Iterator[EditionFile]:
    """A sound for each part, so that whoever listens sets the pauses; `said` tells which it is."""
    if not style.sound or not sound.find_voice():
        return
    parts = _list_parts(level, words)
    settings = sound.SoundStyle(pace=style.pace, language=course.language)
    for number, (part, made) in enumerate(zip(parts, sound.record_parts(parts, settings), strict=True), start=1):
        yield EditionFile(f"said-{number:03}.mp3", "part", number, made.data, round(made.seconds), part)
