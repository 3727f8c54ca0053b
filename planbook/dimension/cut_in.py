"""The measures of grooves, rabbets, mortises, openings, notches and tenons, taken from their cuts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import pairwise

from planbook.dimension.bored import callout
from planbook.dimension.measure import FINE, Measure, Sight, across, from_datum, linear, middle, note, with_axis
from planbook.dimension.model import DimensionKind
from planbook.dimension.positions import positions
from planbook.shape import AXIS_NAMES, FACES, along, bounds
from planbook.shape.geometry import Arc, Point, Vec
from planbook.shape.kinds import GrooveShape, RabbetShape, RecessShape, TenonShape
from planbook.shape.model import Cut, Feature, Part
from planbook.source.models.part import Edge, FaceName

_ENDS: Mapping[int, tuple[FaceName, FaceName]] = {
    0: (FaceName.LEFT_END, FaceName.RIGHT_END),
    1: (FaceName.FRONT_EDGE, FaceName.REAR_EDGE),
}
"""The faces in which the section of a channel along an axis is seen, the one at the datum first."""


def groove_measures(part: Part, feature: Feature, shape: GrooveShape) -> Iterator[Measure]:
    """Position, width and depth in the view where its section shows; a groove stopped at both ends shows in none."""
    cut = feature.cuts[0]
    axes = FACES[feature.face]
    run, axis = (axes.u, axes.v) if shape.along == axes.names[0] else (axes.v, axes.u)
    near, far = _corners(cut)
    view = _section(feature.face, run, shape)
    size = (feature.name, "width")
    yield from_datum(part, Sight(view, axis), near, (feature.name, "xyz"[axis]), shape.at)
    width = linear(part, Sight(view, axis), (near, _along(near, far, axis)), size, shape.width)
    yield _counted(feature, across(width, shape.at, shape.width))
    if view is feature.face:
        points = (cut.frame.place(middle(*bounds(cut.loop))),)
        depth = note(feature.face, points, cut.depth, (feature.name, "depth"), shape.depth)
        yield replace(depth, suffix="deep", callout=callout(part, feature))
    else:
        yield _depth(part, view, feature, shape, cut)
    if shape.start is not None:
        yield from_datum(part, Sight(feature.face, run), near, (feature.name, "start"), shape.start)
    if shape.end is not None:
        end = _along(near, far, run)
        yield from_datum(part, Sight(feature.face, run), end, (feature.name, "end"), shape.end)


def _section(face: FaceName, run: int, shape: GrooveShape) -> FaceName:
    if shape.start is None:
        return _ENDS[run][0]
    return _ENDS[run][1] if shape.end is None else face


def _depth(part: Part, view: FaceName, feature: Feature, shape: GrooveShape | RabbetShape, cut: Cut) -> Measure:
    low = bounds(cut.loop)[0]
    ends = (cut.frame.place(low), cut.frame.place(low, cut.depth))
    axis = FACES[feature.face].normal
    return linear(part, Sight(view, axis), ends, (feature.name, "depth"), shape.depth)


def rabbet_measures(part: Part, feature: Feature, shape: RabbetShape) -> Iterator[Measure]:
    """Width and depth in the view where its section shows."""
    cut = feature.cuts[0]
    run, across = (1, 0) if shape.edge in (Edge.LEFT, Edge.RIGHT) else (0, 1)
    view = _ENDS[run][0]
    near, far = _corners(cut)
    yield linear(part, Sight(view, across), (near, _along(near, far, across)), (feature.name, "width"), shape.width)
    yield _depth(part, view, feature, shape, cut)


def recess_measures(part: Part, feature: Feature, shape: RecessShape) -> Iterator[Measure]:
    """Position from the datum where it does not open on a border, two sizes, and the callout: rounding and depth."""
    cut = feature.cuts[0]
    axes = FACES[feature.face]
    near, far = _corners(cut)
    for axis in (axes.u, axes.v):
        for measure in positions(part, feature, _touched(near, near, far, axis, shape), shape.at):
            if measure.axis == AXIS_NAMES[axis] and not _opens(shape, measure.axis):
                yield measure
    names = ("length", "width")
    for axis, name, value, at in zip((axes.u, axes.v), names, shape.size, shape.at, strict=True):
        start = _touched(_in_the_wood(near, far, shape), near, far, axis, shape)
        ends = (with_axis(start, axis, near[axis]), with_axis(start, axis, far[axis]))
        size = linear(part, Sight(feature.face, axis), ends, (feature.name, name), value)
        size = _counted(feature, across(size, at, value))
        goes_through = feature.kind == "mortise" and shape.depth is None and name == "width"
        yield replace(size, suffix="through") if goes_through else size
    yield from _recess_callout(part, feature, shape, cut)


def _in_the_wood(near: Vec, far: Vec, shape: RecessShape) -> Vec:
    """The corner of a recess that its sizes are measured at: one that is not cut away with a corner of the part."""
    return Vec(
        far.x if Edge.LEFT in shape.open else near.x,
        far.y if Edge.FRONT in shape.open else near.y,
        near.z,
    )


def _touched(start: Vec, near: Vec, far: Vec, axis: int, shape: RecessShape) -> Vec:
    """The same, but half way across where the rounding takes up the whole end: there it is outermost along an axis."""
    reach = 0.0 if shape.round is None else 2 * shape.round.number
    for i in (i for i in range(3) if i != axis and not _opens(shape, AXIS_NAMES[i])):
        if FINE < abs(far[i] - near[i]) < reach + FINE:
            start = with_axis(start, i, (near[i] + far[i]) / 2)
    return start


def _opens(shape: RecessShape, axis: str) -> bool:
    borders = (Edge.LEFT, Edge.RIGHT) if axis == "x" else (Edge.FRONT, Edge.REAR)
    return any(edge in shape.open for edge in borders)


def _recess_callout(part: Part, feature: Feature, shape: RecessShape, cut: Cut) -> Iterator[Measure]:
    segments = cut.loop.segments
    arcs = [segment for segment in segments if isinstance(segment, Arc)]
    if shape.round is not None and arcs:
        arc = arcs[0]
        # Two roundings that run on into one another are one round end, four are a circle.
        rounds = sum(isinstance(b, Arc) and not isinstance(a, Arc) for a, b in pairwise((segments[-1], *segments)))
        points = (cut.frame.place(arc.centre), cut.frame.place(along(arc, 0.5)))
        yield Measure(
            feature.name,
            "radius",
            DimensionKind.RADIUS,
            feature.face,
            points,
            arc.radius,
            shape.round,
            count=max(rounds, 1) * feature.count,
            callout=callout(part, feature),
            prefix="R",
        )
    if shape.depth is not None:
        centre = cut.frame.place(middle(*bounds(cut.loop)))
        depth = note(feature.face, (centre,), cut.depth, (feature.name, "depth"), shape.depth)
        yield replace(depth, suffix="deep", callout=callout(part, feature))


def tenon_measures(part: Part, feature: Feature, shape: TenonShape) -> Iterator[Measure]:
    """Length to the shoulder and width on the face, thickness on the front edge; position unless it is centred.

    A measure in which the tenon is as large as the part has no shoulder and needs no dimension.
    """
    cut = feature.cuts[0]
    low, high = bounds(cut.islands[0])
    near, far = cut.frame.place(low), cut.frame.place(high)
    shoulder = cut.frame.place(low, cut.depth)
    yield linear(part, Sight(FaceName.FACE, 0), (near, shoulder), (feature.name, "length"), shape.length)
    sides = ((1, "width", FaceName.FACE, shape.width), (2, "thickness", FaceName.FRONT_EDGE, shape.thickness))
    for (axis, name, view, value), at, centred in zip(sides, shape.at, shape.centred, strict=True):
        size = linear(part, Sight(view, axis), (near, _along(near, far, axis)), (feature.name, name), value)
        if part.blank[axis] - size.nominal < 1.0:
            continue
        if centred:
            yield replace(size, suffix="centred")
        else:
            yield size
            yield from_datum(part, Sight(view, axis), near, (feature.name, "xyz"[axis]), at)


def shoulder_measures(part: Part) -> Iterator[Measure]:
    """The distance between the shoulders of a part with a tenon at each end: it follows, so it is for reference."""
    by_end = {feature.shape.end: feature for feature in part.features.values() if isinstance(feature.shape, TenonShape)}
    left, right = by_end.get(Edge.LEFT), by_end.get(Edge.RIGHT)
    if left is None or right is None:
        return
    ends = tuple(feature.cuts[0].frame.place(Point(0.0, 0.0), feature.cuts[0].depth) for feature in (left, right))
    measure = linear(part, Sight(FaceName.FACE, 0), (ends[0], ends[1]), (left.name, "shoulder"), None)
    yield replace(measure, second=right.name, reference=True)


def _corners(cut: Cut) -> tuple[Vec, Vec]:
    low, high = bounds(cut.loop)
    return cut.frame.place(low), cut.frame.place(high)


def _along(near: Vec, far: Vec, axis: int) -> Vec:
    """The point that lies level with `near` and as far as `far` along one axis."""
    return Vec(*(far[i] if i == axis else near[i] for i in range(3)))


def _counted(feature: Feature, measure: Measure) -> Measure:
    return replace(measure, count=feature.row.count) if feature.row else measure
