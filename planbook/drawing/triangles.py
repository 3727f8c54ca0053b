"""A numbered triangle beside lettering: in the nearest free room, with a leader where it might be another's."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.drawing.footprint import Floats, boxes_met
from planbook.drawing.ground import Ground
from planbook.drawing.ink import CLEAR, Box, Segment, around, label_box
from planbook.drawing.lettering import text_width
from planbook.drawing.lines import LETTER, stroke
from planbook.drawing.recording import Anchor, Label, LineTo, Pen, Primitive, Pt, Stroke

_ROOT3: Final = math.sqrt(3.0)
_UNDER: Final = 0.7
"""Between a triangle's foot and the number in it, in millimetres."""
_BESIDE: Final = 2.5
"""A triangle no farther than this (mm) from its lettering, and nearer to no other, needs no leader."""
_RIVAL: Final = 6.0
"""What it costs, in millimetres, to stand nearer to other lettering."""
_GAP: Final = 0.8
"""Between a leader and its lettering."""
_TRIED: Final = 200


def side_of(number: int) -> float:
    """Of an equilateral triangle that holds a number: as wide as its digits where their tops are, and a little air."""
    return text_width(str(number), LETTER, bold=True) + 0.9 + 2 * (_UNDER + LETTER) / _ROOT3


def triangle(number: int, foot: Pt) -> tuple[Primitive, ...]:
    """A triangle with its number; `foot` is the middle of its lower side."""
    side = side_of(number)
    left, right, top = foot.x - side / 2, foot.x + side / 2, foot.y - side * _ROOT3 / 2
    corners = (LineTo(Pt(right, foot.y)), LineTo(Pt(foot.x, top)))
    outline = Stroke(Pt(left, foot.y), corners, Pen.DIMENSION, closed=True, words="changed")
    return outline, Label(str(number), Pt(foot.x, foot.y - _UNDER), LETTER, Anchor.MIDDLE, bold=True)


def height_of(number: int) -> float:
    """Of a triangle with this number."""
    return side_of(number) * _ROOT3 / 2


@dataclass(frozen=True, slots=True)
class _Spot:
    """A free place for a triangle: its box, how far it is, and whether other lettering is nearer."""

    box: Box
    away: float
    rival: bool


def draw_triangle(number: int, label: Label, ground: Ground) -> tuple[Primitive, ...]:
    """The triangle for some lettering, noted on the ground; empty where there is no room at all."""
    home = label_box(label)
    for spot in _spots(side_of(number), height_of(number), home, ground):
        foot = Pt((spot.box.left + spot.box.right) / 2, spot.box.bottom)
        drawn = triangle(number, foot)
        if spot.away <= _BESIDE and not spot.rival:
            ground.take(spot.box)
            return drawn
        leader = Segment(_nearest(spot.box, _middle(home)), _nearest(home.grown(_GAP), _middle(spot.box)))
        if not _meets_lettering(leader, ground):
            ground.take(spot.box)
            return (*drawn, stroke(leader.a, leader.b))
    return ()


def _spots(width: float, height: float, home: Box, ground: Ground) -> list[_Spot]:
    """Free places, the best first."""
    boxes = ground.places(width, height)
    away = _distances(boxes, home)
    nearest = np.argsort(away, kind="stable")[:_TRIED]
    others = ground.lettering[(ground.lettering != np.array(home)).any(axis=1)]
    spots = []
    for at in nearest.tolist():
        box = Box(*boxes[at].tolist())
        rival = bool(len(others)) and float(_distances(others, box).min()) <= away[at]
        spots.append(_Spot(box, float(away[at]), rival))
    return sorted(spots, key=lambda spot: spot.away + _RIVAL * spot.rival + 0.2 * _askew(spot.box, home))


def _distances(boxes: Floats, box: Box) -> Floats:
    """From each of some boxes (k, 4) to one, edge to edge."""
    x = np.maximum(0.0, np.maximum(box.left - boxes[:, 2], boxes[:, 0] - box.right))
    y = np.maximum(0.0, np.maximum(box.top - boxes[:, 3], boxes[:, 1] - box.bottom))
    return np.asarray(np.hypot(x, y))


def _askew(box: Box, home: Box) -> float:
    """How far a place is from level with the lettering, and from right over or under it, whichever is less."""
    (x0, y0), (x1, y1) = _middle(box), _middle(home)
    return min(abs(x0 - x1), abs(y0 - y1))


def _middle(box: Box) -> Pt:
    return Pt((box.left + box.right) / 2, (box.top + box.bottom) / 2)


def _nearest(box: Box, to: Pt) -> Pt:
    """The place of a box that is nearest to a point."""
    return Pt(min(max(to.x, box.left), box.right), min(max(to.y, box.top), box.bottom))


def _meets_lettering(leader: Segment, ground: Ground) -> bool:
    near = ground.lettering[boxes_met(ground.lettering, around((leader.a, leader.b)).grown(CLEAR))]
    return any(leader.meets(Box(*each)) for each in near.tolist())
