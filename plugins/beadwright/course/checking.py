"""What `beadwright check` does: load a course, say what to put right."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TextIO

import yaml

from beadwright.course.findings import Finding, format_findings
from beadwright.course.loading import COURSE_NAME, load_course

_SETTINGS = ("mkdocs.yml", "mkdocs.yaml")
_USUAL_DOCS, _CONTENT = "docs", "content"


def run_check(path: Path, out: TextIO, *, more: Sequence[Finding] = ()) -> int:
    """Check the course in `path` and write what was found to `out`; 0 when it is sound, 1 when it is not.

    `path` as in `find_content`; `more` is what was found in what this room does not read.
    """
    loaded = load_course(find_content(path))
    findings = (*loaded.findings, *more)
    if loaded.is_sound and not more:
        _write(out, f"{_count(len(loaded.lessons), 'lesson')} checked, nothing to put right.\n")
        return 0
    _write(out, format_findings(findings))
    _write(out, f"\n{_count(len(findings), 'thing')} to put right in {_count_files(findings)}.\n")
    return 1


def find_content(path: Path) -> Path:
    """The content folder meant by `path`: itself, or the one that `mkdocs.yml` in it names, or `content` in it."""
    if (path / COURSE_NAME).exists():
        return path
    settings = next((path / name for name in _SETTINGS if (path / name).is_file()), None)
    if settings is not None:
        return path / _read_docs_dir(settings)
    inner = path / _CONTENT
    return inner if inner.is_dir() else path


def _read_docs_dir(settings: Path) -> str:
    """The folder that MkDocs would take. Nothing is made of the file's tags, which may mean anything."""
    try:
        root = yaml.compose(settings.read_text(encoding="utf-8-sig"), Loader=yaml.SafeLoader)
    except (OSError, ValueError, yaml.YAMLError, RecursionError):
        return _CONTENT
    entries = root.value if isinstance(root, yaml.MappingNode) else []
    named = [value.value for key, value in entries if key.value == "docs_dir" and isinstance(value, yaml.ScalarNode)]
    return str(named[-1]) if named else _USUAL_DOCS


def _count_files(findings: tuple[Finding, ...]) -> str:
    return _count(len({finding.file for finding in findings}), "file")


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def _write(out: TextIO, text: str) -> None:
    """Write text to a terminal that may not know all its characters: those become question marks."""
    encoding = getattr(out, "encoding", None) or "utf-8"
    out.write(text.encode(encoding, "replace").decode(encoding))
