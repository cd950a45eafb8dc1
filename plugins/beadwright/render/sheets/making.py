"""All files of a sheet or a contest, by name, and what could not be made here and why."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple

from beadwright.render.booklet import Booklet
from beadwright.render.braille import CODES, BrailleError, Geometry, find_liblouis, read_cells
from beadwright.render.braille import MISSING as BRAILLE_MISSING
from beadwright.render.braille.edition import BrailleStyle, write_booklet
from beadwright.render.entry_data import split_said
from beadwright.render.print import MISSING as PRINT_MISSING
from beadwright.render.print import PrintError, PrintStyle, find_typst, print_booklet
from beadwright.render.sheets.event import Event, Level, Section, build_event, build_sheet_problems
from beadwright.render.sheets.papers import (
    name_medium,
    name_section,
    say_conditions,
    write_fairness,
    write_key,
    write_script,
    write_section,
    write_section_key,
    write_sheet,
    write_teacher_page,
    write_tie_break,
)
from beadwright.render.sheets.plain import write_text
from beadwright.render.sheets.scores import MISSING as SCORES_MISSING
from beadwright.render.sheets.scores import find_xlsxwriter, write_scores
from beadwright.render.sheets.spec import ContestSpec, SheetSpec
from beadwright.render.sound import MISSING as SOUND_MISSING
from beadwright.render.sound import SoundError, SoundStyle, Track, build_header, build_track, find_voice, record
from beadwright.render.words import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Forms:
    """How papers come out: braille page and contraction, words a minute of the voice, size of print."""

    geometry: Geometry = field(default_factory=Geometry)
    contracted: bool = True
    sound: bool = True
    pace: int = 140
    print_style: PrintStyle = field(default_factory=PrintStyle)


class Listed(NamedTuple):
    """What a file is: its role, what it belongs to in words, and its form; of sound and of papers in braille its text.

    Roles: `paper script sound key tie-break fairness scores sheet teacher`. Forms: `print nemeth ueb text sound xlsx`.
    """

    role: str
    of: str
    form: str
    said: str = ""


@dataclass(slots=True)
class Made:
    """Files by their path with `/`, what each is, and lines that say what is missing; it only grows."""

    files: dict[str, bytes] = field(default_factory=dict)
    listed: dict[str, Listed] = field(default_factory=dict)
    missing: list[str] = field(default_factory=list)

    def note(self, line: str) -> None:
        """Say once what is missing."""
        if line not in self.missing:
            self.missing.append(line)


class _Maker:
    """Makes booklets in the forms that this machine can make."""

    def __init__(self, words: Words, forms: Forms) -> None:
        self.made = Made()
        self._words = words
        self._forms = forms
        self._role = self._of = ""

    def begin(self, role: str, of: str = "") -> None:
        """Say what the files that follow are, and to what they belong."""
        self._role, self._of = role, of

    def _add(self, name: str, form: str, make: Callable[[], bytes], said: str = "") -> None:
        """A file that braille, fonts or voice may have no signs for; the others are made all the same."""
        try:
            self.made.files[name] = make()
            self.made.listed[name] = Listed(self._role, self._of, form, said)
        except (BrailleError, PrintError, SoundError) as error:
            self.made.note(f"{name} is not made: {' '.join(str(error).split())}")

    def add_text(self, name: str, booklet: Booklet) -> None:
        self._add(f"{name}.txt", "text", lambda: write_text(booklet).encode())

    def add_print(self, name: str, booklet: Booklet) -> None:
        if find_typst():
            self._add(f"{name}.pdf", "print", lambda: print_booklet(booklet, self._words, self._forms.print_style))
        else:
            self.made.note(PRINT_MISSING)

    def add_braille(self, name: str, booklet: Booklet, code: str) -> None:
        style = BrailleStyle(code=code, contracted=self._forms.contracted, geometry=self._forms.geometry)
        path = f"{name}.brf"
        self._add(path, code, lambda: write_booklet(booklet, style, self._words).to_brf())
        if self._role == "paper" and path in self.made.files:
            self.made.listed[path] = self.made.listed[path]._replace(said=read_cells(self.made.files[path]))
        if find_liblouis() is None:
            self.made.note(BRAILLE_MISSING)

    def add_all(self, name: str, booklet: Booklet) -> None:
        """As text, in large print, and in both codes."""
        self.add_text(name, booklet)
        self.add_print(f"{name}-print", booklet)
        for code in CODES:
            self.add_braille(f"{name}-{code}", booklet, code)

    def add_scores(self, event: Event) -> None:
        self._add("scores.xlsx", "xlsx", lambda: write_scores(event, self._words))

    def add_section(self, folder: str, event: Event, level: Level, section: Section) -> None:
        """A section's paper in its own medium, and its key in every form, since any judge may need it."""
        name = f"{folder}/{section.medium}-{section.number}"
        of = name_medium(level, section, self._words)
        self.begin("script" if section.medium == "heard" else "paper", of)
        if section.medium == "heard":
            script = write_script(event, level, section, self._words)
            self.add_text(f"{name}-script", script)
            self.add_print(f"{name}-script", script)
            self.add_braille(f"{name}-script", script, "ueb")
            self.begin("sound", of)
            if self._forms.sound:
                self._add_sound(name, event, level, section)
        else:
            paper = write_section(event, level, section, self._words)
            if section.medium == "print":
                self.add_print(name, paper)
            else:
                self.add_braille(name, paper, section.medium)
        self.begin("key", of)
        self.add_all(f"{name}-key", write_section_key(event, level, section, self._words))

    def _add_sound(self, name: str, event: Event, level: Level, section: Section) -> None:
        """A track for the header and one for each problem."""
        if not find_voice():
            self.made.note(SOUND_MISSING)
            return
        style = SoundStyle(pace=self._forms.pace, pause=level.spec.pause, language=event.spec.language)
        words = self._words
        title = f"{event.spec.title}. {name_section(level, section, words)}"
        self._add_track(f"{name}-sound/00", build_header((title, *say_conditions(level, words))), style)
        for number, walkthrough in enumerate(section.problems, start=1):
            said = split_said(walkthrough, words)
            track = build_track(number, said, words, ending=level.spec.answer_pause)
            self._add_track(f"{name}-sound/{number:02}", track, style)

    def _add_track(self, name: str, track: Track, style: SoundStyle) -> None:
        self._add(f"{name}.mp3", "sound", lambda: record(track, style).data, track.text)
        self._add(f"{name}.txt", "text", f"{track.text}\n".encode)


