"""Each lesson's page and its other forms: made when something that they are made from has changed, else kept ones."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from functools import cache, cached_property, partial
from pathlib import Path
from typing import TypeVar

from beadwright.course import Course, Loaded
from beadwright.course.loading import COURSE_NAME
from beadwright.render import (
    LESSON_FOLDER,
    LessonLink,
    Occurrence,
    Page,
    Words,
    load_words,
    write_lesson,
    write_trainer_pages,
)
from beadwright.render.editions import (
    EditionFile,
    EditionStyle,
    LessonEditions,
    list_missing,
    make_editions,
    make_trainer_sheets,
    render_editions,
    render_forms,
)
from beadwright.render.sheets import ContestSpec, HomeLevel, HomeRound
from beadwright.render.templates import load_parts
from beadwright.render.trainer_pages import FOLDER as TRAINER_FOLDER
from beadwright.render.trainer_pages import SHEETS as TRAINER_SHEETS
from beadwright.site.cache import Cache, Entry, EntryLostError, describe_program, hash_parts
from beadwright.site.workers import run_all

FOLDER = "editions"
_MARKDOWN, _PAGES = "page.md", "pages.json"
R = TypeVar("R")


@dataclass(frozen=True)
class Recipe:
    """All that lessons are made from, and what is made of them."""

    course: Course
    links: tuple[LessonLink, ...]
    digests: Mapping[str, str]
    style: EditionStyle
    for_trainers: bool

    @cached_property
    def words(self) -> Words:
        """The language table."""
        return load_words(self.course.language, self.course.house_style.number_words)

    @cached_property
    def _shared(self) -> str:
        """A name for what all lessons have in common: the program and the course's file."""
        (course,) = [digest for file, digest in self.digests.items() if file.endswith(f"/{COURSE_NAME}")]
        return hash_parts(describe_program(), course)

    @cached_property
    def _dressed(self) -> str:
        """A name for how other forms are made, and for what of them cannot be made on this machine."""
        return hash_parts(repr(self.style), list_missing(self.style))

    def name_page(self, link: LessonLink) -> str:
        """The key of a lesson's page."""
        return hash_parts("page", self.for_trainers, *self._name_lesson(link))

    def name_editions(self, link: LessonLink) -> str:
        """The key of a lesson's other forms."""
        return hash_parts("editions", self._dressed, *self._name_lesson(link))

    def name_level(self, played: HomeRound, level: HomeLevel) -> str:
        """The key of what is made for a level of a round."""
        told = (level.id, level.title, level.minutes, level.conditions, level.pause)
        problems = [[(str(w.problem), w.answer.full_text) for w in problems] for problems in level.sets]
        return hash_parts("round", self._dressed, self._shared, played.name, played.file, played.title, told, problems)

    def name_example(self, name: str, spec: ContestSpec) -> str:
        """The key of all files of a contest."""
        return hash_parts("example", self._dressed, describe_program(), name, repr(spec))

    def name_trainer_pages(self) -> str:
        """The key of the pages that are for trainers alone."""
        lessons = [(link.lesson.id, self.digests[link.lesson.file]) for link in self.links]
        return hash_parts("trainers", self._shared, lessons)

    def _name_lesson(self, link: LessonLink) -> Iterator[object]:
        """The lesson, its place, and what its page says of lessons that come before it."""
        yield self._shared
        yield self.digests[link.lesson.file]
        yield [self.digests[lesson.file] for lesson in link.lesson.mixed]
        yield from (link.lesson.id, link.lesson.file, link.number, link.page, len(self.links))
        needs = link.lesson.needs
        yield [(o.lesson.id, o.lesson.title, o.number, o.page) for o in self.links if o.lesson.id in needs]

    def __getstate__(self) -> dict[str, object]:
        """Without what has been worked out: another process works it out again."""
        return {field.name: self.__dict__[field.name] for field in fields(self)}

    def make_page(self, link: LessonLink) -> Page:
        """A lesson's page."""
        return write_lesson(self.course, link, self.links, self.words, for_trainers=self.for_trainers)

    def make_editions(self, link: LessonLink) -> LessonEditions:
        """A lesson's other forms."""
        return make_editions(self.course, link, self.links, self.words, self.style)

    def name_trainer_sheet(self, name: str) -> str:
        """The key of the forms of a sheet that a trainer fills in."""
        return hash_parts("blank", name, self._dressed, self.name_trainer_pages())

    def make_trainer_pages(self) -> dict[str, Page]:
        """The pages that are for trainers alone, by their source path."""
        return write_trainer_pages(self.course, self.links, self.words)


