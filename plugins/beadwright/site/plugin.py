"""The plugin: hands the course to the renderers and their pages to MkDocs."""

from __future__ import annotations

import errno
import logging
import sys
from itertools import chain
from pathlib import Path
from typing import Literal

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page

from beadwright.course import Course, format_findings, load_course
from beadwright.render import fill_slots, load_words
from beadwright.render.sheets import load_rounds
from beadwright.site.carrying import carry_data, name_data
from beadwright.site.editions import Editions
from beadwright.site.findings import write_findings
from beadwright.site.lessons import LessonStore, build_recipe
from beadwright.site.newsite import NewSite
from beadwright.site.offline import write_offline
from beadwright.site.outputs import pack_sitemap, write_search_script
from beadwright.site.pages import CoursePages, build_pages
from beadwright.site.rounds import RoundStore
from beadwright.site.settings import fill_settings
from beadwright.site.sources import arrange_files, arrange_nav, find_covered

log = logging.getLogger("mkdocs.plugins.beadwright")

Command = Literal["build", "gh-deploy", "serve"]

CACHE = Path(".cache") / "beadwright"
"""Where builds keep what they have made, beside `mkdocs.yml`."""


class BeadwrightConfig(Config):  # type: ignore[no-untyped-call]  # untyped in MkDocs
    """What a trainer may set under `beadwright:` in `mkdocs.yml`."""

    edition = config_options.Choice(("learners", "facilitators"), default="learners")
    """Whose edition is built: the facilitators' has the trainer's notes in it."""
    editions = Editions()
    """Braille, large print and sound of each lesson, and how they are made; false for none."""
    offline = config_options.Type(bool, default=False)
    """Whether the course, from a web host, is kept on learners' devices."""
    processes = config_options.Optional(config_options.Type(int))
    """On how many processes lessons are made; as many as there are cores where nothing is set."""


