"""Statements of a few parts, told as the program tells them, and the same with other printed numbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from planbook.dimension import dimension_parts
from planbook.impact import PartImpact, weigh
from planbook.measure import Units
from planbook.shape import shape_parts
from planbook.statement import compare
from planbook.statement.model import Statement
from planbook.statement.restating import Wording, state_dimension, state_part
from tests.shape.making import content_of, design_of
from tests.statement.small import STATEMENT

MM = 1e6
GENERAL = ("Lengths ±0.5 mm, angles ±0.5°, unless a tolerance is stated.",)


def is_whole(parts: Mapping[str, Mapping[str, Any]]) -> bool:
    """Whether what a chance made of the parts hangs together; a few of its cuts part one in two."""
    content = content_of(parts, {})
    return shape_parts(content, design_of(content))[1] == ()


def told(parts: Mapping[str, Mapping[str, Any]], version: str = "1.0", **parameters: Any) -> Statement:
    """What the sheets of these parts tell, and nothing else."""
    content = content_of(parts, parameters)
    design = design_of(content)
    shaped, findings = shape_parts(content, design)
    assert findings == ()
    dimensions, _ = dimension_parts(content, design, shaped, Units.MILLIMETRE)
    stated = {
        key: state_part(
            each, shaped, design, Units.MILLIMETRE, Wording((), dict.fromkeys(each.features, ""), frozenset())
        )
        for key, each in shaped.items()
    }
    return replace(
        STATEMENT,
        version=version,
        plan_set=replace(STATEMENT.plan_set, general_tolerance=GENERAL),
        parameters={},
        parts=stated,
        dimensions={name: state_dimension(each) for name, each in dimensions.items()},
        lists={},
        sheets={},
        steps=(),
        blocks=(),
    )


def printed_as(statement: Statement, name: str, mm: float) -> Statement:
    """The same with another number printed for a dimension: the model does not move."""
    old = statement.dimensions[name]
    new = replace(old, printed=replace(old.printed, text=f"{mm:g}", value=mm * MM))
    return replace(statement, dimensions={**statement.dimensions, name: new})


def impact(old: Statement, new: Statement, key: str = "plate") -> PartImpact:
    """What it means for one part."""
    found = weigh(compare(old, new)).of(key)
    assert found is not None
    return found


def plate(length: str = "400 mm", width: str = "80 mm", **features: Any) -> dict[str, Any]:
    """A plate of 18 mm with features."""
    return {"size": (length, width, "18 mm"), "features": features}


def hole(x: str = "173 mm", y: str = "40 mm", size: str = "8 mm", **more: Any) -> dict[str, Any]:
    """A hole in the face."""
    return {"hole": size, "at": (x, y), "on": "face", **more}
