"""The assembly in a named position: the design with its driver at the position's value, placed anew."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.design import Design, Plan, evaluate
from planbook.shape import place_components
from planbook.shape.model import Component, Part
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.text import Text


def place_in(
    position: Text, content: Content, design: Design, plan: Plan, parts: Mapping[str, Part]
) -> tuple[tuple[Component, ...], tuple[Finding, ...]]:
    """All components with the driver where the position says; none when that has a fault, which the findings tell."""
    driven = content.positions
    driver = design.parameters.get(str(driven.driver)) if driven is not None else None
    if driven is None or driver is None or position not in driven.positions:
        return (), ()
    value, findings = design.solve(driven.positions[position], driver.value.quantity.dimensionality)
    if value is None:
        return (), findings
    there, findings = evaluate(plan, design.overriding({driver.name: value.quantity}))
    if there is None:
        return (), findings
    components, more = place_components(content, there, parts)
    return components, (*findings, *more)
