"""The edges of a scene: where surfaces meet at an angle, and where a surface turns from the viewer."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.drawing.hidden.scene import Scene
from planbook.shape.solids.surfaces import Flags, Floats, Whole

_FLAT: Final = math.cos(math.radians(0.3))
"""Planes that meet at less are one."""
_ROUND: Final = math.cos(math.radians(2.0))
"""A round surface that leaves its neighbour at less runs on into it; its points lie off the true one by rounding."""
_POINT: Final = 1e-6
"""Edges seen on end are no lines (millimetres)."""


@dataclass(frozen=True, eq=False, slots=True)
class Edges:
    """`k` straight edges in the viewer's space, one a row."""

    start: Floats
    """(k, 3)"""
    end: Floats
    """(k, 3)"""
    owner: Whole
    """(k,), number of the component"""
    away: Flags
    """(k,): neither side faces the viewer"""
    border: Flags
    """(k,): one side faces the viewer and the other does not"""
    aside: Floats
    """(k, 2): unit direction on the plane of view, away from the side that faces the viewer; of use for borders"""

    def __len__(self) -> int:
        return len(self.owner)

    def only(self, which: Flags | Whole) -> Edges:
        """Some of them."""
        return Edges(
            self.start[which], self.end[which], self.owner[which], self.away[which], self.border[which],
            self.aside[which],
        )  # fmt: skip

    @property
    def length(self) -> Floats:
        """(k,): as seen."""
        return np.asarray(np.linalg.norm(self.end[:, :2] - self.start[:, :2], axis=1))


def edges_of(scene: Scene) -> Edges:
    """All edges that a line can be drawn for."""
    start, end, one, other = _sides(scene.triangles)
    front = scene.front[one], scene.front[other]
    border = front[0] != front[1]
    kept = border | _bends(scene, start, end, one, other)
    along = (scene.points[end] - scene.points[start])[:, :2]
    length = np.linalg.norm(along, axis=1)
    kept &= length > _POINT
    # `one` has the edge in its own direction: seen from the front it lies to the left of it.
    right = np.stack([along[:, 1], -along[:, 0]], axis=1) / np.maximum(length, _POINT)[:, None]
    aside = np.where(front[0][:, None], right, -right)
    every = Edges(
        scene.points[start], scene.points[end], scene.owners[one], ~(front[0] | front[1]), border, aside
    )  # fmt: skip
    return every.only(kept)


def _sides(triangles: Whole) -> tuple[Whole, Whole, Whole, Whole]:
    """Start and end point of each edge, the triangle that has it in this direction, and the one that has it back."""
    start = triangles.ravel()
    end = np.roll(triangles, -1, axis=1).ravel()
    owner = np.repeat(np.arange(len(triangles)), 3)
    low, high = np.minimum(start, end), np.maximum(start, end)
    order = np.lexsort((start > end, high, low))
    # Closed meshes: each edge stands twice, first upwards, then downwards.
    up, down = order[0::2], order[1::2]
    return start[up], end[up], owner[up], owner[down]


def _bends(scene: Scene, start: Whole, end: Whole, one: Whole, other: Whole) -> Flags:
    """Whether the true surfaces on both sides meet at an angle."""
    faces = scene.faces[one], scene.faces[other]
    unlike = np.flatnonzero(faces[0] != faces[1])
    middle = (scene.points[start[unlike]] + scene.points[end[unlike]]) / 2
    a, b = (scene.surfaces.normals(face[unlike], middle) for face in faces)
    curved = scene.surfaces.curved[faces[0][unlike]] | scene.surfaces.curved[faces[1][unlike]]
    bends = np.zeros(len(start), dtype=bool)
    bends[unlike] = np.sum(a * b, axis=1) < np.where(curved, _ROUND, _FLAT)
    return bends
