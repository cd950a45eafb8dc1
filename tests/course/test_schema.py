"""The published JSON Schemas are current, accept what the loader accepts, and see an author's usual mistakes."""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from beadwright.course import render_schema, write_schemas
from beadwright.course.schema import SCHEMAS
from beadwright.paths import templates_dir
from tests.course.writing import COURSE, write_item, write_lesson
from tests.support import ROOT

EVERY_KIND = Path(__file__).with_name("every_kind.lesson.yml")
PUBLISHED = templates_dir() / "schema"


def find_errors(name: str, data: Any) -> list[str]:
    """What the schema says about data."""
    schema = json.loads(render_schema(name))
    Draft202012Validator.check_schema(schema)
    return [error.message for error in Draft202012Validator(schema).iter_errors(data)]


@pytest.mark.parametrize("name", SCHEMAS)
def test_published_schemas_are_current(name: str) -> None:
    written = (PUBLISHED / name).read_text(encoding="utf-8")
    assert written == render_schema(name), (
        "run: python -c 'from beadwright.course import write_schemas; write_schemas()'"
    )


def test_schemas_can_be_written_elsewhere(tmp_path: Path) -> None:
    written = write_schemas(tmp_path / "schema")
    assert [path.read_bytes() for path in written] == [(PUBLISHED / path.name).read_bytes() for path in written]


@pytest.mark.parametrize("path", [*sorted((ROOT / "content" / "modules").glob("*.lesson.yml")), EVERY_KIND])
def test_lessons_that_ship_are_valid(path: Path) -> None:
    assert find_errors("lesson.schema.json", yaml.safe_load(path.read_text(encoding="utf-8"))) == []


def test_the_course_that_ships_is_valid() -> None:
    text = (ROOT / "content" / "course.yml").read_text(encoding="utf-8")
    assert find_errors("course.schema.json", yaml.safe_load(text)) == []


def test_the_smallest_course_is_valid() -> None:
    assert find_errors("course.schema.json", yaml.safe_load(COURSE)) == []


@pytest.mark.parametrize(
    "text",
    [
        write_lesson() + "minuets: 10\n",
        write_lesson().replace("minutes: 10\n", ""),
        write_lesson().replace("minutes: 10", "minutes: ten"),
        write_lesson(body="- txt: Hello\n"),
        write_lesson(body="- text: Hello\n  caution: Mind.\n"),
        write_item("{problem: 1 + 1}"),
        write_item("{ask: anser, problem: 1 + 1}"),
        write_item("{ask: next-move, problem: 1 + 1}"),
        write_item("{draw: {operation: add, digits: x}}"),
        write_item("{draw: {operation: adding, digits: 2}}"),
        write_item("{draw: {operation: add, digits: 2, count: 1000000000}}"),
        write_item("{ask: answer, problem: 1 + 1, frame_is: gone}"),
        write_item("{draw: {operation: add, digits: 2}, ask: answer}"),
    ],
)
def test_an_editor_would_see_it(text: str) -> None:
    assert find_errors("lesson.schema.json", yaml.safe_load(text)) != []


def test_an_author_may_leave_quotes_out() -> None:
    text = write_lesson(body="- figure: {reads: 305}\n- text: no\n- part: 2026\n")
    assert find_errors("lesson.schema.json", yaml.safe_load(text)) == []


def test_every_key_is_explained() -> None:
    for name in SCHEMAS:
        schema = json.loads(render_schema(name))
        for part in (schema, *schema.get("$defs", {}).values()):
            for key, value in part.get("properties", {}).items():
                assert value.get("description", "").endswith((".", "?")), (name, key)
