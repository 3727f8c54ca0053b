"""Free room on a sheet, kept as a raster of small cells, so that many places can be tried at once."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

import numpy as np
from numpy.typing import NDArray

from planbook.drawing.ink import Box, Segment

CELL: Final = 0.8
"""Millimetres."""


class Room:
    """Which cells of a field anything touches. Rounded outwards: a free place is surely free."""

    def __init__(self, field: Box) -> None:
        """An empty field."""
        self.field = field
        self.columns = max(1, int((field.right - field.left) / CELL))
        self.rows = max(1, int((field.bottom - field.top) / CELL))
        self.taken: NDArray[np.bool_] = np.zeros((self.rows, self.columns), dtype=bool)

    def mark_box(self, box: Box) -> None:
        """Take all cells that a box touches."""
        down, across = self._cells(box)
        self.taken[down, across] = True

    def is_free(self, box: Box) -> bool:
        """Whether a box lies in the field and touches nothing."""
        inside = self.field.left <= box.left and box.right <= self.field.right
        inside = inside and self.field.top <= box.top and box.bottom <= self.field.bottom
        return inside and not self.taken[self._cells(box)].any()

    def _cells(self, box: Box) -> tuple[slice, slice]:
        """Rows and columns of the cells that a box touches."""
        left = max(0, math.floor((box.left - self.field.left) / CELL))
        right = min(self.columns, math.ceil((box.right - self.field.left) / CELL))
        top = max(0, math.floor((box.top - self.field.top) / CELL))
        bottom = min(self.rows, math.ceil((box.bottom - self.field.top) / CELL))
        return slice(top, max(top, bottom)), slice(left, max(left, right))

    def mark_segments(self, segments: Iterable[Segment], margin: float) -> None:
        """Take the cells along strokes, with a margin."""
        for a, b in segments:
            square = a.x == b.x or a.y == b.y
            count = 1 if square else max(1, math.ceil(math.dist(a, b) / CELL))
            for k in range(count):
                x0, y0 = a.x + (b.x - a.x) * k / count, a.y + (b.y - a.y) * k / count
                x1, y1 = a.x + (b.x - a.x) * (k + 1) / count, a.y + (b.y - a.y) * (k + 1) / count
                self.mark_box(Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)).grown(margin))

    def places(self, width: float, height: float, most: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Left and top of cells at which a box of this size would be free: all, or of more than `most` a sample."""
        across, down = math.ceil(width / CELL), math.ceil(height / CELL)
        if across > self.columns or down > self.rows:
            return np.empty(0), np.empty(0)
        sums = np.zeros((self.rows + 1, self.columns + 1), dtype=np.int32)
        sums[1:, 1:] = self.taken.cumsum(0, dtype=np.int32).cumsum(1, dtype=np.int32)
        filled = sums[down:, across:] - sums[:-down, across:] - sums[down:, :-across] + sums[:-down, :-across]
        rows, columns = np.nonzero(filled == 0)
        if len(rows) > most:
            kept = (rows % 3 == 0) & (columns % 3 == 0)
            rows, columns = rows[kept], columns[kept]
        lefts = np.asarray(self.field.left + columns * CELL, dtype=np.float64)
        return lefts, np.asarray(self.field.top + rows * CELL, dtype=np.float64)
