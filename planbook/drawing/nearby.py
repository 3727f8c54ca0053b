"""Which boxes of many lie where: a tree over them, asked for many places at once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

Box = tuple[float, float, float, float]
"""Least x, least y, greatest x, greatest y."""


class Nearby:
    """Boxes on a plane, found by where they lie."""

    def __init__(self, boxes: Sequence[Box]) -> None:
        self._tree = shapely.STRtree(_grown(boxes, 0.0))

    def of(self, boxes: Sequence[Box], margin: float) -> list[list[int]]:
        """For each of some boxes, in order, the numbers of those that lie within a margin of it."""
        found: list[list[int]] = [[] for _ in boxes]
        place, near = self._tree.query(_grown(boxes, margin))
        order = np.lexsort((near, place))
        for k, number in zip(place[order].tolist(), near[order].tolist(), strict=True):
            found[k].append(number)
        return found


def _grown(boxes: Sequence[Box], by: float) -> np.ndarray:
    x0, y0, x1, y1 = np.array(boxes, dtype=np.float64).reshape(-1, 4).T
    return np.asarray(shapely.box(x0 - by, y0 - by, x1 + by, y1 + by))
