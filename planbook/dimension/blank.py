"""The measures of a part's blank and of its outline."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from planbook.design.values import Value
from planbook.dimension.measure import FINE, ON_DATUM, Measure, Sight, from_datum, linear
from planbook.dimension.model import DimensionKind
from planbook.dimension.slanted import is_round, on_end_cuts, points_of_length
from planbook.shape import AXIS_NAMES, along, frame_of
from planbook.shape.geometry import Arc, Point, Vec
from planbook.shape.kinds import Vertex
from planbook.shape.model import Part
from planbook.source.models.part import FaceName

_EDGE_VIEWS = (FaceName.FRONT_EDGE, FaceName.REAR_EDGE, FaceName.LEFT_END, FaceName.RIGHT_END)


def blank_measures(part: Part, views: Collection[FaceName]) -> Iterator[Measure]:
    """Length and width on the face; thickness in the first edge view that the part has anyway, else the front edge."""
    blank = part.blank
    for axis, name in enumerate(("length", "width")):
        ends = _extremes(part, axis)
        if axis == 1 and is_round(part, axis):
            continue
        size = linear(part, Sight(FaceName.FACE, axis), ends, ("blank", name), part.size[axis])
        if axis == 0:
            size = replace(size, suffix=points_of_length(part))
        yield replace(size, stations=(ON_DATUM, part.size[axis].formula))
    view = next((view for view in _EDGE_VIEWS if view in views), FaceName.FRONT_EDGE)
    if is_round(part, 2):
        return
    ends = (Vec(0.0, 0.0, 0.0), Vec(0.0, 0.0, blank.z))
    yield linear(part, Sight(view, 2), ends, ("blank", "thickness"), part.size[2])


def _extremes(part: Part, axis: int) -> tuple[Vec, Vec]:
    """The corners of the outline on the datum border and on the far one, those nearest the datum corner."""
    corners = [segment.start for segment in part.outline.segments]
    found = []
    for border in (0.0, part.blank[axis]):
        touching = [corner for corner in corners if abs(corner[axis] - border) < FINE]
        other = min((corner[1 - axis] for corner in touching), default=0.0)
        found.append(Vec(border, other, 0.0) if axis == 0 else Vec(other, border, 0.0))
    return on_end_cuts(part, axis, (found[0], found[1]))


def outline_measures(part: Part) -> Iterator[Measure]:
    """Where the named corners are that are not on a border of the blank, what their roundings are, and the arcs."""
    seen: set[tuple[int, str]] = set()
    for vertex in part.vertices:
        feature = f"outline.{vertex.name}"
        yield from _positions(part, feature, "", vertex.at, seen)
        if vertex.through is not None:
            yield from _positions(part, feature, "through_", vertex.through, seen)
            yield _arc(part, vertex)
    yield from _roundings(part)


def _positions(
    part: Part, feature: str, before: str, at: tuple[Value, Value], seen: set[tuple[int, str]]
) -> Iterator[Measure]:
    """x and y; corners that share a measure by the same formula share its dimension."""
    target = Vec(at[0].number, at[1].number, 0.0)
    for axis in (0, 1):
        formula = (axis, "".join(at[axis].formula.split()))
        on_border = min(abs(target[axis]), abs(target[axis] - part.blank[axis])) < FINE
        if on_border or formula in seen:
            continue
        seen.add(formula)
        name = (feature, before + AXIS_NAMES[axis])
        yield from_datum(part, Sight(FaceName.FACE, axis), target, name, at[axis])


def _arc(part: Part, vertex: Vertex) -> Measure:
    """The radius of the side that leads to a corner through a point: it follows, so it is for reference."""
    names = [each.name for each in part.vertices]
    before = names[names.index(vertex.name) - 1]
    arc = _arc_named(part, before)
    assert vertex.through is not None
    on_curve = Point(vertex.through[0].number, vertex.through[1].number)
    return replace(_radius(part, arc, on_curve, (vertex.name, "arc_radius"), None), reference=True)


def _roundings(part: Part) -> Iterator[Measure]:
    """One radius for all corners that are rounded by the same formula, at the first of them."""
    groups: dict[str, list[Vertex]] = {}
    for vertex in part.vertices:
        if vertex.round is not None:
            groups.setdefault("".join(vertex.round.formula.split()), []).append(vertex)
    for group in groups.values():
        arc = _arc_named(part, group[0].name)
        measure = _radius(part, arc, along(arc, 0.5), (group[0].name, "radius"), group[0].round)
        yield replace(measure, count=len(group))


def _arc_named(part: Part, name: str) -> Arc:
    segment = part.outline.segments[part.outline.names.index(name)]
    assert isinstance(segment, Arc)
    return segment


def _radius(part: Part, arc: Arc, on_curve: Point, name: tuple[str, str], value: Value | None) -> Measure:
    frame = frame_of(FaceName.FACE, part.blank)
    points = (frame.place(arc.centre), frame.place(on_curve))
    return Measure(
        f"outline.{name[0]}", name[1], DimensionKind.RADIUS, FaceName.FACE, points, arc.radius, value, prefix="R"
    )
