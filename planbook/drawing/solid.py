"""A part as the drawing sees it: a blank with pieces cut out of it, each a loop in a frame with a depth; millimetres.

Everything is answered from the loops themselves, without facets: whether a point is wood, and whether wood lies on the
way from a point to the eye.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from planbook.drawing.curves import TINY, XY, Arc, Curve, Line, Ring, box_of, holds, ring_of


class XYZ(NamedTuple):
    """A point or direction in the part's space, in millimetres."""

    x: float
    y: float
    z: float

    def along(self, direction: XYZ, distance: float) -> XYZ:
        """The point so far away in a direction."""
        return XYZ(self.x + direction.x * distance, self.y + direction.y * distance, self.z + direction.z * distance)

    def dot(self, other: XYZ) -> float:
        """Scalar product."""
        return self.x * other.x + self.y * other.y + self.z * other.z


@dataclass(frozen=True)
class Plane:
    """A face's plane: (u, v) its axes, `normal` out of the wood."""

    origin: XYZ
    u: XYZ
    v: XYZ
    normal: XYZ

    def place(self, x: float, y: float, depth: float = 0.0) -> XYZ:
        """The point in space under a plane point, so deep."""
        (ox, oy, oz), (ux, uy, uz), (vx, vy, vz), (nx, ny, nz) = self.origin, self.u, self.v, self.normal
        return XYZ(
            ox + ux * x + vx * y - nx * depth, oy + uy * x + vy * y - ny * depth, oz + uz * x + vz * y - nz * depth
        )

    def locate(self, p: XYZ) -> tuple[float, float, float]:
        """(x, y, depth) of a point in space."""
        (px, py, pz), (ox, oy, oz) = p, self.origin
        return self.turn((px - ox, py - oy, pz - oz))

    def depth_of(self, p: XYZ) -> float:
        """Of a point in space, by itself."""
        (px, py, pz), (ox, oy, oz), (nx, ny, nz) = p, self.origin, self.normal
        return -((px - ox) * nx + (py - oy) * ny + (pz - oz) * nz)

    def turn(self, d: tuple[float, float, float]) -> tuple[float, float, float]:
        """A direction in the plane's own terms."""
        (x, y, z), (ux, uy, uz), (vx, vy, vz), (nx, ny, nz) = d, self.u, self.v, self.normal
        return x * ux + y * uy + z * uz, x * vx + y * vy + z * vz, -(x * nx + y * ny + z * nz)


@dataclass(frozen=True)
class Prism:
    """A loop pushed `depth` into the wood; `islands` stay. `cone` is the radius at the bottom of a tapered round."""

    plane: Plane
    loop: tuple[Curve, ...]
    depth: float
    islands: tuple[tuple[Curve, ...], ...] = ()
    cone: float | None = None
    feature: str = ""
    lift: float = 0.0
    """How far a tilted plane stands over what it is measured from."""
    climbs: tuple[float, float] | None = None
    """Depth of a floor along an arc where its first arc starts and ends; such a part is drawn from its mesh."""

    @cached_property
    def loops(self) -> tuple[tuple[Curve, ...], ...]:
        """The loop and its islands."""
        return (self.loop, *self.islands)

    @cached_property
    def _rings(self) -> tuple[Ring, ...]:
        return tuple(ring_of(loop) for loop in self.loops)

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """The loop's box in its plane."""
        return box_of(self.loop)

    def contains(self, p: XYZ) -> bool:
        """Whether a point in space lies inside."""
        depth = self.plane.depth_of(p)
        if not 0 <= depth <= self.depth:
            return False
        x, y, _ = self.plane.locate(p)
        return self._holds(x, y, depth)

    def _holds(self, x: float, y: float, depth: float) -> bool:
        x0, y0, x1, y1 = self.box
        if not (x0 <= x <= x1 and y0 <= y <= y1):
            return False
        if self.cone is not None:
            centre, radius = self.round
            return math.hypot(x - centre.x, y - centre.y) < radius + (self.cone - radius) * depth / self.depth
        outer, *islands = self._rings
        return holds(outer, x, y) and not any(holds(island, x, y) for island in islands)

    @property
    def round(self) -> tuple[XY, float]:
        """Centre and radius of a loop that is one whole circle."""
        arc = self.loop[0]
        assert isinstance(arc, Arc)
        return arc.centre, arc.radius

    def crossings(self, p: XYZ, d: XYZ) -> list[float]:
        """Distances along a ray (positive and negative) at which it may pass through the surface, sorted."""
        x, y, w = self.plane.locate(p)
        dx, dy, dw = self.plane.turn(d)
        found: list[float] = []
        if abs(dw) > 1e-9:
            found += [-w / dw, (self.depth - w) / dw]
        if math.hypot(dx, dy) > 1e-9:
            found += self._walls(x, y, w, dx, dy, dw)
        return sorted(found)

    def _walls(self, x: float, y: float, w: float, dx: float, dy: float, dw: float) -> Iterable[float]:
        if self.cone is not None:
            return _cone_crossings(self.round, self.cone, self.depth, (x, y, w), (dx, dy, dw))
        return [
            t
            for loop in self.loops
            for curve in loop
            for t in (_line_hits(curve, x, y, dx, dy) if isinstance(curve, Line) else _circle_hits(curve, x, y, dx, dy))
        ]


