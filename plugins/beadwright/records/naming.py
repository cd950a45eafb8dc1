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


def name_role(role: str) -> Word | None:
    """The word for a role, nothing where none was chosen."""
    if role == "":
        return None
    return Word("report.role", role if role in ROLES else "other")
