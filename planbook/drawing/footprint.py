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


def strokes_met(strokes: Floats, box: Box) -> Flags:
    """Whether each of some strokes (n, 4) passes through a box: `Segment.meets` for many."""
    low, high = np.zeros(len(strokes)), np.ones(len(strokes))
    for start, end, first, last in (
        (strokes[:, 0], strokes[:, 2], box.left, box.right),
        (strokes[:, 1], strokes[:, 3], box.top, box.bottom),
    ):
        step = end - start
        level = np.abs(step) < 1e-12
        t0, t1 = ((side - start) / np.where(level, 1.0, step) for side in (first, last))
        inside = (first < start) & (start < last)
        low = np.where(level, np.where(inside, low, 2.0), np.maximum(low, np.minimum(t0, t1)))
        high = np.where(level, high, np.minimum(high, np.maximum(t0, t1)))
    return np.asarray(low < high)
