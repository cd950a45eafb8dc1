"""Markers that turn the text of a single value into what a model means by it, or say what should be there.

Each stands in an `Annotated` type and gives both the reading of the value and its JSON Schema, so that the two cannot
drift. A value that already has its type passes, so that models can be built in Python too.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Any, get_args

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from beadwright.course.nearness import name_choices, suggest_near

Json = dict[str, Any]

LONGEST_LINE = 300
LONGEST_PROSE = 20_000
LONGEST_ID = 60
_TEXT_JSON: Json = {"type": ["string", "number", "boolean"]}  # `305` and `no` are text to us, not to an editor
_PERCENT = "^[0-9.]+ ?%?$"
ODD_CHARACTER = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]")


def fail(code: str, **fields: str | int) -> PydanticCustomError:
    """The error that becomes the finding `code`; `at` among the fields names a key or entry below to point at.

    `{found}` is filled in later from the author's own text.
    """
    return PydanticCustomError(code, "{code}", {**fields, "code": code})


def as_text(value: object) -> str:
    """The value as the text it was written as; raises the error `not-text` for a list, keys or nothing."""
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float | Decimal):
        return str(value)
    raise fail("not-text")


class Marker:
    """What all markers share: `read` gives the value or raises, `json` its JSON Schema."""

    def read(self, value: object, source: Any) -> Any:
        """The value as the model's type `source`; raises `PydanticCustomError`."""
        raise NotImplementedError

    def json(self, source: Any) -> Json:
        """The JSON Schema of what an author may write."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """What pydantic asks for: `read` in place of its own reading of `source`."""

        def write_json(_: CoreSchema, __: GetJsonSchemaHandler) -> Json:
            return self.json(source)

        return core_schema.no_info_plain_validator_function(
            lambda value: self.read(value, source), metadata={"pydantic_js_functions": [write_json]}
        )


@dataclass(frozen=True, slots=True)
class Words(Marker):
    """Text of one line, or of several where `lines` says so, at most `most` characters, never empty."""

    most: int = LONGEST_LINE
    lines: bool = False

    def read(self, value: object, source: Any) -> str:
        """The text without white space around it."""
        text = as_text(value).strip()
        if text == "":
            raise fail("not-text")
        odd = ODD_CHARACTER.search(text)
        if odd is not None:
            raise fail("text-character", sign=name_character(odd.group()))
        if not self.lines and len(text.splitlines()) > 1:
            raise fail("text-lines")
        if len(text) > self.most:
            raise fail("text-long", most=self.most, count=len(text))
        return text

    def json(self, source: Any) -> Json:
        """Text, or what YAML takes for a number or a yes."""
        return {**_TEXT_JSON, "minLength": 1, "maxLength": self.most}


def name_character(sign: str) -> str:
    """A character's number, as in character tables.

    >>> name_character(chr(7))
    'U+0007'
    """
    return f"U+{ord(sign):04X}"


@dataclass(frozen=True, slots=True)
class Whole(Marker):
    """A whole number from `low` to `high`."""

    low: int
    high: int

    def read(self, value: object, source: Any) -> int:
        """The number; digits only, so that no size of input is slow to read."""
        text = as_text(value)
        if re.fullmatch(r"[0-9]{1,12}", text) is None or not self.low <= int(text) <= self.high:
            raise fail("value-whole", low=self.low, high=self.high)
        return int(text)

    def json(self, source: Any) -> Json:
        """An integer within the limits."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True)
class Share(Marker):
    """A share from 0 to 1, written as such or as a percent."""

    def read(self, value: object, source: Any) -> Decimal:
        """The share, exactly as written: `80 %` is 0.8."""
        found = re.fullmatch(r"([0-9]{1,3}(?:\.[0-9]{1,4})?) ?(%?)", as_text(value), re.ASCII)
        share = Decimal(2) if found is None else Decimal(found[1]) / (100 if found[2] == "%" else 1)
        if share > 1:
            raise fail("value-share")
        return share

    def json(self, source: Any) -> Json:
        """A number from 0 to 1 or text with a percent sign."""
        return {"anyOf": [{"type": "number", "minimum": 0, "maximum": 1}, {"type": "string", "pattern": _PERCENT}]}


@dataclass(frozen=True, slots=True)
class Hours(Marker):
    """Hours with at most two decimals."""

    def read(self, value: object, source: Any) -> Decimal:
        """The hours, exactly as written."""
        text = as_text(value)
        if re.fullmatch(r"[0-9]{1,4}(\.[0-9]{1,2})?", text, re.ASCII) is None or Decimal(text) > 1000:
            raise fail("value-hours")
        return Decimal(text)

    def json(self, source: Any) -> Json:
        """A number."""
        return {"type": "number", "minimum": 0, "maximum": 1000, "multipleOf": 0.01}