def _line_hits(line: Line, x: float, y: float, dx: float, dy: float) -> tuple[float, ...]:
    ex, ey = line.end.x - line.start.x, line.end.y - line.start.y
    cross = dx * ey - dy * ex
    if abs(cross) < 1e-12:
        return ()
    fx, fy = line.start.x - x, line.start.y - y
    s = (fx * dy - fy * dx) / cross
    return ((fx * ey - fy * ex) / cross,) if -1e-9 <= s <= 1 + 1e-9 else ()


def _circle_hits(arc: Arc, x: float, y: float, dx: float, dy: float) -> tuple[float, ...]:
    """Over-complete on purpose: a hit on the rest of the circle only adds a place to look at."""
    fx, fy = x - arc.centre.x, y - arc.centre.y
    return _roots(dx * dx + dy * dy, fx * dx + fy * dy, fx * fx + fy * fy - arc.radius**2)


def _cone_crossings(
    top: tuple[XY, float], bottom: float, depth: float, p: tuple[float, float, float], d: tuple[float, float, float]
) -> tuple[float, ...]:
    """Where a ray meets the cone whose radius is r0 + k w at depth w."""
    (centre, r0), k = top, (bottom - top[1]) / depth
    fx, fy, r = p[0] - centre.x, p[1] - centre.y, r0 + k * p[2]
    slope = k * d[2]
    return _roots(d[0] ** 2 + d[1] ** 2 - slope**2, fx * d[0] + fy * d[1] - r * slope, fx * fx + fy * fy - r * r)


def _roots(a: float, b: float, c: float) -> tuple[float, ...]:
    """Roots of a t^2 + 2 b t + c = 0."""
    room = b * b - a * c
    if abs(a) < 1e-12 or room < 0:
        return ()
    root = math.sqrt(room)
    return ((-b - root) / a, (-b + root) / a)


@dataclass(frozen=True)
class Solid:
    """A blank less its cuts. `size` is the box of the part: length, width, thickness."""

    size: XYZ
    blank: Prism
    cuts: tuple[Prism, ...]

    def is_wood(self, p: XYZ, cuts: Sequence[Prism] | None = None) -> bool:
        """Whether a point is wood; `cuts` may name those that can matter there."""
        return self.blank.contains(p) and not any(cut.contains(p) for cut in (self.cuts if cuts is None else cuts))

    def is_clear(self, p: XYZ, towards: XYZ, cuts: Sequence[Prism]) -> bool:
        """Whether no wood lies on the way from a point out of the part; `cuts` are those that the ray can meet."""
        stops = {t for prism in (self.blank, *cuts) for t in prism.crossings(p, towards) if t > 0}
        before = 0.0
        for stop in sorted(stops):
            if stop - before > TINY and self.is_wood(p.along(towards, (before + stop) / 2), cuts):
                return False
            before = stop
        return True


def solid(size: XYZ, outline: tuple[Curve, ...], cuts: Iterable[Prism]) -> Solid:
    """The part whose blank is an outline in the face's plane."""
    face = Plane(XYZ(0, 0, size.z), XYZ(1, 0, 0), XYZ(0, 1, 0), XYZ(0, 0, 1))
    return Solid(size, Prism(face, outline, size.z), tuple(cuts))


def cone_of(loop: tuple[Curve, ...], bottom: tuple[Curve, ...] | None) -> float | None:
    """The radius at the bottom of a tapered round cut; other cuts have square walls."""
    if bottom and len(loop) == 1 and isinstance(loop[0], Arc) and isinstance(bottom[0], Arc):
        return bottom[0].radius
    return None
