"""Tags that tell pydantic which member of a union to read, made so that they can be told from an author's keys."""

from __future__ import annotations

_MARK = "\x00"  # no key of a located tree holds it


def tag_for(kind: str) -> str:
    """The tag of the union member for this kind of block or item."""
    return _MARK + kind


def is_tag(part: object) -> bool:
    """Whether a part of an error's path is a tag."""
    return isinstance(part, str) and part.startswith(_MARK)
