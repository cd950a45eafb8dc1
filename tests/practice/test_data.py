"""Items as data: the schema, every reference, the same bytes in every process, and words for every slip."""

import json
import os
import subprocess
import sys
from pathlib import Path
from random import Random
from typing import Any

import jsonschema
import pytest

from beadwright.engine import (
    EngineError,
    HouseStyle,
    Inner,
    Number,
    build_frame,
    parse_problem,
    predict_slips,
    work_problem,
)
from beadwright.engine.slips import SLIPS, predict_readings
from beadwright.practice import READING_SLIPS
from beadwright.practice.entries import build_read, build_set
from beadwright.render import load_words
from beadwright.render.entry_data import build_pool_data
from beadwright.render.item_data import SharedData, build_item_data
from beadwright.render.phrases import find_phrases
from beadwright.render.slips import CauseSayer, say_reading_cause
from tests.support import ROOT
from tests.support.practice_pages import Loaded

SCHEMA = json.loads((Path(__file__).parent / "practice-1.schema.json").read_text(encoding="utf-8"))
WORDS = load_words("en")


@pytest.fixture(scope="module")
def built(lesson: Loaded) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """The data of the lesson's items, and what they share."""
    shared = SharedData(WORDS)
    data = [
        build_item_data(item, lesson.lesson.id, build_pool_data(item, shared))
        for practice in lesson.practices
        for item in practice.items
    ]
    plain: tuple[list[dict[str, Any]], dict[str, Any]] = json.loads(json.dumps([data, shared.build()]))
    return plain


Built = tuple[list[dict[str, Any]], dict[str, Any]]


def test_every_item_keeps_to_the_schema(built: Built) -> None:
    for item in built[0]:
        jsonschema.validate(item, SCHEMA)


def test_every_kind_of_item_is_there(built: Built) -> None:
    assert {item["ask"] for item in built[0]} == set(SCHEMA["properties"]["ask"]["enum"])


def list_slips(item: dict[str, Any]) -> list[dict[str, list[int]]]:
    """All maps from wrong answers to places of causes in an item."""
    found = []
    for entry in item["pool"]:
        found += [entry["slips"]] if "slips" in entry else []
        found += [check["slips"] for check in entry.get("checks", [])]
    return found


def test_every_reference_leads_somewhere(built: Built) -> None:
    items, shared = built
    named: set[int] = set()
    for item in items:
        for slips in list_slips(item):
            for causes in slips.values():
                named.update(causes)
                weights = [shared["causes"][place]["weight"] for place in causes]
                assert weights == sorted(weights, reverse=True)
        for entry in item["pool"]:
            if "walkthrough" in entry:
                assert entry["walkthrough"] in shared["workings"]
            for place in entry.get("steps", []):
                assert shared["sentences"][place]
    assert named == set(range(len(shared["causes"])))
    for cause in shared["causes"]:
        assert set(cause) == {"slip", "column", "step", "say", "weight"}
        assert cause["slip"] in SLIPS or cause["slip"] in READING_SLIPS
        assert WORDS.text(f"practice.slips.{cause['slip']}")
        assert cause["say"].endswith(".")
        assert "{" not in cause["say"]
    for working in shared["workings"].values():
        assert [shared["sentences"][place] for place in working["steps"]]


def test_each_working_and_each_sentence_stands_once(built: Built) -> None:
    _, shared = built
    assert len(set(shared["sentences"])) == len(shared["sentences"])
    stepped = [json.dumps(working["steps"]) for working in shared["workings"].values()]
    assert len(set(stepped)) == len(stepped)


def test_slips_of_a_problem_are_those_that_the_engine_predicts(built: Built) -> None:
    items, shared = built
    (entry, *_) = next(item for item in items if item["id"] == "add")["pool"]
    predicted = predict_slips(work_problem(parse_problem("48 + 37"), build_frame()))
    told = {
        wrong: [
            (shared["causes"][p]["slip"], shared["causes"][p]["column"], shared["causes"][p]["step"]) for p in places
        ]
        for wrong, places in entry["slips"].items()
    }
    assert told == {text: [(c.slip, c.column, c.step) for c in causes] for text, causes in predicted.items()}


