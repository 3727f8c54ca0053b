"""Lines and arcs in a plane, in millimetres, y upwards: points along them, where they meet, how far they reach.

A curve's own parameter runs from 0 to 1 along its length.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

TINY: Final = 1e-6
"""Two places nearer than this (a nanometre, in millimetres) are one."""
_TURN: Final = 2 * math.pi


class XY(NamedTuple):
    """A point in a plane, in millimetres."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Line:
    """A straight piece."""

    start: XY
    end: XY

    @property
    def length(self) -> float:
        """In millimetres."""
        return math.hypot(self.end.x - self.start.x, self.end.y - self.start.y)

    def point(self, t: float) -> XY:
        """The point at parameter t."""
        return XY(self.start.x + (self.end.x - self.start.x) * t, self.start.y + (self.end.y - self.start.y) * t)

    def part(self, a: float, b: float) -> Line:
        """The piece from parameter a to b."""
        return Line(self.point(a), self.point(b))

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y."""
        (x0, y0), (x1, y1) = self.start, self.end
        return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular piece from angle `start` through `sweep` (radians, counter-clockwise when positive)."""

    centre: XY
    radius: float
    begin: float
    sweep: float

    @property
    def length(self) -> float:
        """In millimetres."""
        return abs(self.sweep) * self.radius

    @property
    def full(self) -> bool:
        """Whether it is a whole circle."""
        return abs(self.sweep) >= _TURN - 1e-9

    @property
    def start(self) -> XY:
        """Where it begins."""
        return self.point(0.0)

    @property
    def end(self) -> XY:
        """Where it ends."""
        return self.point(1.0)

    def point(self, t: float) -> XY:
        """The point at parameter t."""
        angle = self.begin + self.sweep * t
        return XY(self.centre.x + self.radius * math.cos(angle), self.centre.y + self.radius * math.sin(angle))

    def part(self, a: float, b: float) -> Arc:
        """The piece from parameter a to b."""
        return Arc(self.centre, self.radius, self.begin + self.sweep * a, self.sweep * (b - a))

    def parameter(self, angle: float) -> float | None:
        """The parameter at which the arc passes an angle, or None when it does not."""
        turned = (angle - self.begin) if self.sweep > 0 else (self.begin - angle)
        turned = math.fmod(turned, _TURN)
        if turned < -1e-9:
            turned += _TURN
        t = turned / abs(self.sweep)
        return min(max(t, 0.0), 1.0) if t <= 1 + 1e-9 else None

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y: the ends and those quarter points that it passes."""
        points = [self.start, self.end]
        points += [self.point(t) for t in extremes(self)]
        xs, ys = [p.x for p in points], [p.y for p in points]
        return min(xs), min(ys), max(xs), max(ys)


Curve = Line | Arc


def circle(centre: XY, radius: float) -> Arc:
    """A whole circle, counter-clockwise from angle 0."""
    return Arc(centre, radius, 0.0, _TURN)


def arc_between(start: XY, end: XY, centre: XY, ccw: bool) -> Arc:
    """The arc from start to end round a centre; start and end alike mean the whole circle."""
    begin = math.atan2(start.y - centre.y, start.x - centre.x)
    radius = math.hypot(start.x - centre.x, start.y - centre.y)
    if math.hypot(start.x - end.x, start.y - end.y) < TINY:
        return Arc(centre, radius, begin, _TURN if ccw else -_TURN)
    sweep = math.atan2(end.y - centre.y, end.x - centre.x) - begin
    sweep = sweep % _TURN if ccw else -((-sweep) % _TURN)
    return Arc(centre, radius, begin, sweep)


def extremes(arc: Arc, quarter: float = 0.0) -> tuple[float, ...]:
    """Parameters at which an arc passes a quarter point: its tangent there runs along an axis (turned by `quarter`)."""
    found = {arc.parameter(quarter + k * math.pi / 2) for k in range(4)}
    return tuple(sorted(t for t in found if t is not None))


def meetings(a: Curve, b: Curve) -> tuple[float, ...]:
    """Parameters on `a` at which it crosses or touches `b`; empty where they run together."""
    if isinstance(a, Line) and isinstance(b, Line):
        return _line_line(a, b)
    if isinstance(a, Line) and isinstance(b, Arc):
        return tuple(t for t, angle in _line_circle(a, b) if 0 <= t <= 1 and b.parameter(angle) is not None)
    if isinstance(a, Arc) and isinstance(b, Line):
        found = (a.parameter(angle) for t, angle in _line_circle(b, a) if -1e-9 <= t <= 1 + 1e-9)
        return tuple(t for t in found if t is not None)
    assert isinstance(a, Arc)
    assert isinstance(b, Arc)
    return _arc_arc(a, b)


def _line_line(a: Line, b: Line) -> tuple[float, ...]:
    ax, ay = a.end.x - a.start.x, a.end.y - a.start.y
    bx, by = b.end.x - b.start.x, b.end.y - b.start.y
    cross = ax * by - ay * bx
    if abs(cross) < 1e-12 * (1 + abs(ax) + abs(ay)) * (1 + abs(bx) + abs(by)):
        return _ends_on(a, b)
    dx, dy = b.start.x - a.start.x, b.start.y - a.start.y
    t, s = (dx * by - dy * bx) / cross, (dx * ay - dy * ax) / cross
    return (t,) if -1e-9 <= t <= 1 + 1e-9 and -1e-9 <= s <= 1 + 1e-9 else ()


def _ends_on(a: Line, b: Line) -> tuple[float, ...]:
    """Where a parallel line's ends lie on `a`, if they do."""
    length = a.length
    if length < TINY:
        return ()
    ux, uy = (a.end.x - a.start.x) / length, (a.end.y - a.start.y) / length
    found = []
    for p in (b.start, b.end):
        dx, dy = p.x - a.start.x, p.y - a.start.y
        t = (dx * ux + dy * uy) / length
        if abs(dx * uy - dy * ux) < TINY and 0 < t < 1:
            found.append(t)
    return tuple(found)


