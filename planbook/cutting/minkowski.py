"""Where one shape may not lie because another is there: the Minkowski sum of it and the other half turned. And where
it may lie in a hole: wherever it does not meet the hole's border.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Geometry, Polygon
from shapely.affinity import scale, translate

Points = NDArray[np.float64]


def blocked_by(still: Polygon, moving: Polygon) -> Geometry:
    """All shifts of `moving` at which it lies in `still`; at those on the border of the answer they touch."""
    return minkowski_sum(still, half_turned(moving))


def fits_in(hole: Polygon, moving: Polygon) -> Geometry:
    """All shifts of `moving` at which it lies in `hole`, the "inner-fit polygon" of the literature."""
    other = half_turned(moving)
    swept = [_corners(other)] if is_convex(other) else list(_sides(other))
    bands = _hulls([_sums(side, each) for side in _sides(hole) for each in swept])
    # A side that lies wholly within the other one meets none of its sides.
    insides = [] if len(swept) == 1 else [translate(other, *corner) for corner in _corners(hole)]
    # Where its first corner lies in the hole and no side of the hole meets it, all of it does.
    x, y = _corners(moving)[0]
    return translate(hole, -x, -y).difference(shapely.union_all([*bands, *insides]))


def half_turned(shape: Geometry) -> Geometry:
    """About the origin."""
    return scale(shape, -1.0, -1.0, origin=(0.0, 0.0))


def minkowski_sum(one: Polygon, other: Polygon) -> Geometry:
    """Every point of the one added to every point of the other; polygons without holes."""
    if is_convex(one) and is_convex(other):
        return _hulls([_sums(_corners(one), _corners(other))])[0]
    if is_convex(one):
        one, other = other, one
    sides = _sides(one)
    swept = [_corners(other)] if is_convex(other) else list(_sides(other))
    bands = _hulls([_sums(side, each) for side in sides for each in swept])
    # Sides swept along sides; where one lies wholly within the other, only their insides meet.
    insides = [translate(one, *_corners(other)[0]), translate(other, *_corners(one)[0])]
    return shapely.union_all([*bands, *insides])


def is_convex(shape: Polygon) -> bool:
    """Whether nothing is to be gained by lying into it."""
    return bool(shape.convex_hull.area <= shape.area * (1 + 1e-9))


def cost_of(one: Polygon, other: Polygon) -> int:
    """How many looks the sum of two takes."""
    corners = len(one.exterior.coords), len(other.exterior.coords)
    bent = [count for count, shape in zip(corners, (one, other), strict=True) if not is_convex(shape)]
    return corners[0] * corners[1] // 10 + _BAND * int(np.prod(bent or [1]))


_BAND = 100
"""Looks for one side swept along another, and for the whole of what needs none."""


def _corners(shape: Polygon) -> Points:
    return np.asarray(shape.exterior.coords, dtype=np.float64)[:-1]


def _sides(shape: Polygon) -> list[Points]:
    corners = _corners(shape)
    return list(np.stack([corners, np.roll(corners, -1, axis=0)], axis=1))


def _sums(one: Points, other: Points) -> Points:
    return (one[:, None, :] + other[None, :, :]).reshape(-1, 2)


def _hulls(clouds: Sequence[Points]) -> list[Geometry]:
    return list(shapely.convex_hull([shapely.MultiPoint(cloud) for cloud in clouds]))
