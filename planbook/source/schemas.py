"""JSON Schemas of the content files, in the form in which the files are written, for editors."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from planbook.source import forms
from planbook.source.models.parameters import ParameterModel
from planbook.source.names import NAME
from planbook.source.parameter_tree import LEAF_KEYS

DIALECT = "https://json-schema.org/draft/2020-12/schema"


class FileSchema(GenerateJsonSchema):
    """As pydantic writes it, but for files: a missing key is left out and never null, and other keys are refused."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        """The schema without null."""
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        """The schema with its default where that can be written in a file."""
        written = super().default_schema(schema)
        return {key: value for key, value in written.items() if key != "default" or value not in (None, "", [], {})}

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        """Names of one form leading to values of one form."""
        written = super().dict_schema(schema)
        patterns = written.pop("patternProperties", {})
        for pattern, value in patterns.items():
            written |= {"propertyNames": {"pattern": pattern}, "additionalProperties": value}
        return written

    def field_title_should_be_set(self, schema: Any) -> bool:  # noqa: ARG002
        """Never: a title that repeats the key says nothing."""
        return False


def json_schemas() -> Mapping[str, dict[str, Any]]:
    """File name (`part.schema.json`) to schema, for every kind of content file and the heads of prose files."""
    annotations = {**forms.SET_FILES, **forms.FOLDER_FILES, **forms.HEADS}
    schemas = {name: _schema(annotation) for name, annotation in annotations.items()}
    schemas["parameters"] = _parameters_schema()
    return {f"{name}.schema.json": {"$schema": DIALECT, **schemas[name]} for name in sorted(schemas)}


def write_schemas(folder: Path) -> tuple[Path, ...]:
    """Writes each schema into the folder, which must exist, and gives the paths. Raises `OSError`."""
    paths = []
    for name, schema in json_schemas().items():
        path = folder / name
        path.write_text(json.dumps(schema, indent=2, sort_keys=True, ensure_ascii=False) + "\n", encoding="utf-8")
        paths.append(path)
    return tuple(paths)


def _schema(annotation: Any) -> dict[str, Any]:
    return TypeAdapter(annotation).json_schema(by_alias=True, schema_generator=FileSchema)


def _parameters_schema() -> dict[str, Any]:
    """A group is names that lead to leaves or groups; what has a key of a leaf is a leaf."""
    leaf = _schema(ParameterModel)
    definitions = leaf.pop("$defs", {})
    leaf_like = {"anyOf": [{"not": {"type": "object"}}, *({"required": [key]} for key in sorted(LEAF_KEYS))]}
    group = {
        "type": "object",
        "propertyNames": {"pattern": f"^{NAME}$"},
        "additionalProperties": {"if": leaf_like, "then": {"$ref": "#/$defs/Leaf"}, "else": {"$ref": "#/$defs/Group"}},
    }
    return {"$ref": "#/$defs/Group", "title": "parameters.yaml", "$defs": {**definitions, "Leaf": leaf, "Group": group}}
