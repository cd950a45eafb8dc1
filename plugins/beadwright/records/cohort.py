"""A folder of records -> the cohort: how each learner stands, what tables count, what a trainer should look at first.

Answers are read, merged and counted one learner at a time.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from beadwright.records.merging import Who, merge_person
from beadwright.records.outline import Outline
from beadwright.records.plain import fold_name
from beadwright.records.reading import Files, Progress, SetAside, pause_collection, read_folder, sort_name
from beadwright.records.sharing import Owners
from beadwright.records.standing import Standing, build_standing
from beadwright.records.tally import Tally


@dataclass(frozen=True, slots=True)
class Cohort:
    """All learners, or those of one group, in order of name."""

    group: str | None
    standings: tuple[Standing, ...]
    tally: Tally
    files: int
    """Files that there are, those set aside among them."""
    set_aside: tuple[SetAside, ...]
    """In order of file name."""
    same_names: tuple[tuple[str, int], ...]
    """Names that several learner ids carry, in the group or not, and how many."""
    shared: tuple[tuple[Who, Who, int], ...]
    """Pairs of learners, one at least of the group, whose records hold the same answers, and how many."""


def read_cohort(
    folder: Path, outline: Outline, *, group: str | None = None, progress: Progress | None = None
) -> Cohort:
    """The cohort of a folder; with `group`, the learners of that group alone. Raises `OSError`."""
    return build_cohort(read_folder(folder, outline.id, progress), outline, group=group)


@pause_collection()
def build_cohort(found: Iterable[Files | SetAside], outline: Outline, *, group: str | None = None) -> Cohort:
    """The cohort of what was found in a folder."""
    wanted = None if group is None else fold_name(group)
    everybody: list[Who] = []
    standings: list[Standing] = []
    aside: list[SetAside] = []
    tally, files = Tally(outline), 0
    with Owners() as owners:
        for one in found:
            if isinstance(one, SetAside):
                aside.append(one)
                continue
            person = merge_person(one)
            files += len(one)
            owners.add(len(everybody), (attempt.id for attempt in person.attempts))
            everybody.append(person.who)
            if wanted is None or fold_name(person.who.group) == wanted:
                standings.append(build_standing(person, outline))
                tally.add(person)
        shared = _find_shared(everybody, owners)
    standings.sort(key=lambda standing: _sort_who(standing.who))
    kept = {standing.who.id for standing in standings}
    return Cohort(
        group=group,
        standings=tuple(standings),
        tally=tally,
        files=files + len(aside),
        set_aside=tuple(sorted(aside, key=lambda one: sort_name(one.file))),
        same_names=_find_same_names(sorted(everybody, key=_sort_who)),
        shared=tuple(pair for pair in shared if pair[0].id in kept or pair[1].id in kept),
    )


def _sort_who(who: Who) -> tuple[str, str]:
    return (who.name.casefold(), who.id)


def _find_same_names(people: Iterable[Who]) -> tuple[tuple[str, int], ...]:
    """A name that two ids carry is two people, reported."""
    names: dict[str, list[str]] = defaultdict(list)
    for who in people:
        if who.name != "":
            names[fold_name(who.name)].append(who.name)
    return tuple((same[0], len(same)) for same in names.values() if len(same) > 1)


def _find_shared(people: Sequence[Who], owners: Owners) -> Sequence[tuple[Who, Who, int]]:
    ranks = [0] * len(people)
    for rank, number in enumerate(sorted(range(len(people)), key=lambda number: _sort_who(people[number]))):
        ranks[number] = rank
    return [(people[one], people[other], count) for one, other, count in owners.find_shared(ranks)]
