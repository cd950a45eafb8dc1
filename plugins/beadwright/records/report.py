"""A cohort and a course -> the report: all its tables in order, and what it says of the levels of evaluation."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256

from beadwright.records.cohort import Cohort
from beadwright.records.item_tables import build_items, build_reliability
from beadwright.records.merging import Who
from beadwright.records.naming import SMALL_GROUPS
from beadwright.records.outline import Outline
from beadwright.records.people_tables import build_finished, build_groups, build_learners, build_lessons, build_sureness
from beadwright.records.plain import clean_line
from beadwright.records.rating_tables import build_ratings
from beadwright.records.reading import SetAside, pause_collection
from beadwright.records.standing import Standing
from beadwright.records.tables import Cell, Table, Word, columns
from beadwright.records.visits import Visits, build_visit_tables
from beadwright.records.work_tables import build_objectives, build_retired, build_slips, build_weeks

SMALL_GROUP = 5
"""Without names, groups smaller than this are put together: a group of one is a name."""

LEVELS = ("reactions", "learning", "organization", "use", "students")
"""Guskey's five levels (2002), in order."""


@dataclass(frozen=True)
class Report:
    """Everything the report says. `facts` are the numbers of its first sentences."""

    outline: Outline
    group: str | None
    names: bool
    facts: Mapping[str, int]
    tables: tuple[Table, ...]

    def table(self, name: str) -> Table:
        """The table of this name; raises `KeyError`."""
        found = {table.name: table for table in self.tables}
        return found[name]


@pause_collection()
def build_report(cohort: Cohort, outline: Outline, *, visits: Visits | None = None, names: bool = True) -> Report:
    """The report on a cohort.

    Without `names` learners go by a code made from their learner id, the same in every report on this course; files are
    not named, small groups are put together, and rows stand in the order of what is shown.
    """
    label = _name_learner if names else _Coder(outline.id).name
    shown = cohort if names else _hide_names(cohort, label)
    tables = list(_build_tables(shown, outline, lambda one: label(one.who)))
    if visits is not None:
        told = build_visit_tables(visits, [one.who for one in cohort.standings], label)
        tables += [table for table in told if names or table.name != "unknown"]
    tables += _build_checks(shown, label, names=names)
    facts = {
        "learners": len(cohort.standings),
        "files": cohort.files,
        "set_aside": len(cohort.set_aside),
        "answers": cohort.tally.answers,
    }
    return Report(outline, cohort.group, names, facts, (*tables, _build_levels(tables)))


def _hide_names(cohort: Cohort, label: Callable[[Who], str]) -> Cohort:
    """The same cohort with its small groups as one, in an order that no name has made."""
    sizes = Counter(one.who.group for one in cohort.standings)
    small = {group for group, size in sizes.items() if size < SMALL_GROUP}
    standings = tuple(
        replace(one, who=replace(one.who, group=SMALL_GROUPS)) if one.who.group in small else one
        for one in cohort.standings
    )
    return replace(
        cohort,
        standings=tuple(sorted(standings, key=lambda one: label(one.who))),
        tally=cohort.tally.join_groups(small, SMALL_GROUPS),
        set_aside=tuple(sorted(cohort.set_aside, key=lambda one: (one.reason, _tell_detail(one, names=False)))),
    )


def _name_learner(who: Who) -> str:
    return who.name if who.name != "" else f"({clean_line(who.id, 12)})"


class _Coder:
    """Codes in place of names, made from the learner id and the course."""

    def __init__(self, course: str) -> None:
        self._course = course

    def name(self, who: Who) -> str:
        """Such as `7KQ2-M9XD`."""
        digest = sha256(f"beadwright/learner\0{self._course}\0{who.id}".encode()).digest()
        letters = "".join("23456789ABCDEFGHJKMNPQRSTVWXYZ"[byte % 30] for byte in digest[:8])
        return f"{letters[:4]}-{letters[4:]}"


def _build_tables(cohort: Cohort, outline: Outline, label: Callable[[Standing], str]) -> Iterator[Table]:
    standings, tally = cohort.standings, cohort.tally
    yield build_slips(tally, outline)
    yield build_objectives(standings, outline)
    yield build_lessons(standings, tally, outline)
    yield build_weeks(tally)
    yield build_ratings(standings, outline)
    yield build_sureness(standings, outline, label)
    yield build_groups(standings, tally.groups)
    yield build_learners(standings, label)
    yield build_finished(standings, outline, label)
    yield build_items(tally, outline)
    yield build_reliability(tally, outline)
    yield build_retired(tally)


def _build_checks(cohort: Cohort, label: Callable[[Who], str], *, names: bool) -> Iterator[Table]:
    """What to look at before trusting the numbers: files set aside, names carried twice, answers under two learners."""
    aside = tuple(_tell_file(number, file, names=names) for number, file in enumerate(cohort.set_aside, start=1))
    yield Table("set_aside", columns("file reason detail"), aside)
    same = cohort.same_names if names else tuple(sorted(("", count) for _, count in cohort.same_names))
    yield Table("same_names", columns("name", learners="whole"), same)
    known = {one.who.id for one in cohort.standings}
    pairs = [
        ([label(who) if who.id in known else "" for who in (one, other)], count) for one, other, count in cohort.shared
    ]
    told = pairs if names else sorted((sorted(pair), count) for pair, count in pairs)
    shared = tuple((one, other, count) for (one, other), count in told)
    yield Table("shared", columns("learner other_learner", answers="whole"), shared)
    clashes = tuple((label(one.who), one.clashes) for one in cohort.standings if one.clashes > 0)
    yield Table("clashes", columns("learner", answers="whole"), clashes)


def _tell_file(number: int, file: SetAside, *, names: bool) -> tuple[Cell, ...]:
    """A file set aside; a file's name has a person's name in it, so without names it goes by its number."""
    shown = clean_line(file.file, 200) if names else f"#{number}"
    return (shown, Word("report.reason", file.reason), _tell_detail(file, names=names))


def _tell_detail(file: SetAside, *, names: bool) -> str:
    """What is known of why; of a copy that is the name of another file."""
    return clean_line(file.detail, 200) if names or file.reason != "twice" else ""


def _build_levels(tables: Sequence[Table]) -> Table:
    """Guskey's levels: for each, what there is to go by here, or that there is nothing."""
    filled = {table.name for table in tables if len(table.rows) > 0}
    has = {
        "reactions": False,
        "learning": len({"objectives", "items"} & filled) > 0 and "weeks" in filled,
        "organization": "support" in filled,
        "use": "observed" in filled,
        "students": "students" in filled,
    }
    rows = tuple(
        (Word("report.level", level), Word("report.level_data", f"{level}-{'some' if has[level] else 'none'}"))
        for level in LEVELS
    )
    return Table("levels", columns("level speaks"), rows)