def _line_circle(line: Line, arc: Arc) -> tuple[tuple[float, float], ...]:
    """(parameter on the endless line, angle on the circle) of each crossing."""
    dx, dy = line.end.x - line.start.x, line.end.y - line.start.y
    fx, fy = line.start.x - arc.centre.x, line.start.y - arc.centre.y
    a = dx * dx + dy * dy
    if a < TINY * TINY:
        return ()
    b, c = fx * dx + fy * dy, fx * fx + fy * fy - arc.radius * arc.radius
    room = b * b - a * c
    if room < 0:
        return ()
    root = math.sqrt(room)
    ts = ((-b - root) / a, (-b + root) / a)
    return tuple((t, math.atan2(fy + dy * t, fx + dx * t)) for t in ts)


def _arc_arc(a: Arc, b: Arc) -> tuple[float, ...]:
    dx, dy = b.centre.x - a.centre.x, b.centre.y - a.centre.y
    apart = math.hypot(dx, dy)
    if apart < TINY or apart > a.radius + b.radius or apart < abs(a.radius - b.radius):
        return ()
    along = (apart * apart + a.radius * a.radius - b.radius * b.radius) / (2 * apart)
    off = math.acos(max(-1.0, min(1.0, along / a.radius)))
    base = math.atan2(dy, dx)
    found = []
    for angle in (base - off, base + off):
        t = a.parameter(angle)
        x, y = a.centre.x + a.radius * math.cos(angle), a.centre.y + a.radius * math.sin(angle)
        if t is not None and b.parameter(math.atan2(y - b.centre.y, x - b.centre.x)) is not None:
            found.append(t)
    return tuple(found)


Ring = tuple[tuple[float, float, float, float, Arc | None], ...]
"""A closed chain made ready for many questions: for each curve its ends, and the arc where it is one."""


def ring_of(loop: Sequence[Curve]) -> Ring:
    """A closed chain of curves, made ready for `holds`.

    Each chord ends exactly where the next one starts: by sine and cosine they would miss one another by a hair, and a
    point level with that hair would be taken to lie outside. So a whole circle has no chord.
    """
    starts = [curve.start for curve in loop]
    ends = (*starts[1:], starts[0])
    return tuple(
        (*start, *end, curve if isinstance(curve, Arc) else None)
        for curve, start, end in zip(loop, starts, ends, strict=True)
    )


def holds(ring: Ring, x: float, y: float) -> bool:
    """Whether a closed chain of curves has a point inside it (even-odd).

    The polygon of chords, corrected by each arc's piece between chord and arc: exact, and sure at vertices.
    """
    inside = False
    for x0, y0, x1, y1, arc in ring:
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
        if arc is not None:
            cx, cy = x - arc.centre.x, y - arc.centre.y
            if cx * cx + cy * cy < arc.radius * arc.radius:
                side = (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)
                if arc.full or (side < 0) == (arc.sweep > 0):
                    inside = not inside
    return inside


def box_of(curves: Sequence[Curve]) -> tuple[float, float, float, float]:
    """The box round several curves."""
    boxes = [curve.box for curve in curves]
    return min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)
