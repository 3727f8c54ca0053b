"""Small hardware at its true size, side and end, so that the real piece can be laid on it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final

from planbook.drawing.lines import stroke
from planbook.drawing.recording import Circle, Drawing, LineTo, Pen, Primitive, Pt, Stroke
from planbook.source.models.market import Outline

NEEDS: Final[Mapping[Outline, tuple[tuple[str, ...], ...]]] = {
    Outline.COUNTERSUNK: (("diameter",), ("head",)),
    Outline.ROUND_HEAD: (("diameter",), ("across",), ("head_height",)),
    Outline.HEXAGON: (("diameter",), ("across",), ("head_height",)),
    Outline.CYLINDER: (("diameter",),),
    Outline.RING: (("outside",), ("bore", "diameter"), ("width", "thickness", "length")),
}
"""The measures that each outline asks for, one of each group."""
_PAD, _APART = 1.0, 6.0
_AXIS: Final = 2.0


def draw_small_hardware(outline: Outline, measures: Mapping[str, float], length: float, title: str) -> Drawing:
    """At exactly 1:1. Measures and length (0.0 for what has none) in millimetres; NEEDS says which must be there."""
    given = [next(measures[name] for name in names if name in measures) for names in NEEDS[outline]]
    side: Outlines
    ends: tuple[float, ...]
    match outline:
        case Outline.COUNTERSUNK:
            side, ends = _countersunk(given[0], given[1], length), (given[1],)
        case Outline.ROUND_HEAD | Outline.HEXAGON:
            wide = given[1] * (2 / math.sqrt(3) if outline is Outline.HEXAGON else 1.0)
            side = _headed(given[0], wide, given[2], length, pointed="pilot" in measures)
            ends = (wide,)
        case Outline.CYLINDER:
            side, ends = _box(0.0, length, given[0]), (given[0],)
        case Outline.RING:
            side, ends = _box(0.0, given[2], given[0]), (given[0], given[1])
    return _arranged(side, ends, given[1] if outline is Outline.HEXAGON else 0.0, title)


Outlines = Sequence[Sequence[tuple[float, float]]]
"""Closed polygons about the axis: x along it, y across."""


def _box(start: float, end: float, across: float) -> Outlines:
    half = across / 2
    return (((start, -half), (end, -half), (end, half), (start, half)),)


def _shank(start: float, end: float, across: float, *, pointed: bool) -> Sequence[tuple[float, float]]:
    half = across / 2
    if not pointed:
        return _box(start, end, across)[0]
    tip = max(start, end - across)
    return ((start, -half), (tip, -half), (end, 0.0), (tip, half), (start, half))


def _countersunk(across: float, head: float, length: float) -> Outlines:
    """A head of 90 degrees; the length of such a screw is taken over its head."""
    deep, half, wide = (head - across) / 2, across / 2, head / 2
    return (
        ((0.0, -wide), (deep, -half), (deep, half), (0.0, wide)),
        _shank(deep, length, across, pointed=True),
    )


def _headed(across: float, wide: float, high: float, length: float, *, pointed: bool) -> Outlines:
    return (*_box(-high, 0.0, wide), _shank(0.0, length, across, pointed=pointed))


def _arranged(side: Outlines, ends: Sequence[float], flats: float, title: str) -> Drawing:
    """The side, and to its right the end, both on one axis."""
    points = [point for polygon in side for point in polygon]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    half = max(*(abs(y) for _, y in points), ends[0] / 2)
    axis, start = _PAD + half, _PAD + _AXIS - left
    drawn: list[Primitive] = [_polygon([Pt(start + x, axis + y) for x, y in polygon]) for polygon in side]
    drawn.append(stroke(Pt(start + left - _AXIS, axis), Pt(start + right + _AXIS, axis), pen=Pen.CENTRE))
    centre = Pt(start + right + _AXIS + _APART + ends[0] / 2, axis)
    if flats:
        corners = [math.radians(30 + 60 * turn) for turn in range(6)]
        reach = ends[0] / 2
        drawn.append(_polygon([Pt(centre.x + reach * math.cos(a), centre.y + reach * math.sin(a)) for a in corners]))
    drawn += (Circle(centre, across / 2, Pen.EDGE) for across in (() if flats else ends))
    for dx, dy in ((1.0, 0.0), (0.0, 1.0)):
        reach = ends[0] / 2 + _AXIS / 2
        a, b = Pt(centre.x - dx * reach, centre.y - dy * reach), Pt(centre.x + dx * reach, centre.y + dy * reach)
        drawn.append(stroke(a, b, pen=Pen.CENTRE))
    return Drawing(centre.x + ends[0] / 2 + _PAD + 1, 2 * (half + _PAD) + 1, tuple(drawn), title)


def _polygon(points: Sequence[Pt]) -> Stroke:
    return Stroke(points[0], tuple(map(LineTo, points[1:])), Pen.EDGE, closed=True)
