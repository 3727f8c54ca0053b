"""The measures of what turns about a centre: arc slots, sectors of a ring, ramps along an arc, patterns."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from planbook.design.sameness import plain_form
from planbook.design.values import Tolerance, Value
from planbook.dimension.bored import callout
from planbook.dimension.measure import FINE, ON_AXIS, Measure, note
from planbook.dimension.model import DimensionKind
from planbook.dimension.positions import place_of, positions, start_of
from planbook.shape import FACES
from planbook.shape.geometry import Arc, Point
from planbook.shape.kinds import ArcRampShape, ArcSlotShape, HoleShape, RingSectorShape
from planbook.shape.loops import direction, polar
from planbook.shape.model import Cut, Feature, Part


def arc_slot_measures(part: Part, feature: Feature, shape: ArcSlotShape) -> Iterator[Measure]:
    """The centre, the two angles, and the callout: radius of the middle line, width, through or depth."""
    cut = feature.cuts[0]
    outer, inner = _arc(cut, 0), _arc(cut, 2)
    yield from positions(part, feature, place_of(feature), shape.at)
    yield from _angles(feature, cut, shape.angles)
    middle = (outer.radius + inner.radius) / 2
    half_way = polar(outer.centre, middle, _half_way(shape.angles))
    points = (cut.frame.place(outer.centre), cut.frame.place(half_way))
    radius = _radius(feature, "radius", middle, shape.radius)
    words = ", ".join(filter(None, ("to its middle line", _spaces(feature))))
    yield replace(radius, points=points, suffix=words, callout=callout(part, feature))
    through = "wide, through" if shape.depth is None else "wide"
    width = note(feature.face, points, outer.radius - inner.radius, (feature.name, "width"), shape.width)
    yield replace(width, prefix="arc slot", suffix=through, callout=callout(part, feature))
    yield from _depth(part, feature, shape.depth)
    yield from _steps(feature, outer.radius, shape.angles[0].number, shape.angles[0].formula)


def ring_sector_measures(part: Part, feature: Feature, shape: RingSectorShape) -> Iterator[Measure]:
    """The centre, the two angles, both radii, the outer one with through or depth."""
    cut = feature.cuts[0]
    outer = _arc(cut, 0)
    yield from positions(part, feature, place_of(feature), shape.at)
    yield from _angles(feature, cut, shape.angles)
    words = ", ".join(filter(None, ("" if shape.depth else "through", _spaces(feature))))
    yield from _both_radii(part, feature, shape, words)
    yield from _depth(part, feature, shape.depth)
    yield from _steps(feature, outer.radius, shape.angles[0].number, shape.angles[0].formula)


def arc_ramp_measures(part: Part, feature: Feature, shape: ArcRampShape) -> Iterator[Measure]:
    """The centre, the two angles, both radii; at the outer one how deep it is at its ends, and for reference how steep.

    Which end is which is told by the way round in which it rises, as its view shows it.
    """
    cut = feature.cuts[0]
    yield from positions(part, feature, place_of(feature), shape.at)
    yield from _angles(feature, cut, shape.angles)
    yield from _both_radii(part, feature, shape, _spaces(feature))
    at, anchor = callout(part, feature), (cut.frame.place(_arc(cut, 0).centre),)
    ends = sorted(zip(("start_depth", "end_depth"), shape.depths, strict=True), key=lambda end: -end[1].number)
    for (name, value), words in zip(ends, (_rises(feature, shape), "deep at its top"), strict=True):
        depth = note(feature.face, anchor, value.number, (feature.name, name), value)
        if value.number > FINE:
            yield replace(depth, suffix=words, callout=at)
    run = math.radians(shape.angles[1].number - shape.angles[0].number)
    sides = ("inner_slope", "at the inside"), ("outer_slope", "at the outside")
    for (name, words), radius in zip(sides, shape.radii, strict=True):
        steep = math.degrees(math.atan(abs(shape.depths[1].number - shape.depths[0].number) / (radius.number * run)))
        slope = note(feature.face, anchor, steep, (feature.name, name), None)
        yield replace(slope, prefix="slope", suffix=words, angle=True, reference=True, callout=at)
    yield from _steps(feature, _arc(cut, 0).radius, shape.angles[0].number, shape.angles[0].formula)


def _rises(feature: Feature, shape: ArcRampShape) -> str:
    """Which way round it rises, as one sees who looks at its face."""
    axes = FACES[feature.face]
    right_handed = axes.far == ((axes.u, axes.v) != (0, 2))
    onwards = shape.depths[1].number < shape.depths[0].number
    way = "counter-clockwise" if onwards == right_handed else "clockwise"
    return f"deep, rising {way}" + ("" if min(each.number for each in shape.depths) > FINE else " to the face")


def _both_radii(part: Part, feature: Feature, shape: RingSectorShape | ArcRampShape, words: str) -> Iterator[Measure]:
    cut, turn, at = feature.cuts[0], _half_way(shape.angles), callout(part, feature)
    outer, inner = _arc(cut, 0), _arc(cut, 2)
    for name, arc, value in (("outer_radius", outer, shape.radii[1]), ("inner_radius", inner, shape.radii[0])):
        points = (cut.frame.place(arc.centre), cut.frame.place(polar(arc.centre, arc.radius, turn)))
        radius = replace(_radius(feature, name, arc.radius, value), points=points)
        yield replace(radius, callout=f"{at}/inner") if arc is inner else replace(radius, suffix=words, callout=at)


def circle_measures(part: Part, feature: Feature) -> Iterator[Measure]:
    """Of holes on a circle: its diameter, at their callout, the angle of the first, and the step where it is told."""
    shape = feature.shape
    if not isinstance(shape, HoleShape) or shape.circle is None or feature.ring is None:
        return
    cut, centre = feature.cuts[0], feature.ring.centre
    first = _arc(cut, 0).centre
    reach = math.dist(centre, first)
    points = (cut.frame.place(centre), cut.frame.place(first))
    circle = note(feature.face, points, 2 * reach, (feature.name, "pitch_circle"), shape.circle[0])
    yield replace(circle, prefix="on Ø", suffix=_spaces(feature), callout=callout(part, feature))
    if shape.circle[1] is not None:
        yield _from_axis(feature, cut, (centre, reach), "start_angle", shape.circle[1])
    begins = shape.circle[1].formula if shape.circle[1] else ON_AXIS
    yield from _steps(feature, reach, direction(centre, first), begins)


def _spaces(feature: Feature) -> str:
    return "equally spaced" if feature.ring and feature.ring.step is None else ""


def _angles(feature: Feature, cut: Cut, angles: tuple[Value, Value]) -> Iterator[Measure]:
    outer = _arc(cut, 0)
    for name, value in zip(("start_angle", "end_angle"), angles, strict=True):
        yield _from_axis(feature, cut, (outer.centre, outer.radius), name, value)


def _from_axis(feature: Feature, cut: Cut, circle: tuple[Point, float], name: str, value: Value) -> Measure:
    """From the face's first axis, the short way round."""
    centre, reach = circle
    angle = math.remainder(value.number, 360.0)
    legs = [polar(centre, reach, turn) for turn in sorted((0.0, angle))]
    points = tuple(cut.frame.place(point) for point in (centre, *legs))
    kind, written = DimensionKind.ANGLE, _short_way(value, angle)
    measure = Measure(feature.name, name, kind, feature.face, points, abs(angle), written, angle=True, position=True)
    return replace(measure, about=_centre(feature), stations=(ON_AXIS, value.formula))


