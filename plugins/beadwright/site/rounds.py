"""Rounds to work alone: one page for each file in `contest/`, with papers and sound for each of its levels."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path

from beadwright.render import Page, load_words
from beadwright.render.editions import LessonEditions, make_example, make_level
from beadwright.render.event_page import write_event
from beadwright.render.rounds import ROUND_FOLDER, write_round
from beadwright.render.sheets import HomeLevel, HomeRound
from beadwright.site.lessons import LessonStore, write_files

_PAPERS = "papers"


class RoundStore:
    """The rounds of one build; what is made for their levels is kept like the other forms of lessons."""

    def __init__(self, rounds: Sequence[HomeRound], lessons: LessonStore) -> None:
        self._rounds = rounds
        self._lessons = lessons

    def prepare(self) -> Iterator[str]:
        """Make what is not kept; gives lines that say what could not be made. Raises `OSError`."""
        for played in self._rounds:
            for level in played.levels:
                yield from self._load(played, level).faults
            yield from self._load_example(played).faults

    def write_pages(self) -> dict[str, Page]:
        """The rounds' pages by their source path."""
        recipe = self._lessons.recipe
        pages: dict[str, Page] = {}
        for played in self._rounds:
            pages[f"{ROUND_FOLDER}/{played.name}.md"] = write_round(
                played, self._load_all(played), ".", recipe.words, braille_code=recipe.course.braille_code
            )
            example = self._load_example(played)
            if example.files:
                name = f"{played.name}-{_PAPERS}"
                pages[f"{ROUND_FOLDER}/{name}.md"] = write_event(played, example, name, recipe.words)
        return pages

    @property
    def folders(self) -> tuple[str, ...]:
        """Where in the site files are put besides pages."""
        parts = ((played, (*(level.id for level in played.levels), _PAPERS)) for played in self._rounds)
        return tuple(_name_folder(played, part) for played, names in parts for part in names)

    def write_files(self, site: Path) -> None:
        """Put the files of all levels into the site. Raises `OSError`."""
        for played in self._rounds:
            for level, made in self._load_all(played, with_data=True).items():
                write_files(made, site / _name_folder(played, level))
            write_files(self._load_example(played, with_data=True), site / _name_folder(played, _PAPERS))

    def _load_all(self, played: HomeRound, *, with_data: bool = False) -> Mapping[str, LessonEditions]:
        return {level.id: self._load(played, level, with_data=with_data) for level in played.levels}

    def _load(self, played: HomeRound, level: HomeLevel, *, with_data: bool = False) -> LessonEditions:
        recipe = self._lessons.recipe
        make = partial(make_level, recipe.course, played, level, recipe.words, recipe.style)
        return self._lessons.load_files(recipe.name_level(played, level), make, with_data=with_data)

    def _load_example(self, played: HomeRound, *, with_data: bool = False) -> LessonEditions:
        """All files of the contest, where it is to be shown and other forms are made at all."""
        recipe, spec = self._lessons.recipe, played.example
        if spec is None or not recipe.style.needs_anything:
            return LessonEditions(played.name, ())
        words = load_words(spec.language, spec.house_style.number_words)
        make = partial(make_example, spec, played.name, words, recipe.style)
        return self._lessons.load_files(recipe.name_example(played.name, spec), make, with_data=with_data)


def _name_folder(played: HomeRound, part: str) -> str:
    """Where in the site the files of a level go, or the papers of an example."""
    return f"{ROUND_FOLDER}/{played.name}-{part}"
