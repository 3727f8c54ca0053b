"""Curves cut off at the border of a window; arcs stay arcs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Final

from planbook.drawing.curves import XY, Curve, Line, meetings

_LEAST: Final = 1e-6


def clip(curves: Iterable[Curve], window: tuple[float, float, float, float]) -> Iterator[Curve]:
    """The pieces of curves that lie inside a window: least x, least y, greatest x, greatest y."""
    x0, y0, x1, y1 = window
    corners = XY(x0, y0), XY(x1, y0), XY(x1, y1), XY(x0, y1)
    sides = [Line(a, b) for a, b in pairwise((*corners, corners[0]))]
    for curve in curves:
        left, low, right, high = curve.box
        if x0 <= left and right <= x1 and y0 <= low and high <= y1:
            yield curve
        elif left < x1 and right > x0 and low < y1 and high > y0:
            yield from _inside(curve, sides, window)


def _inside(curve: Curve, sides: list[Line], window: tuple[float, float, float, float]) -> Iterator[Curve]:
    x0, y0, x1, y1 = window
    cuts = sorted({0.0, 1.0, *(min(max(t, 0.0), 1.0) for side in sides for t in meetings(curve, side))})
    for a, b in pairwise(cuts):
        middle = curve.point((a + b) / 2)
        if (b - a) * curve.length > _LEAST and x0 < middle.x < x1 and y0 < middle.y < y1:
            yield curve.part(a, b)