def test_the_known_example_reads_as_it_should(built: Built) -> None:
    items, shared = built
    entry = next(item for item in items if item["id"] == "add")["pool"][0]
    assert entry["problem"] == "48 + 37"
    assert entry["say"] == "forty-eight plus thirty-seven"
    assert entry["key"] == {"text": "85", "accept": "value", "form": "number"}
    assert entry["hints"] == [
        "The place for care: add 7 on the ones.",
        "The column cannot take so many. Exchange with the column on the left, by the partner of 10.",
        "Set 1 on the tens, clear 3 on the ones.",
    ]
    first = shared["causes"][entry["slips"]["75"][0]]
    assert (
        first["say"] == "To add 7 on the ones, the partner was cleared. It looks as if the 1 on the tens was not set."
    )
    heard = next(item for item in items if item["id"] == "hear")["pool"][0]
    assert heard["said"] == ["forty-eight", "plus thirty-seven"]


BUILD = """
import hashlib, json, sys
from pathlib import Path
from tempfile import TemporaryDirectory
from beadwright.render import format_script_data, load_words
from beadwright.render.items import PracticePage
from tests.practice.conftest import ITEMS
from tests.support.practice_pages import load_lesson
with TemporaryDirectory() as folder:
    loaded = load_lesson(Path(folder), ITEMS)
    page = PracticePage(load_words("en"), loaded.lesson.id)
    html = "".join(page.render_practice(practice) for practice in loaded.practices) + page.finish()
print(hashlib.sha256(html.encode()).hexdigest())
"""


def test_the_same_bytes_in_every_process() -> None:
    hashes = set()
    for seed in ("0", "1", "4242"):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        done = subprocess.run(
            [sys.executable, "-c", BUILD], capture_output=True, text=True, env=environment, check=False
        )
        assert done.returncode == 0, done.stderr
        hashes.add(done.stdout)
    assert len(hashes) == 1


def test_there_are_words_for_every_slip() -> None:
    """Each way of each slip has its sentence, in sums, products and quotients, on both frames, by both methods."""
    chance = Random(7)
    said: set[tuple[str, str]] = set()
    frames = (build_frame(), build_frame("nine-bead", columns=6))
    texts = [f"{chance.randrange(1, 999)} {chance.choice('+-')} {chance.randrange(1, 999)}" for _ in range(250)]
    texts += ["9 + 1", "99 + 1", "999 + 1", "100 - 1", "55 + 5", "12.5 + 3.75", "44 + 1"]
    texts += ["23 × 4", "306 × 24", "0.4 × 12.5", "15% of 80", "78 × 56", "25 × 8"]
    texts += ["954 ÷ 23", "1208 ÷ 4", "837 ÷ 3", "9 ÷ 4 to 2 places", "7056 ÷ 7", "100 ÷ 99"]
    for number, text in enumerate(texts):
        house = HouseStyle(inner=Inner.COUNTING if number % 7 == 0 else Inner.PARTNERS)
        try:
            # On a nine-bead frame products and quotients are counted out, in a thousand steps where a number is large.
            frame = frames[number % 5 == 0 and "÷" not in text and "×" not in text]
            walkthrough = work_problem(parse_problem(text), frame, house=house)
        except EngineError:
            continue
        causes = [cause for found in predict_slips(walkthrough).values() for cause in found]
        for readings in predict_readings(walkthrough).values():
            causes += [cause for found in readings.values() for cause in found]
        for cause in causes:
            sentence = CauseSayer(walkthrough, WORDS).say(cause)
            assert sentence.endswith("."), sentence
            said.add((cause.slip, cause.variant))
    for slip in SLIPS:
        assert WORDS.text(f"practice.slips.{slip}")
        assert WORDS.text(f"slips.coach.{slip}")
        assert slip in {name for name, _ in said}, f"no example of {slip}"


def test_there_are_words_for_every_slip_in_reading_and_setting() -> None:
    frame = build_frame()
    phrases = find_phrases(WORDS, frame.shape, 1)
    told: set[str] = set()
    for number in range(1, 1000):
        for entry, setting in ((build_read(frame, Number(number)), False), (build_set(frame, Number(number)), True)):
            for causes in entry.causes.values():
                for cause in causes:
                    assert say_reading_cause(cause, phrases, setting=setting).endswith(".")
                    told.add(cause.slip)
    assert told == set(READING_SLIPS)
