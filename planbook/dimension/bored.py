"""The measures of holes and slots, taken from their cuts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from planbook.design.values import Value
from planbook.dimension.measure import Measure, note, toward
from planbook.dimension.model import DimensionKind
from planbook.dimension.positions import place_of, positions
from planbook.shape import along
from planbook.shape.geometry import Arc
from planbook.shape.kinds import HoleShape, SlotShape
from planbook.shape.model import Cut, Feature, Part


def hole_measures(part: Part, feature: Feature, shape: HoleShape) -> Iterator[Measure]:
    """Where the centre is, and the callout: diameter, through or depth, counterbore, countersink."""
    bore, *wider = feature.first
    ring = _ring(bore, 0)
    centre = bore.frame.place(ring.centre, bore.lift)
    yield from positions(part, feature, place_of(feature), shape.at)
    points = (centre, bore.frame.place(toward(ring.centre, ring.radius, 0), bore.lift))
    yield Measure(
        feature.name,
        "diameter",
        DimensionKind.DIAMETER,
        feature.face,
        points,
        2 * ring.radius,
        shape.diameter,
        count=feature.count,
        callout=callout(part, feature),
        prefix="Ø",
        suffix="through" if shape.depth is None else "",
        drilled=True,
    )
    for measure in _sunk(feature, shape, bore, wider):
        yield replace(measure, callout=callout(part, feature))


def _sunk(feature: Feature, shape: HoleShape, bore: Cut, wider: list[Cut]) -> Iterator[Measure]:
    """The rest of a hole's callout, each a note at its centre."""

    def said(characteristic: str, nominal: float, value: Value) -> Measure:
        ring = _ring(bore, 0)
        return note(
            feature.face, (bore.frame.place(ring.centre, bore.lift),), nominal, (feature.name, characteristic), value
        )

    if shape.depth is not None:
        yield replace(said("depth", bore.depth - bore.lift, shape.depth), suffix="deep")
    if shape.counterbore is not None:
        cut = wider[0]
        diameter = said("counterbore_diameter", 2 * _ring(cut, 0).radius, shape.counterbore[0])
        yield replace(diameter, prefix="counterbore Ø", drilled=True)
        yield replace(said("counterbore_depth", cut.depth, shape.counterbore[1]), suffix="deep")
    if shape.countersink is not None:
        cut = wider[-1]
        outer = _ring(cut, 0).radius
        angle = math.degrees(2 * math.atan2(outer - _ring(bore, 0).radius, cut.depth))
        diameter = said("countersink_diameter", 2 * outer, shape.countersink[0])
        yield replace(diameter, prefix="countersink Ø")
        yield replace(said("countersink_angle", angle, shape.countersink[1]), prefix="countersink", angle=True)


def slot_measures(part: Part, feature: Feature, shape: SlotShape) -> Iterator[Measure]:
    """The centres of the two round ends, and the callout: width, through or depth."""
    cut = feature.cuts[0]
    last, first = _ring(cut, 1), _ring(cut, 3)
    yield from positions(part, feature, cut.frame.place(first.centre), shape.start, "start")
    yield from positions(part, feature, cut.frame.place(last.centre), shape.end, "end", shape.start)
    points = (cut.frame.place(first.centre), cut.frame.place(along(first, 0.5)))
    through = "wide, through" if shape.depth is None else "wide"
    width = note(feature.face, points, 2 * first.radius, (feature.name, "width"), shape.width)
    yield replace(width, prefix="slot", suffix=through, count=feature.count, callout=callout(part, feature))
    if shape.depth is not None:
        depth = note(feature.face, points, cut.depth, (feature.name, "depth"), shape.depth)
        yield replace(depth, suffix="deep", callout=callout(part, feature))


def callout(part: Part, feature: Feature) -> str:
    """The leader at which a feature's own measures stand together."""
    return f"{part.key}/{feature.name}"


def _ring(cut: Cut, index: int) -> Arc:
    segment = cut.loop.segments[index]
    assert isinstance(segment, Arc)
    return segment
