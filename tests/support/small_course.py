"""A course of two lessons, small enough to be built many times."""

from pathlib import Path

COURSE = """\
id: small-course
title: Small course
edition: "1"
contact: [{name: Ines Varga}]
record: {send: Keep it.}
modules: [one, two]
"""
LESSON = """\
title: Lesson %s
minutes: 5
objectives: [{id: a, text: Add}]
body:
  - text: Work 48 + 37 with %s.
  - walkthrough: 48 + 37
  - practice:
      id: p
      title: Try
      objective: a
      items:
        - {id: typed, ask: answer, problem: 20 + 3}
        - {id: heard, ask: heard, problem: 53 + 21}
"""
CONFIG = """\
site_name: Small course
docs_dir: content
use_directory_urls: false
theme: {name: material}
plugins:
  - search
  - beadwright: {editions: %s, offline: %s, edition: %s}
"""


def write_content(content: Path, *, first: str = "care", second: str = "care") -> Path:
    """The content folder, given back; what each of its lessons is worked with can be changed."""
    (content / "modules").mkdir(parents=True, exist_ok=True)
    (content / "course.yml").write_text(COURSE, encoding="utf-8")
    (content / "index.md").write_text("# Start\n", encoding="utf-8")
    for number, (name, manner) in enumerate((("one", first), ("two", second)), start=1):
        text = LESSON % (number, manner)
        (content / "modules" / f"0{number}-{name}.lesson.yml").write_text(text, encoding="utf-8")
    return content


def write_course(folder: Path, *, editions: str = "false", offline: str = "false") -> Path:
    """The folder of a course that can be built, given back; `editions` and `offline` are those settings, as YAML."""
    write_content(folder / "content")
    configure(folder, editions=editions, offline=offline)
    return folder


def configure(folder: Path, *, editions: str = "false", offline: str = "false", edition: str = "learners") -> Path:
    """Write the settings of a course in `folder`, as YAML; the file, given back."""
    path = folder / "mkdocs.yml"
    path.write_text(CONFIG % (editions, offline, edition), encoding="utf-8")
    return path
