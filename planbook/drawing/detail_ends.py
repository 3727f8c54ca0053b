"""What the ends of a dimension stand at in a view: a detail without it would show a measure from nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from planbook.drawing.curves import XY, Arc, Curve, Line, extremes
from planbook.drawing.folding import folded
from planbook.drawing.views import View

_LEVEL: Final = 0.05
"""Millimetres of the part within which two places are level: chords for a curve in space are as near to it."""


def drawn_in(view: View) -> tuple[Curve, ...]:
    """All that a view shows, centre lines as well, where it shows them."""
    axes = (part for axis in view.axes for part in folded(axis, view.facing))
    return (*(piece.curve for piece in view.pieces), *axes)


def foot_of(end: XY, level: bool, drawn: Sequence[Curve], near: XY) -> XY | None:
    """The place nearest to `near` at which something drawn shows where a dimension ends; None where nothing does.

    `level`: measured from left to right. That is a corner, an edge along the extension line, the outermost of an arc,
    each in one line with the end; or the end itself, where it lies on a slope or a curve.
    """
    places = (place for curve in drawn for place in _places(end, level, curve, near))
    return min(places, key=lambda place: math.dist(place, near), default=None)


def _places(end: XY, level: bool, curve: Curve, near: XY) -> Iterator[XY]:
    across = 0 if level else 1
    for place in _marked(curve, across, near):
        if abs(place[across] - end[across]) < _LEVEL:
            yield place
    if not _runs(curve, 1 - across) and math.dist(_nearest(curve, end), end) < _LEVEL:
        yield end


def _marked(curve: Curve, across: int, near: XY) -> Iterator[XY]:
    """Places of a curve that are seen to have a measure of their own along an axis."""
    if isinstance(curve, Line) or not curve.full:
        yield from (curve.start, curve.end)
    if isinstance(curve, Arc):
        turns = (curve.point(t) for t in extremes(curve))
        yield from (p for p in turns if abs(p[1 - across] - curve.centre[1 - across]) < _LEVEL)
    elif _runs(curve, across):
        yield _nearest(curve, near)


def _runs(curve: Curve, across: int) -> bool:
    """Whether it is straight and everywhere level along an axis."""
    return isinstance(curve, Line) and abs(curve.start[across] - curve.end[across]) < _LEVEL


def _nearest(curve: Curve, p: XY) -> XY:
    """The place of a curve nearest to a point."""
    if isinstance(curve, Line):
        (ax, ay), (bx, by) = curve.start, curve.end
        along = ((p.x - ax) * (bx - ax) + (p.y - ay) * (by - ay)) / max(curve.length**2, 1e-12)
        return curve.point(min(max(along, 0.0), 1.0))
    t = curve.parameter(math.atan2(p.y - curve.centre.y, p.x - curve.centre.x))
    ends = (curve.start, curve.end)
    return min(ends, key=lambda place: math.dist(place, p)) if t is None else curve.point(t)
