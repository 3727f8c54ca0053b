"""Two components by themselves: how near they are in a design that differs a little from the one that was swept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from planbook.design import Design, Plan, evaluate
from planbook.measure import Quantity
from planbook.motion.contact import overlap_of, solid_of
from planbook.motion.sweep import REACH
from planbook.motion.travel import Place
from planbook.shape import place_components, shape_parts
from planbook.source.content import Content
from planbook.source.text import Text


@dataclass(frozen=True)
class Pair:
    """`content` has only these two components and their parts, so that nothing else is shaped and placed."""

    content: Content
    plan: Plan

    def gap(self, place: Place, values: Mapping[str, Quantity]) -> float | None:
        """Millimetres between them at a place of the travel with these values besides, below zero how deep they lie
        in one another, up to `REACH`; None where the design has no value or a part no shape.
        """
        design, found = evaluate(self.plan, place.design.overriding(values))
        return None if design is None or found else self.gap_in(design)

    def gap_in(self, design: Design) -> float | None:
        """The same in a design as it stands."""
        parts, _ = shape_parts(self.content, design)
        components, _ = place_components(self.content, design, parts)
        if len(components) < 2:
            return None
        one, other = map(solid_of, components)
        if not len(one.mesh.triangles) or not len(other.mesh.triangles):
            return None
        gap = float(one.body.min_gap(other.body, REACH))
        overlap = overlap_of(one, other) if gap <= 0 else None
        return gap if overlap is None else -overlap.depth


def pair_of(content: Content, plan: Plan, one: str, other: str) -> Pair:
    """Of two components of the assembly. Raises KeyError for a name that it has not."""
    assert content.assembly is not None
    components = {Text(name): content.assembly.components[Text(name)] for name in (one, other)}
    keys = {str(each.part) for each in components.values() if each.part is not None}
    parts = {key: model for key, model in content.parts.items() if key in keys}
    assembly = content.assembly.model_copy(update={"components": components})
    return Pair(replace(content, parts=parts, assembly=assembly), plan)
