"""How far it is from points, straight on, to the nearest wall."""

from __future__ import annotations

import numpy as np

from planbook.shape.solids.surfaces import Floats

_SLACK = 0.05
"""Millimetres that a ray starts before its point, so that a wall that touches is met."""
_GRAZE = 1e-9


def free_way(points: Floats, direction: Floats, walls: Floats) -> float:
    """The least way from points (n, 3) along a unit vector (3,) to triangles (m, 3, 3); infinite when none is met.

    Moller and Trumbore's intersection of rays and triangles (Journal of Graphics Tools 2, 1997).
    """
    a, ab, ac = walls[:, 0], walls[:, 1] - walls[:, 0], walls[:, 2] - walls[:, 0]
    across = np.cross(direction, ac)
    facing = np.sum(ab * across, axis=1)
    met = np.abs(facing) > _GRAZE
    scale = 1.0 / np.where(met, facing, 1.0)
    nearest = np.inf
    for point in points - _SLACK * direction:
        arm = point - a
        u = np.sum(arm * across, axis=1) * scale
        turned = np.cross(arm, ab)
        v = turned @ direction * scale
        way = np.sum(ac * turned, axis=1) * scale
        hit = met & (u >= 0) & (v >= 0) & (u + v <= 1) & (way >= 0)
        nearest = min(nearest, float(way[hit].min(initial=np.inf)))
    return max(0.0, nearest - _SLACK)
