"""A plain page with a lesson's practice on it, opened from a folder: our parts, scripts and styles, nothing else."""

import json
import shutil
from dataclasses import dataclass
from pathlib import Path

from beadwright.course import Course, Lesson, PracticeBlock, RatingBlock, ReflectBlock, load_course
from beadwright.engine import ColumnShape
from beadwright.practice import PracticeSet, build_lone_item, build_practice
from beadwright.render import format_script_data, load_words, render_shapes
from beadwright.render.items import SCRIPT_SECTIONS, SCRIPTS, PracticePage
from tests.support import ROOT

ASSETS = ROOT / "site_templates" / "theme" / "assets" / "bw"
STYLES = ("tokens", "base", "lesson", "figure", "shell", "stepper", "practice", "print", "forced-colours")

COURSE = """
id: test-course
title: A test course
edition: spring
contact: [{name: Ada Tamarow}]
record: {send: Send the file to your trainer.}
modules: [try-it]
pass_mark: 80%
confidence:
  question: How sure are you that you can do this today?
  points: [Not at all, A little, Quite, Very]
  items:
    - {id: add, text: I can add on a frame}
    - {id: explain, text: I can explain a slip}
"""


@dataclass(frozen=True)
class Loaded:
    """A course of one lesson."""

    course: Course
    lesson: Lesson

    @property
    def practices(self) -> list[PracticeSet]:
        """The lesson's practices, built."""
        blocks = [block for block in self.lesson.body if isinstance(block, PracticeBlock)]
        return [build_practice(self.course, self.lesson, block.practice) for block in blocks]


def load_lesson(folder: Path, items: str, *, course: str = COURSE, objectives: tuple[str, ...] = ("do-it",)) -> Loaded:
    """A lesson whose practice has these items (YAML, a list), in a course of its own in `folder`."""
    lines = "".join(f"      {line}\n" for line in items.strip("\n").splitlines())
    goals = ", ".join(f"{{id: {name}, text: Do it}}" for name in objectives)
    lesson = (
        f"title: Try it\nminutes: 10\nobjectives: [{goals}]\nbody:\n"
        f"- practice:\n    id: try\n    title: Try\n    objective: {objectives[0]}\n    items:\n{lines}"
    )
    return load_files(folder, course, lesson)


def load_files(folder: Path, course: str, lesson: str) -> Loaded:
    """A course of one lesson, `try-it`, from the text of its two files."""
    content = folder / "content"
    (content / "modules").mkdir(parents=True)
    (content / "course.yml").write_text(course, encoding="utf-8")
    (content / "index.md").write_text("# Start\n", encoding="utf-8")
    (content / "modules" / "01-try-it.lesson.yml").write_text(lesson, encoding="utf-8")
    loaded = load_course(content)
    assert loaded.course is not None, loaded.findings
    assert not loaded.findings, loaded.findings
    return Loaded(loaded.course, loaded.lessons[0])


def write_page(folder: Path, loaded: Loaded, *, name: str = "page.html", extra: str = "") -> Path:
    """The lesson's practice as a page in `folder`, beside a copy of our scripts and styles."""
    if not (folder / "bw").exists():
        shutil.copytree(ASSETS, folder / "bw")
    words = load_words("en")
    page = PracticePage(words, loaded.lesson.id, edition=loaded.course.edition, pass_mark=loaded.course.pass_mark)
    parts = [
        f'<h2 id="{practice.id}">{practice.title}</h2>{page.render_practice(practice)}' for practice in loaded.practices
    ]
    for block in loaded.lesson.body:
        if isinstance(block, ReflectBlock | RatingBlock):
            asked = block.reflect if isinstance(block, ReflectBlock) else block.rating
            parts.append(page.render_item(build_lone_item(loaded.course, loaded.lesson, asked)))
    parts.append(page.finish())
    island = {"base": ".", "course": loaded.course.id, "language": "en", "lesson": loaded.lesson.id, "search": None}
    table = {section: words.section(section) for section in SCRIPT_SECTIONS}
    styles = "".join(f'<link rel="stylesheet" href="bw/css/{style}.css">\n' for style in STYLES)
    scripts = "".join(f'<script src="bw/js/{script}.js" defer></script>\n' for script in ("words", *SCRIPTS))
    html = (
        f'<!doctype html>\n<html lang="en" data-bw-course="{loaded.course.id}">\n<head><meta charset="utf-8">'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"><title>Try it</title>\n{styles}'
        f'<script src="bw/js/boot.js"></script></head>\n<body><main class="bw-prose" style="padding: 1rem">'
        f"<h1>Try it</h1>\n{extra}\n{render_shapes(find_shapes(loaded))}\n{''.join(parts)}</main>\n"
        f'<script type="application/json" id="bw-page">{json.dumps(island)}</script>\n'
        f'<script type="application/json" id="bw-words">{format_script_data(table)}</script>\n{scripts}</body></html>\n'
    )
    path = folder / name
    path.write_text(html, encoding="utf-8")
    return path


def find_shapes(loaded: Loaded) -> list[ColumnShape]:
    """The shapes of column of all frames in the lesson's practice."""
    frames = [item.frame for practice in loaded.practices for item in practice.items if item.frame is not None]
    return list(dict.fromkeys(frame.shape for frame in frames))
