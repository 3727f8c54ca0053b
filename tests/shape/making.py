"""Small plan sets made in memory: any text becomes a formula with a place of its own."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from itertools import count
from typing import Any

from planbook.design import Design, Overrides, evaluate, plan_design
from planbook.shape import shape_parts
from planbook.shape.model import Feature, Part
from planbook.source.content import Content
from planbook.source.findings import Finding, Place
from planbook.source.models.assembly import AssemblyModel
from planbook.source.models.market import HardwareUseModel, MarketModel
from planbook.source.models.parameters import ParameterModel
from planbook.source.models.part import PartModel
from planbook.source.models.plan_set import SetModel
from planbook.source.text import Formula, Text

MM = 1_000_000.0
SET = {
    "title": "Trial",
    "code": "T",
    "summary": "Trial.",
    "workshop": {"name": "Trial"},
    "issued": date(2026, 1, 1),
    "drawn_by": "A",
    "approved_by": "B",
    "editions": {
        "metric": {
            "title": "Metric",
            "units": "millimetre",
            "paper": "a4",
            "projection": "first_angle",
            "market": "europe",
        }
    },
    "tolerances": {"length": "1 mm", "angle": "0.5 deg", "diagonals": "1 mm", "moisture": "8 %"},
    "cover": "front",
    "cautions": (),
}
MARKET = {
    "title": "Europe",
    "stock": {
        "sheet": {
            "kind": "sheet",
            "title": "18 mm plywood",
            "material": "Plywood",
            "thickness": "18 mm",
            "accepted": ("17.6 mm", "18.4 mm"),
        },
        "board": {"kind": "board", "title": "27 mm beech", "material": "Beech", "thickness": "27 mm"},
    },
    "hardware": {"bolt": {"title": "M6 bolt", "measures": {"clearance": "6.5 mm"}}},
    "drills": ("5 mm", "6.5 mm", "8 mm", "10 mm", "12 mm"),
}
PLATE = {"number": 1, "title": "Plate", "stock": "sheet", "quantity": {"as_drawn": 1}}


def placed(value: Any) -> Any:
    """The same value with every text a Formula and every name a Text, each at a line of its own."""
    lines = count(1)

    def walk(node: Any) -> Any:
        if isinstance(node, Mapping):
            return {_named(key, next(lines)): walk(each) for key, each in node.items()}
        if isinstance(node, list | tuple):
            return tuple(walk(each) for each in node)
        return Formula(node, Place("trial.yaml", next(lines), 1)) if isinstance(node, str) else node

    return walk(value)


def _named(key: str, line: int) -> str:
    return Text(key, Place("trial.yaml", line, 1))


def content_of(
    parts: Mapping[str, Mapping[str, Any]],
    parameters: Mapping[str, Any] | None = None,
    components: Mapping[str, Any] | None = None,
    hardware: Mapping[str, Any] | None = None,
    market: Mapping[str, Any] = MARKET,
) -> Content:
    """A plan set of these parts, in the market "europe"."""
    leaves = {name: leaf if isinstance(leaf, Mapping) else {"is": leaf} for name, leaf in (parameters or {}).items()}
    read = {key: PartModel.model_validate(placed({**PLATE, **part})) for key, part in parts.items()}
    uses = placed(hardware or {})
    return Content(
        key="trial",
        plan_set=SetModel.model_validate(SET),
        parameters={name: ParameterModel.model_validate(leaf) for name, leaf in placed(leaves).items()},
        parts=read,
        part_files={key: f"parts/{key}.yaml" for key in read},
        markets={"europe": MarketModel.model_validate(placed(market))},
        hardware={key: HardwareUseModel.model_validate(use) for key, use in uses.items()},
        assembly=AssemblyModel.model_validate({"components": placed(components)}) if components else None,
    )


def design_of(content: Content) -> Design:
    """The design of the one market, which must be sound."""
    plan, planning = plan_design(content)
    assert plan is not None
    design, evaluating = evaluate(plan, Overrides("europe"))
    assert design is not None
    assert (*planning, *evaluating) == ()
    return design


def shaped(part: Mapping[str, Any], **parameters: Any) -> tuple[Part | None, tuple[Finding, ...]]:
    """One part and the findings about it."""
    content = content_of({"plate": part}, parameters)
    parts, findings = shape_parts(content, design_of(content))
    return parts.get("plate"), findings


def sound(part: Mapping[str, Any], **parameters: Any) -> Part:
    """One part that must be without findings."""
    made, findings = shaped(part, **parameters)
    assert findings == ()
    assert made is not None
    return made


def plate(length: str = "400 mm", width: str = "200 mm", thickness: str = "18 mm", **rest: Any) -> dict[str, Any]:
    """A plain plate with perhaps an outline or more."""
    return {"size": (length, width, thickness), **rest}


def feature_on_plate(feature: Mapping[str, Any]) -> Feature:
    """A feature named `it` on a plate of 400 by 200 by 18 mm, which must be without findings."""
    return sound(plate(features={"it": feature})).features["it"]


def finding_on_plate(feature: Mapping[str, Any]) -> Finding:
    """The one finding about a feature named `it` on a plate of 400 by 200 by 18 mm."""
    part, findings = shaped(plate(features={"it": feature}))
    assert len(findings) == 1
    assert part is not None
    assert "it" not in part.features
    return findings[0]
