"""How far points are from triangles, exactly: to their planes, their sides or their corners."""

from __future__ import annotations

from typing import Final

import numpy as np

from planbook.shape.solids.surfaces import Floats

_AT_ONCE: Final = 200
"""Points that are worked out together, so that the arrays stay small."""


def distances(points: Floats, triangles: Floats) -> Floats:
    """(n,): from each of the points (n, 3) to the nearest of the triangles (m, 3, 3), m > 0."""
    chunks = (points[at : at + _AT_ONCE] for at in range(0, len(points), _AT_ONCE))
    return np.concatenate([_nearest(chunk, triangles) for chunk in chunks])


def _nearest(points: Floats, triangles: Floats) -> Floats:
    here = points[:, None, :]
    a, b, c = (triangles[None, :, k] for k in range(3))
    normal = np.cross(b - a, c - a)
    length = np.linalg.norm(normal, axis=2, keepdims=True)
    normal = normal / np.where(length > 0, length, 1.0)
    height = np.sum((here - a) * normal, axis=2)
    foot = here - height[..., None] * normal
    sides = ((a, b), (b, c), (c, a))
    over = np.ones(height.shape, dtype=bool)
    for start, end in sides:
        over &= np.sum(np.cross(end - start, foot - start) * normal, axis=2) >= 0
    over &= length[..., 0] > 0
    beside = np.minimum.reduce([_to_side(here, start, end) for start, end in sides])
    return np.asarray(np.where(over, np.abs(height), beside).min(axis=1))


def _to_side(points: Floats, start: Floats, end: Floats) -> Floats:
    way = end - start
    squared = np.sum(way * way, axis=2)
    share = np.sum((points - start) * way, axis=2) / np.where(squared > 0, squared, 1.0)
    nearest = start + np.clip(share, 0.0, 1.0)[..., None] * way
    return np.asarray(np.linalg.norm(points - nearest, axis=2))
