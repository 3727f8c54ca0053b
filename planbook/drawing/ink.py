"""What already stands on a piece of paper, and whether something more would touch it.

Lettering may touch nothing; strokes may cross strokes. Boxes are upright, in millimetres, y downwards.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final, NamedTuple

from planbook.drawing.lettering import label_corners
from planbook.drawing.recording import Circle, Label, Pen, Primitive, Pt, Stroke
from planbook.drawing.tracing import flatten

CLEAR: Final = 0.6
"""Least room between lettering and anything else, in millimetres: twice a narrow line and more (ISO 3098 spacing)."""


class Box(NamedTuple):
    """An upright box: left, top, right, bottom."""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, by: float) -> Box:
        """The box with a margin all round."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def moved(self, dx: float, dy: float) -> Box:
        """The box shifted."""
        return Box(self.left + dx, self.top + dy, self.right + dx, self.bottom + dy)

    def meets(self, other: Box) -> bool:
        """Whether the two share more than a border."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


def around(points: Iterable[Pt]) -> Box:
    """The box round some points."""
    spots = tuple(points)
    xs, ys = [p.x for p in spots], [p.y for p in spots]
    return Box(min(xs), min(ys), max(xs), max(ys))


def union(boxes: Iterable[Box]) -> Box:
    """The box round some boxes."""
    every = tuple(boxes)
    return Box(
        min(b.left for b in every), min(b.top for b in every), max(b.right for b in every), max(b.bottom for b in every)
    )


def label_box(label: Label) -> Box:
    """The upright box round a label, which is set level or upright."""
    return around(label_corners(label))


class Segment(NamedTuple):
    """A straight stroke between two points."""

    a: Pt
    b: Pt

    def meets(self, box: Box) -> bool:
        """Whether it passes through a box (clipped by the box's four sides)."""
        (ax, ay), (bx, by), (left, top, right, bottom) = self.a, self.b, box
        if (ax <= left and bx <= left) or (ax >= right and bx >= right):
            return False
        if (ay <= top and by <= top) or (ay >= bottom and by >= bottom):
            return False
        dx, dy = bx - ax, by - ay
        if abs(dx) < 1e-12 or abs(dy) < 1e-12:
            return True
        x0, x1 = (left - ax) / dx, (right - ax) / dx
        y0, y1 = (top - ay) / dy, (bottom - ay) / dy
        return max(0.0, min(x0, x1), min(y0, y1)) < min(1.0, max(x0, x1), max(y0, y1))

    def crosses(self, other: Segment) -> bool:
        """Whether the two cross inside both."""
        return _side(self, other.a) * _side(self, other.b) < 0 and _side(other, self.a) * _side(other, self.b) < 0


def _side(segment: Segment, p: Pt) -> float:
    (a, b) = segment
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)


def segments_of(primitives: Sequence[Primitive], hatching: bool = False) -> list[Segment]:
    """The strokes of some primitives as short straight pieces, near enough to keep lettering off.

    Hatching is left out unless asked for: it lies in the box of its view, which is easier kept free as a whole.
    """
    found: list[Segment] = []
    for primitive in primitives:
        if isinstance(primitive, Label) or (not hatching and is_hatching(primitive)):
            continue
        points = flatten(primitive)
        found += (Segment(a, b) for a, b in pairwise(points))
    return found


def is_hatching(primitive: Primitive) -> bool:
    """Whether it only says what a cut face is of."""
    return isinstance(primitive, Stroke) and primitive.pen is Pen.HATCH


def extent(primitives: Sequence[Primitive]) -> Box:
    """The box round everything drawn, lettering by its ink, line widths left out."""
    labels = [label_box(primitive) for primitive in primitives if isinstance(primitive, Label)]
    others = (each for each in primitives if not isinstance(each, Label) and not is_hatching(each))
    return union([*labels, *(around(flatten(each)) for each in others)])


def shifted(primitive: Primitive, dx: float, dy: float) -> Primitive:
    """The same primitive elsewhere."""

    def move(p: Pt) -> Pt:
        return Pt(p.x + dx, p.y + dy)

    if isinstance(primitive, Label):
        return replace(primitive, at=move(primitive.at))
    if isinstance(primitive, Circle):
        return replace(primitive, centre=move(primitive.centre))
    steps = tuple(replace(step, end=move(step.end)) for step in primitive.steps)
    holes = tuple(shifted(hole, dx, dy) for hole in primitive.holes)
    return replace(primitive, start=move(primitive.start), steps=steps, holes=holes)  # type: ignore[arg-type]
