"""Plane faces as seen: the triangles of each surface that face the viewer, together or, on a round one, one by one."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final

import numpy as np
import shapely

from planbook.drawing.hidden.boxes import diagonals
from planbook.drawing.hidden.scene import Scene
from planbook.shape.solids.surfaces import Flags, Floats, Whole
from planbook.source.models.figures import Corner

_SHALLOW: Final = 3.0
"""A round surface that departs less from a plane (mm, along the line of sight) counts as that plane."""
_STRAIGHT: Final = 1e-12
"""Share of its square under which a spread across the points of a surface is none: they lie in one line."""


@dataclass(frozen=True, eq=False)
class Faces:
    """Plane faces as seen, one a row: those of flat and shallow surfaces whole, those of round ones facet by facet.

    Outlines are made when they are asked for: most faces lie where nobody looks for them.
    """

    triangles: Floats
    """(t, 3, 2): corners, those of each face together"""
    first: Whole
    """(k + 1,): number of each face's first triangle, and `t`"""
    plane: Floats
    """(k, 3): z = a x + b y + c"""
    owner: Whole
    """(k,)"""
    surface: Whole
    """(k,): faces of one surface do not lie behind one another"""

    @cached_property
    def _outline(self) -> np.ndarray:
        return np.full(len(self.owner), None, dtype=object)

    @cached_property
    def box(self) -> Floats:
        """(k, 4): least x, least y, greatest x, greatest y"""
        if not len(self.owner):
            return np.zeros((0, 4))
        low, high = self.triangles.min(axis=1), self.triangles.max(axis=1)
        starts = self.first[:-1]
        return np.concatenate([np.minimum.reduceat(low, starts), np.maximum.reduceat(high, starts)], axis=1)

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Over the boxes."""
        return shapely.STRtree(diagonals(self.box[:, :2], self.box[:, 2:]))

    def triangles_of(self, rows: Whole) -> tuple[Whole, Whole]:
        """The triangles of some faces (n,): for each the place of its face among them, and its own number."""
        count = self.first[rows + 1] - self.first[rows]
        place = np.repeat(np.arange(len(rows)), count)
        return place, np.arange(len(place)) + np.repeat(self.first[rows] - (np.cumsum(count) - count), count)

    def outline(self, rows: Whole) -> np.ndarray:
        """Polygons (n,) of some faces (n,)."""
        new = np.unique(rows[shapely.is_missing(self._outline[rows])])
        if len(new):
            self._outline[new] = self._joined(new)
            shapely.prepare(self._outline[new])
        return np.asarray(self._outline[rows])

    def _joined(self, rows: Whole) -> np.ndarray:
        """One polygon for each face of its triangles, which share their corners and do not overlap."""
        place, number = self.triangles_of(rows)
        count = np.diff(self.first)[rows]
        triangles = shapely.polygons(self.triangles[number])
        found = shapely.geometrycollections(triangles, indices=place)
        found[count > 1] = shapely.coverage_union_all(found[count > 1][:, None], axis=1)
        found[count == 1] = triangles[count[place] == 1]
        return np.asarray(found)


@lru_cache(maxsize=len(Corner))
def faces_of(scene: Scene) -> Faces:
    """All faces towards the viewer. Remembered: what is looked at from all corners is then drawn from one of them, and
    a picture asks for its tints, then for where its leaders point."""
    front = np.flatnonzero(scene.front)
    order = front[np.argsort(scene.faces[front], kind="stable")]
    surface = np.cumsum(np.diff(scene.faces[order], prepend=-1) > 0) - 1
    plane, flat = _planes(scene.corners[order], surface)
    begins = ~flat[surface] | (np.diff(surface, prepend=-1) > 0)
    first, normals = np.flatnonzero(begins), scene.normals[order]
    slopes = -normals[:, :2] / normals[:, 2:]
    corner = scene.corners[order, 0]
    facet = np.column_stack([slopes, corner[:, 2] - np.sum(slopes * corner[:, :2], axis=1)])
    return Faces(
        scene.corners[order, :, :2],
        np.append(first, len(order)),
        np.where(flat[surface[first], None], plane[surface[first]], facet[first]),
        scene.owners[order[first]],
        surface[first],
    )


def _planes(corners: Floats, surface: Whole) -> tuple[Floats, Flags]:
    """The plane (k, 3) nearest to the triangles (t, 3, 3) of each of `k` surfaces along the line of sight, and whether
    they depart little from it. Least squares about the middle of each; where all points are in one line, the plane
    that is level across it."""
    if not len(surface):
        return np.zeros((0, 3)), np.zeros(0, dtype=bool)
    starts = np.flatnonzero(np.diff(surface, prepend=-1) > 0)
    count = np.diff(np.append(starts, len(surface)))[:, None]
    middle = np.add.reduceat(corners.mean(axis=1), starts) / count
    arm = corners - middle[surface][:, None]
    spread = np.add.reduceat(np.einsum("tci,tcj->tij", arm[:, :, :2], arm), starts)
    (xx, xy, yy), rise = spread[:, (0, 0, 1), (0, 1, 1)].T, spread[:, :, 2]
    whole, area = xx + yy, xx * yy - xy**2
    across = np.stack([yy * rise[:, 0] - xy * rise[:, 1], xx * rise[:, 1] - xy * rise[:, 0]], axis=1)
    along = np.stack([xx * rise[:, 0] + xy * rise[:, 1], xy * rise[:, 0] + yy * rise[:, 1]], axis=1)
    straight = area <= _STRAIGHT * whole**2
    slope = np.where(straight[:, None], along, across) / np.where(straight, whole**2, area)[:, None]
    off = np.abs(arm[:, :, 2] - np.einsum("tci,ti->tc", arm[:, :, :2], slope[surface])).max(axis=1)
    plane = np.column_stack([slope, middle[:, 2] - np.sum(slope * middle[:, :2], axis=1)])
    return plane, np.maximum.reduceat(off, starts) <= _SHALLOW
