"""The edges that a part may show in a view: rims, corners and the silhouettes of round walls.

Each is a curve on the view's plane that can tell, for any place along it, where it is in space and which directions the
walls take round it there. Whether it exists in the finished part and whether it is seen is decided in `sight`.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from planbook.drawing.curves import TINY, XY, Arc, Curve, Line, box_of, extremes
from planbook.drawing.facing import Facing
from planbook.drawing.solid import XYZ, Plane, Prism, Solid

_CHORD = math.radians(5)


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on an edge: two directions square to it, and the angles (radians, sorted) of walls between them."""

    at: XYZ
    across: XYZ
    out: XYZ
    angles: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Edge:
    """A candidate. `smooth`: a silhouette, where the wall goes on without a corner."""

    flat: Curve
    spot: Callable[[float], Spot]
    feature: str
    smooth: bool = False


def edges_of(solid: Solid, facing: Facing) -> Iterator[Edge]:
    """All candidates of a solid in a view, those that the view sees as a point left out."""
    for prism in (solid.blank, *solid.cuts):
        for place, loop in enumerate(prism.loops):
            yield from _rims(prism, loop, place == 0, facing)
            yield from _corners(prism, loop, facing)
            yield from _silhouettes(prism, loop, facing)
    for cut in solid.cuts:
        yield from _floor_ends(solid.blank, cut, facing)


_SQUARE = (0.0, math.pi / 2, math.pi, 3 * math.pi / 2)


def _rims(prism: Prism, loop: tuple[Curve, ...], outer: bool, facing: Facing) -> Iterator[Edge]:
    for depth in (0.0, prism.depth):
        for curve in loop:
            at_depth = curve
            angles: tuple[float, ...] = _SQUARE
            if prism.cone is not None and outer and isinstance(curve, Arc):
                if depth:
                    at_depth = Arc(curve.centre, prism.cone, curve.begin, curve.sweep)
                lean = math.atan2(prism.depth, curve.radius - prism.cone)
                angles = tuple(sorted({*_SQUARE, lean, lean + math.pi}))
            yield from _rim(prism, at_depth, depth, angles, facing)


def _floor_ends(blank: Prism, cut: Prism, facing: Facing) -> Iterator[Edge]:
    """Where a cut's floor ends at the blank's walls, which its own loop does not follow: round or slanted."""
    if abs(blank.plane.normal.dot(cut.plane.normal)) < 1 - 1e-9:
        return
    x0, y0, x1, y1 = cut.box
    corners = [blank.plane.locate(cut.plane.place(x, y, cut.depth)) for x in (x0, x1) for y in (y0, y1)]
    depth = corners[0][2]
    if not TINY < depth < blank.depth - TINY:
        return
    reach = box_of(tuple(Line(XY(*a[:2]), XY(*b[:2])) for a, b in pairwise(corners)))
    for curve in (curve for loop in blank.loops for curve in loop):
        if _meet(curve.box, reach):
            yield from _rim(blank, curve, depth, _SQUARE, facing)


def _meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] + TINY and b[0] < a[2] + TINY and a[1] < b[3] + TINY and b[1] < a[3] + TINY


def _rim(prism: Prism, curve: Curve, depth: float, angles: tuple[float, ...], facing: Facing) -> Iterator[Edge]:
    plane = prism.plane

    def spot(t: float) -> Spot:
        p = curve.point(t)
        away = _away(curve, t)
        return Spot(plane.place(p.x, p.y, depth), _direction(plane, away), plane.normal, angles)

    if isinstance(curve, Line):
        a, b = (facing.flat(plane.place(p.x, p.y, depth)) for p in (curve.start, curve.end))
        if math.dist(a, b) > TINY:
            yield Edge(Line(a, b), spot, prism.feature)
        return
    yield from _flat_arc(prism, curve, depth, spot, facing)


def _flat_arc(prism: Prism, arc: Arc, depth: float, spot: Callable[[float], Spot], facing: Facing) -> Iterator[Edge]:
    """An arc seen from straight above stays an arc; seen edge on it is a line to and fro; tilted it goes in chords."""
    plane = prism.plane
    lean = plane.normal.dot(facing.eye)
    if abs(lean) > 1 - 1e-9:
        centre = facing.flat(plane.place(arc.centre.x, arc.centre.y, depth))
        first = facing.flat(plane.place(*arc.start, depth))
        mirrored = _is_mirrored(plane, facing)
        begin = math.atan2(first.y - centre.y, first.x - centre.x)
        yield Edge(Arc(centre, arc.radius, begin, -arc.sweep if mirrored else arc.sweep), spot, prism.feature)
        return
    if abs(lean) < 1e-9:
        turns = [0.0, *extremes(arc, _silhouette_angle(plane, facing)), 1.0]
    else:
        count = max(2, math.ceil(abs(arc.sweep) / _CHORD))
        turns = [k / count for k in range(count + 1)]
    for t0, t1 in pairwise(turns):
        a, b = (facing.flat(plane.place(*arc.point(t), depth)) for t in (t0, t1))
        if math.dist(a, b) > TINY:
            yield Edge(Line(a, b), _to_and_fro(arc, (t0, t1), (a, b), plane, depth, spot, facing), prism.feature)


