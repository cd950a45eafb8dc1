"""Names that stand in records, as words; a name that is not one of ours stays apart, whatever it says."""

from __future__ import annotations

from beadwright.engine import SLIPS
from beadwright.practice import READING_SLIPS
from beadwright.records.tables import Word

ROLES = ("teacher", "paraprofessional", "parent", "other")
KNOWN_SLIPS = frozenset({*map(str, SLIPS), *map(str, READING_SLIPS)})


def find_slip(slip: str | None) -> str:
    """What a slip in a record counts as: itself, `other` where it is unknown here, `none` where there is none.

    Records may come from anybody; so there are never more slips than are known and these two.
    """
    if slip is None or slip == "":
        return "none"
    return slip if slip in KNOWN_SLIPS else "other"


def name_slip(slip: str) -> Word:
    """The word for what `find_slip` found: `none` is that no usual slip explains the answer."""
    return Word("practice.slips" if slip in KNOWN_SLIPS else "report.slip", slip)


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
