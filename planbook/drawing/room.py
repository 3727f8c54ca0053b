"""Free room on a sheet, kept as a raster of small cells, so that many places can be tried at once."""

from __future__ import annotations

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray

from planbook.drawing.footprint import Floats, grown
from planbook.drawing.ink import Box

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

    def mark_boxes(self, boxes: Floats) -> None:
        """The same for boxes (k, 4)."""
        left, top = np.floor((boxes[:, :2] - self.field[:2]) / CELL).T
        right, bottom = np.ceil((boxes[:, 2:] - self.field[:2]) / CELL).T
        left, top = np.clip(left, 0, self.columns).astype(int), np.clip(top, 0, self.rows).astype(int)
        right, bottom = np.clip(right, left, self.columns).astype(int), np.clip(bottom, top, self.rows).astype(int)
        # At its corners each box begins and ends; summed up along both ways, that counts the boxes over every cell.
        ends = np.zeros((self.rows + 1, self.columns + 1), dtype=np.int32)
        for down, across, sign in ((top, left, 1), (top, right, -1), (bottom, left, -1), (bottom, right, 1)):
            np.add.at(ends, (down, across), sign)
        self.taken |= ends.cumsum(0).cumsum(1)[:-1, :-1] > 0

    def mark_strokes(self, strokes: Floats, margin: float) -> None:
        """Take the cells along straight strokes (n, 4), with a margin: box by box of short pieces."""
        a, way = strokes[:, :2], strokes[:, 2:] - strokes[:, :2]
        pieces = np.maximum(np.ceil(np.hypot(way[:, 0], way[:, 1]) / CELL), 1).astype(int)
        count = np.where((way == 0).any(axis=1), 1, pieces)
        number = np.repeat(np.arange(len(strokes)), count)
        place = np.arange(len(number)) - np.repeat(np.cumsum(count) - count, count)
        start, end = (a[number] + way[number] * k[:, None] / count[number, None] for k in (place, place + 1))
        boxes = np.concatenate([np.minimum(start, end), np.maximum(start, end)], axis=1)
        self.mark_boxes(grown(boxes, margin))

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
