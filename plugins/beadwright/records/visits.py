"""What the trainer keeps of live sessions, coaching visits and students: `visits.yml`, and its tables.

Learners' files say nothing of these; with this file Guskey's levels 3 to 5 have data too (sources: Guskey 2002).
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from pathlib import Path
from statistics import fmean, median
from typing import Annotated

from pydantic import Field

from beadwright.course import format_findings
from beadwright.course.binding import bind
from beadwright.course.models_base import Line, Strict
from beadwright.course.sources import Source, load_tree
from beadwright.course.values import Amount, Date, Hours, Whole
from beadwright.records.merging import Who
from beadwright.records.plain import fold_name
from beadwright.records.tables import Cell, Table, columns

MOST_KB = 4 * 1024
MOST = 5_000
"""Entries of a kind; a trainer with as many would not keep them in one file."""
ADate = Annotated[dt.date, Date()]
SomeHours = Annotated[Decimal, Hours()]
Score = Annotated[float, Amount(0, 3)]
"""A score of the observation sheet: 0 not seen, 1 with help, 2 mostly, 3 surely."""
Scores = Annotated[dict[Line, Score], Field(max_length=60)]
Result = Annotated[float, Amount(-1_000_000_000, 1_000_000_000)]


class VisitsError(Exception):
    """A `visits.yml` that cannot be used; the message tells every fault with its place and the next step."""


class Session(Strict):
    """A live session: when, how long, and who was there, by name or learner id."""

    date: ADate
    title: Line
    hours: SomeHours
    people: Annotated[tuple[Line, ...], Field(max_length=MOST)]


class Visit(Strict):
    """A coaching visit: `support` scores what the school gives (level 3), `scores` what the teacher does (level 4)."""

    date: ADate
    learner: Line
    hours: SomeHours = Decimal(0)
    scores: Scores = Field(default_factory=dict)
    support: Scores = Field(default_factory=dict)


class Students(Strict):
    """Results of a learner's students on one measure, before and after (level 5)."""

    learner: Line
    measure: Line
    students: Annotated[int, Whole(1, 10_000)]
    before: Result
    after: Result


class Visits(Strict):
    """What the file holds."""

    sessions: Annotated[tuple[Session, ...], Field(max_length=MOST)] = ()
    visits: Annotated[tuple[Visit, ...], Field(max_length=MOST)] = ()
    students: Annotated[tuple[Students, ...], Field(max_length=MOST)] = ()


def load_visits(path: Path) -> Visits:
    """The file at `path`, read like a course's own files. Raises `VisitsError` and, where it is not, `OSError`."""
    path.stat()
    located, findings = load_tree(Source(path, path.name), path.resolve().parent, most_kb=MOST_KB)
    if located is None or findings:
        raise VisitsError(format_findings(findings).rstrip())
    bound = bind(Visits, located)
    if bound.model is None:
        raise VisitsError(format_findings(bound.findings).rstrip())
    return bound.model


class Finder:
    """Finds learners by name, or by id where nobody is called so; what it cannot find, or finds twice, is `unknown`.

    Ids stand in files, where anybody could write another one's name for one.
    """

    def __init__(self, people: Sequence[Who]) -> None:
        self._by_id = {who.id: [who] for who in people}
        self._by_name: dict[str, list[Who]] = defaultdict(list)
        for who in people:
            self._by_name[fold_name(who.name)].append(who)
        self.unknown: dict[str, None] = {}

    def find(self, name: str) -> Who | None:
        """The one learner of this name or id."""
        found = self._by_name.get(fold_name(name)) or self._by_id.get(name, [])
        if len(found) != 1:
            self.unknown[name] = None
            return None
        return found[0]


Label = Callable[[Who], str]


def build_visit_tables(visits: Visits, people: Sequence[Who], label: Label) -> Iterator[Table]:
    """Hours with the trainer, observations, support, students, and names that no single learner carries."""
    finder = Finder(people)
    yield _build_hours(visits, finder, label)
    yield _build_scores("observed", [visit.scores for visit in visits.visits])
    yield _build_scores("support", [visit.support for visit in visits.visits])
    yield _build_students(visits)
    rows = tuple((name,) for name in finder.unknown)
    yield Table("unknown", columns("name"), rows)


def _build_hours(visits: Visits, finder: Finder, label: Label) -> Table:
    """One row a learner: live sessions and their hours, coaching visits and their hours."""
    counts: dict[str, list[float]] = defaultdict(lambda: [0, 0, 0, 0])
    people: dict[str, Who] = {}
    told = [(session.people, 0, float(session.hours)) for session in visits.sessions]
    told += [((visit.learner,), 2, float(visit.hours)) for visit in visits.visits]
    for names, place, hours in told:
        there = {who.id: who for name in names if (who := finder.find(name)) is not None}  # named twice is there once
        people |= there
        for one in there:
            counts[one][place] += 1
            counts[one][place + 1] += hours
    rows = sorted((label(people[one]), int(c[0]), c[1], int(c[2]), c[3]) for one, c in counts.items())
    heads = columns("learner", sessions="whole", session_hours="number", visits="whole", visit_hours="number")
    return Table("contact_hours", heads, tuple(rows))


def _build_scores(name: str, sheets: Sequence[Mapping[str, float]]) -> Table:
    """One row a line of the sheet: how often it was scored, the mean, the middle, and how often 2 or more."""
    scores: dict[str, list[float]] = defaultdict(list)
    for sheet in sheets:
        for line, score in sheet.items():
            scores[line].append(score)
    rows: list[tuple[Cell, ...]] = [
        (line, len(found), fmean(found), median(found), len([score for score in found if score >= 2]) / len(found))
        for line, found in scores.items()
    ]
    return Table(name, columns("line", scored="whole", mean="number", middle="number", good="share"), tuple(rows))


def _build_students(visits: Visits) -> Table:
    """One row a measure: teachers and students, and the means before and after, each student counting once."""
    measures: dict[str, list[Students]] = defaultdict(list)
    for result in visits.students:
        measures[result.measure].append(result)
    rows = tuple(_tell_measure(measure, results) for measure, results in measures.items())
    heads = columns("measure", results="whole", students="whole", before="number", after="number", change="number")
    return Table("students", heads, rows, (("students", {}),) if rows else ())


def _tell_measure(measure: str, results: Sequence[Students]) -> tuple[Cell, ...]:
    students = sum(result.students for result in results)
    before = sum(result.before * result.students for result in results) / students
    after = sum(result.after * result.students for result in results) / students
    return (measure, len(results), students, before, after, after - before)
