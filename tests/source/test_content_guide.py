"""docs/content.md: its examples load, and it names every key that a content file may have."""

import re
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel

from planbook.design.functions import FUNCTIONS
from planbook.measure import UNITS
from planbook.mechanics import CALCULATORS
from planbook.source import forms
from planbook.source.markdown_file import split_prose
from planbook.source.models import (
    assembly,
    changes,
    cutting,
    figures,
    fits,
    market,
    page,
    parameters,
    part,
    plan_set,
    prices,
    rules,
)
from planbook.source.parameter_tree import read_parameters
from planbook.source.spots import known_keys
from planbook.source.validation import validate
from planbook.source.yaml_tree import read_tree

GUIDE = (Path(__file__).parents[2] / "docs/content.md").read_text()
EXAMPLES = re.findall(r"```yaml\n# (\S+)\n(.*?)```", GUIDE, re.DOTALL)
PROSE = re.findall(r"```markdown\n<!-- (\S+) -->\n(.*?)```", GUIDE, re.DOTALL)
MODULES = (assembly, changes, cutting, figures, fits, market, page, parameters, part, plan_set, prices, rules)


def form_of(path: str) -> Any:
    folder, name = path.removesuffix(".yaml").split("/")[-2:]
    if folder == "parts":
        return forms.PART
    if folder == "prices":
        return forms.PRICES
    if folder == "markets":
        return forms.MARKET if path.startswith("shared") else forms.MARKET_ADDITIONS
    return forms.HANDBOOK if name == "handbook" else forms.SET_FILES[name]


def all_keys() -> set[str]:
    models = {
        each
        for module in MODULES
        for each in vars(module).values()
        if isinstance(each, type) and issubclass(each, BaseModel)
    }
    return {key for model in models for key in known_keys(model)}


def test_there_is_an_example_of_every_kind_of_file() -> None:
    shown = {Path(path).stem for path, _ in EXAMPLES}
    assert shown >= {*forms.SET_FILES, "parameters"}
    assert len(PROSE) == 2


@pytest.mark.parametrize(("path", "text"), EXAMPLES)
def test_an_example_is_good_content(path: str, text: str) -> None:
    tree, findings = read_tree(text, path)
    assert tree is not None, findings
    _, findings = read_parameters(tree) if path.endswith("parameters.yaml") else validate(form_of(path), tree)
    assert findings == ()


@pytest.mark.parametrize(("path", "text"), PROSE)
def test_an_example_of_prose_is_good_content(path: str, text: str) -> None:
    parts, findings = split_prose(text, path)
    assert parts is not None, findings
    _, findings = validate(forms.STEP_HEAD if "/steps/" in path else forms.PAGE_HEAD, parts[0])
    assert findings == ()


@pytest.mark.parametrize("key", sorted(all_keys()))
def test_every_key_is_shown(key: str) -> None:
    assert re.search(rf"(?<![\w]){key}: |`{key}`|^\s*{key}:$", GUIDE, re.MULTILINE)


def test_the_units_and_functions_of_formulas_are_listed() -> None:
    listed = {word for words in re.findall(r"`([^`]+)`", GUIDE.split("## set.yaml")[0]) for word in words.split()}
    assert listed >= {*UNITS, *FUNCTIONS} - {*CALCULATORS}
    assert "(mechanics.md)" in GUIDE
