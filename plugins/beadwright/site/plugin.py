"""The plugin: hands the course to the renderers and their pages to MkDocs."""

from __future__ import annotations

import logging
from dataclasses import replace
from pathlib import Path
from typing import Literal

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page

from beadwright.course import Course, Loaded, format_findings, load_course
from beadwright.render import fill_slots, load_words
from beadwright.site.editions import CourseEditions, Editions
from beadwright.site.outputs import write_search_script
from beadwright.site.pages import CoursePages, build_pages
from beadwright.site.settings import fill_settings
from beadwright.site.sources import arrange_files, arrange_nav

log = logging.getLogger("mkdocs.plugins.beadwright")

Command = Literal["build", "gh-deploy", "serve"]


class BeadwrightConfig(Config):  # type: ignore[no-untyped-call]  # untyped in MkDocs
    """What a trainer may set under `beadwright:` in `mkdocs.yml`."""

    edition = config_options.Choice(("learners", "facilitators"), default="learners")
    """Whose edition is built: the facilitators' has the trainer's notes in it."""
    editions = Editions()
    """Braille, large print and sound of each lesson, and how they are made; false for none."""


class BeadwrightPlugin(BasePlugin[BeadwrightConfig]):  # type: ignore[no-untyped-call]
    """Builds a course from lesson files."""

    _serving = False
    _pages: CoursePages
    _editions: CourseEditions

    def on_startup(self, *, command: Command, dirty: bool) -> None:
        """Remember whether pages are served while they are written; that keeps this plugin from build to build."""
        self._serving = command == "serve"

    # Before every other plugin: what is set here has to be there when they look.
    @event_priority(100)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Load the course and set MkDocs up for it.

        With findings nothing is built: MkDocs empties the site only after this, so the old one is still whole.
        """
        course, loaded = self._load(config)
        words = load_words(course.language)
        fill_settings(config, course, words, serving=self._serving)
        pages = build_pages(course, loaded, words, for_trainers=self.config.edition == "facilitators")
        root = Path(config.config_file_path).parent
        self._editions = CourseEditions(course, loaded, words, self.config.editions, root)
        self._pages = replace(pages, made=self._editions.offer(pages.made))
        return config

    def _load(self, config: MkDocsConfig) -> tuple[Course, Loaded]:
        loaded = load_course(Path(config.docs_dir))
        if loaded.course is None or loaded.findings:
            log.error("The course was not built: there is something to put right.")
            raise Abort(format_findings(loaded.findings))
        return loaded.course, loaded

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages made here, leave out what no page needs, and list the pages where the trainer does not."""
        arranged = arrange_files(files, self._pages, config)
        arrange_nav(config, self._pages, arranged)
        return arranged

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Put slots where a trainer's own page asks for a part of ours."""
        return self._pages.place_parts(markdown)

    # After every other plugin: what is put in here shall neither be searched nor changed.
    @event_priority(-100)
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Fill the slots."""
        return fill_slots(output, self._pages.slots(page.file.src_uri))

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Leave the other forms of each lesson, and the search index as a script.

        A page opened from a folder can read no other kind of file than a script.
        """
        write_search_script(Path(config.site_dir))
        self._editions.write(Path(config.site_dir))
