"""Invented learners by the thousand for a course, always the same ones: how able, how sure, in nine counties."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta
from math import exp
from pathlib import Path
from random import Random
from typing import Any

from beadwright.records import Outline
from beadwright.records.outline import ItemOutline

COUNTIES = ("Tarn", "Weald", "Oxmoor", "Sallow", "Brackwater", "Nether Fell", "Holm", "Kestrel", "Long Barrow")
ROLES = ("teacher", "paraprofessional", "parent", "other")
SLIPS = ("exchange-dropped", "wrong-partner", "one-off", None)
FIRST, LAST = ("Oda", "Bo", "Ines", "Teo", "Mara", "Ulf", "Nell", "Ivo"), ("Pell", "Quist", "Varga", "Lund", "Thorn")
BEGIN = datetime(2026, 9, 7, 16, tzinfo=UTC)


def write_learners(folder: Path, outline: Outline, learners: int, answers: int) -> Path:
    """A file for each learner, a thousand to a folder; gives the folder."""
    items = tuple(outline.items.values())
    for number in range(learners):
        parent = folder / f"{number // 1000:03}"
        if number % 1000 == 0:
            parent.mkdir(parents=True)
        record = make_learner(number, outline, items, answers)
        text = json.dumps(record, ensure_ascii=False, separators=(",", ":"))
        (parent / f"record-{number:06}.json").write_text(text, encoding="utf-8")
    return folder


def make_learner(number: int, outline: Outline, items: Sequence[ItemOutline], answers: int) -> dict[str, Any]:
    """One learner's record: so many answers from some item on, one in eight of them a second try."""
    chance = Random(number)
    able, group = chance.gauss(0.8, 1), COUNTIES[number % len(COUNTIES)]
    begin = BEGIN + timedelta(days=chance.randrange(21))
    attempts = list(_answer(number, chance, able, begin, items, answers))
    lessons = list(dict.fromkeys(attempt["lesson"] for attempt in attempts))
    return {
        "schema": "beadwright/record/1",
        "course": {"id": outline.id},
        "saved": "2026-11-25T10:00:00.000Z",
        "learner": {
            "id": f"{chance.getrandbits(128):032x}",
            "name": f"{chance.choice(FIRST)} {chance.choice(LAST)} {number}",
            "role": chance.choice(ROLES),
            "group": f"{group} County",
        },
        "attempts": attempts,
        "lessons": [
            {"lesson": lesson, "finished": attempts[-1]["at"], "minutes": 42, "passed": able > 1} for lesson in lessons
        ],
        "ratings": [
            {"when": when, "item": item, "value": value, "of": len(outline.points), "at": at}
            for item in outline.rated
            for when, value, at in (
                ("before", chance.randint(1, 3), attempts[0]["at"]),
                ("after", chance.randint(2, len(outline.points)), attempts[-1]["at"]),
            )
        ],
        "place": {"lesson": lessons[-1], "item": attempts[-1]["item"], "step": 0},
    }


def _answer(
    number: int, chance: Random, able: float, begin: datetime, items: Sequence[ItemOutline], answers: int
) -> Iterator[dict[str, Any]]:
    place = chance.randrange(len(items))
    for count in range(answers):
        place += chance.random() > 1 / 8
        item = items[place % len(items)]
        right = chance.random() < 1 / (1 + exp(-able - (place % 7 - 3) / 4))
        timed = chance.random() < 0.2
        yield {
            "id": f"{chance.getrandbits(128):032x}",
            "edition": "1",
            "lesson": item.lesson,
            "objective": item.objective,
            "item": item.id,
            "ask": item.ask,
            "problem": item.asks,
            "key": "85",
            "response": "85" if right else "75",
            "right": right,
            "slip": None if right else chance.choice(SLIPS),
            "hints": chance.choice((0, 0, 0, 1)),
            "frame": "shown",
            "timed": timed,
            "digits_right": 2 if right else 1,
            "seconds": round(chance.uniform(4, 60), 1),
            "at": (begin + timedelta(days=count // 6, minutes=count)).strftime("%Y-%m-%dT%H:%M:%S.000Z"),
        }
