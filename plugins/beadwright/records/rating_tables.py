"""Confidence before and after, paired: the same people, the same items, the same scale."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import fmean

from beadwright.records.outline import Outline
from beadwright.records.standing import Standing
from beadwright.records.statistics import Paired, compare_pairs, correct_for_many
from beadwright.records.tables import Cell, Picture, Table, Word, columns

FEW_PAIRS = 6
"""With fewer differing pairs no two-sided p can come below 0.05: 2 of 2 ** 5 ways are 0.0625."""


def build_ratings(standings: Sequence[Standing], outline: Outline) -> Table:
    """One row a confidence item, then one for each learner's mean over the items rated both times."""
    rated = [one.rated for one in standings]
    pairs = {
        item: [(before[item], after[item]) for before, after in rated if item in before and item in after]
        for item in outline.rated
    }
    means = [
        (fmean(before[item] for item in both), fmean(after[item] for item in both))
        for before, after in rated
        if len(both := [item for item in before if item in after]) > 0
    ]
    tests = {item: compare_pairs(after - before for before, after in found) for item, found in pairs.items()}
    told = [item for item, test in tests.items() if test is not None]
    corrected = dict(zip(told, correct_for_many([test.p for test in tests.values() if test is not None]), strict=True))
    rows = [_tell(outline.rated[item], found, tests[item], corrected.get(item)) for item, found in pairs.items()]
    rows.append(
        _tell(Word("report.mean", "all"), means, compare_pairs(after - before for before, after in means), None)
    )
    heads = columns("rated", pairs="whole", before="number", after="number", change="number")
    counts = columns(rise="whole", same="whole", fall="whole", plus="number", minus="number", p="p", p_corrected="p")
    notes = (("ratings", {"count": len(outline.points)}),)
    picture = Picture("bars", ("rated",), ("before", "after"), top=float(len(outline.points))) if means else None
    every = (*heads, *counts, *columns(effect="number"), *columns("method"))
    return Table("ratings", every, tuple(rows) if outline.rated else (), notes, picture)


def _tell(
    name: Cell, pairs: Sequence[tuple[float, float]], test: Paired | None, corrected: float | None
) -> tuple[Cell, ...]:
    changes = [round(after - before, 9) for before, after in pairs]
    counts = (len([c for c in changes if c > 0]), changes.count(0), len([c for c in changes if c < 0]))
    means: tuple[Cell, ...] = (None, None, None)
    if len(pairs) > 0:
        means = (fmean(before for before, _ in pairs), fmean(after for _, after in pairs), fmean(changes))
    if test is None:
        return (name, len(pairs), *means, *counts, None, None, None, None, None, None)
    method = "few" if test.differing < FEW_PAIRS else "exact" if test.exact else "normal"
    return (
        name,
        len(pairs),
        *means,
        *counts,
        test.plus,
        test.minus,
        test.p,
        corrected,
        test.effect,
        Word("report.method", method),
    )
