"""What each printed dimension says, as an equation in small changes of the part's unknowns."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from planbook.dimension.completeness.granted import Equation, Row, on_curve, row_of
from planbook.dimension.completeness.outermost import outermost
from planbook.dimension.completeness.record import Made, Removed, Shape, Told, Triple
from planbook.dimension.completeness.tilted import LEANS, is_tilted
from planbook.dimension.completeness.turns import said_of_turns
from planbook.dimension.completeness.unknowns import (
    AXES,
    DEPTH,
    LEVEL,
    OUTLINE,
    PlacedBend,
    Unknown,
    Unknowns,
    axis_of,
    bottom_at,
    bottom_of,
    level,
)

_DIAMETERS = ("diameter", "counterbore_diameter", "countersink_diameter", "width")
"""Characteristics that a callout states across the whole curve; the width of a slot is that of its round ends."""


def said(part: Shape, unknowns: Unknowns, told: Told) -> tuple[Equation, ...] | None:
    """The equations of one dimension, of each feature that it counts; None when one points at nothing there is."""
    each = (told, *(replace(told, feature=other.feature, points=other.points) for other in told.also))
    found = [_said_of_one(part, unknowns, one) for one in each]
    return None if None in found else tuple(equation for some in found if some for equation in some)


def _said_of_one(part: Shape, unknowns: Unknowns, told: Told) -> tuple[Equation, ...] | None:
    turned = said_of_turns(part, unknowns, told)
    if turned is not None:
        return turned
    if told.characteristic in LEANS:
        return _of_its_own(unknowns, told, LEANS[told.characteristic])
    if told.kind == "linear" and told.characteristic != "diameter":
        return _linear(unknowns, told)
    if told.kind == "radius" or told.characteristic in _DIAMETERS:
        return _round(unknowns, told)
    feature = part.features.get(told.feature)
    noted = _NOTED.get(told.characteristic, _deep)
    return None if feature is None else noted(unknowns, feature, told)


def _linear(unknowns: Unknowns, told: Told) -> tuple[Equation, ...] | None:
    """Between two stations of an axis; the pitch of a row between each two neighbours; "centred" also in the middle."""
    axis = AXES.index(told.axis)
    near, far = (point[axis] for point in told.points)
    step = far - near
    spaces = told.count if told.characteristic == "pitch" else 1
    found, helped = [], list(_on_bends(unknowns, told))
    for space in range(spaces):
        ends = []
        first, last = near + space * step, far + space * step
        for value, other in ((first, last), (last, first)):
            reached = outermost(unknowns, told.feature, axis, value, other)
            helped += [reached[1]] if reached else []
            ends.append(reached[0] if reached else _end(unknowns, told, axis, value))
        if ends[0] is None or ends[1] is None or ends[0] is ends[1]:
            return None
        found.append(Equation(told.id, row_of((ends[1], 1.0), (ends[0], -1.0))))
    return (*found, *helped, *(_centred(unknowns, axis, found[0].row) if told.suffix == "centred" else ()))


def _end(unknowns: Unknowns, told: Told, axis: int, value: float) -> Unknown | None:
    found = unknowns.end(axis, value, told.feature)
    if found is not None:
        return found
    on_one = any(_meets(bend, point) for bend in unknowns.bends for point in told.points)
    return unknowns.helper(AXES[axis], value, "") if on_one else None


def _on_bends(unknowns: Unknowns, told: Told) -> Iterator[Equation]:
    """A point on the curve of a bend, where the dimension ends, stays on that curve."""
    for bend in unknowns.bends:
        for point in told.points:
            if not _meets(bend, point):
                continue
            u, v = axis_of(bend.plane.u), axis_of(bend.plane.v)
            at = tuple(unknowns.helper(AXES[a], point[a], "") for a in (u, v))
            yield on_curve(unknowns, bend, (point[u], point[v]), (at[0], at[1]))


def _meets(bend: PlacedBend, point: Triple) -> bool:
    """Whether a point of a dimension lies on the curve, and is no corner of it. The outline alone has such."""
    flat = (point[0], point[1])
    if bend.owner != OUTLINE or min(math.dist(flat, bend.bend.start), math.dist(flat, bend.bend.end)) < LEVEL:
        return False
    return abs(math.dist(flat, bend.bend.centre) - bend.bend.radius) < LEVEL


def _centred(unknowns: Unknowns, axis: int, size: Row) -> Iterator[Equation]:
    """As much before it as behind it."""
    whole = unknowns.find(AXES[axis], unknowns.size[axis])
    zero = unknowns.find(AXES[axis], 0.0)
    assert whole is not None
    assert zero is not None
    yield Equation("centred", row_of(*((end, 1.0) for end in size), (whole, -1.0), (zero, -1.0)))


def _round(unknowns: Unknowns, told: Told) -> tuple[Equation, ...] | None:
    owner = OUTLINE if told.feature.startswith(f"{OUTLINE}.") else told.feature
    radius = told.nominal if told.kind == "radius" else told.nominal / 2
    found = unknowns.find("radius", radius, owner)
    return None if found is None else (Equation(told.id, {found: 1.0}),)


def _of_its_own(unknowns: Unknowns, told: Told, kind: str) -> tuple[Equation, ...] | None:
    found = unknowns.find(kind, told.nominal, told.feature)
    return None if found is None else (Equation(told.id, {found: 1.0}),)


def _deep(unknowns: Unknowns, feature: Made, told: Told) -> tuple[Equation, ...] | None:
    if is_tilted(feature.cuts[0]):
        return _of_its_own(unknowns, told, DEPTH)
    cut = next((cut for cut in feature.cuts if abs(cut.depth - told.nominal) < LEVEL), None)
    if cut is None:
        return None
    top, bottom = _levels(unknowns, feature, cut)
    return (Equation(told.id, row_of((top, 1.0), (bottom, -1.0))),)


def _climbs(unknowns: Unknowns, feature: Made, told: Told) -> tuple[Equation, ...] | None:
    """How deep a floor along an arc is where it starts, or where it ends."""
    cut = feature.cuts[0]
    if cut.climbs is None:
        return None
    depth = cut.climbs[told.characteristic == "end_depth"]
    top = unknowns.station(*level(cut.frame, 0.0), feature.name)
    return (Equation(told.id, row_of((top, 1.0), (bottom_at(unknowns, feature.name, cut, depth), -1.0))),)


def _along_edge(unknowns: Unknowns, feature: Made, told: Told) -> tuple[Equation, ...] | None:
    """A rounding has a radius; a chamfer at 45 degrees reaches as far on both sides of its corner."""
    if told.characteristic == "radius":
        found = unknowns.find("radius", told.nominal, feature.name)
        return None if found is None else (Equation(told.id, {found: 1.0}),)
    loop, plane = feature.cuts[0].loop, feature.cuts[0].frame
    corner = plane.place(loop[0].start)
    rows = []
    for side in (loop[0].end, loop[-1].start):
        foot = plane.place(side)
        axis = max(range(3), key=lambda each: abs(foot[each] - corner[each]))
        if abs(foot[axis] - corner[axis]) < LEVEL:
            return None
        ends = unknowns.station(axis, foot[axis], feature.name), unknowns.station(axis, corner[axis], feature.name)
        way = 1.0 if foot[axis] > corner[axis] else -1.0
        rows.append(Equation(told.id, row_of((ends[0], way), (ends[1], -way))))
    return tuple(rows)


def _cone(unknowns: Unknowns, feature: Made, told: Told) -> tuple[Equation, ...] | None:
    """The depth of a cone is half the difference of its diameters over the tangent of half its angle."""
    cut = next((cut for cut in feature.cuts if cut.bottom is not None), None)
    if cut is None or cut.bottom is None:
        return None
    wide, narrow = (_radius(unknowns, feature, loop[0].start, loop[0].centre) for loop in (cut.loop, cut.bottom))
    if wide is None or narrow is None:
        return None
    top, bottom = _levels(unknowns, feature, cut)
    outward = 1.0 if cut.frame.normal[axis_of(cut.frame.normal)] > 0 else -1.0
    slope = outward * math.tan(math.radians(told.nominal) / 2)
    return (Equation(told.id, row_of((top, slope), (bottom, -slope), (wide, -1.0), (narrow, 1.0))),)


def _radius(
    unknowns: Unknowns, feature: Made, rim: tuple[float, float], centre: tuple[float, float] | None
) -> Unknown | None:
    return None if centre is None else unknowns.find("radius", math.dist(rim, centre), feature.name)


def _levels(unknowns: Unknowns, feature: Made, cut: Removed) -> tuple[Unknown, Unknown]:
    return unknowns.station(*level(cut.frame, 0.0), feature.name), bottom_of(unknowns, feature.name, cut)


_NOTED: Mapping[str, Callable[[Unknowns, Made, Told], tuple[Equation, ...] | None]] = {
    "chamfer": _along_edge,
    "radius": _along_edge,
    "countersink_angle": _cone,
    "start_depth": _climbs,
    "end_depth": _climbs,
}
"""What the notes of a feature say by characteristic; all others say how deep it is."""
