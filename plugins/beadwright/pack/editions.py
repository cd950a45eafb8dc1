"""A built site -> what is handed on: a folder with a start page, its zip, single files, SCORM and QTI packages."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup

from beadwright.course import Course, Lesson
from beadwright.pack.archive import list_folder, write_zip
from beadwright.pack.pages import PackError, Site, inline_page, open_site
from beadwright.pack.qti import build_export
from beadwright.pack.scorm import Sco, build_package
from beadwright.pack.whole import render_whole
from beadwright.paths import templates_dir
from beadwright.render import LESSON_FOLDER, SOURCES_FILE, Words, render_part

START = "start-here.html"
WHOLE = "whole-course.html"
_BUILD = "Build it first with: mkdocs build"
_LEFT_OUT = {"404.html", "sitemap.xml", "sitemap.xml.gz"}


@dataclass(frozen=True, slots=True)
class Packed:
    """What was written, and sentences on what QTI has nothing for."""

    folder: Path
    written: tuple[str, ...]
    unmapped: tuple[str, ...]


def pack_course(
    site_folder: Path, course: Course, lessons: Sequence[Lesson], words: Words, out: Path, *, sources: str
) -> Packed:
    """Write every edition of a built course into `out`, which must be empty or missing; whole or not at all.

    `sources` is the digest of the course's files. Raises `PackError` for a site that was not built from these or lacks
    something, and `OSError`.
    """
    if out.exists() and (not out.is_dir() or any(out.iterdir())):
        raise PackError(f"{out} is there already; name a new folder")
    site = open_site(site_folder)
    _check_sources(site, sources)
    pages = _find_lessons(site, lessons)
    out.parent.mkdir(parents=True, exist_ok=True)
    made = Path(tempfile.mkdtemp(prefix=".beadwright-", dir=out.parent))
    try:
        _write_usb(site, course, lessons, words, made / course.id)
        write_zip(made / f"{course.id}.zip", list_folder(made / course.id, f"{course.id}/"))
        _write_scorm(site, course, pages, made / "scorm")
        export = build_export(course, lessons, words)
        (made / "qti").mkdir()
        write_zip(made / "qti" / f"{course.id}-qti.zip", export.files)
        (made / "qti" / "not-in-it.txt").write_text("\n".join(export.unmapped) + "\n", encoding="utf-8")
        if out.exists():
            out.rmdir()
        made.chmod(0o755)
        made.rename(out)
    except BaseException:
        shutil.rmtree(made, ignore_errors=True)
        raise
    written = tuple(path.relative_to(out).as_posix() for path in sorted(out.glob("*/*.zip")))
    return Packed(out, (f"{course.id}/{START}", f"{course.id}.zip", *written), export.unmapped)


def _check_sources(site: Site, sources: str) -> None:
    """The site has the course's title, edition and lessons as they are now: items for QTI are made from these."""
    path = site.folder / SOURCES_FILE
    if not path.is_file() or path.read_text(encoding="utf-8", errors="replace").strip() != sources:
        raise PackError(
            f"{site.folder} was built from another course, or course or lessons were changed since. {_BUILD}"
        )


def _find_lessons(site: Site, lessons: Sequence[Lesson]) -> list[tuple[Lesson, Path]]:
    pages = [(lesson, site.folder / LESSON_FOLDER / f"{lesson.id}.html") for lesson in lessons]
    lacking = [lesson.id for lesson, page in pages if not page.is_file()]
    if lacking:
        raise PackError(f"{site.folder} lacks the pages of {', '.join(lacking)}. {_BUILD}")
    return pages


def _write_usb(site: Site, course: Course, lessons: Sequence[Lesson], words: Words, folder: Path) -> None:
    """The folder for a USB stick: the site as it is, every page as a single file, and the page to start from."""
    shutil.copytree(site.folder, folder / "course", ignore=_leave_out)
    pages = {
        page.relative_to(site.folder).as_posix(): inline_page(site, page)
        for page in sorted(site.folder.rglob("*.html"))
        if page.name not in _leave_out(str(page.parent), [page.name])
    }
    for name, text in pages.items():
        path = folder / "single" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    order = [f"{LESSON_FOLDER}/{lesson.id}.html" for lesson in lessons]
    (folder / WHOLE).write_text(render_whole(site, course, order, words), encoding="utf-8")
    (folder / START).write_text(_render_start(course, lessons, words), encoding="utf-8")


def _leave_out(folder: str, names: list[str]) -> set[str]:
    """Of the names in a folder of the site those that are not handed on: links lead elsewhere, pipes have no end."""
    every = (Path(folder, name) for name in names)
    kept = (path for path in every if (path.is_file() or path.is_dir()) and not path.is_symlink())
    return set(names) - {path.name for path in kept if path.name not in _LEFT_OUT and not path.name.startswith(".")}


def _render_start(course: Course, lessons: Sequence[Lesson], words: Words) -> str:
    style = (templates_dir() / "theme/assets/bw/css/tokens.css").read_text(encoding="utf-8")
    return render_part(
        "pack-start",
        course=course,
        lessons=[(lesson.title, f"single/{LESSON_FOLDER}/{lesson.id}.html") for lesson in lessons],
        whole=WHOLE,
        tokens=Markup(style),  # noqa: S704 - our own style sheet
        words=words,
    )


def _write_scorm(site: Site, course: Course, pages: Sequence[tuple[Lesson, Path]], folder: Path) -> None:
    """One package of the whole course, one of each lesson."""
    folder.mkdir()
    script = (templates_dir() / "pack" / "scorm.js").read_text(encoding="utf-8")
    scos = [Sco(lesson.id, lesson.title, inline_page(site, page, alone=True, more=script)) for lesson, page in pages]
    write_zip(folder / f"{course.id}-scorm.zip", build_package(course.id, course.title, scos))
    for sco in scos:
        write_zip(folder / f"lesson-{sco.id}-scorm.zip", build_package(f"{course.id}-{sco.id}", sco.title, [sco]))
