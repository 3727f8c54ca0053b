"""The part as a builder gets it: every coordinate worked out from the printed numbers, beside where it was drawn.

Stations are sums of printed dimensions, so this is exact for them; where a free arc or a cone lies between, it is exact
to the first order in what was rounded off.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from planbook.dimension.audit.record import Number
from planbook.dimension.completeness.corners import corners_of, sweep
from planbook.dimension.completeness.granted import Equation, granted
from planbook.dimension.completeness.record import Segment, SheetRecord, Told
from planbook.dimension.completeness.said import said
from planbook.dimension.completeness.system import System
from planbook.dimension.completeness.turns import granted_turns, weight_of_angle
from planbook.dimension.completeness.unknowns import LEVEL, RADIUS, Unknown, Unknowns, unknowns_of


@dataclass(frozen=True, slots=True)
class Coordinate:
    """A station, a radius or an angle of a part; nanometres, or degrees."""

    features: tuple[str, ...]
    direction: str
    """"x", "y", "z", "radius", "depth" along a leaning axis, or "lean x" and so on for an angle in degrees."""
    drawn: float
    deviation: float
    """What the printed numbers put it off by."""
    chain: Mapping[str, float]
    """The dimensions that it hangs on, by id, and how far one nanometre (for an angle, one degree) of each moves it."""
    owner: str = ""
    """Whose it is alone, such as the bottom of a recess; "" for a station that all features share."""

    share: float = 1.0
    """How much of the deviation there is to be seen in the wood: of the radius of a flat arc its rise alone."""

    @property
    def off(self) -> float:
        """By how much the printed numbers put the wood off, in nanometres or degrees."""
        return self.deviation * self.share

    @property
    def is_angle(self) -> bool:
        """Whether it is in degrees."""
        return self.direction.startswith("lean")


def rebuild(record: SheetRecord, numbers: Mapping[str, Number]) -> tuple[Coordinate, ...]:
    """Every coordinate that the printed dimensions fix. `numbers` are those of the same sheet, by id."""
    unknowns = unknowns_of(record.part)
    told, bracketed = (tuple(each for each in record.dimensions if each.reference is kind) for kind in (False, True))
    system: System[Unknown] = System()
    for equation in (*granted(record.part, unknowns, told), *granted_turns(record.part, unknowns, told, bracketed)):
        system.add(equation.name, _scaled(equation))
    weights: dict[str, tuple[str, float]] = {}
    for each in told:
        for equation in said(record.part, unknowns, each) or ():
            name = f"{each.id} {len(weights)}"
            weights[name] = (each.id, _weight(equation, each, numbers[each.id]) / _scale(equation))
            system.add(name, _scaled(equation))
    fixed = (unknown for unknown in unknowns.owners if system.is_fixed(unknown))
    chains = ((unknown, _chain(system.shares(unknown), weights)) for unknown in fixed)
    return tuple(
        Coordinate(
            features=tuple(sorted(unknowns.owners[unknown])),
            direction=unknown.kind,
            drawn=unknown.value,
            deviation=math.fsum(factor * _printed_off(numbers[name]) for name, factor in chain.items()),
            chain=chain,
            owner=unknown.owner,
            share=_rise(unknowns, unknown) if unknown.kind == RADIUS else 1.0,
        )
        for unknown, chain in chains
    )


def _rise(unknowns: Unknowns, radius: Unknown) -> float:
    """How far the middle of free arcs moves with their radius while their ends stay: 1 / cos(half their turn) - 1.

    It is the derivative of the rise r - sqrt(r^2 - c^2 / 4) over a chord c. At most 1, as for what turns further and
    for a rounded corner.
    """
    own = [placed for placed in unknowns.loops if placed.owner == radius.owner]
    corners = [corners_of(placed.loop) for placed in own]
    if any(abs(each - radius.value) < LEVEL for found in corners for each in found.radii):
        return 1.0
    bends = [bend for found in corners for bend in found.bends if abs(bend.radius - radius.value) < LEVEL]
    turns = [sweep(Segment(bend.start, bend.end, bend.centre, bend.ccw)) for bend in bends]
    return max((1 / max(math.cos(min(turn / 2, math.pi)), 0.5) - 1 for turn in turns), default=1.0)


def _printed_off(number: Number) -> float:
    return number.printed.value - number.nominal


def _chain(shares: Mapping[str, float], weights: Mapping[str, tuple[str, float]]) -> Mapping[str, float]:
    chain: dict[str, float] = {}
    for name, share in shares.items():
        dimension, weight = weights.get(name, ("", 0.0))
        if weight:
            chain[dimension] = chain.get(dimension, 0.0) + share * weight
    return chain


def _scale(equation: Equation) -> float:
    return max((abs(factor) for factor in equation.row.values()), default=1.0)


def _scaled(equation: Equation) -> Mapping[Unknown, float]:
    scale = _scale(equation)
    return {unknown: factor / scale for unknown, factor in equation.row.items()}


def _weight(equation: Equation, told: Told, number: Number) -> float:
    """By how much the sum that the equation makes grows with the dimension: the two are in proportion.

    Of a cone, depth times the tangent of half its angle less the radii stays nothing. An angle that places something
    among stations is taken as it was designed.
    """
    if equation.name != told.id or not told.nominal:
        return 0.0
    if told.kind == "angle":
        return weight_of_angle(told)
    if told.characteristic == "countersink_angle":
        half = math.radians(told.nominal) / 2
        return -_sum(equation, but="radius") / math.tan(half) / math.cos(half) ** 2 * math.radians(0.5)
    if number.is_angle and len(equation.row) > 1:
        return 0.0
    return _sum(equation) / told.nominal


def _sum(equation: Equation, but: str = "") -> float:
    """At the places where everything is drawn, `but` one kind of unknown."""
    return math.fsum(factor * unknown.value for unknown, factor in equation.row.items() if unknown.kind != but)
