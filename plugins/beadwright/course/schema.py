"""JSON Schemas of the course's files, for editors that complete and check while one types.

They are made from the models and published under `site_templates/schema`; a test holds them current. What needs more
than one place or the engine to know is beyond them and left to `beadwright check`.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from beadwright.course.models_course import Course, Glossary
from beadwright.course.models_lesson import LessonFile
from beadwright.paths import templates_dir

SCHEMAS: dict[str, tuple[type[BaseModel], str]] = {
    "lesson.schema.json": (LessonFile, "A Beadwright lesson"),
    "course.schema.json": (Course, "A Beadwright course"),
    "glossary.schema.json": (Glossary, "A Beadwright glossary"),
}
"""The model and the title of each schema by file name."""


class _AuthorsSchema(GenerateJsonSchema):
    """A schema for people who write: no nulls (a key is left out instead), no titles made from field names."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        # Defaults are told in the descriptions where they matter; as data they would show our inner values.
        return self.generate_inner(schema["schema"])

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False


def render_schema(name: str) -> str:
    """The JSON Schema that is published under this file name, as text; `KeyError` for another name."""
    model, title = SCHEMAS[name]
    schema = model.model_json_schema(schema_generator=_AuthorsSchema)
    for part in schema.get("$defs", {}).values():
        _require_kind(part)
    whole = {"$schema": "https://json-schema.org/draft/2020-12/schema", **_without_titles(schema), "title": title}
    return json.dumps(whole, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def _require_kind(part: dict[str, Any]) -> None:
    """An item says what it asks, though the model, once chosen by it, would not need to be told again."""
    if "const" in part.get("properties", {}).get("ask", {}):
        part["required"] = ["ask", *part.get("required", [])]


def _without_titles(schema: Any) -> Any:
    """The schema without the names of our classes; a property called `title` stays."""
    if isinstance(schema, list):
        return [_without_titles(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    return {
        key: _without_titles(part) for key, part in schema.items() if not (key == "title" and isinstance(part, str))
    }


def write_schemas(folder: Path | None = None) -> tuple[Path, ...]:
    """Write all schemas into `folder`, by default where they ship; gives the files."""
    target = templates_dir() / "schema" if folder is None else folder
    target.mkdir(parents=True, exist_ok=True)
    written = []
    for name in SCHEMAS:
        written.append(target / name)
        written[-1].write_text(render_schema(name), encoding="utf-8")
    return tuple(written)
