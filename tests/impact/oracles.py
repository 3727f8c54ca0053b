"""Two other ways to what one part has that another has not: plane areas by shapely, and points counted one by one.

Neither uses meshes. The areas hold for parts of which every feature goes through from the face; the count of points
for all, for it asks the drawing room's own solid, loop by loop, whether a point is wood.
"""

from __future__ import annotations

import math
import random

from shapely import affinity
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry

from planbook.drawing.solid import XYZ
from planbook.drawing.stated_solid import solid_of_stated
from planbook.statement.model import FrameStated, PartStated, SegmentStated

MM = 1e-6
_CHORD = math.radians(1)


def plane_area_lacking(new: PartStated, old: PartStated) -> float:
    """Cubic millimetres that the new part has and the old one has not; both of one thickness."""
    return float(_plan(new).difference(_plan(old)).area) * new.size[2] * MM


def _half_turned(at: XYZ, part: PartStated, about: int) -> XYZ:
    x, y, z = (
        way if axis == about else size * MM - way
        for axis, (way, size) in enumerate(zip((at.x, at.y, at.z), part.size, strict=True))
    )
    return XYZ(x, y, z)


def plane_area_turned(new: PartStated, old: PartStated) -> float:
    """Cubic millimetres that the new part has and the old one has not, when that is turned end for end, face up."""
    turned = affinity.rotate(_plan(old), 180, origin=(old.size[0] * MM / 2, old.size[1] * MM / 2))
    return float(_plan(new).difference(turned).area) * new.size[2] * MM


def _plan(part: PartStated) -> BaseGeometry:
    left: BaseGeometry = _polygon(part.outline, None)
    for feature in part.features.values():
        for cut in feature.cuts:
            left = left.difference(_polygon(cut.loop, cut.frame))
    return left


def _polygon(loop: tuple[SegmentStated, ...], frame: FrameStated | None) -> BaseGeometry:
    if len(loop) == 1 and loop[0].centre is not None:
        (x, y), radius = loop[0].centre, math.dist(loop[0].centre, loop[0].start)
        return Point(*_placed((x, y), frame)).buffer(radius * MM, quad_segs=90)
    return Polygon([_placed(point, frame) for segment in loop for point in _points(segment)])


def _placed(point: tuple[float, float], frame: FrameStated | None) -> tuple[float, float]:
    if frame is None:
        return point[0] * MM, point[1] * MM
    x, y = (frame.origin[k] + frame.u[k] * point[0] + frame.v[k] * point[1] for k in (0, 1))
    return x * MM, y * MM


def _points(segment: SegmentStated) -> list[tuple[float, float]]:
    if segment.centre is None:
        return [segment.start]
    x, y = segment.centre
    radius = math.dist(segment.centre, segment.start)
    first, last = (math.atan2(end[1] - y, end[0] - x) for end in (segment.start, segment.end))
    turn = (last - first) % math.tau if segment.ccw else -((first - last) % math.tau)
    count = max(1, math.ceil(abs(turn) / _CHORD))
    angles = [first + turn * k / count for k in range(count)]
    return [(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles]


def counted_lacking(
    new: PartStated, old: PartStated, points: int, seed: int = 1, about: int | None = None
) -> tuple[float, float]:
    """The same by so many random points: cubic millimetres, and the standard deviation of the count.

    The old part may be turned by half a turn about the middle of its box, along one of its axes.
    """
    wanted, held = solid_of_stated(new), solid_of_stated(old)
    high = [max(a, b) * MM for a, b in zip(new.size, old.size, strict=True)]
    dice = random.Random(seed)
    hits = 0
    for _ in range(points):
        at = XYZ(*(dice.uniform(0.0, length) for length in high))
        hits += wanted.is_wood(at) and not held.is_wood(at if about is None else _half_turned(at, old, about))
    share, box = hits / points, math.prod(high)
    return share * box, math.sqrt(max(share, 1 / points) * (1 - share) / points) * box
