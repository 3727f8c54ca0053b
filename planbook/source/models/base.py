"""What every content model shares: frozen, no unknown keys, values read exactly, fields described for an editor."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, ClassVar

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetJsonSchemaHandler,
    WithJsonSchema,
    model_validator,
)
from pydantic_core import CoreSchema, PydanticCustomError

from planbook.source.names import DOTTED_NAME, DURATION, NAME, SHEET, VERSION, is_name
from planbook.source.text import Formula, Text


class ContentModel(BaseModel):
    """A mapping in a content file: every key is known, nothing changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def _whole(value: object) -> int:
    if isinstance(value, int) or (isinstance(value, str) and re.fullmatch(r"[+-]?[0-9]{1,9}", value)):
        return int(value)
    raise PydanticCustomError("whole_number", "a whole number is expected")


def _flag(value: object) -> bool:
    if isinstance(value, bool):
        return value
    if isinstance(value, str) and value in ("true", "false"):
        return value == "true"
    raise PydanticCustomError("flag", "true or false is expected")


def _day(value: object) -> date:
    if isinstance(value, date):
        return value
    if isinstance(value, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
        try:
            return date.fromisoformat(value)
        except ValueError:
            raise PydanticCustomError("day", "there is no such day") from None
    raise PydanticCustomError("day", "a date is expected")


def _named(value: Text) -> Text:
    if not is_name(value):
        raise PydanticCustomError("name", "a name is lower-case letters, digits and underscores")
    return value


def _dotted(value: Text) -> Text:
    if not all(is_name(part) for part in value.split(".")):
        raise PydanticCustomError("name", "a dotted name is names joined by full stops")
    return value


def formed(pattern: str, what: str, sample: str) -> AfterValidator:
    """Demands the form of `pattern`; `what` and `sample` tell an author about it."""

    def check(value: Text) -> Text:
        if not re.fullmatch(pattern, value):
            raise PydanticCustomError("form", "not in the right form", {"what": what, "sample": sample})
        return value

    return AfterValidator(check)


WHOLE = BeforeValidator(_whole)
"""Marks an int field: digits only, no `3.0`, no `1_000`."""
Flag = Annotated[bool, BeforeValidator(_flag)]
Day = Annotated[date, BeforeValidator(_day)]
Name = Annotated[Text, AfterValidator(_named), WithJsonSchema({"type": "string", "pattern": f"^{NAME}$"})]
DottedName = Annotated[Text, AfterValidator(_dotted), WithJsonSchema({"type": "string", "pattern": f"^{DOTTED_NAME}$"})]
Version = Annotated[
    Text, formed(VERSION, "a version", "1.0"), WithJsonSchema({"type": "string", "pattern": f"^{VERSION}$"})
]
Duration = Annotated[
    Text,
    formed(DURATION, "a time", "5 to 10 min"),
    WithJsonSchema({"type": "string", "pattern": f"^{DURATION}$"}),
]
SheetNumber = Annotated[
    Text,
    formed(SHEET, "a sheet number", "12a"),
    WithJsonSchema({"type": ["string", "integer"], "pattern": f"^{SHEET}$"}),
]
Pair = Annotated[tuple[Formula, Formula], Field(description="Two measures: [x, y] on a face, or [length, width].")]
Triple = Annotated[tuple[Formula, Formula, Formula], Field(description="Three measures: [x, y, z].")]


def recognised_by(keys: Mapping[str, type[ContentModel]], what: str) -> BeforeValidator:
    """Demands that a mapping has exactly one of the keys by which `what` ("feature", "figure") is recognised."""

    def check(value: Any) -> Any:
        if isinstance(value, BaseModel):
            return value
        found = [key for key in keys if isinstance(value, Mapping) and key in value]
        if len(found) != 1:
            context = {"what": what, "keys": list(keys), "found": found}
            raise PydanticCustomError("unrecognised", "not one of the kinds", context)
        return value

    return BeforeValidator(check)


def tag_by(keys: Mapping[str, type[ContentModel]]) -> Any:
    """The discriminator that goes with `recognised_by`."""

    def tag(value: Any) -> str | None:
        if isinstance(value, Mapping):
            return next((key for key in keys if key in value), None)
        return next((key for key, model in keys.items() if isinstance(value, model)), None)

    return tag


def fault(message: str, remedy: str) -> PydanticCustomError:
    """What a model raises when its values do not go together."""
    return PydanticCustomError("together", "{message}", {"message": message, "remedy": remedy})


class ShortModel(ContentModel):
    """A mapping that may be written short: a bare value (or list) stands for the mapping with only `short_key`."""

    short_key: ClassVar[str]
    short_kind: ClassVar[type[str] | type[list[Any]]]

    @model_validator(mode="before")
    @classmethod
    def _lengthen(cls, value: Any) -> Any:
        return {cls.short_key: value} if isinstance(value, cls.short_kind) else value

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        reference = handler(schema)
        full = handler.resolve_ref_schema(reference)
        long = dict(full)
        full.clear()
        full["anyOf"] = [long["properties"][cls.short_key], long]
        return reference
