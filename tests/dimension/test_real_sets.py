"""The workspace's own plan sets: sound shapes, and the same ids in every edition."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.design import Overrides, evaluate, plan_design
from planbook.dimension import dimension_parts
from planbook.shape import place_components, shape_parts
from planbook.source import Door, list_sets, load

DOOR = Door(Path(__file__).parents[2])


@pytest.mark.parametrize("key", list_sets(DOOR))
def test_a_set_has_the_same_dimensions_in_every_edition(key: str) -> None:
    content, findings = load(DOOR, key)
    assert findings == ()
    assert content is not None
    plan, findings = plan_design(content)
    assert findings == ()
    assert plan is not None
    ids = {}
    for name, edition in content.plan_set.editions.items():
        design, evaluating = evaluate(plan, Overrides(str(edition.market)))
        assert design is not None
        parts, shaping = shape_parts(content, design)
        components, placing = place_components(content, design, parts)
        dimensions, stating = dimension_parts(content, design, parts, edition.units)
        assert (*evaluating, *shaping, *placing, *stating) == ()
        assert list(parts) == list(content.parts)
        assert content.assembly is not None
        assert len(components) == len(content.assembly.components)
        ids[name] = set(dimensions)
    assert len(set(map(frozenset, ids.values()))) == 1
