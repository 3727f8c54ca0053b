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
        self._scene, self._start, self._way = scene, start, end - start
        self._low, self._high = np.zeros(len(pairs.edge)), np.ones(len(pairs.edge))
        for k in range(3):
            edge, triangle = self.pairs.edge, self.pairs.triangle
            side, corner = scene.sides[:, k].take(triangle, axis=0), scene.corners[:, k, :2].take(triangle, axis=0)
            origin, way = start[:, :2].take(edge, axis=0), self._way[:, :2].take(edge, axis=0)
            self.keep(_cross(side, origin - corner) + BORDER, _cross(side, way))
            self._drop_empty()

    @property
    def owners(self) -> Whole:
        """The component of each pair's triangle."""
        return self._scene.owners[self.pairs.triangle]

    def _drop_empty(self) -> None:
        """Most pairs miss each other, and the sooner they are gone the less there is to do."""
        left = self._high > self._low
        self.pairs, self._low, self._high = self.pairs.only(left), self._low[left], self._high[left]

    def behind(self) -> tuple[Floats, Floats]:
        """How far the edges lie behind the planes of their triangles: at their start, and the change to their end."""
        edge, triangle = self.pairs.edge, self.pairs.triangle
        normals = self._scene.normals.take(triangle, axis=0)
        apart = self._scene.corners[:, 0].take(triangle, axis=0) - self._start.take(edge, axis=0)
        return _dot(normals, apart), -_dot(normals, self._way.take(edge, axis=0))

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