def make_sheet(spec: SheetSpec, words: Words, forms: Forms) -> Made:
    """A practice sheet's files: the sheet, its key and the teacher's page; raises `EngineError`."""
    problems = build_sheet_problems(spec)
    maker = _Maker(words, forms)
    maker.begin("sheet")
    maker.add_all("sheet", write_sheet(spec, problems, words))
    maker.begin("key")
    maker.add_all("key", write_key(spec.title, spec.language, problems, words))
    maker.begin("teacher")
    maker.add_all("teacher", write_teacher_page(spec, problems, words))
    return maker.made


def make_contest(spec: ContestSpec, words: Words, forms: Forms) -> tuple[Made, Event]:
    """A contest's files, a folder for each level, and the contest itself; raises `EngineError`."""
    event = build_event(spec)
    maker = _Maker(words, forms)
    for level in event.levels:
        folder = level.spec.id
        for section in level.sections:
            maker.add_section(folder, event, level, section)
        maker.begin("tie-break")
        if level.tie_break:
            maker.add_all(f"{folder}/tie-break", write_tie_break(event, level, words))
        maker.begin("fairness")
        maker.add_text(f"{folder}/fairness", write_fairness(event, level, words))
        maker.add_print(f"{folder}/fairness", write_fairness(event, level, words))
    if find_xlsxwriter():
        maker.begin("scores")
        maker.add_scores(event)
    else:
        maker.made.note(SCORES_MISSING)
    return maker.made, event
