"""Rounds to work alone: from a contest other problems of the same kinds, from a practice sheet its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path, PurePath

from beadwright.course import Finding
from beadwright.course.findings import Where, build_finding, explain_refusal
from beadwright.course.sources import name_source
from beadwright.engine import EngineError, MethodError, Walkthrough
from beadwright.render.sheets.event import Event, build_event, build_sheet_problems
from beadwright.render.sheets.spec import Conditions, ContestSpec, SheetSpec, SpecError, load_spec

CONTEST_FOLDER = "contest"
"""Where the files of a course's contests and practice sheets are, in its content folder."""
SETS = 2
"""So many sets of problems a level has, where there are enough: one, and another one."""
_APART = 1_000_000_000
"""Added to a contest's seed; no file can state a seed so large, so a round is drawn like no contest."""


@dataclass(frozen=True, slots=True)
class HomeLevel:
    """One level to work alone: minutes and conditions where the file sets them, seconds of pause, sets of problems."""

    id: str
    title: str
    minutes: int | None
    conditions: Conditions | None
    pause: int
    sets: tuple[tuple[Walkthrough, ...], ...]


@dataclass(frozen=True, slots=True)
class HomeRound:
    """A file's round by the name of the file, and where that is; its levels in order.

    `example` is the contest itself where its papers are to be shown.
    """

    name: str
    file: str
    title: str
    levels: tuple[HomeLevel, ...]
    example: ContestSpec | None = None


def load_rounds(content_dir: Path) -> tuple[tuple[HomeRound, ...], tuple[Finding, ...]]:
    """The rounds of a course in the order of their files' names, and what is to be put right in those files."""
    rounds: list[HomeRound] = []
    findings: list[Finding] = []
    for path in sorted((content_dir / CONTEST_FOLDER).glob("[!.]*.yml")):  # what is hidden is an editor's
        file = name_source(path, content_dir).file
        try:
            rounds.append(build_home_round(file, load_spec(path)))
        except SpecError as error:
            findings += [replace(finding, file=file) for finding in error.findings]
        except EngineError as error:
            reason, next_step = explain_refusal(error)
            findings.append(build_finding("draw-impossible", Where(file), reason=reason, next_step=next_step))
    return tuple(rounds), tuple(findings)


def build_home_round(file: str, spec: ContestSpec | SheetSpec) -> HomeRound:
    """The round that a file gives, the same for the same file; raises `EngineError` where nothing can be drawn."""
    name = PurePath(file).stem
    if isinstance(spec, SheetSpec):
        level = HomeLevel("sheet", spec.title, None, None, 2, (build_sheet_problems(spec),))
        return HomeRound(name, file, spec.title, (level,))
    return HomeRound(name, file, spec.title, tuple(_list_levels(_draw(spec))), spec if spec.example else None)


def _list_levels(event: Event) -> Iterator[HomeLevel]:
    for level in event.levels:
        spec = level.spec
        sets = tuple(section.problems for section in level.sections)
        yield HomeLevel(spec.id, spec.title, spec.minutes, spec.conditions, spec.pause, sets)


def _draw(spec: ContestSpec) -> Event:
    """Problems that the contest itself does not have; where there are too few of them, fewer sets, then any."""
    contest = build_event(spec)
    own = frozenset(
        str(walkthrough.problem)
        for level in contest.levels
        for problems in (*(section.problems for section in level.sections), level.tie_break)
        for walkthrough in problems
    )
    for sets, banned in ((SETS, own), (1, own), (1, frozenset[str]())):
        try:
            return build_event(_set_apart(spec, sets), banned)
        except MethodError:
            continue
    return contest


def _set_apart(spec: ContestSpec, sets: int) -> ContestSpec:
    """The contest of another seed, without its pinned problems."""
    levels = [
        level.model_copy(
            update={
                "sections": ("print",) * sets,
                "tie_break": 0,
                "draws": tuple(
                    draw.model_copy(update={"pin": (), "ban": (*draw.ban, *draw.pin)}) for draw in level.draws
                ),
            }
        )
        for level in spec.levels
    ]
    return spec.model_copy(update={"seed": spec.seed + _APART, "levels": tuple(levels)})
