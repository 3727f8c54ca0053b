"""A numbered triangle beside lettering, with a leader where it might be another's; none where it would still be."""

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
"""A triangle no farther than this (mm) from its lettering, and clearly nearer than to all else, needs no leader.

One with a leader keeps as far from other lettering and lines, or it would be read as theirs."""
_NEARER: Final = 0.3
"""By so much, in millimetres, it stands nearer to its own lettering than to what is another's."""
_LED: Final = 3.0
"""What a leader costs, in millimetres: a place without one is better."""
_GAP: Final = 0.8
"""Between a leader and its lettering."""
_TRIED: Final = 600


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
    """A free place for a triangle: its box, how far it is, and whether it takes a leader to say what it marks."""

    box: Box
    away: float
    led: bool


def draw_triangle(number: int, label: Label, ground: Ground) -> tuple[Primitive, ...]:
    """The triangle for some lettering, noted on the ground; empty where none would surely be read as its own."""
    home = label_box(label)
    others = ground.others(label.of or label.mark.removeprefix("dimension:"), home)
    for spot in _spots(side_of(number), height_of(number), home, ground, others):
        foot = Pt((spot.box.left + spot.box.right) / 2, spot.box.bottom)
        drawn = triangle(number, foot)
        leader = Segment(_nearest(spot.box, _middle(home)), _nearest(home.grown(_GAP), _middle(spot.box)))
        if not spot.led:
            ground.take(spot.box)
            return drawn
        if not _meets(leader, others) and not _meets(leader, np.array(ground.marks).reshape(-1, 4)):
            ground.take(spot.box, leader)
            return *drawn, stroke(leader.a, leader.b)
    return ()


def _spots(width: float, height: float, home: Box, ground: Ground, others: Floats) -> list[_Spot]:
    """Free places, the best first; those that would be read as the mark of something else are left out."""
    boxes = ground.places(width, height)
    away = _distances(boxes, home)
    spots = []
    for at in np.argsort(away, kind="stable")[:_TRIED].tolist():
        box = Box(*boxes[at].tolist())
        rival = float(_distances(others, box).min(initial=math.inf))
        led = away[at] > _BESIDE or rival <= away[at] + _NEARER
        if not led or rival >= _BESIDE:
            spots.append(_Spot(box, float(away[at]), led))
    return sorted(spots, key=lambda spot: spot.away + _LED * spot.led + 0.2 * _askew(spot.box, home))


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


def _meets(leader: Segment, others: Floats) -> bool:
    near = others[boxes_met(others, around((leader.a, leader.b)).grown(CLEAR))]
    return any(leader.meets(Box(*each).grown(CLEAR / 2)) for each in near.tolist())
