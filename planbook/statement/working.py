"""Working out the numbers of an edition, from parameters to the assembly; what they look like comes after."""

from __future__ import annotations

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from planbook.design import Design, Overrides, Plan, evaluate
from planbook.dimension import dimension_parts
from planbook.dimension.model import PartDimension
from planbook.measure import Printed, Quantity, Units
from planbook.shape import check_walls, place_components, shape_parts
from planbook.shape.model import Component, Part
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.mentions import names_in
from planbook.source.models.plan_set import EditionModel
from planbook.statement.printing import print_parameter
from planbook.statement.stacking import Stack, narrowed, stacks_of
from planbook.statement.weighed import with_masses
from planbook.takeoff import TakenOff, take_off


@dataclass(frozen=True)
class Worked:
    """The numbers of an edition: its design, parts, dimensions, lists and assembly."""

    units: Units
    design: Design
    printed: Mapping[str, Printed]
    """All parameters as printed."""
    parts: Mapping[str, Part]
    dimensions: Mapping[str, PartDimension]
    taken: TakenOff
    components: tuple[Component, ...]
    stacks: tuple[Stack, ...]


def work_out(
    content: Content, model: EditionModel, plan: Plan, supposed: Mapping[str, Quantity], pieces: int
) -> tuple[Worked | None, tuple[Finding, ...]]:
    """Everything that is a number in an edition, and what was found on the way. None where the design has no value."""
    design, found = evaluate(plan, Overrides(str(model.market), supposed))
    if design is None:
        return None, found
    parts, shaping = shape_parts(content, design)
    components, placing = place_components(content, design, parts)
    design, found = with_masses(content, design, found, plan, components)
    dimensions, measuring = dimension_parts(content, design, parts, model.units)
    stacks, stacking = stacks_of(content, design, plan, dimensions.values(), model.units)
    design = design.accepting(narrowed(stacks))
    figures = _figures(content)
    printed = {
        name: print_parameter(each, design, model.units, name in figures) for name, each in design.parameters.items()
    }
    taken, taking = take_off(content, design, parts, model.units, pieces)
    worked = Worked(
        units=model.units,
        design=design,
        printed=printed,
        parts=parts,
        dimensions=dimensions,
        taken=taken,
        components=components,
        stacks=stacks,
    )
    checked = (*taking, *stacking, *check_walls(content, design, parts))
    return worked, (*found, *shaping, *placing, *measuring, *checked)


def _figures(content: Content) -> AbstractSet[str]:
    """Calculations by which nothing is made: sags, leans, forces."""
    return {str(name) for name in content.calculations} - names_in([content.parts, content.hardware, content.assembly])