def build_recipe(course: Course, loaded: Loaded, style: EditionStyle, *, for_trainers: bool) -> Recipe:
    """The recipe of a course that was loaded; trainers get notes and pages of their own."""
    links = tuple(LessonLink(each, n, f"{each.id}.html") for n, each in enumerate(loaded.lessons, start=1))
    return Recipe(course, links, loaded.digests, style, for_trainers)


class LessonStore:
    """The lessons of one build: made by `prepare`, and read from the cache whenever they are asked for.

    What somebody takes out of the cache meanwhile is made again, so nothing is held in memory.
    """

    def __init__(self, recipe: Recipe, folder: Path) -> None:
        self.recipe = recipe
        self._cache = Cache(folder)
        self._by_uri = {f"{LESSON_FOLDER}/{link.lesson.id}.md": link for link in recipe.links}

    @property
    def links(self) -> Sequence[LessonLink]:
        """The lessons in the order of the course."""
        return self.recipe.links

    @property
    def uris(self) -> tuple[str, ...]:
        """The source paths of the lessons' pages in the order of the course."""
        return tuple(self._by_uri)

    def has(self, uri: str) -> bool:
        """Whether this is the source path of a lesson's page."""
        return uri in self._by_uri

    def prepare(self, *, processes: int | None = None) -> Iterator[str]:
        """Make what is not kept; gives lines that say what could not be made. Raises `OSError`."""
        yield from list_missing(self.recipe.style)
        missing = [number for number, link in enumerate(self.recipe.links) if not self._is_kept(link)]
        for faults in run_all(_Make(self.recipe, self._cache), missing, most=processes, load=load_parts):
            yield from faults

    def _is_kept(self, link: LessonLink) -> bool:
        """Whether all of a lesson is kept; what had a fault is tried again, and its fault told again."""
        recipe = self.recipe
        page = self._cache.load(recipe.name_page(link))
        if not recipe.style.needs_anything:
            return page is not None
        editions = self._cache.load(recipe.name_editions(link))
        return page is not None and editions is not None and not editions.about["faults"]

    def markdown(self, uri: str) -> str:
        """The Markdown of a lesson's page."""
        return self._read_page(self._by_uri[uri], lambda entry: entry.read(_MARKDOWN).decode())

    def list_occurrences(self) -> list[tuple[LessonLink, tuple[Occurrence, ...]]]:
        """The lessons in the order of the course with what occurs in them."""
        return [(link, self._read_page(link, _read_occurrences)) for link in self.links]

    def slots(self, uri: str) -> Mapping[str, str]:
        """The slots of a lesson's page, with the list of the lesson's other forms at its end."""
        link, recipe = self._by_uri[uri], self.recipe
        slots = self._read_page(link, _read_slots)
        if not recipe.style.needs_anything:
            return slots
        part = render_editions(self._load_editions(link), f"../{FOLDER}/{link.lesson.id}", recipe.words)
        return {**slots, "end": f"{slots['end']}{part}"}

    def read_trainer_pages(self) -> Mapping[str, Page]:
        """The pages that are for trainers alone, by their source path; none in the learners' edition."""
        if not self.recipe.for_trainers:
            return {}
        pages = self._read(
            self.recipe.name_trainer_pages(),
            lambda entry: {uri: Page(*page) for uri, page in json.loads(entry.read(_PAGES)).items()},
            lambda: _keep_trainer_pages(self.recipe, self._cache),
        )
        folder = f"../{FOLDER}/{TRAINER_FOLDER}"
        for name, made in self._load_trainer_sheets().items():
            uri = f"{TRAINER_FOLDER}/{name}.md"
            forms = str(render_forms(made, folder, self.recipe.words))
            pages[uri] = replace(pages[uri], slots={**pages[uri].slots, "forms": forms})
        return pages

    def _load_trainer_sheets(self, *, with_data: bool = False) -> dict[str, LessonEditions]:
        """The forms of the sheets that a trainer fills in, by the names of their pages."""
        recipe = self.recipe
        if not recipe.style.needs_anything:
            return {name: LessonEditions(name, ()) for name in TRAINER_SHEETS}
        sheets = cache(lambda: make_trainer_sheets(recipe.course, recipe.links, recipe.words, recipe.style))

        def make(name: str) -> LessonEditions:
            return sheets()[name]

        return {
            name: self.load_files(recipe.name_trainer_sheet(name), partial(make, name), with_data=with_data)
            for name in TRAINER_SHEETS
        }

    @property
    def folders(self) -> tuple[str, ...]:
        """Where in the site files are put besides pages."""
        return (f"{FOLDER}/{TRAINER_FOLDER}", *(f"{FOLDER}/{link.lesson.id}" for link in self.links))

    def write_editions(self, site: Path) -> None:
        """Put the other forms of all lessons into the site. Raises `OSError`."""
        for link in self.links if self.recipe.style.needs_anything else ():
            write_files(self._load_editions(link, with_data=True), site / FOLDER / link.lesson.id)
        for sheet in self._load_trainer_sheets(with_data=True).values() if self.recipe.for_trainers else ():
            write_files(sheet, site / FOLDER / TRAINER_FOLDER)

    def close(self) -> None:
        """Tidy the cache up."""
        self._cache.drop_old()
        self._cache.close()

    def _read_page(self, link: LessonLink, read: Callable[[Entry], R]) -> R:
        """A part of a lesson's page: each is asked for by itself."""
        key = self.recipe.name_page(link)
        return self._read(key, read, lambda: _keep_page(self.recipe, self._cache, link))

    def _load_editions(self, link: LessonLink, *, with_data: bool = False) -> LessonEditions:
        """A lesson's other forms."""
        make = partial(self.recipe.make_editions, link)
        return self.load_files(self.recipe.name_editions(link), make, with_data=with_data)

    def load_files(self, key: str, make: Callable[[], LessonEditions], *, with_data: bool) -> LessonEditions:
        """The files kept under a key, made where they are not; without data they have names and all that is said."""

        def read(entry: Entry) -> LessonEditions:
            about = entry.about
            files = [EditionFile(**f, data=entry.read(f["name"]) if with_data else b"") for f in about["files"]]
            return LessonEditions(about["of"], tuple(files), tuple(about["faults"]))

        return self._read(key, read, lambda: _keep_files(self._cache, key, make()))

    def _read(self, key: str, read: Callable[[Entry], R], make: Callable[[], Entry]) -> R:
        """What is kept under a key, made anew where it is gone or damaged."""
        entry = self._cache.load(key)
        try:
            return read(make() if entry is None else entry)
        except EntryLostError:
            return read(make())


