"""Taking off in small plan sets made in memory."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from planbook.measure import Units
from planbook.shape import shape_parts
from planbook.source import forms
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.prices import PricesModel
from planbook.source.validation import validate
from planbook.source.yaml_tree import read_tree
from planbook.takeoff import TakenOff, take_off
from tests.shape.making import MARKET, content_of, design_of

STOCK: Any = MARKET["stock"]
SOLD: Any = {
    **MARKET,
    "stock": {
        "sheet": {**STOCK["sheet"], "sizes": (("2440 mm", "1220 mm"), ("1525 mm", "1525 mm"))},
        "board": {
            **STOCK["board"],
            "sizes": (("2400 mm", "150 mm"),),
            "rough": "32 mm",
            "allowance": "15 %",
        },
        "rod": {
            "kind": "rod",
            "title": "20 mm rod",
            "material": "Beech",
            "thickness": "20 mm",
            "sizes": (("1 m", "20 mm"),),
        },
    },
    "finishes": {"oil": {"title": "Oil", "pack": "750 ml", "covers": "1 m * 2 m"}},
}


def read(form: Any, text: str) -> Any:
    """What a content file says, which must be sound."""
    tree, findings = read_tree(text, "trial.yaml")
    assert tree is not None, findings
    value, findings = validate(form, tree)
    assert findings == ()
    return value


def small_set(
    parts: dict[str, Any],
    cutting: str = "",
    finishing: str = "",
    prices: str = "",
    hardware: dict[str, Any] | None = None,
    components: dict[str, Any] | None = None,
    market: Any = SOLD,
) -> Content:
    """A plan set of these parts, with these files."""
    content = content_of(parts, hardware=hardware, market=market, components=components)
    priced: dict[str, PricesModel] = {"europe": read(forms.PRICES, prices)} if prices else {}
    return replace(
        content,
        folder="content/trial",
        cutting=read(forms.CUTTING, cutting) if cutting else content.cutting,
        finishing=read(forms.FINISHING, finishing) if finishing else {},
        prices=priced,
    )


def take(content: Content, units: Units = Units.MILLIMETRE, times: int = 1) -> tuple[TakenOff, tuple[Finding, ...]]:
    """What is taken off of it."""
    design = design_of(content)
    parts, shaping = shape_parts(content, design)
    assert shaping == ()
    return take_off(content, design, parts, units, times)


def taken(content: Content, units: Units = Units.MILLIMETRE, times: int = 1) -> TakenOff:
    """The same without findings."""
    found, findings = take(content, units, times)
    assert findings == ()
    return found
