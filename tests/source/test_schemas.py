"""The JSON Schemas in docs/schema are current, and they judge content files as the models do."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from planbook.source import json_schemas, write_schemas

ROOT = Path(__file__).parents[2]


def plain(value: Any) -> Any:
    """Parsed YAML as JSON would have it: an editor's YAML 1.2 reader leaves days as text, and all names are text."""
    if isinstance(value, dict):
        return {str(key): plain(each) for key, each in value.items()}
    if isinstance(value, list):
        return [plain(each) for each in value]
    return value.isoformat() if isinstance(value, date) else value


def demo_files() -> Iterator[tuple[str, str]]:
    """Content files in the repository with the name of their schema."""
    for folder in sorted(ROOT.glob("content/*/")):
        for path in sorted(folder.glob("*.yaml")):
            yield path.stem, str(path.relative_to(ROOT))
        for path in sorted(folder.glob("parts/*.yaml")):
            yield "part", str(path.relative_to(ROOT))
    for path in sorted(ROOT.glob("shared/markets/*.yaml")):
        yield "market", str(path.relative_to(ROOT))
    yield "cautions", "shared/cautions.yaml"


def faults(name: str, value: Any) -> list[str]:
    validator = Draft202012Validator(json_schemas()[f"{name}.schema.json"])
    return [error.message for error in validator.iter_errors(value)]


def test_the_written_schemas_are_current(tmp_path: Path) -> None:
    write_schemas(tmp_path)
    new = {path.name: path.read_text() for path in tmp_path.iterdir()}
    old = {path.name: path.read_text() for path in (ROOT / "docs/schema").glob("*.json")}
    assert old == new


@pytest.mark.parametrize("name", sorted(json_schemas()))
def test_each_schema_is_a_schema(name: str) -> None:
    Draft202012Validator.check_schema(json_schemas()[name])


@pytest.mark.parametrize(("name", "path"), list(demo_files()))
def test_the_content_in_the_repository_fits_its_schema(name: str, path: str) -> None:
    value = YAML(typ="safe", pure=True).load((ROOT / path).read_text())
    if value is not None:  # a file with every line commented out
        assert faults(name, plain(value)) == []


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("part", {"number": 1, "title": "x", "stock": "s", "quantity": 2, "size": [1, 2]}),
        ("part", {"number": 1, "title": "x", "stock": "s", "quantity": 2, "size": [1, 2, 3], "colour": "red"}),
        ("part", {"number": 1, "title": "x", "stock": "s", "quantity": 2, "size": [1, 2, 3], "features": {"a": {}}}),
        ("part", {"number": 1, "title": "x", "stock": "s", "quantity": 2, "size": [1, 2, 3], "kind": None}),
        ("figures", {"Lift": {"picture": "a.png", "caption": "c", "alt": "a"}}),
        ("parameters", {"top": {"length": {"is": "3 mm", "meens": "x"}}}),
        ("parameters", {"top": {"length": ["3 mm"]}}),
        ("positions", {"driver": "lift"}),
    ],
)
def test_a_schema_finds_what_the_model_would_find(name: str, value: Any) -> None:
    assert faults(name, value)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("parameters", {"top": {"length": "59 in", "slope": 0.5, "deep": {"er": {"is": "3 mm", "was": ["old"]}}}}),
        (
            "part",
            {
                "number": 1,
                "title": "x",
                "stock": "s",
                "quantity": {"as_drawn": 1, "mirrored": 1},
                "size": ["a", "b", 3],
                "outline": {"a": [0, 0], "b": {"at": ["x", "y"], "round": "3 mm"}},
                "features": {"pivot": {"hole": "8 mm", "at": [1, 2]}, "bed": {"rabbet": 3, "edge": "left", "depth": 4}},
            },
        ),
    ],
)
def test_short_forms_fit(name: str, value: Any) -> None:
    assert faults(name, value) == []
