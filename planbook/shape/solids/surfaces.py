"""The analytic surfaces that the triangles of a mesh stand for: planes, cylinders, cones and helicoids, in arrays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, eq=False, slots=True)
class Surfaces:
    """`k` surfaces, one a row.

    A flat one has its unit normal, out of the wood, in `axis`. A round one has its axis through `origin` and the radius
    r + `slope` * w at the distance w along it; `sign` is -1 where the wood lies outside (a hole). A helicoid, the floor
    that climbs along an arc, goes `lead` along its axis for a radian round it, by the right hand.
    """

    origin: Floats
    """(k, 3), millimetres"""
    axis: Floats
    """(k, 3), unit vectors"""
    slope: Floats
    """(k,), 0 for cylinders and planes"""
    sign: Floats
    """(k,), +1 or -1"""
    curved: Flags
    """(k,)"""
    lead: Floats
    """(k,), millimetres a radian; 0 for all others"""

    def __len__(self) -> int:
        return len(self.sign)

    def normals(self, which: Whole, points: Floats) -> Floats:
        """True unit normals (n, 3), out of the wood, of surfaces `which` (n,) at points (n, 3) on or near them."""
        axis, slope = self.axis[which], self.slope[which, None]
        arm = points - self.origin[which]
        radial = arm - np.sum(arm * axis, axis=1, keepdims=True) * axis
        length = np.linalg.norm(radial, axis=1, keepdims=True)
        radial = radial / np.where(length > 0, length, 1.0)
        curved = (radial - slope * axis) / np.sqrt(1 + slope**2) * self.sign[which, None]
        lead = self.lead[which, None]
        if np.any(lead):
            steep = lead / np.where(length > 0, length, 1.0)
            twisted = (axis - steep * np.cross(axis, radial)) / np.sqrt(1 + steep**2) * self.sign[which, None]
            curved = np.where(lead != 0, twisted, curved)
        return np.where(self.curved[which, None], curved, axis)

    def turned_inside_out(self) -> Surfaces:
        """The same surfaces with the wood on their other side: a body as a cut."""
        axis = np.where(self.curved[:, None], self.axis, -self.axis)
        return replace(self, axis=axis, sign=-self.sign)

    def moved(self, turn: Floats, shift: Floats) -> Surfaces:
        """Turned, or mirrored, by a (3, 3) orthogonal matrix whose rows are the new axes' components, then shifted."""
        lead = self.lead * np.sign(np.linalg.det(turn))
        return replace(self, origin=self.origin @ turn.T + shift, axis=self.axis @ turn.T, lead=lead)


def joined(several: Sequence[Surfaces]) -> Surfaces:
    """All surfaces in one table, in order."""
    every = [_NONE, *several]
    return Surfaces(
        np.concatenate([each.origin for each in every]),
        np.concatenate([each.axis for each in every]),
        np.concatenate([each.slope for each in every]),
        np.concatenate([each.sign for each in every]),
        np.concatenate([each.curved for each in every]),
        np.concatenate([each.lead for each in every]),
    )


_NONE = Surfaces(np.zeros((0, 3)), np.zeros((0, 3)), np.zeros(0), np.zeros(0), np.zeros(0, dtype=bool), np.zeros(0))
