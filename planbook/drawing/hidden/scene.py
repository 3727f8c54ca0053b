"""Meshes as the viewer has them: x to the right, y upwards, z towards the eye; millimetres, in arrays."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from planbook.drawing.facing import Facing
from planbook.shape.solids import Mesh, Surfaces
from planbook.shape.solids.surfaces import Flags, Floats, Whole, joined

_LEVEL: Final = 1e-6
"""Sine of the angle to the line of sight under which a triangle is seen edge on."""
_SLIVER: Final = 1e-6
"""Square millimetres under which a triangle's own normal says nothing."""


@dataclass(frozen=True, eq=False)
class Scene:
    """`n` points and `m` triangles of all components together."""

    names: tuple[str, ...]
    points: Floats
    """(n, 3)"""
    triangles: Whole
    """(m, 3), counter-clockwise seen from outside"""
    owners: Whole
    """(m,), number of the component"""
    faces: Whole
    """(m,), number of the surface"""
    surfaces: Surfaces

    @cached_property
    def corners(self) -> Floats:
        """(m, 3, 3)"""
        return self.points[self.triangles]

    @cached_property
    def sides(self) -> Floats:
        """(m, 3, 2): unit directions on the plane of view from each corner to the next."""
        along = (np.roll(self.corners, -1, axis=1) - self.corners)[:, :, :2]
        length = np.sqrt(along[:, :, 0] ** 2 + along[:, :, 1] ** 2)
        return np.asarray(along / np.maximum(length, 1e-300)[:, :, None])

    @cached_property
    def normals(self) -> Floats:
        """(m, 3): of the plane on a flat surface, of the facet on a round one."""
        a, b, c = (self.corners[:, k] for k in range(3))
        cross = np.cross(b - a, c - a)
        length = np.linalg.norm(cross, axis=1)
        true = self.surfaces.normals(self.faces, self.corners.mean(axis=1))
        use_true = ~self.surfaces.curved[self.faces] | (length < _SLIVER)
        return np.where(use_true[:, None], true, cross / np.maximum(length, 1e-300)[:, None])

    @cached_property
    def front(self) -> Flags:
        """(m,): whether a triangle faces the viewer; one that is seen edge on does not."""
        return self.normals[:, 2] > _LEVEL

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y; a point at the origin where nothing is seen."""
        if not len(self.points):
            return 0.0, 0.0, 0.0, 0.0
        low, high = self.points.min(axis=0), self.points.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def scene_of(meshes: Mapping[str, Mesh], facing: Facing) -> Scene:
    """The components as seen in a direction; those without wood are left out."""
    solid = {name: mesh for name, mesh in meshes.items() if len(mesh.triangles)}
    turn = np.array([facing.right, facing.up, facing.eye])
    nowhere = np.zeros(3)
    points = np.cumsum([0, *(len(mesh.points) for mesh in solid.values())])
    tables = np.cumsum([0, *(len(mesh.surfaces) for mesh in solid.values())])
    return Scene(
        tuple(solid),
        np.concatenate([np.zeros((0, 3)), *(mesh.points @ turn.T for mesh in solid.values())]),
        _numbers([mesh.triangles for mesh in solid.values()], points, (0, 3)),
        np.repeat(np.arange(len(solid)), np.array([len(mesh.triangles) for mesh in solid.values()], dtype=np.int64)),
        _numbers([mesh.faces for mesh in solid.values()], tables, (0,)),
        joined([mesh.surfaces.moved(turn, nowhere) for mesh in solid.values()]),
    )


def _numbers(several: Sequence[Whole], firsts: Whole, nothing: tuple[int, ...]) -> Whole:
    """Numbers into tables that stand one after the other."""
    shifted = (each + first for each, first in zip(several, firsts, strict=False))
    return np.concatenate([np.zeros(nothing, dtype=np.int64), *shifted])