class BeadwrightPlugin(BasePlugin[BeadwrightConfig]):  # type: ignore[no-untyped-call]
    """Builds a course from lesson files."""

    _serving = False
    _in_place = False
    _new: NewSite | None = None
    _pages: CoursePages | None = None
    _wrong = ""
    """The page of what is to be put right, while pages are served and something is."""
    _course: Course | None = None
    """The last sound one, which tells the language and the looks of that page."""

    def on_startup(self, *, command: Command, dirty: bool) -> None:
        """Remember how the site is built; that keeps this plugin from build to build."""
        self._serving = command == "serve"
        self._in_place = self._serving or dirty

    # Before every other plugin: what is set here has to be there when they look.
    @event_priority(100)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Load the course and set MkDocs up for it. With findings nothing is built, and the old site stays.

        Where pages are served, each then tells the findings, so that the next correction shows the page again.
        """
        if sum(isinstance(plugin, BeadwrightPlugin) for plugin in config.plugins.values()) > 1:
            # Each would build beside the site of the other one, and none would be whole.
            raise Abort("mkdocs.yml lists beadwright twice under plugins: leave it there once.")
        loaded = load_course(Path(config.docs_dir))
        played, findings = load_rounds(Path(config.docs_dir))
        findings = (*loaded.findings, *findings)
        self._course = course = loaded.course or self._course
        if course is None or (findings and not self._serving):
            log.error("The course was not built: there is something to put right.")
            raise Abort(format_findings(findings))
        words = load_words(course.language, course.house_style.number_words)
        fill_settings(config, course, words, sources=loaded.digest, serving=self._serving, offline=self._is_kept)
        self._wrong = write_findings(findings, words) if findings else ""
        if self._wrong:
            log.error("There is something to put right.\n%s", format_findings(findings))
            return config
        recipe = build_recipe(course, loaded, self.config.editions, for_trainers=self.config.edition == "facilitators")
        lessons = LessonStore(recipe, Path(config.config_file_path).parent / CACHE)
        rounds = RoundStore(played, lessons)
        for line in chain(lessons.prepare(processes=self.config.processes), rounds.prepare()):
            tell(line)
        self._pages = build_pages(course, loaded, words, lessons, rounds)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages made here, leave out what no page needs, and list the pages where the trainer does not.

        A trainer's own file that would be written over stops the build.
        """
        arranged = arrange_files(files, self._pages, config)
        if self._pages is not None and not self._wrong:
            covered = find_covered(files, arranged, self._pages, config)
            if covered:
                raise Abort("\n".join(map(explain_covered, covered)))
            arrange_nav(config, self._pages, arranged)
        return arranged

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Put slots where a trainer's own page asks for a part of ours."""
        return self._wrong or self._built.place_parts(markdown)

    # After every other plugin: what is put in here shall neither be searched nor changed.
    @event_priority(-100)
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Fill the slots, and leave the data of what is in them beside the page."""
        if self._wrong:
            return output
        written = Path(page.file.abs_dest_path)
        name = name_data(written.name)
        filled, data = carry_data(fill_slots(output, self._built.slots(page.file.src_uri)), name)
        if data:
            written.parent.mkdir(parents=True, exist_ok=True)
            written.with_name(name).write_text(data, encoding="utf-8")
        return filled

    @property
    def _is_kept(self) -> bool:
        """Whether devices keep the course; never while it is being written, because they would show what was."""
        return self.config.offline and not self._serving

    @property
    def _built(self) -> CoursePages:
        if self._pages is None:
            raise RuntimeError("pages are asked for before the course is loaded")
        return self._pages

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Build beside the old site, which is replaced at the end; MkDocs itself would empty it now."""
        if not self._in_place:
            self._new = NewSite(Path(config.site_dir))
            config.site_dir = str(self._new.folder)

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Leave the other forms of each lesson, and the search index as a script; put the new site in its place.

        A page opened from a folder can read no other kind of file than a script.
        """
        write_search_script(Path(config.site_dir))
        pack_sitemap(Path(config.site_dir))
        if not self._wrong:
            self._built.lessons.write_editions(Path(config.site_dir))
            self._built.rounds.write_files(Path(config.site_dir))
            self._built.lessons.close()
        if self._is_kept:
            name, language = config.site_name, config.extra["bw"]["language"]
            write_offline(Path(config.site_dir), name=name, language=language)
        if self._new is not None:
            self._new.finish()
            config.site_dir = str(self._new.site)

    def on_build_error(self, *, error: Exception) -> None:
        """Say what to do where a disk or a file is at fault, and that nothing is lost."""
        self.on_shutdown()
        if isinstance(error, OSError):
            raise Abort(explain_fault(error, in_place=self._in_place)) from None

    def on_shutdown(self) -> None:
        """Remove what was not finished."""
        if self._new is not None:
            self._new.drop()


def tell(line: str) -> None:
    """Say what was not made, in a quiet build too: it must not be missed."""
    if log.isEnabledFor(logging.WARNING):
        log.warning(line)
    else:
        print(line, file=sys.stderr)


def explain_covered(path: str) -> str:
    """A trainer's own file that would be lost in the site: where, why, and what to do."""
    return f"{path}: the course makes this file, or this folder, itself. Give yours another name, then build again."


def explain_fault(error: OSError, *, in_place: bool) -> str:
    """A fault of disk or file: where, what, that the site is as it was unless it is built in its place, what to do."""
    kept = "" if in_place else " The site was not replaced."
    where = f"{error.filename}: " if error.filename else ""
    steps = {
        errno.ENOSPC: "Make room on the disk",
        errno.EDQUOT: "Make room in your part of the disk",
        errno.EFBIG: "Let files be larger, or build onto another disk",
        errno.EROFS: "Build into a folder that can be written to (mkdocs build -d FOLDER)",
        errno.EACCES: "Change who may read and write it, or build into another folder (mkdocs build -d FOLDER)",
        errno.ENOENT: "Put back what is missing",
        errno.ENOTDIR: "Move that file out of the way, or build into another folder (mkdocs build -d FOLDER)",
    }
    step = steps.get(error.errno or 0, "Put that right")
    return f"{where}{error.strerror or error}.{kept} {step}, then build again."
