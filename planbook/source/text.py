"""A scalar from a content file: exactly the characters that were typed, and where."""

from __future__ import annotations

from typing import Any, Self

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from planbook.source.findings import Place

NOWHERE = Place("", 0, 0)


class Text(str):
    """Text as typed in a content file, with its place.

    Compares and hashes as its characters, so two Texts from different places are equal.
    """

    place: Place
    __slots__ = ("place",)

    def __new__(cls, text: str, place: Place = NOWHERE) -> Self:
        """`text` at `place`; without a place for a value that stands in no file."""
        self = super().__new__(cls, text)
        self.place = place
        return self

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(cls._validated)

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": ["string", "number", "boolean"]}

    @classmethod
    def _validated(cls, value: object) -> Self:
        if isinstance(value, cls):
            return value
        if isinstance(value, str):
            return cls(value, value.place if isinstance(value, Text) else NOWHERE)
        raise PydanticCustomError("text_expected", "a single value was expected here, not a list or a group of names")


class Words(Text):
    """What a builder reads, and what an edition in another language says in words of its own."""

    __slots__ = ()


class Formula(Text):
    """A formula on quantities: `top.length / 2 + 3/4 in`."""

    __slots__ = ()
