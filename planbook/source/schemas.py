"""JSON Schemas of the content files, in the form in which the files are written, for editors."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter

from planbook.source import forms
from planbook.source.models.parameters import ParameterModel
from planbook.source.names import NAME
from planbook.source.parameter_tree import LEAF_KEYS

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def json_schemas() -> Mapping[str, dict[str, Any]]:
    """File name (`part.schema.json`) to schema, for every kind of content file and the heads of prose files."""
    annotations = {**forms.SET_FILES, **forms.FOLDER_FILES, "page-head": forms.PAGE_HEAD, "step-head": forms.STEP_HEAD}
    schemas = {name: TypeAdapter(annotation).json_schema(by_alias=True) for name, annotation in annotations.items()}
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


def _parameters_schema() -> dict[str, Any]:
    """A group is names that lead to leaves or groups; what has a key of a leaf is a leaf."""
    leaf = TypeAdapter(ParameterModel).json_schema(by_alias=True, ref_template="#/$defs/{model}")
    definitions = leaf.pop("$defs", {})
    leaf_like = {"anyOf": [{"not": {"type": "object"}}, *({"required": [key]} for key in sorted(LEAF_KEYS))]}
    group = {
        "type": "object",
        "propertyNames": {"pattern": f"^{NAME}$"},
        "additionalProperties": {"if": leaf_like, "then": {"$ref": "#/$defs/Leaf"}, "else": {"$ref": "#/$defs/Group"}},
    }
    return {"$ref": "#/$defs/Group", "title": "parameters.yaml", "$defs": {**definitions, "Leaf": leaf, "Group": group}}
