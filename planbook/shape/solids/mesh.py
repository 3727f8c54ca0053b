"""A mesh of triangles with the surfaces that they stand for; its measures, and the same mesh elsewhere."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from planbook.shape.model import Placement
from planbook.shape.solids.bodies import MM
from planbook.shape.solids.surfaces import Floats, Surfaces, Whole


@dataclass(frozen=True, eq=False)
class Mesh:
    """Closed, its triangles counter-clockwise seen from outside; millimetres."""

    points: Floats
    """(n, 3)"""
    triangles: Whole
    """(m, 3), numbers of points"""
    faces: Whole
    """(m,), number of the surface that each triangle lies on"""
    surfaces: Surfaces

    @cached_property
    def corners(self) -> Floats:
        """(m, 3, 3): the points of each triangle."""
        return self.points[self.triangles]

    @cached_property
    def crosses(self) -> Floats:
        """(m, 3): outward, twice the area of each triangle long."""
        a, b, c = (self.corners[:, k] for k in range(3))
        return np.cross(b - a, c - a)

    @property
    def volume(self) -> float:
        """Cubic millimetres: signed tetrahedra from one point of the mesh."""
        return float(self._tetrahedra.sum())

    @property
    def area(self) -> float:
        """Square millimetres."""
        return float(np.linalg.norm(self.crosses, axis=1).sum() / 2)

    @property
    def centroid(self) -> Floats:
        """(3,): the centre of mass. The mesh must not be empty."""
        middles = (self.corners.sum(axis=1) + self.points[0]) / 4
        return np.asarray((middles * self._tetrahedra[:, None]).sum(axis=0) / self.volume)

    @cached_property
    def _tetrahedra(self) -> Floats:
        apex = self.points[0] if len(self.points) else np.zeros(3)
        return np.asarray(np.einsum("ij,ij->i", self.corners[:, 0] - apex, self.crosses) / 6)

    def placed(self, placement: Placement, width: float) -> Mesh:
        """The mesh where a component stands; `width` (nm) is that of the part, needed when it is mirrored."""
        return self.turned(*brought_there(placement, width))

    def turned(self, turn: Floats, shift: Floats) -> Mesh:
        """The mesh turned, or mirrored, by a matrix (3, 3) and shifted by millimetres (3,)."""
        triangles = self.triangles if np.linalg.det(turn) > 0 else self.triangles[:, ::-1]
        return Mesh(self.points @ turn.T + shift, triangles, self.faces, self.surfaces.moved(turn, shift))


def brought_there(placement: Placement, width: float) -> tuple[Floats, Floats]:
    """The turn, or mirror, (3, 3) and the shift (3,) in millimetres that bring a part where it stands; `width` (nm) is
    the part's, needed when it is mirrored.
    """
    turn = np.array([placement.x, placement.y, placement.z]).T
    shift = np.array(placement.origin) * MM
    if placement.mirrored:
        shift = shift + turn[:, 1] * width * MM
        turn = turn * np.array([1.0, -1.0, 1.0])
    return turn, shift
