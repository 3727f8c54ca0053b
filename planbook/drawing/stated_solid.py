"""The solid of a stated part, from nanometres into millimetres."""

from __future__ import annotations

from typing import Final

from planbook.drawing.curves import XY, Curve, Line, arc_between
from planbook.drawing.solid import XYZ, Plane, Prism, Solid, cone_of, solid
from planbook.statement.model import CutStated, PartStated, SegmentStated

MM: Final = 1e-6
"""One nanometre in millimetres."""


def solid_of_stated(part: PartStated) -> Solid:
    """The solid of a stated part."""
    cuts = (_stated_prism(cut, feature.name) for feature in part.features.values() for cut in feature.cuts)
    size = XYZ(*(measure * MM for measure in part.size))
    return solid(size, tuple(_stated_curve(segment) for segment in part.outline), cuts)


def _stated_curve(segment: SegmentStated) -> Curve:
    start, end = XY(*(c * MM for c in segment.start)), XY(*(c * MM for c in segment.end))
    if segment.centre is None:
        return Line(start, end)
    return arc_between(start, end, XY(*(c * MM for c in segment.centre)), segment.ccw)


def _stated_prism(cut: CutStated, feature: str) -> Prism:
    frame = cut.frame
    plane = Plane(XYZ(*(c * MM for c in frame.origin)), XYZ(*frame.u), XYZ(*frame.v), XYZ(*frame.normal))
    loop = tuple(_stated_curve(s) for s in cut.loop)
    islands = tuple(tuple(_stated_curve(s) for s in island) for island in cut.islands)
    bottom = tuple(_stated_curve(s) for s in cut.bottom) if cut.bottom else None
    climbs = None if cut.climbs is None else (cut.climbs[0] * MM, cut.climbs[1] * MM)
    return Prism(plane, loop, cut.depth * MM, islands, cone_of(loop, bottom), feature, cut.lift * MM, climbs)
