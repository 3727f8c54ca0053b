"""The measures of pockets, tapers, ramps, chamfers and edges rounded over."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from planbook.design.sameness import plain_form
from planbook.dimension.bored import callout
from planbook.dimension.measure import ON_DATUM, Measure, Sight, from_datum, linear, middle, note, on_view, with_axis
from planbook.dimension.model import DimensionKind
from planbook.shape import FACES, along, bounds
from planbook.shape.geometry import Arc, Vec
from planbook.shape.kinds import PocketShape, RampShape, TaperShape, Vertex
from planbook.shape.model import Cut, Feature, Part
from planbook.source.models.part import FaceName
from planbook.source.models.slopes import Side

_Pair = tuple[str, str]
_SECTIONS = {0: FaceName.LEFT_END, 1: FaceName.FRONT_EDGE, 2: FaceName.FACE}
"""The view along each axis of a part."""


def pocket_measures(part: Part, feature: Feature, shape: PocketShape) -> Iterator[Measure]:
    """Each corner's place, where no corner before has it by the same formula; roundings, arcs and the depth."""
    cut, axes = feature.cuts[0], FACES[feature.face]
    seen: set[tuple[int, str]] = set()
    for vertex in shape.vertices:
        target = cut.frame.place(vertex.point)
        for i, axis in enumerate((axes.u, axes.v)):
            formula = (i, "".join(vertex.at[i].formula.split()))
            if formula not in seen:
                seen.add(formula)
                name = (feature.name, f"{vertex.name}_{axes.names[i]}")
                yield from_datum(part, Sight(feature.face, axis), target, name, vertex.at[i])
    yield from _curves(part, feature, shape, cut)
    at = cut.frame.place(middle(*bounds(cut.loop)))
    depth = note(feature.face, (at,), cut.depth, (feature.name, "depth"), shape.depth)
    yield replace(depth, prefix="pocket", suffix="deep", count=feature.count, callout=callout(part, feature))


def _curves(part: Part, feature: Feature, shape: PocketShape, cut: Cut) -> Iterator[Measure]:
    """One radius for all corners rounded by the same formula, and one for each side that is an arc."""
    groups: dict[str, list[Vertex]] = {}
    for vertex in shape.vertices:
        if vertex.round is not None:
            groups.setdefault("".join(vertex.round.formula.split()), []).append(vertex)
    for group in groups.values():
        arc = _arc_from(cut, group[0].name)
        radius = _radius(part, feature, cut, arc, f"{group[0].name}_radius")
        yield replace(radius, value=group[0].round, count=len(group) * feature.count)
    for before, vertex in zip((shape.vertices[-1], *shape.vertices), shape.vertices, strict=False):
        if vertex.through is not None:
            yield _radius(part, feature, cut, _arc_from(cut, before.name), f"{vertex.name}_arc_radius")


def _arc_from(cut: Cut, vertex: str) -> Arc:
    segment = cut.loop.segments[cut.loop.names.index(vertex)]
    assert isinstance(segment, Arc)
    return segment


def _radius(part: Part, feature: Feature, cut: Cut, arc: Arc, name: str) -> Measure:
    points = (cut.frame.place(arc.centre), cut.frame.place(along(arc, 0.5)))
    kind = DimensionKind.RADIUS
    return Measure(
        feature.name,
        name,
        kind,
        feature.face,
        points,
        arc.radius,
        None,
        prefix="R",
        callout=f"{part.key}/{feature.name}/{name}",
    )


def taper_measures(part: Part, feature: Feature, shape: TaperShape) -> Iterator[Measure]:
    """What it leaves at its two ends, where that is not the whole, and where it starts and ends."""
    axis = 1 if shape.side in (Side.FRONT, Side.REAR) else 2
    view = _SECTIONS[3 - axis]
    whole = part.blank[axis]
    ends = (
        shape.start.number if shape.start else 0.0,
        shape.end.number if shape.end else part.blank.x,
    )
    opposite = 0.0 if shape.side in (Side.REAR, Side.FACE) else whole
    floor: list[Vec] = []
    for name, x, size in zip(("start_size", "end_size"), ends, shape.sizes, strict=True):
        level = size.number if opposite == 0.0 else whole - size.number
        foot, top = (with_axis(Vec(x, 0.0, 0.0), axis, value) for value in (opposite, level))
        floor.append(top)
        if whole - size.number > 1.0:
            yield linear(part, Sight(view, axis), (foot, top), (feature.name, name), size)
    for name, value, top in zip(("start", "end"), (shape.start, shape.end), floor, strict=True):
        if value is not None:
            yield from_datum(part, Sight(view, 0), top, (feature.name, name), value)
    along = (shape.start.formula if shape.start else ON_DATUM, (shape.end or part.size[0]).formula)
    yield _slope(part, feature, view, (floor[0], floor[1]), (along, (shape.sizes[0].formula, shape.sizes[1].formula)))


def ramp_measures(part: Part, feature: Feature, shape: RampShape) -> Iterator[Measure]:
    """Both depths where there is one, its stations, and where it lies across the face if it is not as wide as that."""
    axes, cut = FACES[feature.face], feature.cuts[0]
    run, over = (axes.u, axes.v) if axes.names[0] == shape.along else (axes.v, axes.u)
    view = _SECTIONS[over]
    surface = part.blank[axes.normal] if axes.far else 0.0
    floor: list[Vec] = []
    for name, at, depth in zip(("start", "end"), (shape.start, shape.end), shape.depths, strict=True):
        level = surface - depth.number if axes.far else depth.number
        top, bottom = (with_axis(with_axis(cut.frame.origin, run, at.number), axes.normal, z) for z in (surface, level))
        floor.append(bottom)
        yield linear(part, Sight(view, axes.normal), (top, bottom), (feature.name, f"{name}_depth"), depth)
        yield from_datum(part, Sight(view, run), top, (feature.name, name), at)
    if shape.across is not None:
        at, width = shape.across
        sight, near = Sight(feature.face, over), floor[1]
        far = with_axis(near, over, near[over] + cut.depth)
        yield from_datum(part, sight, near, (feature.name, "xyz"[over]), at)
        yield linear(part, sight, (near, far), (feature.name, "width"), width)
    along, depths = ((first.formula, last.formula) for first, last in ((shape.start, shape.end), shape.depths))
    yield _slope(part, feature, view, (floor[0], floor[1]), (along, depths))


def _slope(
    part: Part, feature: Feature, view: FaceName, floor: tuple[Vec, Vec], formulas: tuple[_Pair, _Pair]
) -> Measure:
    """How steep it is, at its start: that follows, so it is for reference. `formulas`: of its stations, of its levels.

    One between the same stations and levels in the same view is not said again.
    """
    axes = FACES[view]
    low, high = (on_view(part, view, point) for point in floor)
    rise, run = high[axes.v] - low[axes.v], high[axes.u] - low[axes.u]
    level = with_axis(high, axes.v, low[axes.v])
    angle = math.degrees(math.atan2(abs(rise), abs(run)))
    legs = (level, high) if rise > 0 else (high, level)
    points, kind = (low, *legs), DimensionKind.ANGLE
    slope = Measure(feature.name, "slope_angle", kind, view, points, angle, None, angle=True, reference=True)
    about = " ".join(("slope", view, *(str(plain_form(formula)) for formula in formulas[0])))
    return replace(slope, position=True, about=about, stations=formulas[1])
