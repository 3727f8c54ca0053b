"""The sign of the projection method: a truncated cone in two views (ISO 5456-2)."""

from __future__ import annotations

from planbook.drawing.lines import stroke
from planbook.drawing.recording import Circle, LineTo, Pen, Primitive, Pt, Stroke

_SMALL, _LARGE, _LONG = 1.0, 2.0, 4.0
"""Radii of the cone's ends and its length, in millimetres."""


def projection_sign(left: float, middle: float, projection: str) -> tuple[Primitive, ...]:
    """The sign with its left end at `left`, centred on the level `middle`; 11 mm long.

    The cone lies with its small end to the left. Its end view looks from the left: in third angle it stands on that
    side, at the left; in first angle on the other side, at the right.
    """
    round_x, cone_x = (left + _LARGE + 0.6, left + 6.2) if projection == "third_angle" else (left + 8.4, left + 0.6)
    corners = [
        Pt(cone_x, middle + _SMALL),
        Pt(cone_x + _LONG, middle + _LARGE),
        Pt(cone_x + _LONG, middle - _LARGE),
        Pt(cone_x, middle - _SMALL),
    ]
    return (
        Stroke(corners[0], tuple(LineTo(p) for p in corners[1:]), Pen.GRID, closed=True),
        Circle(Pt(round_x, middle), _LARGE, Pen.GRID),
        Circle(Pt(round_x, middle), _SMALL, Pen.GRID),
        stroke(Pt(cone_x - 0.6, middle), Pt(cone_x + _LONG + 0.6, middle), pen=Pen.GRID),
        stroke(Pt(round_x - _LARGE - 0.6, middle), Pt(round_x + _LARGE + 0.6, middle), pen=Pen.GRID),
        stroke(Pt(round_x, middle - _LARGE - 0.6), Pt(round_x, middle + _LARGE + 0.6), pen=Pen.GRID),
    )
