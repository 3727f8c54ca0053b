"""A design with what its components weigh: they are shaped and placed first, so nothing of that may hang on it."""

from __future__ import annotations

from collections.abc import Sequence

from planbook.design import Design, Plan, dependents, evaluate
from planbook.design.entries import CENTRE, MASS
from planbook.shape.model import Component
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.mentions import names_in
from planbook.source.text import Text
from planbook.takeoff import weigh

Findings = tuple[Finding, ...]


def with_masses(
    content: Content, design: Design, found: Findings, plan: Plan, components: Sequence[Component]
) -> tuple[Design, Findings]:
    """The design evaluated again with its masses, as it was where it has none. `found` is what was found before, when
    they had no value: what is found with them takes its place.
    """
    if content.assembly is None or not content.assembly.masses:
        return design, found
    circular = _circular(content, plan)
    values, weighing = ({}, ()) if circular else weigh(content, design, components)
    weighed, last = evaluate(plan, design.overriding(values)) if values else (None, ())
    return (design, (*found, *circular, *weighing)) if weighed is None else (weighed, (*weighing, *last))


def _circular(content: Content, plan: Plan) -> Findings:
    """A finding for each mass that the shape or the place of something hangs on."""
    assert content.assembly is not None
    shaping = names_in([content.parts, content.assembly.components])
    return tuple(
        _hangs_on(name, shaped)
        for name in content.assembly.masses
        for shaped in [_first_shaped(plan, str(name), shaping)]
        if shaped
    )


def _first_shaped(plan: Plan, mass: str, shaping: frozenset[str]) -> str:
    names = (f"{MASS}{mass}", *(f"{MASS}{mass}_{axis}" for axis in CENTRE))
    reached = (each for name in names for each in (name, *sorted(dependents(plan, name))))
    return next((each for each in reached if each in shaping), "")


def _hangs_on(name: Text, shaped: str) -> Finding:
    return Finding(
        "mass-circular",
        Severity.STOP,
        f"What is shaped or placed hangs on `{MASS}{name}` by `{shaped}`, and can only be weighed once it is there.",
        "Use masses in calculations and rules only, or give the part a measure of its own.",
        name.place,
    )
