"""What is seen of components: regions of the plane of view, for tints and for leaders that point at something."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
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


@dataclass(frozen=True, eq=False, slots=True)
class Faces:
    """Plane faces as seen, one a row: those of flat and shallow surfaces whole, those of round ones facet by facet."""

    outline: np.ndarray
    """(k,), polygons"""
    plane: Floats
    """(k, 3): z = a x + b y + c"""
    owner: Whole
    """(k,)"""
    depth: Floats
    """(k, 2): least and greatest z"""


def regions_of(scene: Scene, names: Collection[str], least: float = _LEAST) -> Mapping[str, BaseGeometry]:
    """The region in which each of some components is seen; empty where another covers it all.

    Faces that show less than `least` square millimetres of themselves are left out.
    """
    faces = faces_of(scene)
    tree = shapely.STRtree(faces.outline)
    wanted = {name: number for number, name in enumerate(scene.names) if name in names}
    owned = {
        name: np.flatnonzero((faces.owner == number) & (shapely.area(faces.outline) >= least))
        for name, number in wanted.items()
    }
    return {name: shapely.union_all(seen_of(faces, tree, mine)) for name, mine in owned.items()}


def faces_of(scene: Scene) -> Faces:
    """All faces towards the viewer."""
    front = np.flatnonzero(scene.front)
    order = front[np.argsort(scene.faces[front], kind="stable")]
    bundles = np.split(order, np.flatnonzero(np.diff(scene.faces[order])) + 1) if len(order) else []
    rows = [row for bundle in bundles for row in _rows(scene, bundle)]
    outlines, planes, owners, depths = zip(*rows, strict=True) if rows else ((), (), (), ())
    return Faces(np.array(outlines, dtype=object), np.array(planes), np.array(owners), np.array(depths).reshape(-1, 2))


def _rows(scene: Scene, bundle: Whole) -> list[tuple[BaseGeometry, Floats, int, Floats]]:
    """The faces that the triangles of one surface make."""
    corners = scene.corners[bundle]
    triangles = shapely.polygons(corners[:, :, :2])
    owner = int(scene.owners[bundle[0]])
    points = corners.reshape(-1, 3)
    level = np.column_stack([points[:, :2], np.ones(len(points))])
    plane = np.asarray(np.linalg.lstsq(level, points[:, 2], rcond=None)[0], dtype=np.float64)
    if np.abs(level @ plane - points[:, 2]).max() <= _SHALLOW:
        return [(_joined(triangles), plane, owner, np.array([points[:, 2].min(), points[:, 2].max()]))]
    normals = scene.normals[bundle]
    a, b = -normals[:, 0] / normals[:, 2], -normals[:, 1] / normals[:, 2]
    c = corners[:, 0, 2] - a * corners[:, 0, 0] - b * corners[:, 0, 1]
    depths = np.stack([corners[:, :, 2].min(axis=1), corners[:, :, 2].max(axis=1)], axis=1)
    return [(t, plane, owner, d) for t, plane, d in zip(triangles, np.stack([a, b, c], axis=1), depths, strict=True)]


def _joined(triangles: np.ndarray) -> BaseGeometry:
    """One region of the triangles of a flat face, which share their corners and do not overlap."""
    return triangles[0] if len(triangles) == 1 else shapely.coverage_union_all(triangles)


def seen_of(faces: Faces, tree: shapely.STRtree, rows: Whole, *, by_own: bool = False) -> list[BaseGeometry]:
    """What is seen of each of some faces, in their order: what others do not cover, `by_own` those of its own component
    among them. `tree` holds all outlines.
    """
    own, other = tree.query(faces.outline[rows], predicate="intersects")
    own = rows[own]
    strange = (own != other) if by_own else (faces.owner[other] != faces.owner[own])
    over = strange & (faces.depth[other, 1] > faces.depth[own, 0])
    own, other = own[over], other[over]
    common = shapely.intersection(faces.outline[own], faces.outline[other])
    kept = shapely.area(common) > _LEAST
    hidden: dict[int, list[BaseGeometry]] = {}
    for place, cover, overlap in zip(own[kept], other[kept], common[kept], strict=True):
        nearer = _where_positive(overlap, faces.plane[cover] - faces.plane[place] - (0, 0, _SKIN))
        if nearer is not None:
            hidden.setdefault(int(place), []).append(nearer)
    return [
        faces.outline[place].difference(shapely.union_all(hidden[place])) if place in hidden else faces.outline[place]
        for place in rows.tolist()
    ]


def _where_positive(region: BaseGeometry, plane: Floats) -> BaseGeometry | None:
    """The part of a region in which a x + b y + c > 0."""
    a, b, c = plane
    x, y = shapely.get_coordinates(region).T
    over = a * x + b * y + c
    if over.min() >= 0:
        return region
    if over.max() <= 0:
        return None
    slope = float(np.hypot(a, b))
    # A square of which one side lies on the line, and the rest where it is positive.
    foot, up = np.array([-a * c, -b * c]) / slope**2, np.array([a, b]) / slope
    along = np.array([-up[1], up[0]]) * _FAR
    square = shapely.Polygon([foot - along, foot + along, foot + along + up * _FAR, foot - along + up * _FAR])
    return region.intersection(square)
