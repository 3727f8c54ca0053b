"""Named measures of an edition and dimensions of its parts, each with what it is to a builder."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace

from planbook.design import Plan, dependents
from planbook.design.entries import NOT_THE_AUTHORS
from planbook.source.content import Content
from planbook.source.mentions import names_in
from planbook.statement.model import DimensionStated, ParameterStated
from planbook.statement.printing import state_parameter
from planbook.statement.restating import state_dimension
from planbook.statement.standing import NEITHER, Standings
from planbook.statement.working import Worked


@dataclass(frozen=True)
class Measures:
    """By name."""

    parameters: Mapping[str, ParameterStated]
    dimensions: Mapping[str, DimensionStated]


def state_measures(
    content: Content, worked: Worked, paths: AbstractSet[str], plan: Plan, standings: Standings
) -> Measures:
    """The author's parameters, those of the market's that content uses, and all dimensions.

    `paths` are the names that prose uses. What cannot be read of a standing joins the findings of `standings`.
    """
    used, moving = {*paths, *_used(content, worked)}, _moving(content, plan)
    parameters = {
        name: state_parameter(each, worked.printed[name], worked.units)
        for name, each in worked.design.parameters.items()
        if name in used or not name.startswith(NOT_THE_AUTHORS)
    }
    dimensions = {name: state_dimension(each) for name, each in worked.dimensions.items()}
    named, drawn = standings.parameters, standings.dimensions(dimensions)
    return Measures(
        {
            name: replace(each, moving=name in moving, standing=named.get(name, NEITHER))
            for name, each in parameters.items()
        },
        {name: replace(each, standing=drawn[name]) for name, each in dimensions.items()},
    )


def _used(content: Content, worked: Worked) -> Iterator[str]:
    """Names that content uses outside its prose."""
    yield from names_in(
        [content.parts, content.hardware, content.assembly, content.rules, content.fits, content.figures]
    )
    for name, each in worked.design.parameters.items():
        if not name.startswith(NOT_THE_AUTHORS):
            yield from each.value.inputs
    yield from (f"stock.{part.stock}.thickness" for part in content.parts.values())


def _moving(content: Content, plan: Plan) -> AbstractSet[str]:
    """What is another number in another position."""
    drivers = content.positions.drivers if content.positions is not None else ()
    return {name for driver in drivers for name in dependents(plan, str(driver))}
