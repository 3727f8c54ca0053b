"""From curves in millimetres of the part, y upwards, to strokes in millimetres on paper, y downwards; flattening."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from planbook.drawing.curves import XY, Arc, Curve, Line
from planbook.drawing.recording import ArcTo, Circle, LineTo, Pen, Pt, Stroke

_FLAT_STEP: Final = math.radians(10)
_ROUND: Final = tuple((math.cos(k * _FLAT_STEP), math.sin(k * _FLAT_STEP)) for k in range(37))
"""Points along a circle of radius 1."""


@dataclass(frozen=True, slots=True)
class Setting:
    """Where a view stands: paper = origin + scale * (x, -y)."""

    scale: float
    x: float = 0.0
    y: float = 0.0

    def __call__(self, p: XY) -> Pt:
        """The place on paper of a point of the view."""
        return Pt(self.x + self.scale * p.x, self.y - self.scale * p.y)


def trace(curve: Curve, setting: Setting, pen: Pen | None) -> Stroke | Circle:
    """A curve as a stroke of its own; a whole circle as a circle."""
    if isinstance(curve, Arc) and curve.full:
        return Circle(setting(curve.centre), curve.radius * setting.scale, pen)
    return Stroke(setting(curve.start), (_step(curve, setting),), pen)


def trace_run(run: Sequence[Curve], setting: Setting, pen: Pen | None) -> Stroke | Circle:
    """Curves end to end in one stroke."""
    if len(run) == 1:
        return trace(run[0], setting, pen)
    return Stroke(setting(run[0].start), tuple(_step(curve, setting) for curve in run), pen)


def _step(curve: Curve, setting: Setting) -> LineTo | ArcTo:
    if isinstance(curve, Line):
        return LineTo(setting(curve.end))
    # On paper y runs down: a counter-clockwise arc is drawn with SVG's sweep flag 0.
    return ArcTo(setting(curve.end), curve.radius * setting.scale, abs(curve.sweep) > math.pi, curve.sweep < 0)


def flatten(primitive: Stroke | Circle) -> list[Pt]:
    """Points along a stroke or circle, arcs in steps of at most 10 degrees: for keeping clear, never for drawing."""
    if isinstance(primitive, Circle):
        (x, y), r = primitive.centre, primitive.radius
        return [Pt(x + r * cos, y + r * sin) for cos, sin in _ROUND]
    points = [primitive.start]
    for step in primitive.steps:
        if isinstance(step, ArcTo):
            points += arc_points(points[-1], step)
        points.append(step.end)
    if primitive.closed:
        points.append(primitive.start)
    for hole in primitive.holes:
        points += flatten(hole)
    return points


def arc_points(start: Pt, arc: ArcTo) -> list[Pt]:
    """Points strictly between an arc's ends."""
    found = _turn(start, arc)
    if found is None:
        return []
    centre, radius, begin, turn = found
    count = max(1, math.ceil(abs(turn) / _FLAT_STEP))
    return [_round(centre, radius, begin + turn * k / count) for k in range(1, count)]


def arc_curves(start: Pt, arc: ArcTo) -> list[tuple[Pt, Pt, Pt]]:
    """An arc as cubic Bezier curves, each by its two control points and its end; nothing for one of no length."""
    found = _turn(start, arc)
    curves = _curves(*found) if found else []
    return [*curves[:-1], (*curves[-1][:2], arc.end)] if curves else []


def circle_curves(circle: Circle) -> list[tuple[Pt, Pt, Pt]]:
    """The same of a circle, from its right."""
    return _curves(circle.centre, circle.radius, 0.0, math.tau)


def _curves(centre: Pt, radius: float, begin: float, turn: float) -> list[tuple[Pt, Pt, Pt]]:
    """A quarter at most in each: they stray from the circle by less than 0.03 % of its radius. The control points lie
    4/3 tan(angle / 4) radii along the tangents (Goldapp, Approximation of circular arcs by cubic polynomials, 1991)."""
    count = max(1, math.ceil(abs(turn) / (math.pi / 2) - 1e-9))
    arm = 4 / 3 * math.tan(turn / count / 4)
    curves = []
    for k in range(count):
        low, high = begin + turn * k / count, begin + turn * (k + 1) / count
        a, b = _round(centre, radius, low), _round(centre, radius, high)
        first = Pt(a.x - (a.y - centre.y) * arm, a.y + (a.x - centre.x) * arm)
        second = Pt(b.x + (b.y - centre.y) * arm, b.y - (b.x - centre.x) * arm)
        curves.append((first, second, b))
    return curves


def _turn(start: Pt, arc: ArcTo) -> tuple[Pt, float, float, float] | None:
    """An arc's centre, radius, first angle and turn (end-point to centre form: SVG 1.1, F.6.5, for circles); None for
    one of no length."""
    dx, dy = (arc.end.x - start.x) / 2, (arc.end.y - start.y) / 2
    half = math.hypot(dx, dy)
    if half < 1e-9:
        return None
    off = math.sqrt(max(arc.radius**2 - half**2, 0.0)) / half * (1 if arc.large == arc.sweep else -1)
    cx, cy = start.x + dx + dy * off, start.y + dy - dx * off
    begin, end = math.atan2(start.y - cy, start.x - cx), math.atan2(arc.end.y - cy, arc.end.x - cx)
    turn = (end - begin) % math.tau if arc.sweep else -((begin - end) % math.tau)
    return Pt(cx, cy), max(arc.radius, half), begin, turn


def _round(centre: Pt, radius: float, angle: float) -> Pt:
    return Pt(centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle))
