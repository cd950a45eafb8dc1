"""Rounds to work alone: one page for each file in `contest/`, with papers and sound for each of its levels."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

from beadwright.course import Finding
from beadwright.course.findings import Where, build_finding
from beadwright.engine import MethodError
from beadwright.render import Page
from beadwright.render.editions import LessonEditions, list_missing, make_level
from beadwright.render.rounds import ROUND_FOLDER, write_round
from beadwright.render.sheets import HomeLevel, HomeRound, SpecError, build_home_round, load_spec
from beadwright.site.cache import describe_program, hash_parts
from beadwright.site.lessons import LessonStore

SOURCES = "contest"


def load_rounds(content_dir: Path) -> tuple[tuple[HomeRound, ...], tuple[Finding, ...]]:
    """The rounds of a course in the order of their files' names, and what is to be put right in those files."""
    rounds: list[HomeRound] = []
    findings: list[Finding] = []
    for path in sorted((content_dir / SOURCES).glob("*.yml")):
        file = f"{content_dir.name}/{SOURCES}/{path.name}"
        try:
            rounds.append(build_home_round(file, load_spec(path)))
        except SpecError as error:
            findings += [replace(finding, file=file) for finding in error.findings]
        except MethodError as error:
            refused = {"reason": error.reason, "next_step": error.next_step}
            findings.append(build_finding("draw-impossible", Where(file), **refused))
    return tuple(rounds), tuple(findings)


class RoundStore:
    """The rounds of one build; what is made for their levels is kept like the other forms of lessons."""

    def __init__(self, rounds: Sequence[HomeRound], content_dir: Path, lessons: LessonStore) -> None:
        self._rounds = rounds
        self._lessons = lessons
        folder = content_dir.parent
        self._digests = {each.file: sha256((folder / each.file).read_bytes()).hexdigest() for each in rounds}

    def prepare(self) -> Iterator[str]:
        """Make what is not kept; gives lines that say what could not be made. Raises `OSError`."""
        for played in self._rounds:
            for level in played.levels:
                yield from self._load(played, level).faults

    def write_pages(self) -> dict[str, Page]:
        """The rounds' pages by their source path."""
        words = self._lessons.recipe.words
        return {f"{ROUND_FOLDER}/{p.name}.md": write_round(p, self._load_all(p), ".", words) for p in self._rounds}

    def write_files(self, site: Path) -> None:
        """Put the files of all levels into the site. Raises `OSError`."""
        for played in self._rounds:
            for level, made in self._load_all(played, with_data=True).items():
                folder = site / ROUND_FOLDER / f"{played.name}-{level}"
                for file in made.files:
                    folder.mkdir(parents=True, exist_ok=True)
                    (folder / file.name).write_bytes(file.data)

    def _load_all(self, played: HomeRound, *, with_data: bool = False) -> Mapping[str, LessonEditions]:
        return {level.id: self._load(played, level, with_data=with_data) for level in played.levels}

    def _load(self, played: HomeRound, level: HomeLevel, *, with_data: bool = False) -> LessonEditions:
        recipe = self._lessons.recipe
        made_from = (played.file, level.id, self._digests[played.file], repr(recipe.style), list_missing(recipe.style))
        key = hash_parts("round", describe_program(), recipe.course.language, recipe.course.braille_code, *made_from)
        return self._lessons.load_files(
            key, lambda: make_level(recipe.course, played, level, recipe.words, recipe.style), with_data=with_data
        )
