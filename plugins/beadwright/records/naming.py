"""Names that stand in records, as words; a name that is not one of ours stays apart, whatever it says."""

from __future__ import annotations

from beadwright.engine import SLIPS
from beadwright.practice import READING_SLIPS
from beadwright.records.tables import Word

ROLES = ("teacher", "paraprofessional", "parent", "other")
KNOWN_SLIPS = frozenset({*map(str, SLIPS), *map(str, READING_SLIPS)})


def name_slip(slip: str | None) -> Word:
    """The word for a slip: `none` where no usual slip explains the answer, `other` for one that is unknown here."""
    if slip is None:
        return Word("report.slip", "none")
    return Word("practice.slips", slip) if slip in KNOWN_SLIPS else Word("report.slip", "other")


SMALL_GROUPS = "\0small"
"""Stands for several small groups; no learner can have typed it, as typed groups hold no control signs."""


def name_group(group: str) -> str | Word:
    """What a learner typed as group, or words where that is nothing or is not to be told."""
    if group == SMALL_GROUPS:
        return Word("report", "small_groups")
    return Word("report", "no_group") if group == "" else group


def name_role(role: str) -> Word | None:
    """The word for a role, nothing where none was chosen."""
    if role == "":
        return None
    return Word("report.role", role if role in ROLES else "other")
