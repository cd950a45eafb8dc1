"""A small course, built and packed once."""

from pathlib import Path
from typing import NamedTuple

import pytest

from beadwright.course import Course, Lesson, load_course
from beadwright.pack import pack_course
from beadwright.render import load_words
from beadwright.scaffold import start_course
from tests.support.building import build_site


class Made(NamedTuple):
    """A packed course: its folder, the course, its lessons, their digest, its built site, and what was packed."""

    folder: Path
    course: Course
    lessons: tuple[Lesson, ...]
    sources: str
    site: Path
    out: Path


@pytest.fixture(scope="session")
def packed(tmp_path_factory: pytest.TempPathFactory) -> Made:
    folder = tmp_path_factory.mktemp("packed")
    start_course(folder / "course", title="Beads & <Bars>")
    build_site(folder / "course" / "mkdocs.yml", folder / "site")
    loaded = load_course(folder / "course" / "content")
    assert loaded.course is not None
    words, out = load_words("en"), folder / "out"
    pack_course(folder / "site", loaded.course, loaded.lessons, words, out, sources=loaded.digest)
    return Made(folder / "course", loaded.course, loaded.lessons, loaded.digest, folder / "site", out)
