"""Two components by themselves: how near they are in a design that differs a little from the one that was swept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

import numpy as np

from planbook.design import Design, Plan, evaluate
from planbook.measure import Quantity
from planbook.motion.contact import Solid, overlap_of, solid_of
from planbook.motion.sweep import REACH
from planbook.motion.travel import Place
from planbook.shape import place_components, shape_part
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.source.mentions import names_in
from planbook.source.text import Text

Shift = tuple[float, float, float]
"""Millimetres along x, y and z."""
NO_SHIFT: Final = (0.0, 0.0, 0.0)


@dataclass(frozen=True, eq=False, slots=True)
class Standing:
    """Two components as solids, in their places."""

    one: Solid
    other: Solid

    def gap(self, shift: Shift = NO_SHIFT, reach: float = REACH) -> float:
        """Millimetres between them with the first shifted, up to `reach`; below zero how deep they share a space."""
        gap = float(self.one.body.translate(shift).min_gap(self.other.body, reach))
        if gap > 0:
            return gap
        shifted = Solid(self.one.mesh.turned(np.eye(3), np.array(shift))) if any(shift) else self.one
        overlap = overlap_of(shifted, self.other)
        return gap if overlap is None else -overlap.depth


@dataclass(frozen=True)
class Pair:
    """`content` has only these two components and their parts, so that nothing else is shaped and placed.

    A part is shaped anew only where something that its file mentions has another value.
    """

    content: Content
    plan: Plan

    def gap(self, place: Place, values: Mapping[str, Quantity]) -> float | None:
        """Millimetres between them at a place of the travel with these values besides, below zero how deep they lie
        in one another, up to `REACH`; None where the design has no value or a part no shape.
        """
        stands = self.stand(place, values)
        return None if stands is None else stands.gap()

    def gap_in(self, design: Design) -> float | None:
        """The same in a design as it stands."""
        stands = self._stand_in(design)
        return None if stands is None else stands.gap()

    def stand(self, place: Place, values: Mapping[str, Quantity]) -> Standing | None:
        """The two as solids at a place of the travel, shaped and placed with these values besides."""
        design, found = evaluate(self.plan, place.design.overriding(values))
        return None if design is None or found else self._stand_in(design)

    def _stand_in(self, design: Design) -> Standing | None:
        shaped = {str(key): self._shape(str(key), design) for key in self.content.parts}
        parts = {key: part for key, part in shaped.items() if part is not None}
        components, _ = place_components(self.content, design, parts)
        if len(components) < 2:
            return None
        one, other = map(solid_of, components)
        return Standing(one, other) if len(one.mesh.triangles) and len(other.mesh.triangles) else None

    def _shape(self, key: str, design: Design) -> Part | None:
        slots = design.plan.slots
        made = key, tuple(design.numbers[slots[name]] for name in self._mentioned[key] if name in slots)
        if made not in self._shaped:
            self._shaped[made] = shape_part(design, key, self.content.parts[Text(key)])
        return self._shaped[made]

    @cached_property
    def _shaped(self) -> dict[tuple[str, tuple[float, ...]], Part | None]:
        """By a part's key and what its file mentions."""
        return {}

    @cached_property
    def _mentioned(self) -> Mapping[str, tuple[str, ...]]:
        return {str(key): tuple(sorted(names_in(model))) for key, model in self.content.parts.items()}


def pair_of(content: Content, plan: Plan, one: str, other: str) -> Pair:
    """Of two components of the assembly. Raises KeyError for a name that it has not."""
    assert content.assembly is not None
    components = {Text(name): content.assembly.components[Text(name)] for name in (one, other)}
    keys = {str(each.part) for each in components.values() if each.part is not None}
    parts = {key: model for key, model in content.parts.items() if key in keys}
    assembly = content.assembly.model_copy(update={"components": components})
    return Pair(replace(content, parts=parts, assembly=assembly), plan)
