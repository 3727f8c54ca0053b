"""The assembly in a named position: the design with its driver at the position's value, placed anew."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.design import Design, Plan, evaluate
from planbook.measure import Quantity
from planbook.shape import place_components
from planbook.shape.model import Component, Part
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.text import Text


def place_in(
    position: Text, content: Content, design: Design, plan: Plan, parts: Mapping[str, Part]
) -> tuple[tuple[Component, ...], tuple[Finding, ...]]:
    """All components with the drivers where the position says; none when that has a fault, which the findings tell."""
    driven = content.positions
    if driven is None or position not in driven.positions:
        return (), ()
    values: dict[str, Quantity] = {}
    for name, formula in driven.stand(position).items():
        driver = design.parameters.get(str(name))
        if driver is None:
            return (), ()
        value, findings = design.solve(formula, driver.value.quantity.dimensionality)
        if value is None:
            return (), findings
        values[driver.name] = value.quantity
    there, findings = evaluate(plan, design.overriding(values))
    if there is None:
        return (), findings
    components, more = place_components(content, there, parts)
    return components, (*findings, *more)
