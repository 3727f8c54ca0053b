"""Bodies from which a part is put together: a loop in a frame pushed into the wood, straight or tapering."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from manifold3d import triangulate

from planbook.measure.rounding import GRAINS_PER_NANOMETRE
from planbook.shape.bench import FINE
from planbook.shape.geometry import Arc, Frame, Loop, Point, Vec
from planbook.shape.solids.facets import Corner, corners
from planbook.shape.solids.surfaces import Floats, Surfaces, Whole

MM: Final = 1e-6
"""One nanometre in millimetres."""


@dataclass(frozen=True, eq=False, slots=True)
class Body:
    """A closed mesh, its triangles counter-clockwise seen from outside; `faces` numbers the surface of each."""

    points: Floats
    triangles: Whole
    faces: Whole
    surfaces: Surfaces


def prism(frame: Frame, loop: Loop, depth: float, bottom: Loop | None = None, blank: Vec | None = None) -> Body:
    """The space under a loop, `depth` nm against the frame's normal; with `bottom` it narrows to that loop.

    `bottom` has the same segments in the same order, arcs with the same centres. Points within `FINE` of a face of
    `blank` are put on it, so that what should end at a border ends there. Surfaces: each segment's wall, then the top,
    then the bottom.
    """
    over = corners(loop)
    under = over if bottom is None else corners(bottom, like=loop)
    nanometres = np.array([frame.place(c.at) for c in over] + [frame.place(c.at, depth) for c in under])
    points = snapped(nanometres, blank) * MM
    triangles, faces = skin(over, len(loop.segments))
    if is_left_handed(frame):
        triangles = triangles[:, ::-1]
    return Body(points, np.ascontiguousarray(triangles), faces, surfaces_under(frame, loop, depth, bottom))


def rod(radius: float, length: float) -> Body:
    """A cylinder along x from the origin; nanometres."""
    frame = Frame(Vec(length, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1), Vec(1, 0, 0))
    start = Point(radius, 0.0)
    return prism(frame, Loop((Arc(start, start, Point(0.0, 0.0), ccw=True),)), length)


def snapped(points: Floats, blank: Vec | None) -> Floats:
    """To 1/1024 nm, and to the blank's planes."""
    points = np.round(points * GRAINS_PER_NANOMETRE) / GRAINS_PER_NANOMETRE
    if blank is None:
        return points
    for plane in (np.zeros(3), np.array(blank)):
        points = np.where(np.abs(points - plane) < FINE, plane, points)
    return points


def skin(over: Sequence[Corner], sides: int, floor: Whole | None = None) -> tuple[Whole, Whole]:
    """Walls, top and bottom of a prism over a polygon; the bottom's points follow the top's.

    `floor` are the bottom's triangles, numbered as the top's, where it is not level.
    """
    count = len(over)
    here = np.arange(count)
    following = (here + 1) % count
    walls = np.concatenate(
        [
            np.stack([here, following, following + count], axis=1),
            np.stack([here, following + count, here + count], axis=1),
        ]
    )
    cap = np.asarray(triangulate([np.array([corner.at for corner in over])]), dtype=np.int64)
    floor = cap if floor is None else floor
    side = np.array([corner.side for corner in over])
    faces = np.concatenate([side, side, np.full(len(cap), sides), np.full(len(floor), sides + 1)])
    return np.concatenate([walls, cap[:, ::-1], floor + count]).astype(np.int64), faces.astype(np.int64)


def is_left_handed(frame: Frame) -> bool:
    """Whether (u, v, into the wood) is: positions on a face follow the part's own axes, so it may be."""
    return float(np.linalg.det(np.array([frame.u, frame.v, [-n for n in frame.normal]]))) < 0


def surfaces_under(frame: Frame, loop: Loop, depth: float, bottom: Loop | None = None) -> Surfaces:
    """Each segment's wall, then the top, then the bottom."""
    rows = [_wall(frame, loop, bottom, side, depth) for side in range(len(loop.segments))]
    up = np.array(frame.normal)
    caps = [
        (np.array(frame.origin), up, 0.0, 1.0, False),
        (np.array(frame.place(Point(0, 0), depth)), -up, 0, 1, False),
    ]
    origins, axes, slopes, signs, curved = zip(*rows, *caps, strict=True)
    return Surfaces(
        np.array(origins) * MM,
        np.array(axes),
        np.array(slopes),
        np.array(signs),
        np.array(curved),
        np.zeros(len(signs)),
    )


def _wall(
    frame: Frame, loop: Loop, bottom: Loop | None, side: int, depth: float
) -> tuple[Floats, Floats, float, float, bool]:
    """Origin (nm), axis or outward normal, slope, sign and roundness of the wall under a segment."""
    segment = loop.segments[side]
    below = segment if bottom is None else bottom.segments[side]
    inward = -np.array(frame.normal)
    if isinstance(segment, Arc) and isinstance(below, Arc):
        slope = (below.radius - segment.radius) / depth
        return np.array(frame.place(segment.centre)), inward, slope, 1.0 if segment.ccw else -1.0, True
    dx, dy = segment.end.x - segment.start.x, segment.end.y - segment.start.y
    length = math.hypot(dx, dy)
    out = (np.array(frame.u) * dy - np.array(frame.v) * dx) / length
    # How far the wall leans in on its way down: (below - above) along the outward direction.
    lean = ((below.start.x - segment.start.x) * dy - (below.start.y - segment.start.y) * dx) / length / depth
    return np.array(frame.place(segment.start)), (out - lean * inward) / math.hypot(1.0, lean), 0.0, 1.0, False
