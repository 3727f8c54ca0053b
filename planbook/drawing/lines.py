"""The small marks of dimensioning: arrowheads, dots, origin circles, lettering with its signs (ISO 129-1)."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import partial
from typing import Final

from planbook.drawing.ink import Box, around, label_box, union
from planbook.drawing.lettering import text_width
from planbook.drawing.recording import Anchor, Circle, Label, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.signs import SIGN_GAP, draw_sign, sign_width
from planbook.drawing.wording import Line

DOT: Final = 0.6
"""Radius of the dot in which a leader ends."""
LETTER: Final = 2.5
"""Height of capitals of dimensions in millimetres: the least that the plans allow (ISO 3098 series)."""
ARROW: Final = 2.6
_ARROW_HALF: Final = ARROW * math.tan(math.radians(9.5))
GAP: Final = 1.0
"""Between a feature and its extension line."""
OVERSHOOT: Final = 2.0
"""Of an extension line past its dimension line."""


def stroke(*points: Pt, pen: Pen = Pen.DIMENSION) -> Stroke:
    """An open line through points."""
    return Stroke(points[0], tuple(LineTo(p) for p in points[1:]), pen)


def arrowhead(tip: Pt, towards: Pt) -> Stroke:
    """A filled head at `tip`; its tail points at `towards`."""
    length = math.dist(tip, towards)
    ux, uy = (towards.x - tip.x) / length, (towards.y - tip.y) / length
    base = Pt(tip.x + ux * ARROW, tip.y + uy * ARROW)
    left = Pt(base.x - uy * _ARROW_HALF, base.y + ux * _ARROW_HALF)
    right = Pt(base.x + uy * _ARROW_HALF, base.y - ux * _ARROW_HALF)
    return Stroke(tip, (LineTo(left), LineTo(right)), None, closed=True, fill="solid")


def dot(at: Pt) -> Circle:
    """The end of a leader that lands inside a feature."""
    return Circle(at, DOT, None, "solid")


def origin(at: Pt) -> Circle:
    """The mark of the place from which running dimensions count."""
    return Circle(at, 1.2, Pen.DIMENSION, "white")


def line_width(line: Line) -> float:
    """Width of a line of lettering with its signs."""
    return text_width(line.text, LETTER) + sum(SIGN_GAP + sign_width(sign) for sign in (*line.before, *line.signs))


def letter(line: Line, at: Pt, anchor: Anchor, angle: float = 0.0) -> tuple[Primitive, ...]:
    """A line of lettering with its baseline at `at`; the anchor counts its signs as part of it."""
    shift = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[anchor] * line_width(line)
    turn = math.radians(angle)
    cos, sin = math.cos(turn), math.sin(turn)

    def place(along: float, up: float) -> Pt:
        return Pt(at.x + (along - shift) * cos - up * sin, at.y - (along - shift) * sin - up * cos)

    drawn: list[Primitive] = []
    start = 0.0
    for sign in line.before:
        drawn += draw_sign(sign, partial(_beside, place, start))
        start += sign_width(sign) + SIGN_GAP
    drawn.append(Label(line.text, place(start, 0), LETTER, angle=angle, mark=line.mark))
    start += text_width(line.text, LETTER)
    for sign in line.signs:
        start += SIGN_GAP
        drawn += draw_sign(sign, partial(_beside, place, start))
        start += sign_width(sign)
    return tuple(drawn)


def _beside(place: Callable[[float, float], Pt], start: float, along: float, up: float) -> Pt:
    """A corner of a sign that starts so far along a line of lettering."""
    return place(start + along, LETTER / 2 + up)


def belonging(primitives: Iterable[Primitive], dimension: str) -> tuple[Primitive, ...]:
    """The same primitives, as those of a dimension by its id."""
    return tuple(replace(primitive, of=dimension) for primitive in primitives)


def lettering_box(primitives: tuple[Primitive, ...]) -> Box:
    """The box round lettering and its signs."""
    boxes = []
    for primitive in primitives:
        if isinstance(primitive, Label):
            boxes.append(label_box(primitive))
        elif isinstance(primitive, Stroke):
            boxes.append(around([primitive.start, *(step.end for step in primitive.steps)]))
    return union(boxes)
