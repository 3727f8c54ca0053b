"""What a plane cuts of a part: the lines in which it meets the surface, as true lines and arcs, and the area of wood.

Where the part lies in lines and arcs (`faceted` says where it does not), every cut meets the plane in its own loop, or
in the corners of a box; these are parted where they cross, and a piece counts if wood is on one side of it only.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import Final

import shapely
from shapely.geometry.base import BaseGeometry

from planbook.drawing.curves import TINY, XY, Arc, Curve, Line, arc_between, meetings
from planbook.drawing.facing import Facing
from planbook.drawing.merge import Piece, merge
from planbook.drawing.solid import XYZ, Plane, Prism, Solid

_NEAR: Final = 0.01
"""How far beside a line (mm) the wood is felt."""
_UNDER: Final = 1e-4
"""How far behind the plane (mm): what ends in the plane itself is not cut."""
_CHORDS: Final = 16
"""Pieces of the hyperbola in which a plane off the axis meets a cone."""
_FLAT: Final = math.radians(3)
"""Step of arcs in areas, which are only hatched."""
_GRID: Final = 1e-3
"""Millimetres to which ends are brought together: lines that were joined end by a hair beside their neighbours."""

Box = tuple[float, float, float, float]
"""Least x, least y, greatest x, greatest y."""


def half_removed(solid: Solid, facing: Facing, at: float) -> Prism:
    """All on the viewer's side of a plane, as a cut: `at` is the plane's place along the direction to the eye."""
    reach = sum(abs(component) * size for component, size in zip(facing.eye, solid.size, strict=True)) + 1.0
    far = math.dist((0.0, 0.0, 0.0), solid.size) + 1.0
    origin = XYZ(*(component * reach for component in facing.eye))
    corners = XY(-far, -far), XY(far, -far), XY(far, far), XY(-far, far)
    loop = tuple(Line(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    return Prism(Plane(origin, facing.right, facing.up, facing.eye), loop, reach - at)


def cut_lines(solid: Solid, facing: Facing, at: float) -> tuple[Piece, ...]:
    """The border of the wood in the plane, on the plane of view. Cuts are square to it or lie along it."""
    found = [curve for prism in (solid.blank, *solid.cuts) for curve in _meeting(prism, facing, at)]
    boxes = [curve.box for curve in found]
    pieces = []
    for curve, box in zip(found, boxes, strict=True):
        near = (other for other, its in zip(found, boxes, strict=True) if other is not curve and _overlap(box, its))
        stops = {0.0, 1.0, *(t for other in near for t in meetings(curve, other))}
        for a, b in pairwise(sorted(stops)):
            if (b - a) * curve.length > _UNDER and _is_border(solid, facing, at, curve, (a + b) / 2):
                pieces.append(Piece(curve.part(a, b), 1))
    return merge(pieces)


def _overlap(a: Box, b: Box) -> bool:
    return a[0] <= b[2] + _NEAR and b[0] <= a[2] + _NEAR and a[1] <= b[3] + _NEAR and b[1] <= a[3] + _NEAR


def area_within(solid: Solid, facing: Facing, at: float, border: Sequence[Piece]) -> BaseGeometry:
    """The wood in the plane as an area, arcs in chords: for hatching."""
    lines = shapely.union_all([shapely.LineString(_points(piece.curve)) for piece in border], grid_size=_GRID)
    wood = [
        area
        for area in shapely.get_parts(shapely.polygonize([*getattr(lines, "geoms", (lines,))]))
        if not area.is_empty
    ]
    spots = [area.representative_point() for area in wood]
    held = [area for area, spot in zip(wood, spots, strict=True) if _is_wood(solid, facing, at, XY(spot.x, spot.y))]
    return shapely.union_all(held)


def _points(curve: Curve) -> list[XY]:
    count = max(1, math.ceil(abs(curve.sweep) / _FLAT)) if isinstance(curve, Arc) else 1
    points = [curve.point(k / count) for k in range(count + 1)]
    return [XY(round(x, 5), round(y, 5)) for x, y in points]


def _is_border(solid: Solid, facing: Facing, at: float, curve: Curve, t: float) -> bool:
    (x, y), (ax, ay), (bx, by) = curve.point(t), curve.point(max(t - 1e-4, 0.0)), curve.point(min(t + 1e-4, 1.0))
    length = math.hypot(bx - ax, by - ay)
    dx, dy = (by - ay) / length * _NEAR, -(bx - ax) / length * _NEAR
    beside = (_is_wood(solid, facing, at, XY(x + dx * way, y + dy * way)) for way in (1, -1))
    return next(beside) != next(beside)


def _is_wood(solid: Solid, facing: Facing, at: float, p: XY) -> bool:
    return solid.is_wood(_in_space(facing, at - _UNDER, p))


def _in_space(facing: Facing, at: float, p: XY) -> XYZ:
    ways = zip(facing.right, facing.up, facing.eye, strict=True)
    return XYZ(*(r * p.x + u * p.y + e * at for r, u, e in ways))


def _meeting(prism: Prism, facing: Facing, at: float) -> Iterator[Curve]:
    """The lines in which a plane meets a cut's whole surface."""
    plane = prism.plane
    x, y, depth = plane.locate(_in_space(facing, at - _UNDER, XY(0.0, 0.0)))
    if abs(plane.normal.dot(facing.eye)) > 1 - TINY:
        if 0 < depth < prism.depth:
            yield from _loops_at(prism, facing, depth)
        return
    across = abs(plane.u.dot(facing.eye)) > 0.5
    yield from _walls(prism, facing, across, x if across else y)


