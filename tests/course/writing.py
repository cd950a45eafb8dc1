"""Writes small courses for tests. `▸` in a text marks where a finding is expected and is taken out."""

from pathlib import Path

from beadwright.course import Finding, Loaded, load_course

MARK = "▸"
LESSON = "modules/01-a.lesson.yml"
FILE = f"content/{LESSON}"

COURSE = """\
id: a-course
title: A course
edition: "1"
contact: [{name: Ada Wend}]
record: {send: Send it.}
modules: [a]
confidence:
  question: How sure are you?
  points: [Not, Very]
  items: [{id: exchange, text: I can exchange.}]
cautions: {shared-frames: Clean it.}
"""

HEAD = """\
title: A lesson
minutes: 10
objectives: [{id: o, text: Do it}]
"""

SHOWN = "- practice: {id: shown, title: P, objective: o, items: [{ask: answer, problem: 1 + 1}]}\n"


def write_lesson(*, head: str = HEAD, body: str = "") -> str:
    """A lesson whose objective is practised, with `body` after that practice."""
    return f"{head}body:\n{SHOWN}{body}"


def write_item(item: str) -> str:
    """A lesson with one more practice that has this item, written on one line."""
    return write_lesson(body=f"- practice:\n    id: p\n    title: P\n    items:\n      - {item}\n")


def write_course(folder: Path, files: dict[str, str | bytes]) -> Path:
    """Write a course into `folder/content`, the small sound one where `files` says nothing else."""
    content = folder / "content"
    whole: dict[str, str | bytes] = {"course.yml": COURSE, "index.md": "# Start\n", LESSON: write_lesson(), **files}
    for name, text in whole.items():
        path = content / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.replace(MARK, "").encode() if isinstance(text, str) else text)
    return content


def load_lesson(folder: Path, text: str | bytes) -> Loaded:
    """Load the small course with this text as its only lesson."""
    return load_course(write_course(folder, {LESSON: text}))


def find_mark(text: str) -> tuple[int, int]:
    """Line and column of the mark, counted from 1 the way an editor counts."""
    before = text[: text.index(MARK)]
    return before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1


def brief(finding: Finding) -> tuple[str, str, int, int]:
    """What a test compares of a finding."""
    return finding.code, finding.file, finding.line, finding.column
