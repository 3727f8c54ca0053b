"""How far points are from triangles, exactly: to their planes, their sides or their corners; and in which direction."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from planbook.shape.solids.surfaces import Flags, Floats, Whole

_AT_ONCE: Final = 2**14
"""Pairs of a point and a triangle that are worked out together, so that the arrays stay small."""
_TOGETHER: Final = 16
"""Points in a row that are first looked at as one: few, so that they are near each other, and near few triangles."""


@dataclass(frozen=True, eq=False)
class Skin:
    """Triangles (m, 3, 3), with what all distances to them need worked out once."""

    corners: Floats

    @cached_property
    def boxes(self) -> tuple[Floats, Floats]:
        """(3, m) and (3, m): the least and the greatest corner of each triangle's box."""
        return np.ascontiguousarray(self.corners.min(axis=1).T), np.ascontiguousarray(self.corners.max(axis=1).T)

    def to_feet(self, points: Floats, triangles: Whole) -> Floats:
        """(3, n): from each of the points (3, n) to the nearest point of the triangle that goes with it (n,)."""
        normals, flat = self._planes
        sides = [tuple(each.take(triangles, axis=-1) for each in side) for side in self._sides]
        normal = normals.take(triangles, axis=1)
        best = points - _dot(points - sides[0][0], normal) * normal
        over = flat.take(triangles)
        for start, _, _, inward in sides:
            over &= _dot(inward, best - start) >= 0
        least = np.where(over, 0.0, np.inf)
        for start, way, squared, _ in sides:
            share = _dot(points - start, way) / squared
            beside = start + np.clip(share, 0.0, 1.0) * way
            apart = points - beside
            away = _dot(apart, apart)
            best = np.where(away < least, beside, best)
            least = np.minimum(least, away)
        return best - points

    @cached_property
    def _planes(self) -> tuple[Floats, Flags]:
        """Unit normals (3, m), and whether the triangle has an area at all (m,)."""
        a, b, c = (self.corners[:, k] for k in range(3))
        normal = np.cross(b - a, c - a)
        length = np.linalg.norm(normal, axis=1)
        return np.ascontiguousarray((normal / np.where(length > 0, length, 1.0)[:, None]).T), length > 0

    @cached_property
    def _sides(self) -> tuple[tuple[Floats, Floats, Floats, Floats], ...]:
        """Of each side: its start, its way (3, m), the square of its length (m,), 1 where it has none, and the way
        inward in the plane (3, m)."""
        normal = self._planes[0]
        sides = []
        for k in range(3):
            start, end = self.corners[:, k].T, self.corners[:, (k + 1) % 3].T
            way = end - start
            squared = _dot(way, way)
            inward = np.cross(normal, way, axis=0)
            sides.append((np.ascontiguousarray(start), way, np.where(squared > 0, squared, 1.0), inward))
        return tuple(sides)


def distances(points: Floats, triangles: Floats) -> Floats:
    """(n,): from each of the points (n, 3) to the nearest of the triangles (m, 3, 3), m > 0."""
    skin, count = Skin(triangles), len(triangles)
    step = max(_AT_ONCE // count, 1)
    found = [_all_distances(points[at : at + step], skin, count) for at in range(0, len(points), step)]
    return np.concatenate([np.zeros(0), *found])


def _all_distances(points: Floats, skin: Skin, count: int) -> Floats:
    apart = skin.to_feet(np.repeat(points.T, count, axis=1), np.tile(np.arange(count), len(points)))
    return np.asarray(np.sqrt(_dot(apart, apart).reshape(-1, count).min(axis=1)))


@dataclass(frozen=True, eq=False, slots=True)
class Ahead:
    """What is ahead of points."""

    front: Floats
    """(n,): how far each can go before something is beside it, up to the reach."""
    feet: Floats
    """(n, 3): where that is; the point itself where there is nothing."""
    near: Floats
    """(n,): how far the nearest is in any direction, up to what counts as beside."""


def clearance_ahead(points: Floats, ahead: Floats, beside: float, reach: float, skin: Skin) -> Ahead:
    """How far each point (n, 3) can go along its unit vector `ahead` (n, 3) before a triangle is beside it, up to
    `reach`.

    Of each triangle only the point that is nearest counts, where it lies within 60 degrees of the line ahead and no
    further than `beside` from it.
    """
    front, near = np.full(len(points), reach), np.full(len(points), beside)
    feet = points.copy()
    here, there = np.ascontiguousarray(points.T), np.ascontiguousarray(ahead.T)
    for rows, triangles in _neighbours(*_boxes_ahead(here, there, beside, reach), skin):
        to_foot = skin.to_feet(here.take(rows, axis=1), triangles)
        along = _dot(to_foot, there.take(rows, axis=1))
        squared = _dot(to_foot, to_foot)
        in_front = (along >= 0) & (4 * along * along >= squared) & (squared - along * along <= beside * beside)
        np.minimum.at(front, rows[in_front], along[in_front])
        np.minimum.at(near, rows, np.sqrt(squared))
        least = in_front & (along == front.take(rows))
        feet[rows[least]] = points[rows[least]] + to_foot[:, least].T
    return Ahead(front, feet, near)


def _boxes_ahead(points: Floats, ahead: Floats, beside: float, reach: float) -> tuple[Floats, Floats]:
    """(3, n) and (3, n): corners of the boxes about all that counts for each point, around it and ahead."""
    end = points + reach * ahead
    wide = beside * np.sqrt(np.clip(1 - ahead * ahead, 0.0, 1.0))
    low = np.minimum(points - beside, np.minimum(points, end) - wide)
    high = np.maximum(points + beside, np.maximum(points, end) + wide)
    return low, high


def _neighbours(low: Floats, high: Floats, skin: Skin) -> Iterator[tuple[Whole, Whole]]:
    """Numbers of boxes (3, n) and of triangles whose own boxes meet them, some pairs at a time."""
    count = low.shape[1]
    firsts = np.arange(0, count, _TOGETHER)
    if not count:
        return
    lows, highs = np.minimum.reduceat(low, firsts, axis=1), np.maximum.reduceat(high, firsts, axis=1)
    least, greatest = skin.boxes
    meet = np.ones((len(firsts), len(skin.corners)), dtype=bool)
    for k in range(3):
        meet &= (least[k] <= highs[k][:, None]) & (greatest[k] >= lows[k][:, None])
    groups, triangles = np.nonzero(meet)
    step = _AT_ONCE // _TOGETHER
    for at in range(0, len(groups), step):
        rows = (firsts[groups[at : at + step], None] + np.arange(_TOGETHER)).ravel()
        others = np.repeat(triangles[at : at + step], _TOGETHER)
        inside = rows < count
        rows, others = rows[inside], others[inside]
        for k in range(3):
            near = (least[k].take(others) <= high[k].take(rows)) & (greatest[k].take(others) >= low[k].take(rows))
            rows, others = rows[near], others[near]
        if len(rows):
            yield rows, others


def _dot(a: Floats, b: Floats) -> Floats:
    """Scalar products along the first axis; a sum over an axis of three takes several times as long."""
    return np.asarray(a[0] * b[0] + a[1] * b[1] + a[2] * b[2])