def _loops_at(prism: Prism, facing: Facing, depth: float) -> Iterator[Curve]:
    """Of a cut that the view looks into: its loops, those of a cone as wide as they are there."""
    plane = prism.plane
    flipped = (
        plane.u.dot(facing.right) * plane.v.dot(facing.up) - plane.u.dot(facing.up) * plane.v.dot(facing.right)
    ) < 0

    def flat(p: XY) -> XY:
        return facing.flat(plane.place(*p))

    for place, loop in enumerate(prism.loops):
        for curve in loop:
            if isinstance(curve, Line):
                yield Line(flat(curve.start), flat(curve.end))
                continue
            arc = curve
            if prism.cone is not None and place == 0:
                radius = curve.radius + (prism.cone - curve.radius) * depth / prism.depth
                arc = Arc(curve.centre, radius, curve.begin, curve.sweep)
            centre, start, end = flat(arc.centre), flat(arc.start), flat(arc.end)
            if arc.full:
                yield Arc(centre, arc.radius, 0.0, math.tau)
            else:
                yield arc_between(start, end, centre, (arc.sweep > 0) != flipped)


def _walls(prism: Prism, facing: Facing, across: bool, level: float) -> Iterator[Curve]:
    """Of a cut that is seen from the side: its walls and its floor, from where the plane crosses its loops."""
    plane = prism.plane

    def flat(w: float, depth: float) -> XY:
        return facing.flat(plane.place(*((level, w) if across else (w, level)), depth))

    if prism.cone is not None:
        yield from _cone_walls(prism, across, level, flat)
        return
    x0, y0, x1, y1 = prism.box
    low, high = (y0 - 1.0, y1 + 1.0) if across else (x0 - 1.0, x1 + 1.0)
    line = Line(XY(level, low), XY(level, high)) if across else Line(XY(low, level), XY(high, level))
    places = sorted({round(low + (high - low) * t, 9) for loop in prism.loops for c in loop for t in meetings(line, c)})
    if len(places) > 1:
        yield from (Line(flat(places[0], depth), flat(places[-1], depth)) for depth in (0.0, prism.depth))
    yield from (Line(flat(w, 0.0), flat(w, prism.depth)) for w in places)


def _cone_walls(prism: Prism, across: bool, level: float, flat: Callable[[float, float], XY]) -> Iterator[Curve]:
    assert prism.cone is not None
    centre, top = prism.round
    off = level - (centre.x if across else centre.y)
    middle = centre.y if across else centre.x
    # The cone's radius is the hypotenuse of half the width in the plane and the plane's distance to its axis.
    first, last = (math.sqrt(max(radius * radius - off * off, 0.0)) for radius in (top, prism.cone))
    if max(first, last) < TINY:
        return
    steps = 1 if abs(off) < TINY else _CHORDS
    halves = [first + (last - first) * k / steps for k in range(steps + 1)]
    depths = [(math.hypot(half, off) - top) / (prism.cone - top) * prism.depth for half in halves]
    for way in (-1, 1):
        places = [flat(middle + way * half, depth) for half, depth in zip(halves, depths, strict=True)]
        yield from (Line(a, b) for a, b in pairwise(places))
    for half, depth in ((halves[0], depths[0]), (halves[-1], depths[-1])):
        if half > TINY:
            yield Line(flat(middle - half, depth), flat(middle + half, depth))
