"""The report's files, written whole or not at all."""

from __future__ import annotations

import json
import shutil
import tempfile
from pathlib import Path
from typing import Any

from beadwright.records.page import render_page
from beadwright.records.report import Report
from beadwright.records.workbook import write_workbook
from beadwright.render import Words

SCHEMA = "beadwright/cohort/1"
FILES = ("index.html", "cohort.xlsx", "cohort.json")


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

    All three are made beside the folder first and then moved into it, so that a failure leaves what was there before.
    Raises `OSError`.
    """
    folder.mkdir(parents=True, exist_ok=True)
    made = Path(tempfile.mkdtemp(prefix=".beadwright-", dir=folder))
    try:
        data = json.dumps(build_data(report), ensure_ascii=False, indent=1, allow_nan=False)
        (made / "cohort.json").write_text(data + "\n", encoding="utf-8")
        (made / "index.html").write_text(render_page(report, words), encoding="utf-8")
        write_workbook(report, words, made / "cohort.xlsx")
        for name in FILES:
            (made / name).replace(folder / name)
    finally:
        shutil.rmtree(made, ignore_errors=True)
    return tuple(folder / name for name in FILES)
