"""What is seen of components: regions of the plane of view, for tints and for leaders that point at something."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from planbook.drawing.hidden.scene import Scene
from planbook.shape.solids.surfaces import Floats, Whole

_SKIN: Final = 0.1
"""A face that is nearer by less (mm, along the line of sight) touches, and hides nothing."""
_SHALLOW: Final = 3.0
"""A round surface that departs less from a plane (mm, along the line of sight) counts as that plane."""
_LEAST: Final = 0.01
"""Square millimetres under which an overlap is none."""
_FAR: Final = 1e6


@dataclass(frozen=True, eq=False)
class Faces:
    """Plane faces as seen, one a row: those of flat and shallow surfaces whole, those of round ones facet by facet."""

    outline: np.ndarray
    """(k,), polygons"""
    plane: Floats
    """(k, 3): z = a x + b y + c"""
    owner: Whole
    """(k,)"""
    box: Floats
    """(k, 4): least x, least y, greatest x, greatest y"""

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Over the boxes."""
        return shapely.STRtree(self.outline)


def regions_of(scene: Scene, names: Collection[str], least: float = _LEAST) -> Mapping[str, BaseGeometry]:
    """The region in which each of some components is seen; empty where another covers it all.

    Faces that show less than `least` square millimetres of themselves are left out.
    """
    faces = faces_of(scene)
    wanted = {name: number for number, name in enumerate(scene.names) if name in names}
    owned = {
        name: np.flatnonzero((faces.owner == number) & (shapely.area(faces.outline) >= least))
        for name, number in wanted.items()
    }
    return {name: shapely.union_all(seen_of(faces, mine)) for name, mine in owned.items()}


@lru_cache(maxsize=1)
def faces_of(scene: Scene) -> Faces:
    """All faces towards the viewer. Remembered: a picture asks for its tints, then for where its leaders point."""
    front = np.flatnonzero(scene.front)
    order = front[np.argsort(scene.faces[front], kind="stable")]
    bundles = np.split(order, np.flatnonzero(np.diff(scene.faces[order])) + 1) if len(order) else []
    rows = [row for bundle in bundles for row in _rows(scene, bundle)]
    outlines, planes, owners = zip(*rows, strict=True) if rows else ((), (), ())
    outline = np.array(outlines, dtype=object)
    shapely.prepare(outline)
    return Faces(outline, np.array(planes).reshape(-1, 3), np.array(owners), shapely.bounds(outline).reshape(-1, 4))


def _rows(scene: Scene, bundle: Whole) -> list[tuple[BaseGeometry, Floats, int]]:
    """The faces that the triangles of one surface make."""
    corners = scene.corners[bundle]
    triangles = shapely.polygons(corners[:, :, :2])
    owner = int(scene.owners[bundle[0]])
    points = corners.reshape(-1, 3)
    level = np.column_stack([points[:, :2], np.ones(len(points))])
    plane = np.asarray(np.linalg.lstsq(level, points[:, 2], rcond=None)[0], dtype=np.float64)
    if np.abs(level @ plane - points[:, 2]).max() <= _SHALLOW:
        return [(_joined(triangles), plane, owner)]
    normals = scene.normals[bundle]
    a, b = -normals[:, 0] / normals[:, 2], -normals[:, 1] / normals[:, 2]
    c = corners[:, 0, 2] - a * corners[:, 0, 0] - b * corners[:, 0, 1]
    return [(t, plane, owner) for t, plane in zip(triangles, np.stack([a, b, c], axis=1), strict=True)]


def _joined(triangles: np.ndarray) -> BaseGeometry:
    """One region of the triangles of a flat face, which share their corners and do not overlap."""
    return triangles[0] if len(triangles) == 1 else shapely.coverage_union_all(triangles)


def seen_of(faces: Faces, rows: Whole, *, by_own: bool = False) -> list[BaseGeometry]:
    """What is seen of each of some faces, in their order: what others do not cover, `by_own` those of its own component
    among them.
    """
    own, other, covered = _in_front(faces, rows, by_own=by_own)
    common = shapely.intersection(faces.outline[own], faces.outline[other])
    kept = shapely.area(common) > _LEAST
    own, other = own[kept], other[kept]
    hidden: dict[int, list[BaseGeometry]] = {place: [faces.outline[place]] for place in covered.tolist()}
    for place, cover in zip(own.tolist(), _where_positive(common[kept], _nearness(faces, other, own)), strict=True):
        if cover is not None:
            hidden.setdefault(place, []).append(cover)
    return [
        faces.outline[place].difference(shapely.union_all(hidden[place])) if place in hidden else faces.outline[place]
        for place in rows.tolist()
    ]


def _in_front(faces: Faces, rows: Whole, *, by_own: bool) -> tuple[Whole, Whole, Whole]:
    """Pairs of some faces and others that may hide a part of them, one a row; and those that another hides whole."""
    own, other = faces.tree.query(faces.outline[rows])
    own = rows[own]
    strange = (own != other) if by_own else (faces.owner[other] != faces.owner[own])
    own, other = own[strange], other[strange]
    lowest, highest = _nearest(faces, other, own)
    meet = highest > 0
    meet[meet] = shapely.intersects(faces.outline[other[meet]], faces.outline[own[meet]])
    whole = meet & (lowest > 0)
    whole[whole] = shapely.covers(faces.outline[other[whole]], faces.outline[own[whole]])
    covered = np.unique(own[whole])
    meet &= ~np.isin(own, covered)
    return own[meet], other[meet], covered


def _nearness(faces: Faces, other: Whole, own: Whole) -> Floats:
    """(k, 3): how much nearer than a touch the planes of some faces are than those of others, a x + b y + c."""
    return np.asarray(faces.plane[other] - faces.plane[own] - (0, 0, _SKIN))


def _nearest(faces: Faces, other: Whole, own: Whole) -> tuple[Floats, Floats]:
    """The least and the most of it in the boxes that both take; for most pairs this says all."""
    low = np.maximum(faces.box[other, :2], faces.box[own, :2])
    high = np.minimum(faces.box[other, 2:], faces.box[own, 2:])
    plane = _nearness(faces, other, own)
    ends = plane[:, :2] * low, plane[:, :2] * high
    return np.minimum(*ends).sum(axis=1) + plane[:, 2], np.maximum(*ends).sum(axis=1) + plane[:, 2]


def _where_positive(regions: np.ndarray, planes: Floats) -> list[BaseGeometry | None]:
    """The part of each region in which its a x + b y + c > 0; None for nothing."""
    points, place = shapely.get_coordinates(regions, return_index=True)
    over = np.sum(points * planes[place, :2], axis=1) + planes[place, 2]
    first = np.flatnonzero(np.diff(place, prepend=-1))
    least, most = np.minimum.reduceat(over, first), np.maximum.reduceat(over, first)
    cut = np.flatnonzero((least < 0) & (most > 0))
    found = regions.copy()
    found[most <= 0] = None
    found[cut] = shapely.intersection(regions[cut], _half_planes(planes[cut]))
    return list(found)


def _half_planes(planes: Floats) -> np.ndarray:
    """Squares of which one side lies on the line a x + b y + c = 0, and the rest where it is positive."""
    slope = np.hypot(planes[:, 0], planes[:, 1])[:, None]
    foot, up = -planes[:, :2] * planes[:, 2:] / slope**2, planes[:, :2] / slope
    along = np.stack([-up[:, 1], up[:, 0]], axis=1) * _FAR
    corners = [foot - along, foot + along, foot + along + up * _FAR, foot - along + up * _FAR]
    return np.asarray(shapely.polygons(np.stack(corners, axis=1)))
