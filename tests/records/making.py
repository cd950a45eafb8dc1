"""Invented learners and their files, in the shape that the pages save."""

import json
from pathlib import Path
from typing import Any

COURSE = "tamarow-hills"
SCHEMA = "beadwright/record/1"


def make_attempt(number: int | str, item: str, right: bool | None, **own: Any) -> dict[str, Any]:
    """An attempt at an item of the lesson `sums`, on 2 November 2026 unless `at` says another time."""
    return {
        "id": f"attempt-{number}", "edition": "1", "lesson": "sums", "objective": None, "item": item, "ask": "answer",
        "problem": "48 + 37", "key": "85", "response": "75", "right": right, "slip": None, "hints": 0, "frame": "shown",
        "timed": False, "digits_right": 0, "seconds": 0, "at": "2026-11-02T10:00:00.000Z", **own,
    }  # fmt: skip


def make_record(learner_id: str, /, *attempts: dict[str, Any], **own: Any) -> dict[str, Any]:
    """A learner's whole record; the name is `Name of <id>` unless `learner` is given."""
    person = {"id": learner_id, "name": f"Name of {learner_id}", "role": "teacher", "group": "Tarn County"}
    return {
        "schema": SCHEMA, "course": {"id": COURSE}, "saved": "2026-11-25T10:00:00.000Z",
        "learner": {**person, **own.pop("learner", {})}, "attempts": list(attempts), "lessons": [], "ratings": [],
        "place": None, **own,
    }  # fmt: skip


def write_records(folder: Path, *records: Any) -> Path:
    """Each record in a file of its own, `record-1.json` and on; text and bytes are written as they are."""
    folder.mkdir(parents=True, exist_ok=True)
    for number, record in enumerate(records, start=1):
        text = record if isinstance(record, str | bytes) else json.dumps(record, ensure_ascii=False)
        data = text if isinstance(text, bytes) else text.encode()
        (folder / f"record-{number}.json").write_bytes(data)
    return folder
