"""The published values of tests/reference/units.yaml."""

from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

_FILE = Path(__file__).parents[1] / "reference" / "units.yaml"


def published(topic: str) -> Any:
    return YAML(typ="safe").load(_FILE.read_text(encoding="utf-8"))[topic]
