"""The solid of a shaped part, from nanometres into millimetres."""

from __future__ import annotations

from typing import Final

from planbook.drawing.curves import XY, Curve, Line, arc_between
from planbook.drawing.solid import XYZ, Plane, Prism, Solid, cone_of, solid
from planbook.shape.geometry import Arc, Loop
from planbook.shape.model import Cut, Part

MM: Final = 1e-6
"""One nanometre in millimetres."""


def solid_of_part(part: Part) -> Solid:
    """The solid of a shaped part."""
    cuts = (_shaped_prism(cut, feature.name) for feature in part.features.values() for cut in feature.cuts)
    return solid(XYZ(*(measure * MM for measure in part.blank)), _shaped_loop(part.outline), cuts)


def _shaped_loop(loop: Loop) -> tuple[Curve, ...]:
    curves: list[Curve] = []
    for segment in loop.segments:
        start, end = XY(*(c * MM for c in segment.start)), XY(*(c * MM for c in segment.end))
        if isinstance(segment, Arc):
            curves.append(arc_between(start, end, XY(*(c * MM for c in segment.centre)), segment.ccw))
        else:
            curves.append(Line(start, end))
    return tuple(curves)


def _shaped_prism(cut: Cut, feature: str) -> Prism:
    frame = cut.frame
    plane = Plane(XYZ(*(c * MM for c in frame.origin)), XYZ(*frame.u), XYZ(*frame.v), XYZ(*frame.normal))
    loop = _shaped_loop(cut.loop)
    islands = tuple(_shaped_loop(island) for island in cut.islands)
    bottom = _shaped_loop(cut.bottom) if cut.bottom else None
    return Prism(plane, loop, cut.depth * MM, islands, cone_of(loop, bottom), feature)
