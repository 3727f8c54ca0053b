"""Loops of lines and arcs: making them, and their bounds, areas and points. Nanometres, counter-clockwise."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence

from planbook.shape.geometry import Arc, Line, Loop, Point, Segment

SAGITTA = 2_000.0
"""Greatest distance (nm) between an arc and the chords that stand for it in checks: far below anything printed."""


def circle(centre: Point, radius: float) -> Loop:
    """A full circle, starting on its +x side."""
    start = Point(centre.x + radius, centre.y)
    return Loop((Arc(start, start, centre, ccw=True),))


def stadium(start: Point, end: Point, radius: float) -> Loop:
    """A slot with round ends about `start` and `end`, which must differ."""
    length = math.hypot(end.x - start.x, end.y - start.y)
    across = Point(-(end.y - start.y) / length * radius, (end.x - start.x) / length * radius)
    right = (Point(start.x - across.x, start.y - across.y), Point(end.x - across.x, end.y - across.y))
    left = (Point(end.x + across.x, end.y + across.y), Point(start.x + across.x, start.y + across.y))
    return Loop(
        (
            Line(*right),
            Arc(right[1], left[0], end, ccw=True),
            Line(*left),
            Arc(left[1], right[0], start, ccw=True),
        )
    )


def rectangle(low: Point, high: Point, radii: Sequence[float] = (0.0, 0.0, 0.0, 0.0)) -> Loop:
    """An upright rectangle; `radii` round its corners in the order low-low, high-low, high-high, low-high."""
    corners = (low, Point(high.x, low.y), high, Point(low.x, high.y))
    segments: list[Segment] = []
    fillets = [
        fillet(corners[i - 1], corners[i], corners[(i + 1) % 4], radii[i]) if radii[i] > 0 else None for i in range(4)
    ]
    for i in range(4):
        arc, following = fillets[i], fillets[(i + 1) % 4]
        if arc is not None:
            segments.append(arc)
        start = arc.end if arc is not None else corners[i]
        end = following.start if following is not None else corners[(i + 1) % 4]
        if start != end:
            segments.append(Line(start, end))
    return Loop(tuple(segments))


def setback(before: Point, corner: Point, after: Point, radius: float) -> float:
    """How far from the corner an arc of this radius touches the two sides: radius * |tan(turn / 2)|."""
    return radius * abs(math.tan(turn(before, corner, after) / 2))


def fillet(before: Point, corner: Point, after: Point, radius: float) -> Arc:
    """The arc tangent to both sides that replaces a corner between straight sides; it must not be straight."""
    bend = turn(before, corner, after)
    reach = setback(before, corner, after, radius)
    ingoing, outgoing = unit(corner, before), unit(corner, after)
    start = Point(corner.x + ingoing.x * reach, corner.y + ingoing.y * reach)
    end = Point(corner.x + outgoing.x * reach, corner.y + outgoing.y * reach)
    side = 1.0 if bend > 0 else -1.0
    # The centre lies square to the side that comes in, on the inner side of the bend.
    centre = Point(start.x + ingoing.y * radius * side, start.y - ingoing.x * radius * side)
    return Arc(start, end, centre, ccw=bend > 0)


def turn(before: Point, corner: Point, after: Point) -> float:
    """By how much the way bends at a corner, in radians, positive to the left."""
    a, b = unit(before, corner), unit(corner, after)
    return math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y)


def unit(start: Point, end: Point) -> Point:
    """The direction from start to end; they must differ."""
    length = math.hypot(end.x - start.x, end.y - start.y)
    return Point((end.x - start.x) / length, (end.y - start.y) / length)


def arc_through(start: Point, middle: Point, end: Point) -> Arc | None:
    """The arc from start to end by way of `middle`, or None when the three lie on a line."""
    bx, by = middle.x - start.x, middle.y - start.y
    cx, cy = end.x - start.x, end.y - start.y
    cross = bx * cy - by * cx
    if abs(cross) <= 1e-9 * math.hypot(bx, by) * math.hypot(cx, cy):
        return None
    b2, c2 = bx * bx + by * by, cx * cx + cy * cy
    centre = Point(start.x + (cy * b2 - by * c2) / (2 * cross), start.y + (bx * c2 - cx * b2) / (2 * cross))
    return Arc(start, end, centre, ccw=cross > 0)


def sweep(arc: Arc) -> float:
    """The signed angle in radians that the arc turns through, positive counter-clockwise."""
    first = math.atan2(arc.start.y - arc.centre.y, arc.start.x - arc.centre.x)
    last = math.atan2(arc.end.y - arc.centre.y, arc.end.x - arc.centre.x)
    if arc.start == arc.end:
        return math.tau if arc.ccw else -math.tau
    return (last - first) % math.tau if arc.ccw else -((first - last) % math.tau)


def along(arc: Arc, share: float) -> Point:
    """The point after this share (0 to 1) of the arc."""
    return next(_all_along(arc, (share,)))


def _all_along(arc: Arc, shares: Iterable[float]) -> Iterator[Point]:
    first, total, radius = math.atan2(arc.start.y - arc.centre.y, arc.start.x - arc.centre.x), sweep(arc), arc.radius
    for share in shares:
        angle = first + total * share
        yield Point(arc.centre.x + radius * math.cos(angle), arc.centre.y + radius * math.sin(angle))


def area(loop: Loop) -> float:
    """Signed area in nm2, positive counter-clockwise: Green's theorem, half the integral of x dy - y dx."""
    origin = loop.segments[0].start
    return sum(_moment(segment, origin) for segment in loop.segments) / 2


