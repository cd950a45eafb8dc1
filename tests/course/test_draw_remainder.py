"""Divisions that are drawn with or without a remainder."""

from pathlib import Path

import pytest

from beadwright.course.models_draw import Draw
from beadwright.engine import Operation
from tests.course.writing import load_lesson, write_item


@pytest.mark.parametrize(("written", "wanted"), [("yes", True), ("no", False), (None, None)])
def test_a_remainder_is_wanted_as_written(tmp_path: Path, written: str | None, wanted: bool | None) -> None:
    told = "" if written is None else f", remainder: {written}"
    loaded = load_lesson(tmp_path, write_item(f"draw: {{operation: divide, digits: [3, 1], count: 2{told}}}"))
    assert loaded.findings == ()
    draws = [item for _, practice in find_practices(loaded) for item in practice if isinstance(item, Draw)]
    assert [(draw.want().operation, draw.want().remainder) for draw in draws] == [(Operation.DIVIDE, wanted)]


def find_practices(loaded: object) -> list[tuple[str, tuple[object, ...]]]:
    """Each practice's id and what its items are."""
    found = []
    for lesson in loaded.lessons:  # type: ignore[attr-defined]
        for block in lesson.body:
            practice = getattr(block, "practice", None)
            if practice is not None:
                found.append((practice.id, tuple(getattr(item, "draw", item) for item in practice.items)))
    return found
