"""What primitives take up on paper, in arrays: so much is asked of it that it is worked out once for each block."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planbook.drawing.ink import Box, is_hatching, label_box
from planbook.drawing.recording import Label, Primitive, Pt
from planbook.drawing.tracing import flatten

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, eq=False, slots=True)
class Footprint:
    """Lettering and strokes, one a row, in millimetres. Hatching is left out: it lies in the box of its view."""

    boxes: Floats
    """(k, 4): left, top, right, bottom round each label"""
    strokes: Floats
    """(n, 4): straight pieces from x0, y0 to x1, y1, near enough to keep lettering off"""

    def moved(self, dx: float, dy: float) -> Footprint:
        """The same elsewhere."""
        by = np.array([dx, dy, dx, dy])
        return Footprint(self.boxes + by, self.strokes + by)

    @property
    def extent(self) -> Box:
        """The box round all of it, line widths left out. There must be something."""
        ends = np.concatenate([self.boxes.reshape(-1, 2), self.strokes.reshape(-1, 2)])
        (left, top), (right, bottom) = ends.min(axis=0).tolist(), ends.max(axis=0).tolist()
        return Box(left, top, right, bottom)


NOTHING = Footprint(np.zeros((0, 4)), np.zeros((0, 4)))


def footprint(primitives: Sequence[Primitive]) -> Footprint:
    """What some primitives take up."""
    boxes: list[Box] = []
    points: list[Pt] = []
    lines: list[int] = []
    for number, primitive in enumerate(primitives):
        if isinstance(primitive, Label):
            boxes.append(label_box(primitive))
        elif not is_hatching(primitive):
            along = flatten(primitive)
            points += along
            lines += [number] * len(along)
    spots, line = np.array(points, dtype=np.float64).reshape(-1, 2), np.array(lines, dtype=np.int64)
    pieces = np.concatenate([spots[:-1], spots[1:]], axis=1)[line[:-1] == line[1:]]
    return Footprint(np.array(boxes, dtype=np.float64).reshape(-1, 4), pieces)


def together(several: Iterable[Footprint]) -> Footprint:
    """All that several take up."""
    every = (NOTHING, *several)
    return Footprint(np.concatenate([each.boxes for each in every]), np.concatenate([each.strokes for each in every]))


def grown(boxes: Floats, by: float) -> Floats:
    """Boxes (k, 4) with a margin all round."""
    return np.asarray(boxes + np.array([-by, -by, by, by]))


def boxes_met(boxes: Floats, box: Box) -> Flags:
    """Whether each of some boxes (k, 4) shares more than a border with another: `Box.meets` for many."""
    return np.asarray(
        (boxes[:, 0] < box.right) & (box.left < boxes[:, 2]) & (boxes[:, 1] < box.bottom) & (box.top < boxes[:, 3])
    )


def strokes_met(strokes: Floats, boxes: Floats | Box) -> Flags:
    """Whether strokes (..., 4) pass through boxes (..., 4), broadcast to one another: `Segment.meets` for many."""
    around = np.asarray(boxes)
    low: Floats | float = 0.0
    high: Floats | float = 1.0
    for k in (0, 1):
        start, first, last = strokes[..., k], around[..., k], around[..., k + 2]
        step = strokes[..., k + 2] - start
        level = np.abs(step) < 1e-12
        whole = np.where(level, 1.0, step)
        t0, t1 = (first - start) / whole, (last - start) / whole
        inside = (first < start) & (start < last)
        low = np.where(level, np.where(inside, low, 2.0), np.maximum(low, np.minimum(t0, t1)))
        high = np.where(level, high, np.minimum(high, np.maximum(t0, t1)))
    return np.asarray(low < high)


def strokes_crossed(strokes: Floats, others: Floats) -> Flags:
    """Whether strokes (..., 4) cross others (..., 4) inside both, broadcast to one another: `Segment.crosses` for
    many."""
    ax, ay, bx, by = (strokes[..., k] for k in range(4))
    x0, y0, x1, y1 = (others[..., k] for k in range(4))
    first = (bx - ax) * (y0 - ay) - (by - ay) * (x0 - ax)
    second = (bx - ax) * (y1 - ay) - (by - ay) * (x1 - ax)
    third = (x1 - x0) * (ay - y0) - (y1 - y0) * (ax - x0)
    fourth = (x1 - x0) * (by - y0) - (y1 - y0) * (bx - x0)
    return np.asarray((first * second < 0) & (third * fourth < 0))


def strokes_about(strokes: Floats, extent: Floats) -> Floats:
    """Those of some strokes (n, 4) whose own boxes reach into or touch an extent (4,): left, top, right, bottom."""
    low, high = np.minimum(strokes[:, :2], strokes[:, 2:]), np.maximum(strokes[:, :2], strokes[:, 2:])
    return np.asarray(strokes[((low <= extent[2:]) & (high >= extent[:2])).all(axis=1)])