def _moment(segment: Segment, origin: Point) -> float:
    """The integral of x dy - y dx along a segment, seen from `origin` so that large coordinates do not cancel."""
    x0, y0 = segment.start.x - origin.x, segment.start.y - origin.y
    x1, y1 = segment.end.x - origin.x, segment.end.y - origin.y
    if isinstance(segment, Line):
        return x0 * y1 - x1 * y0
    cx, cy = segment.centre.x - origin.x, segment.centre.y - origin.y
    return cx * (y1 - y0) - cy * (x1 - x0) + segment.radius**2 * sweep(segment)


def bounds(loop: Loop) -> tuple[Point, Point]:
    """The least and greatest corner of the upright rectangle round the loop."""
    points = [point for segment in loop.segments for point in _extremes(segment)]
    xs, ys = [point.x for point in points], [point.y for point in points]
    return Point(min(xs), min(ys)), Point(max(xs), max(ys))


def _extremes(segment: Segment) -> Iterator[Point]:
    yield segment.start
    yield segment.end
    if isinstance(segment, Arc):
        first = math.atan2(segment.start.y - segment.centre.y, segment.start.x - segment.centre.x)
        total, r = sweep(segment), segment.radius
        for dx, dy in ((1, 0), (0, 1), (-1, 0), (0, -1)):
            way = (math.atan2(dy, dx) - first) % math.tau
            if way <= total or way - math.tau >= total:
                yield Point(segment.centre.x + dx * r, segment.centre.y + dy * r)


def chords(segment: Segment) -> list[Point]:
    """Points along a segment from its start to its end, an arc by chords within `SAGITTA`."""
    if isinstance(segment, Line):
        return [segment.start, segment.end]
    step = 2 * math.acos(max(0.0, 1 - SAGITTA / segment.radius)) if segment.radius > SAGITTA else math.pi / 4
    count = max(2, math.ceil(abs(sweep(segment)) / step))
    return [segment.start, *_all_along(segment, (i / count for i in range(1, count))), segment.end]


def flatten(loop: Loop) -> list[Point]:
    """The loop as a polygon's points, without repeating the first."""
    return [point for segment in loop.segments for point in chords(segment)[:-1]]


def shift(loop: Loop, dx: float, dy: float) -> Loop:
    """The same loop, moved."""
    return _moved(loop, lambda point: Point(point.x + dx, point.y + dy))


def turned(loop: Loop, centre: Point, degrees: float) -> Loop:
    """The same loop, turned about a centre, counter-clockwise."""
    return _moved(loop, lambda point: polar(centre, math.dist(centre, point), degrees + direction(centre, point)))


def polar(centre: Point, radius: float, degrees: float) -> Point:
    """The point so far from a centre in a direction, 0 along the first axis; exact for quarter turns."""
    quarters, rest = divmod(degrees, 90.0)
    cos, sin = (1.0, 0.0) if rest == 0 else (math.cos(math.radians(rest)), math.sin(math.radians(rest)))
    for _ in range(int(quarters) % 4):
        cos, sin = -sin, cos
    return Point(centre.x + radius * cos, centre.y + radius * sin)


def direction(centre: Point, point: Point) -> float:
    """The direction of a point from a centre, in degrees."""
    return math.degrees(math.atan2(point.y - centre.y, point.x - centre.x))


def arc_band(centre: Point, radii: tuple[float, float], angles: tuple[float, float], *, round_ends: bool) -> Loop:
    """The piece of a ring between two radii and two angles (degrees, the second greater), with straight or round ends.

    Round ends reach half the width past the angles.
    """
    inner, outer = radii
    near, far = angles
    (a, b), (d, c) = ([polar(centre, radius, turn) for turn in angles] for radius in (outer, inner))
    middle = (inner + outer) / 2
    ends: tuple[Segment, Segment] = (
        (Arc(b, c, polar(centre, middle, far), ccw=True), Arc(d, a, polar(centre, middle, near), ccw=True))
        if round_ends
        else (Line(b, c), Line(d, a))
    )
    return Loop((Arc(a, b, centre, ccw=True), ends[0], Arc(c, d, centre, ccw=False), ends[1]))


def _moved(loop: Loop, moved: Callable[[Point], Point]) -> Loop:
    return Loop(
        tuple(
            Line(moved(segment.start), moved(segment.end))
            if isinstance(segment, Line)
            else Arc(moved(segment.start), moved(segment.end), moved(segment.centre), segment.ccw)
            for segment in loop.segments
        ),
        loop.names,
    )
