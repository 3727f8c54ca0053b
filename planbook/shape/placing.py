"""Where the components of the assembly stand: the placement of each part and each bought rod."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product

from planbook.shape.bench import FINE, Bench, Solving
from planbook.shape.geometry import Vec
from planbook.shape.model import Component, Part, Placement
from planbook.shape.wording import like, said
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.assembly import ComponentModel, RodModel, WorldAxis
from planbook.source.text import Formula, Text

_DIRECTIONS: dict[WorldAxis, Vec] = {
    WorldAxis.RIGHT: Vec(1.0, 0.0, 0.0),
    WorldAxis.LEFT: Vec(-1.0, 0.0, 0.0),
    WorldAxis.BACK: Vec(0.0, 1.0, 0.0),
    WorldAxis.FRONT: Vec(0.0, -1.0, 0.0),
    WorldAxis.UP: Vec(0.0, 0.0, 1.0),
    WorldAxis.DOWN: Vec(0.0, 0.0, -1.0),
}


def place_components(
    content: Content, design: Solving, parts: Mapping[str, Part]
) -> tuple[tuple[Component, ...], tuple[Finding, ...]]:
    """All components that could be placed, in file order, and the findings about the others.

    A component of a part that is missing from `parts` is left out silently: another finding says why.
    """
    bench = Bench(design)
    models = content.assembly.components if content.assembly else {}
    placed = (_place(bench, parts, name, model) for name, model in models.items())
    return tuple(component for component in placed if component is not None), bench.findings


def formulas_of(model: ComponentModel) -> tuple[Formula, ...]:
    """All that a component's place, and a rod's size, are worked out from."""
    rod = () if model.rod is None else (model.rod.diameter, model.rod.length, model.rod.bore)
    every = (*model.at, model.tilt, model.turn, model.swivel, *(model.pivot or ()), *rod)
    return tuple(formula for formula in every if formula is not None)


def _place(bench: Bench, parts: Mapping[str, Part], name: Text, model: ComponentModel) -> Component | None:
    at = _triple(bench, model.at)
    turned = _turns(bench, model)
    if model.rod is not None:
        return _place_rod(bench, name, model.rod, at, turned)
    part = None if model.part is None else parts.get(model.part)
    if part is None or at is None or turned is None:
        return None
    x, y = _DIRECTIONS[model.axes[0]], _DIRECTIONS[model.axes[1]]
    placement = Placement(_origin(at, part.blank, (x, y, _cross(x, y))), x, y, _cross(x, y), model.mirrored)
    return Component(str(name), turned(placement), part)


def _place_rod(bench: Bench, name: Text, rod: RodModel, at: Vec | None, turned: _Turns | None) -> Component | None:
    diameter = bench.size(rod.diameter, f"the diameter of `{name}`")
    length = bench.size(rod.length, f"the length of `{name}`")
    bore = None if rod.bore is None else bench.size(rod.bore, f"the bore of `{name}`")
    if diameter is None or length is None or at is None or turned is None or (rod.bore is not None and bore is None):
        return None
    if bore is not None and bore.number > diameter.number - FINE:
        bench.stop(
            "bore-too-large",
            bore.place,
            f"The bore of `{name}` is {said(bore)}, and its diameter only {said(diameter)}.",
            f"Make the bore less than {like(bore, diameter.number)}, or leave it out.",
        )
        return None
    x = _DIRECTIONS[rod.along]
    y = Vec(abs(x.z), abs(x.x), abs(x.y))
    z = _cross(x, y)
    radius = diameter.number / 2
    box = Vec(*(length.number if component else diameter.number for component in x))
    centre = Vec(*(low + size / 2 for low, size in zip(at, box, strict=True)))
    origin = Vec(*(c - d * length.number / 2 for c, d in zip(centre, x, strict=True)))
    placement = turned(Placement(origin, x, y, z))
    hollow = 0.0 if bore is None else bore.number / 2
    return Component(str(name), placement, None, str(rod.title), radius, length.number, hollow)


def _triple(bench: Bench, formulas: tuple[Formula, Formula, Formula]) -> Vec | None:
    values = [bench.length(formula) for formula in formulas]
    numbers = [value.number for value in values if value is not None]
    return Vec(*numbers) if len(numbers) == 3 else None


def _origin(at: Vec, size: Vec, axes: tuple[Vec, Vec, Vec]) -> Vec:
    """Where the part's datum corner comes when the least corner of its placed box is `at`."""
    corners = [
        tuple(sum(axis[i] * measure for axis, measure in zip(axes, corner, strict=True)) for i in range(3))
        for corner in product(*((0.0, extent) for extent in size))
    ]
    return Vec(*(at[i] - min(corner[i] for corner in corners) for i in range(3)))


def _cross(a: Vec, b: Vec) -> Vec:
    return Vec(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x)


@dataclass(frozen=True, slots=True)
class _Turns:
    """Turns about axes through a pivot: a tilt about world x, from y towards z, then a turn about world y, from x
    towards z, then a swivel about world z, from x towards y. Angles in degrees."""

    tilt: float
    turn: float
    swivel: float
    pivot: Vec

    def __call__(self, placement: Placement) -> Placement:
        p, o = self.pivot, placement.origin
        arm = self._turned(Vec(o.x - p.x, o.y - p.y, o.z - p.z))
        origin = Vec(p.x + arm.x, p.y + arm.y, p.z + arm.z)
        return Placement(
            origin,
            self._turned(placement.x),
            self._turned(placement.y),
            self._turned(placement.z),
            placement.mirrored,
        )

    def _turned(self, v: Vec) -> Vec:
        cos, sin = _cosine(self.tilt), _cosine(self.tilt - 90)
        v = Vec(v.x, v.y * cos - v.z * sin, v.y * sin + v.z * cos)
        cos, sin = _cosine(self.turn), _cosine(self.turn - 90)
        v = Vec(v.x * cos - v.z * sin, v.y, v.x * sin + v.z * cos)
        cos, sin = _cosine(self.swivel), _cosine(self.swivel - 90)
        return Vec(v.x * cos - v.y * sin, v.x * sin + v.y * cos, v.z)


def _cosine(degrees: float) -> float:
    """The cosine, exact at whole right angles."""
    quarter, rest = divmod(degrees, 90)
    return (1.0, 0.0, -1.0, 0.0)[int(quarter) % 4] if rest == 0 else math.cos(math.radians(degrees))


def _turns(bench: Bench, model: ComponentModel) -> _Turns | None:
    """How the component is turned, by nothing when it says nothing; None after a finding."""
    written = (model.tilt, model.turn, model.swivel)
    tilt, turn, swivel = (0.0 if angle is None else _degrees(bench, angle) for angle in written)
    pivot = Vec(0.0, 0.0, 0.0) if model.pivot is None else _triple(bench, model.pivot)
    if tilt is None or turn is None or swivel is None or pivot is None:
        return None
    return _Turns(tilt, turn, swivel, pivot)


def _degrees(bench: Bench, formula: Formula) -> float | None:
    angle = bench.angle(formula)
    return None if angle is None else angle.number
