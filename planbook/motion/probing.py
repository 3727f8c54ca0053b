"""Points on the skin of a moving solid from which it is looked whether something closes in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.motion.contact import Solid
from planbook.motion.paths import Path
from planbook.shape.solids.surfaces import Flags, Floats, Whole

_PITCH: Final = 10.0
"""Millimetres between points, as long as there are no more than `_MOST` of them."""
_MOST: Final = 150
_INSET: Final = 1.0
"""Millimetres from the edges of a face to the points along them: shears have their edges there."""
_FINEST: Final = 60
"""Into how many pieces a side of a triangle is divided at most."""
_LEADING: Final = 0.3
"""Share of a point's motion that goes along its normal, from which on it closes on what is before it."""


@dataclass(frozen=True, eq=False, slots=True)
class Probes:
    """Points (n, 3) on the skin, millimetres, and the outward unit normals there, as the solid stands first."""

    points: Floats
    normals: Floats

    def those(self, wanted: Whole | Flags) -> Probes:
        """Some of them, by number or by flag."""
        return Probes(self.points[wanted], self.normals[wanted])


def probes_on(solid: Solid, moving: Path, other: Solid, reach: float) -> Probes:
    """Those that come within `reach` (mm) of the other's box, and somewhere move along their normals, one way or the
    other. `moving` is the solid's path as seen from the other.
    """
    low, high = moving.seen_back(other.low, other.high)
    every = _thinned(_scattered(solid, low - reach, high + reach), _PITCH)
    return _few(every.those(_leads(every, moving)))


def _scattered(solid: Solid, low: Floats, high: Floats) -> Probes:
    """Points on every triangle that reaches into a box, a pitch apart or less, and their normals."""
    mesh = solid.mesh
    lengths = np.linalg.norm(mesh.crosses, axis=1)
    near = np.all(mesh.corners.min(axis=1) <= high, axis=1) & np.all(mesh.corners.max(axis=1) >= low, axis=1)
    wanted = np.flatnonzero(near & (lengths > 0))
    corners, normals = mesh.corners[wanted], mesh.crosses[wanted] / lengths[wanted, None]
    longest = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1)
    pieces = np.clip(np.ceil(longest / _PITCH), 1, _FINEST).astype(np.int64)
    every = [Probes(np.zeros((0, 3)), np.zeros((0, 3)))]
    every += [_divided(corners[pieces == count], normals[pieces == count], int(count)) for count in np.unique(pieces)]
    found = Probes(np.concatenate([each.points for each in every]), np.concatenate([each.normals for each in every]))
    return found.those(np.all((found.points >= low) & (found.points <= high), axis=1))


def _divided(corners: Floats, normals: Floats, pieces: int) -> Probes:
    """Points on triangles (m, 3, 3), their sides divided into so many pieces, drawn a little inward."""
    shares = np.arange(pieces + 1) / pieces
    u, v = (each.ravel()[:, None] for each in np.meshgrid(shares, shares))
    weights = np.concatenate([1 - u - v, u, v], axis=1)[(u + v <= 1 + 1e-9).ravel()]
    points = weights @ corners
    inward = corners.mean(axis=1, keepdims=True) - points
    far = np.linalg.norm(inward, axis=2, keepdims=True)
    points = points + inward / np.maximum(far, 1e-9) * np.minimum(_INSET, far)
    return Probes(points.reshape(-1, 3), np.repeat(normals, len(weights), axis=0))


def _leads(probes: Probes, moving: Path) -> Flags:
    steps = np.diff(moving.moved(probes.points), axis=0)
    normals = probes.normals @ np.transpose(moving.turn[1:], (0, 2, 1))
    along = np.abs(np.sum(steps * normals, axis=2))
    return np.asarray((along > _LEADING * np.linalg.norm(steps, axis=2) + 1e-9).any(axis=0))


def _few(probes: Probes) -> Probes:
    pitch = _PITCH
    while len(probes.points) > _MOST:
        pitch *= 1.3
        probes = _thinned(probes, pitch)
    return probes


def _thinned(probes: Probes, pitch: float) -> Probes:
    """One point for each cell and way that the skin looks, neighbours mostly after one another."""
    if not len(probes.points):
        return probes
    cells = np.concatenate([np.floor(probes.points / pitch), np.round(1.5 * probes.normals)], axis=1).astype(np.int64)
    cells -= cells.min(axis=0)
    # As one number each they are sorted many times faster than as rows, and come in the same order.
    numbers = np.ravel_multi_index(tuple(cells.T), tuple(cells.max(axis=0) + 1))
    _, kept = np.unique(numbers, return_index=True)
    return probes.those(kept)
