"""The intervals of edges that lie inside triangles as seen, and behind their planes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.drawing.hidden.scene import Scene
from planbook.drawing.hidden.spans import Spans
from planbook.shape.solids.surfaces import Flags, Floats, Whole

BORDER: Final = 1e-3
"""An edge this near (mm) to a triangle's border, as seen, lies in it."""


@dataclass(frozen=True, eq=False, slots=True)
class Pairs:
    """Candidates: edge number and triangle number, one a row."""

    edge: Whole
    triangle: Whole

    def only(self, which: Flags) -> Pairs:
        """Some of them."""
        return Pairs(self.edge[which], self.triangle[which])


class Clip:
    """The interval of each pair's edge inside its triangle as seen; `keep` cuts it down further.

    Exact: the triangle's three sides and its plane are linear in the edge's parameter, and nothing is sampled.
    """

    def __init__(self, scene: Scene, pairs: Pairs, start: Floats, end: Floats) -> None:
        self.pairs = pairs
        self.owners = scene.owners[pairs.triangle]
        self._origin, self._way = start[pairs.edge], end[pairs.edge] - start[pairs.edge]
        self._corners, self._normals = scene.corners[pairs.triangle], scene.normals[pairs.triangle]
        self._low, self._high = np.zeros(len(pairs.edge)), np.ones(len(pairs.edge))
        for k in range(3):
            corner, side = self._corners[:, k, :2], scene.sides[pairs.triangle, k]
            self.keep(_cross(side, self._origin[:, :2] - corner) + BORDER, _cross(side, self._way[:, :2]))

    def behind(self) -> tuple[Floats, Floats]:
        """How far the edges lie behind the planes of their triangles: at their start, and the change to their end."""
        return _dot(self._normals, self._corners[:, 0] - self._origin), -_dot(self._normals, self._way)

    def keep(self, at: Floats, slope: Floats) -> None:
        """Cut the intervals down to where at + t slope >= 0."""
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            zero = -at / slope
        self._low = np.where(slope > 0, np.maximum(self._low, zero), self._low)
        self._high = np.where(slope < 0, np.minimum(self._high, zero), self._high)
        self._high = np.where((slope == 0) & (at < 0), self._low, self._high)

    def spans(self, which: Flags) -> Spans:
        """What is left of some of the pairs."""
        found = which & (self._high > self._low)
        return Spans(self.pairs.edge[found], self._low[found], self._high[found])


def _cross(a: Floats, b: Floats) -> Floats:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _dot(a: Floats, b: Floats) -> Floats:
    return np.asarray(np.einsum("ij,ij->i", a, b))
