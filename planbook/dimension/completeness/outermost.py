"""The outermost places of whole circles and round ends: a radius from the centre, and no corner of the shape.

The size of a cut-out is measured there when its rounding takes up a whole end of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planbook.dimension.completeness.corners import Sort, joined, radius_of, sort_of, sweep
from planbook.dimension.completeness.granted import Equation, row_of
from planbook.dimension.completeness.record import Pair, Segment
from planbook.dimension.completeness.unknowns import AXES, LEVEL, PlacedLoop, Unknown, Unknowns

OUTERMOST = "outermost of its arc"


def outermost(
    unknowns: Unknowns, feature: str, axis: int, value: float, other: float
) -> tuple[Unknown, Equation] | None:
    """The unknown of such a place of a feature along an axis, and that it lies a radius from its centre.

    `other` is where the dimension goes to. No dimension goes from a centre to its own circle: what starts at the centre
    ends at something else that happens to be as far away.
    """
    for placed in unknowns.loops:
        if placed.owner != feature:
            continue
        for arc in _rounds(placed.loop):
            found = _reach(placed, arc, axis, value)
            if found is not None and abs(found[0] - other) > LEVEL:
                centre, way = found
                middle = unknowns.station(axis, centre, feature)
                radius = unknowns.radius(radius_of(arc), feature)
                end = unknowns.end(axis, value, feature) or unknowns.helper(AXES[axis], value, "")
                return end, Equation(OUTERMOST, row_of((end, 1.0), (middle, -1.0), (radius, -way)))
    return None


def _rounds(loop: tuple[Segment, ...]) -> Iterator[Segment]:
    whole = joined(loop)
    for index, segment in enumerate(whole):
        if sort_of(whole, index) in (Sort.CIRCLE, Sort.ROUND_END):
            yield segment


def _reach(placed: PlacedLoop, arc: Segment, axis: int, value: float) -> tuple[float, float] | None:
    """(where the centre lies along an axis, which way from it) if the arc's outermost place is there."""
    assert arc.centre is not None
    x, y, r = *arc.centre, radius_of(arc)
    centre = placed.plane.place(arc.centre)[axis]
    for point in ((x + r, y), (x - r, y), (x, y + r), (x, y - r)):
        there = placed.plane.place(point)[axis]
        if abs(there - value) < LEVEL and abs(abs(there - centre) - r) < LEVEL and _covers(arc, point):
            return centre, 1.0 if there > centre else -1.0
    return None


def _covers(arc: Segment, point: Pair) -> bool:
    """Whether a point of the whole circle lies on the arc."""
    return arc.start == arc.end or sweep(replace(arc, end=point)) <= sweep(arc)
