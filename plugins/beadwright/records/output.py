"""The report's files, written whole or not at all."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pydantic_core import to_json

from beadwright.records.page import render_page
from beadwright.records.report import Report
from beadwright.records.workbook import build_workbook
from beadwright.render import Words
from beadwright.whole import check_made, write_made

SCHEMA = "beadwright/cohort/1"
COMMAND = "cohort"
FILES = ("index.html", "cohort.xlsx", "cohort.json")


def check_folder(folder: Path) -> None:
    """Raise `OSError` where the report would be refused a place: reading a large cohort takes its time."""
    check_made(folder, COMMAND, FILES)


def build_data(report: Report) -> dict[str, Any]:
    """The report as plain data: what it is of, its facts, every table as a list of rows by the keys of its columns."""
    return {
        "schema": SCHEMA,
        "course": {"id": report.outline.id, "edition": report.outline.edition},
        "group": report.group,
        "names": report.names,
        "facts": dict(report.facts),
        **{table.name: table.to_data() for table in report.tables},
    }


def write_report(report: Report, words: Words, folder: Path) -> tuple[Path, ...]:
    """Write `index.html`, `cohort.xlsx` and `cohort.json` into a folder, made when missing; gives their paths.

    All three are made before the first is put in its place, so that a failure leaves what was there before.
    Raises `OSError`, where one of them stands there and is no earlier report as well.
    """
    data = to_json(build_data(report), indent=1)
    files = (render_page(report, words).encode(), build_workbook(report, words), data + b"\n")
    write_made(folder, COMMAND, dict(zip(FILES, files, strict=True)))
    return tuple(folder / name for name in FILES)
