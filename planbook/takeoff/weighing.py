"""What components weigh and where their centre of gravity lies: from their solids and the densities of their stock."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from planbook.design import Design
from planbook.design.entries import CENTRE, MASS
from planbook.measure import MILLIMETRE, Quantity
from planbook.measure.dimensionality import DENSITY, LENGTH
from planbook.measure.dimensionality import MASS as KILOGRAMS
from planbook.shape.model import Component
from planbook.shape.solids import mesh_of_component
from planbook.shape.solids.surfaces import Floats
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.assembly import MassModel
from planbook.source.text import Formula, Text

Findings = tuple[Finding, ...]
STEEL = Formula("7850 kg / (1 m)^3")
"""What bought round things are made of where content does not say."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A component's mass in kilograms and its centre (3,) in millimetres."""

    mass: float
    centre: Floats


def weigh(content: Content, design: Design, components: Sequence[Component]) -> tuple[Mapping[str, Quantity], Findings]:
    """`mass.<name>` and the centre of each of `masses`, as the components stand.

    A mass of which a stock says no density is left out, with a finding.
    """
    if content.assembly is None or not content.assembly.masses:
        return {}, ()
    values: dict[str, Quantity] = {}
    found: list[Finding] = []
    scales = _Scales(content, design)
    for name, model in content.assembly.masses.items():
        here = [each for each in components if _weighs(model, each.name)]
        weighed = [scales.weigh(each) for each in here]
        missing = list(dict.fromkeys(stock for each, stock in weighed if each is None))
        found += [_no_density(name, stock) for stock in missing]
        sound = [each for each, _ in weighed if each is not None]
        if sound and not missing:
            values |= dict(_together(str(name), sound))
    return values, tuple(found)


@dataclass(frozen=True)
class _Scales:
    content: Content
    design: Design

    def weigh(self, component: Component) -> tuple[Weighed | None, str]:
        """None with the name of a stock that says no density."""
        if component.part is None:
            density = self._of_rod(component.name)
        else:
            stock = self.design.parameters.get(f"stock.{component.part.stock}.density")
            if stock is None:
                return None, component.part.stock
            density = stock.value.number
        mesh = mesh_of_component(component)
        if density is None or not len(mesh.triangles):
            return Weighed(0.0, np.zeros(3)), ""
        return Weighed(mesh.volume * MILLIMETRE**3 * density, mesh.centroid), ""

    def _of_rod(self, name: str) -> float | None:
        assert self.content.assembly is not None
        rod = self.content.assembly.components[Text(name)].rod
        said = rod.density if rod is not None and rod.density is not None else STEEL
        value, _ = self.design.solve(said, DENSITY)
        return None if value is None else value.number


def _weighs(model: MassModel, name: str) -> bool:
    return (model.of is None or name in model.of) and name not in model.without


def _together(name: str, weighed: Sequence[Weighed]) -> Iterator[tuple[str, Quantity]]:
    mass = sum(each.mass for each in weighed)
    yield f"{MASS}{name}", Quantity(mass, KILOGRAMS)
    centre = sum((each.mass * each.centre for each in weighed), np.zeros(3)) / (mass or 1.0)
    for axis, at in zip(CENTRE, centre, strict=True):
        yield f"{MASS}{name}_{axis}", Quantity(float(at) * MILLIMETRE, LENGTH)


def _no_density(name: Text, stock: str) -> Finding:
    return Finding(
        "density-missing",
        Severity.STOP,
        f"`{MASS}{name}` cannot be weighed: the stock `{stock}` says no density.",
        "Give the stock one in the market's table, such as `density: handbook.sugar_maple.density`.",
        name.place,
    )
