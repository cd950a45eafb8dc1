"""What `beadwright check` does: load a course, say what to put right."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO

from beadwright.course.findings import Finding, format_findings
from beadwright.course.loading import COURSE_NAME, load_course


def run_check(path: Path, out: TextIO) -> int:
    """Check the course in `path` and write what was found to `out`; 0 when it is sound, 1 when it is not.

    `path` is a content folder, or a folder that holds one called `content`.
    """
    loaded = load_course(find_content(path))
    if loaded.is_sound:
        _write(out, f"{_count(len(loaded.lessons), 'lesson')} checked, nothing to put right.\n")
        return 0
    _write(out, format_findings(loaded.findings))
    _write(out, f"\n{_count(len(loaded.findings), 'thing')} to put right in {_count_files(loaded.findings)}.\n")
    return 1


def find_content(path: Path) -> Path:
    """The content folder meant by `path`: itself, or the folder `content` in it when only that holds a course."""
    inner = path / "content"
    return inner if not (path / COURSE_NAME).exists() and inner.is_dir() else path


def _count_files(findings: tuple[Finding, ...]) -> str:
    return _count(len({finding.file for finding in findings}), "file")


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def _write(out: TextIO, text: str) -> None:
    """Write text to a terminal that may not know all its characters: those become question marks."""
    encoding = getattr(out, "encoding", None) or "utf-8"
    out.write(text.encode(encoding, "replace").decode(encoding))
