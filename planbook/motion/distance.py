"""How far points are from triangles, exactly: to their planes, their sides or their corners; and in which direction."""

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


def clearance_ahead(points: Floats, ahead: Floats, beside: float, triangles: Floats) -> tuple[Floats, Floats]:
    """(n,) and (n,): how far each point can go along its unit vector `ahead` (n, 3) before a triangle is beside it,
    infinite without any, and how far the nearest triangle is in any direction.

    Of each triangle only the point that is nearest counts, where it lies within 60 degrees of the line ahead and no
    further than `beside` from it.
    """
    chunks = [slice(at, at + _AT_ONCE) for at in range(0, len(points), _AT_ONCE)]
    found = [_ahead(points[chunk], ahead[chunk], beside, triangles) for chunk in chunks]
    return np.concatenate([front for front, _ in found]), np.concatenate([every for _, every in found])


def _ahead(points: Floats, ahead: Floats, beside: float, triangles: Floats) -> tuple[Floats, Floats]:
    to_foot = _feet(points, triangles) - points[:, None, :]
    along = np.matmul(to_foot, ahead[:, :, None])[..., 0]
    squared = _dot(to_foot, to_foot)
    in_front = (along >= 0) & (4 * along * along >= squared) & (squared - along * along <= beside * beside)
    return np.where(in_front, along, np.inf).min(axis=1), np.sqrt(squared.min(axis=1))


def _nearest(points: Floats, triangles: Floats) -> Floats:
    return np.asarray(np.linalg.norm(_feet(points, triangles) - points[:, None, :], axis=2).min(axis=1))


def _feet(points: Floats, triangles: Floats) -> Floats:
    """(n, m, 3): the point of each triangle that is nearest to each point."""
    here = points[:, None, :]
    a, b, c = (triangles[None, :, k] for k in range(3))
    normal = np.cross(b - a, c - a)
    length = np.linalg.norm(normal, axis=2, keepdims=True)
    normal = normal / np.where(length > 0, length, 1.0)
    height = _dot(here - a, normal)
    foot = here - height[..., None] * normal
    sides = ((a, b), (b, c), (c, a))
    over = np.ones(height.shape, dtype=bool)
    for start, end in sides:
        over &= _dot(np.cross(normal, end - start), foot - start) >= 0
    over &= length[..., 0] > 0
    best = np.where(over, 0.0, np.inf)
    for start, end in sides:
        beside = _on_side(here, start, end)
        apart = here - beside
        squared = _dot(apart, apart)
        nearer = squared < best
        best = np.where(nearer, squared, best)
        foot = np.where(nearer[..., None], beside, foot)
    return np.asarray(foot)


def _on_side(points: Floats, start: Floats, end: Floats) -> Floats:
    way = end - start
    squared = _dot(way, way)
    share = _dot(points - start, way) / np.where(squared > 0, squared, 1.0)
    return np.asarray(start + np.clip(share, 0.0, 1.0)[..., None] * way)


def _dot(a: Floats, b: Floats) -> Floats:
    """Scalar products along the last axis; a sum over an axis of three takes several times as long."""
    return np.asarray(a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1] + a[..., 2] * b[..., 2])