def _centre(feature: Feature) -> str:
    """Angles about one centre, by the author's formulas, lie in one line when they are the same."""
    axes = FACES[feature.face]
    return " ".join((feature.face, *(str(plain_form(start_of(feature, axis).formula)) for axis in (axes.u, axes.v))))


def _short_way(value: Value, angle: float) -> Value:
    """What the author wrote, as it is measured: backwards without a sign."""
    tolerance = value.tolerance
    if angle < 0 and tolerance is not None:
        tolerance = Tolerance(tolerance.minus, tolerance.plus)
    return replace(value, quantity=replace(value.quantity, value=abs(angle)), tolerance=tolerance)


def _steps(feature: Feature, reach: float, first: float, begins: str) -> Iterator[Measure]:
    """From the first of a pattern, at the angle `first`, which `begins` says, to the second, for all its spaces."""
    ring = feature.ring
    if ring is None or ring.step is None:
        return
    legs = [polar(ring.centre, reach, first + k * ring.turn) for k in (0, 1)]
    points = tuple(feature.cuts[0].frame.place(point) for point in (ring.centre, *legs))
    kind = DimensionKind.ANGLE
    step = Measure(feature.name, "step_angle", kind, feature.face, points, ring.turn, ring.step, angle=True)
    stations = (begins, f"{begins} + ({ring.step.formula})")
    yield replace(step, count=ring.count - 1, position=True, about=_centre(feature), stations=stations)


def _radius(feature: Feature, name: str, nominal: float, value: Value) -> Measure:
    return Measure(
        feature.name, name, DimensionKind.RADIUS, feature.face, (), nominal, value, count=feature.count, prefix="R"
    )


def _depth(part: Part, feature: Feature, depth: Value | None) -> Iterator[Measure]:
    cut = feature.cuts[0]
    at = (cut.frame.place(_arc(cut, 0).centre),)
    if depth is not None:
        said = note(feature.face, at, cut.depth, (feature.name, "depth"), depth)
        yield replace(said, suffix="deep", callout=callout(part, feature))


def _half_way(angles: tuple[Value, Value]) -> float:
    return (angles[0].number + angles[1].number) / 2


def _arc(cut: Cut, index: int) -> Arc:
    segment = cut.loop.segments[index]
    assert isinstance(segment, Arc)
    return segment