def _to_and_fro(
    arc: Arc,
    turns: tuple[float, float],
    ends: tuple[XY, XY],
    plane: Plane,
    depth: float,
    spot: Callable[[float], Spot],
    facing: Facing,
) -> Callable[[float], Spot]:
    """The spot of a place on the line that an arc makes seen edge on.

    Along that line the arc's angle goes as the cosine from where the arc turns; `turns` hold no turning inside.
    """
    (a, b), middle = ends, arc.begin + arc.sweep * (turns[0] + turns[1]) / 2
    way = facing.right, facing.up
    along = XYZ(*((r * (b.x - a.x) + u * (b.y - a.y)) / math.dist(a, b) for r, u in zip(*way, strict=True)))
    dx, dy, _ = plane.turn(along)
    turning, reach = math.atan2(dy, dx), math.hypot(dx, dy) * arc.radius
    centre = plane.place(*arc.centre, depth).dot(along)
    first, last = (plane.place(*arc.point(t), depth).dot(along) - centre for t in turns)
    sign = math.copysign(1.0, math.sin(middle - turning))

    def seen(s: float) -> Spot:
        level = (first + (last - first) * s) / reach
        angle = turning + sign * math.acos(min(max(level, -1.0), 1.0))
        angle += 2 * math.pi * round((middle - angle) / (2 * math.pi))
        return spot((angle - arc.begin) / arc.sweep)

    return seen


def _corners(prism: Prism, loop: tuple[Curve, ...], facing: Facing) -> Iterator[Edge]:
    """Edges along the depth where two pieces of a loop meet at an angle."""
    if len(loop) < 2 or prism.cone is not None:
        return
    for before, after in zip((loop[-1], *loop[:-1]), loop, strict=True):
        into, out = _heading(before, 1.0), _heading(after, 0.0)
        bend = math.atan2(into.x * out.y - into.y * out.x, into.x * out.x + into.y * out.y)
        if abs(bend) < 1e-6:
            continue
        back, ahead = math.atan2(-into.y, -into.x), math.atan2(out.y, out.x)
        turns = {round(a % (2 * math.pi), 9) for a in (back, ahead, back + math.pi, ahead + math.pi, *_SQUARE)}
        edge = _upright(prism, after.start, XY(1, 0), XY(0, 1), tuple(sorted(turns)), facing, smooth=False)
        if edge:
            yield edge


def _silhouettes(prism: Prism, loop: tuple[Curve, ...], facing: Facing) -> Iterator[Edge]:
    """Lines along the depth where a round wall turns from the eye."""
    if abs(prism.plane.normal.dot(facing.eye)) > 1 - 1e-9:
        return
    side = _silhouette_angle(prism.plane, facing)
    for arc in loop:
        if not isinstance(arc, Arc):
            continue
        angles = [side, side + math.pi]
        for angle in angles:
            t = arc.parameter(angle)
            if t is None:
                continue
            away = XY(math.cos(angle), math.sin(angle))
            edge = _upright(prism, arc.point(t), away, XY(-away.y, away.x), (-math.pi / 2, math.pi / 2), facing, True)
            if edge:
                yield edge


def _upright(
    prism: Prism, foot: XY, first: XY, second: XY, angles: tuple[float, ...], facing: Facing, smooth: bool
) -> Edge | None:
    """An edge from a loop's point down to the cut's depth (leaning inwards in a cone)."""
    plane = prism.plane
    low = foot
    if prism.cone is not None:
        centre, radius = prism.round
        shrink = prism.cone / radius
        low = XY(centre.x + (foot.x - centre.x) * shrink, centre.y + (foot.y - centre.y) * shrink)
    top, bottom = plane.place(*foot), plane.place(*low, prism.depth)
    across, out = _direction(plane, first), _direction(plane, second)

    def spot(t: float) -> Spot:
        return Spot(XYZ(*(p + (q - p) * t for p, q in zip(top, bottom, strict=True))), across, out, angles)

    a, b = facing.flat(top), facing.flat(bottom)
    return Edge(Line(a, b), spot, prism.feature, smooth) if math.dist(a, b) > TINY else None


def _away(curve: Curve, t: float) -> XY:
    """Square to a curve in its plane: to the right of a line, away from an arc's centre."""
    if isinstance(curve, Arc):
        angle = curve.begin + curve.sweep * t
        return XY(math.cos(angle), math.sin(angle))
    ahead = _heading(curve, t)
    return XY(ahead.y, -ahead.x)


def _heading(curve: Curve, t: float) -> XY:
    """Unit tangent."""
    if isinstance(curve, Line):
        return XY((curve.end.x - curve.start.x) / curve.length, (curve.end.y - curve.start.y) / curve.length)
    angle = curve.begin + curve.sweep * t
    sign = 1.0 if curve.sweep > 0 else -1.0
    return XY(-math.sin(angle) * sign, math.cos(angle) * sign)


def _direction(plane: Plane, d: XY) -> XYZ:
    return XYZ(*(u * d.x + v * d.y for u, v in zip(plane.u, plane.v, strict=True)))


def _silhouette_angle(plane: Plane, facing: Facing) -> float:
    """The angle in the plane at which a round wall's normal is square to the line of sight."""
    dx, dy, _ = plane.turn(facing.eye)
    return math.atan2(dx, -dy)


def _is_mirrored(plane: Plane, facing: Facing) -> bool:
    """Whether the view sees the plane's axes the wrong way round."""
    u, v = XY(plane.u.dot(facing.right), plane.u.dot(facing.up)), XY(plane.v.dot(facing.right), plane.v.dot(facing.up))
    return u.x * v.y - u.y * v.x < 0