def write_files(made: LessonEditions, folder: Path) -> None:
    """Put files into a folder of the site. Raises `OSError`."""
    for file in made.files:
        path = folder / file.name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(file.data)


@dataclass(frozen=True)
class _Make:
    """Makes all of the lesson at a place in the course and keeps it; gives lines that say what could not be made."""

    recipe: Recipe
    cache: Cache

    def __call__(self, place: int) -> tuple[str, ...]:
        link = self.recipe.links[place]
        _keep_page(self.recipe, self.cache, link)
        if not self.recipe.style.needs_anything:
            return ()
        made = self.recipe.make_editions(link)
        return tuple(_keep_files(self.cache, self.recipe.name_editions(link), made).about["faults"])


def _keep_page(recipe: Recipe, cache: Cache, link: LessonLink) -> Entry:
    page = recipe.make_page(link)
    slots = {name: html.encode() for name, html in page.slots.items()}
    return cache.store(recipe.name_page(link), page.occurrences, {_MARKDOWN: page.markdown.encode(), **slots})


def _read_occurrences(entry: Entry) -> tuple[Occurrence, ...]:
    return tuple(Occurrence(anchor, name, tuple(topics)) for anchor, name, topics in entry.about)


def _read_slots(entry: Entry) -> dict[str, str]:
    return {name: entry.read(name).decode() for name in entry.files if name != _MARKDOWN}


def _keep_files(cache: Cache, key: str, made: LessonEditions) -> Entry:
    files = [{field.name: getattr(file, field.name) for field in fields(file)} for file in made.files]
    data = {file["name"]: file.pop("data") for file in files}
    return cache.store(key, {"of": made.lesson, "files": files, "faults": made.faults}, data)


def _keep_trainer_pages(recipe: Recipe, cache: Cache) -> Entry:
    pages = {uri: [page.markdown, dict(page.slots)] for uri, page in recipe.make_trainer_pages().items()}
    return cache.store(recipe.name_trainer_pages(), None, {_PAGES: json.dumps(pages).encode()})
