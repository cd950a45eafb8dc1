"""The report as one page: nothing is loaded, nothing runs, every picture has its table and its sentences."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from beadwright.paths import templates_dir
from beadwright.records.pictures import Drawn, draw_picture
from beadwright.records.report import Report
from beadwright.records.summary import summarize
from beadwright.records.tables import Kind, Table
from beadwright.records.wording import format_cell, format_heading, format_title
from beadwright.render import Words, render_part

MOST_ROWS = 400
"""A page shows so many rows of a table; the workbook has all."""
MOST_RANKED = 60
"""So many of the tables in which what matters stands first."""
_RANKED = frozenset({"slips", "items"})

_NUMERIC: frozenset[Kind] = frozenset({"whole", "number", "share", "p"})


@dataclass(frozen=True, slots=True)
class Section:
    """One table as its template wants it. A cell is its text and whether it is a number; the first names its row."""

    name: str
    title: str
    about: str
    headings: tuple[tuple[str, bool], ...]
    rows: tuple[tuple[tuple[str, bool], ...], ...]
    more: str
    notes: tuple[str, ...]
    picture: Drawn | None


def render_page(report: Report, words: Words) -> str:
    """The whole page, beginning with its document type."""
    title = "report.title" if report.group is None else "report.title_group"
    fields = {"course": report.outline.title} | ({} if report.group is None else {"group": report.group})
    style = (templates_dir() / "theme/assets/bw/css/tokens.css").read_text(encoding="utf-8")
    return render_part(
        "report-page",
        language=words.language,
        title=words.text(title, **fields),
        lead=_write_lead(report, words),
        short=summarize(report, words),
        sections=[_build_section(table, words) for table in _order(report) if _is_shown(table)],
        tokens=Markup(style),  # noqa: S704 - our own style sheet
        words=words,
    )


def _order(report: Report) -> tuple[Table, ...]:
    """The levels come first: what the rest may be read as."""
    return (report.table("levels"), *(table for table in report.tables if table.name != "levels"))


def _is_shown(table: Table) -> bool:
    return len(table.rows) > 0


def _write_lead(report: Report, words: Words) -> list[str]:
    facts = report.facts
    edition = report.outline.edition
    said = [words.text("report.lead", count=facts["learners"], answers=facts["answers"], edition=edition)]
    if facts["set_aside"] > 0:
        said.append(words.text("report.lead_aside", count=facts["set_aside"], files=facts["files"]))
    if not report.names:
        said.append(words.text("report.lead_names"))
    return [*said, words.text("report.lead_records")]


def _build_section(table: Table, words: Words) -> Section:
    kinds = [column.kind for column in table.columns]
    shown = table.rows[: MOST_RANKED if table.name in _RANKED else MOST_ROWS]
    return Section(
        name=table.name.replace("_", "-"),
        title=format_title(table, words),
        about=words.text(f"report.tables.{table.name}.about"),
        headings=tuple((format_heading(column, words), column.kind in _NUMERIC) for column in table.columns),
        rows=tuple(
            tuple((format_cell(cell, kind, words), kind in _NUMERIC) for cell, kind in zip(row, kinds, strict=True))
            for row in shown
        ),
        more="" if shown == table.rows else words.text("report.more", shown=len(shown), count=len(table.rows)),
        notes=tuple(words.text(f"report.notes.{name}", **fields) for name, fields in table.notes),
        picture=draw_picture(table, words),
    )