@dataclass(frozen=True, slots=True)
class Amount(Marker):
    """A number from `low` to `high`, with decimals or without."""

    low: int
    high: int

    def read(self, value: object, source: Any) -> float:
        """The number."""
        text = as_text(value)
        if re.fullmatch(r"-?[0-9]{1,12}(\.[0-9]{1,6})?", text) is None or not self.low <= float(text) <= self.high:
            raise fail("value-amount", low=self.low, high=self.high)
        return float(text)

    def json(self, source: Any) -> Json:
        """A number within the limits."""
        return {"type": "number", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True)
class Date(Marker):
    """A day of the calendar, such as `2026-09-14`."""

    def read(self, value: object, source: Any) -> date:
        """The day."""
        text = as_text(value)
        if re.fullmatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", text) is None:
            raise fail("value-date")
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise fail("value-date") from None

    def json(self, source: Any) -> Json:
        """Text, or what YAML takes for a date."""
        return {"type": "string", "format": "date"}


@dataclass(frozen=True, slots=True)
class YesNo(Marker):
    """Yes or no, or true or false, as in YAML."""

    def read(self, value: object, source: Any) -> bool:
        """The answer as a truth value."""
        text = as_text(value).lower()
        if text not in ("yes", "no", "true", "false"):
            raise fail("value-yes-no")
        return text in ("yes", "true")

    def json(self, source: Any) -> Json:
        """A boolean, or the words that newer YAML leaves as text."""
        return {"enum": [True, False, "yes", "no"]}


@dataclass(frozen=True, slots=True)
class Identifier(Marker):
    """A name that links and records are built on: small letters, digits, single hyphens."""

    example: str = "partner-of-10"

    def read(self, value: object, source: Any) -> str:
        """The id."""
        text = as_text(value)
        if not is_id(text):
            raise fail("value-id", example=self.example)
        return text

    def json(self, source: Any) -> Json:
        """Text by the pattern."""
        return {"type": "string", "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$", "maxLength": LONGEST_ID}


def is_id(text: str) -> bool:
    """Whether `text` can be an id: small letters and digits, single hyphens between, at most 60 characters."""
    return len(text) <= LONGEST_ID and re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", text, re.ASCII) is not None


@dataclass(frozen=True, slots=True)
class Language(Marker):
    """The code of a language, such as `en` or `es-MX`."""

    def read(self, value: object, source: Any) -> str:
        """The code."""
        text = as_text(value)
        if re.fullmatch(r"[a-z]{2,3}(-[A-Z]{2})?", text, re.ASCII) is None:
            raise fail("value-language")
        return text

    def json(self, source: Any) -> Json:
        """Text by the pattern; `no` is a language too, and a truth value to some editors."""
        return {"type": "string", "pattern": "^[a-z]{2,3}(-[A-Z]{2})?$"}


@dataclass(frozen=True, slots=True)
class Choice(Marker):
    """One of the names that the annotated type lists: a `Literal` or a `StrEnum`.

    `but` takes names out that the type has and a lesson may not use.
    """

    but: tuple[str, ...] = ()

    def names(self, source: Any) -> tuple[str, ...]:
        """The names an author may write."""
        names = tuple(str(name) for name in (get_args(source) or source))
        return tuple(name for name in names if name not in self.but)

    def read(self, value: object, source: Any) -> str:
        """The name, as a member of the enum where there is one."""
        text, names = as_text(value), self.names(source)
        if text not in names:
            raise fail("value-choice", choices=name_choices(names), near=suggest_near(text, names))
        return text if get_args(source) else make_member(source, text)

    def json(self, source: Any) -> Json:
        """The names."""
        return {"enum": list(self.names(source))}


def make_member(source: type[StrEnum], text: str) -> StrEnum:
    """The member of an enum that stands for `text`."""
    return source(text)


@dataclass(frozen=True, slots=True)
class Listed:
    """Lets a single value stand for a list of one. Goes before the type of a tuple."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """A text becomes a list of itself before the list is read."""
        return core_schema.no_info_before_validator_function(
            lambda value: (value,) if isinstance(value, str) else value, handler(source)
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> Json:
        """Either the list or one of its entries."""
        whole = handler(schema)
        return {"anyOf": [whole["items"], whole]}


@dataclass(frozen=True, slots=True)
class Short:
    """Lets a single text stand for keys with that text under one `key`. Goes before the type of a model."""

    key: str

    def spread(self, value: object) -> object:
        """The keys that a text stands for; anything else as it is."""
        return {self.key: value} if isinstance(value, str) else value

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """A text is spread before the model is read."""
        return core_schema.no_info_before_validator_function(self.spread, handler(source))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> Json:
        """Either the text or the keys."""
        reference = handler(schema)
        keys: Mapping[str, Json] = handler.resolve_ref_schema(reference)["properties"]
        return {"anyOf": [{k: v for k, v in keys[self.key].items() if k != "description"}, reference]}
