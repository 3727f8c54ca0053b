"""The small marks of dimensioning: arrowheads, dots, origin circles, lettering with its caliper sign (ISO 129-1)."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from planbook.drawing.ink import Box, around, label_box, union
from planbook.drawing.lettering import text_width
from planbook.drawing.recording import Anchor, Circle, Label, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.wording import Line

LETTER: Final = 2.5
"""Height of capitals of dimensions in millimetres: the least that the plans allow (ISO 3098 series)."""
ARROW: Final = 2.6
_ARROW_HALF: Final = ARROW * math.tan(math.radians(9.5))
GAP: Final = 1.0
"""Between a feature and its extension line."""
OVERSHOOT: Final = 2.0
"""Of an extension line past its dimension line."""
_SIGN: Final = 0.85
"""Half the caliper sign."""
_SIGN_GAP: Final = 0.8


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
    return Circle(at, 0.6, None, "solid")


def origin(at: Pt) -> Circle:
    """The mark of the place from which running dimensions count."""
    return Circle(at, 1.2, Pen.DIMENSION, "white")


def line_width(line: Line) -> float:
    """Width of a line of lettering with its sign."""
    return text_width(line.text, LETTER) + (_SIGN_GAP + 2 * _SIGN if line.caliper else 0.0)


def letter(line: Line, at: Pt, anchor: Anchor, angle: float = 0.0) -> tuple[Primitive, ...]:
    """A line of lettering with its baseline at `at`; the anchor counts the caliper sign as part of it."""
    shift = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[anchor] * line_width(line)
    turn = math.radians(angle)
    cos, sin = math.cos(turn), math.sin(turn)

    def place(along: float, up: float) -> Pt:
        return Pt(at.x + (along - shift) * cos - up * sin, at.y - (along - shift) * sin - up * cos)

    label = Label(line.text, place(0, 0), LETTER, angle=angle, mark=line.mark)
    if not line.caliper:
        return (label,)
    return label, caliper_sign(place(line_width(line) - _SIGN, LETTER / 2))


def caliper_sign(middle: Pt) -> Stroke:
    """The small filled diamond that marks caliper work."""
    corners = [Pt(middle.x + a * _SIGN, middle.y + b * _SIGN) for a, b in ((1, 0), (0, 1), (-1, 0), (0, -1))]
    return Stroke(corners[0], tuple(LineTo(c) for c in corners[1:]), None, closed=True, fill="solid")


def belonging(primitives: Iterable[Primitive], dimension: str) -> tuple[Primitive, ...]:
    """The same primitives, as those of a dimension by its id."""
    return tuple(replace(primitive, of=dimension) for primitive in primitives)


def lettering_box(primitives: tuple[Primitive, ...]) -> Box:
    """The box round lettering and its sign."""
    boxes = []
    for primitive in primitives:
        if isinstance(primitive, Label):
            boxes.append(label_box(primitive))
        elif isinstance(primitive, Stroke):
            boxes.append(around([primitive.start, *(step.end for step in primitive.steps)]))
    return union(boxes)
