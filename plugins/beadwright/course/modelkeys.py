"""Which model reads a place in a file, and which keys it knows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, get_args, get_origin

from pydantic import BaseModel, Tag

from beadwright.course.tags import is_tag


def name_keys(model: type[BaseModel]) -> tuple[str, ...]:
    """The keys that an author may write in a model, as written."""
    return tuple(field.alias or name for name, field in model.model_fields.items())


def find_model(root: type[BaseModel], path: tuple[str | int, ...]) -> type[BaseModel]:
    """The model that reads the keys at `path`, a path of pydantic's with its tags, in a file read by `root`."""
    model, members = root, {"": root}
    for part in path:
        if isinstance(part, int):
            continue
        if is_tag(part):
            model = members[str(part)]
            continue
        members = dict(_read_members(_field_type(model, str(part))))
        model = members.get("", model)
    return model


def _field_type(model: type[BaseModel], key: str) -> Any:
    for name, field in model.model_fields.items():
        if key == (field.alias or name):
            return Annotated[field.annotation, *field.metadata] if field.metadata else field.annotation
    return None


def _read_members(annotation: Any, tag: str = "") -> Iterator[tuple[str, type[BaseModel]]]:
    """The models in a type, each under its tag; under the empty text where it has none."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield tag, annotation
    if get_origin(annotation) is Annotated:
        tags = [data.tag for data in get_args(annotation)[1:] if isinstance(data, Tag)]
        yield from _read_members(get_args(annotation)[0], tags[0] if tags else tag)
        return
    for inner in get_args(annotation):
        yield from _read_members(inner, tag)
