"""What is seen of components: regions of the plane of view, for tints and for leaders that point at something."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from planbook.drawing.hidden.boxes import diagonals
from planbook.drawing.hidden.faces import Faces, faces_of
from planbook.drawing.hidden.scene import Scene
from planbook.shape.solids.surfaces import Flags, Floats, Whole

_SKIN: Final = 0.1
"""A face that is nearer by less (mm, along the line of sight) touches, and hides nothing."""
_LEAST: Final = 0.01
"""Square millimetres under which an overlap is none."""
_FEW: Final = 12
"""Of faces of more triangles the corners are not looked at one by one."""
_FAR: Final = 1e6
_GRID: Final = 1e-6
"""Millimetres: far finer than a line."""


def regions_of(scene: Scene, names: Collection[str], least: float = _LEAST) -> Mapping[str, BaseGeometry]:
    """The region in which each of some components is seen; empty where another covers it all.

    Faces that show less than `least` square millimetres of themselves are left out.
    """
    return {name: shapely.union_all(seen) for name, seen in _surfaces_seen(scene, names, least, by_own=False).items()}


def faces_seen(scene: Scene, names: Collection[str], least: float = _LEAST) -> Mapping[str, np.ndarray]:
    """What is seen of each surface of some components, not hidden by others of its own either; a round one is one."""
    return _surfaces_seen(scene, names, least, by_own=True)


def _surfaces_seen(scene: Scene, names: Collection[str], least: float, *, by_own: bool) -> Mapping[str, np.ndarray]:
    faces = faces_of(scene)
    wanted = {name: number for number, name in enumerate(scene.names) if name in names}
    rows = np.flatnonzero(np.isin(faces.owner, list(wanted.values())))
    rows = rows[shapely.area(faces.outline(rows)) >= least]
    seen = seen_of(faces, rows, faces.surface[rows], by_own=by_own)
    owner = faces.owner[rows[np.unique(faces.surface[rows], return_index=True)[1]]]
    return {name: seen[owner == number] for name, number in wanted.items()}


def facing_area(scene: Scene, names: Collection[str]) -> float:
    """Square millimetres that no more is seen of some components than: all that faces the viewer, hidden or not."""
    numbers = [number for number, name in enumerate(scene.names) if name in names]
    a, b, c = scene.corners[scene.front & np.isin(scene.owners, numbers)][:, :, :2].swapaxes(0, 1)
    across, along = b - a, c - a
    return float(np.abs(across[:, 0] * along[:, 1] - across[:, 1] * along[:, 0]).sum()) / 2


def seen_of(faces: Faces, rows: Whole, groups: Whole, *, by_own: bool = False) -> np.ndarray:
    """What is seen of some faces (k,), in rising order, that belong to groups (k,): regions of the groups in theirs.

    That is what others do not cover, `by_own` those of its own component among them. The faces of a group are of one
    surface, so that they nowhere lie behind one another: what covers one of them covers the group.
    """
    found, place = np.unique(groups, return_inverse=True)
    pairs, covered = _in_front(faces, rows, place, by_own=by_own)
    left = ~np.isin(rows, covered)
    whole = _together(faces.outline(rows[left]), place[left], len(found), shapely.coverage_union_all)
    hidden = _together(*_covers(faces, pairs), len(found), _union)
    return np.asarray(shapely.difference(whole, hidden))


@dataclass(frozen=True, eq=False, slots=True)
class _Pairs:
    """Faces that are looked at and others that hide a part of them, one pair a row."""

    own: Whole
    other: Whole
    group: Whole
    """Of `own`."""
    plain: Flags
    """Whether the other is nearer than all of the group that it overlaps"""

    def only(self, which: Flags) -> _Pairs:
        """Some of them."""
        return _Pairs(self.own[which], self.other[which], self.group[which], self.plain[which])


def _covers(faces: Faces, pairs: _Pairs) -> tuple[np.ndarray, Whole]:
    """What hides something, and of which group. What is plainly nearer does it as it is; of all else so much as is
    nearer than the face, and over it: before other faces of the group it may be farther."""
    plain, rest = pairs.only(pairs.plain), pairs.only(~pairs.plain)
    common = shapely.intersection(faces.outline(rest.own), faces.outline(rest.other))
    kept = shapely.area(common) > _LEAST
    rest = rest.only(kept)
    cut = _where_positive(common[kept], _nearness(faces, rest.other, rest.own))
    some = ~shapely.is_missing(cut)
    once = np.unique(plain.group * len(faces.owner) + plain.other)
    group, other = np.divmod(once, len(faces.owner))
    return np.concatenate([faces.outline(other), cut[some]]), np.concatenate([group, rest.group[some]])


def _union(several: np.ndarray, axis: int) -> np.ndarray:
    """The unions along an axis; on a grid where borders that all but coincide leave no sound region without one."""
    try:
        return np.asarray(shapely.union_all(several, axis=axis))
    except shapely.errors.GEOSException:
        return np.asarray(shapely.union_all(several, axis=axis, grid_size=_GRID))


def _together(pieces: np.ndarray, places: Whole, count: int, union: Callable[..., np.ndarray]) -> np.ndarray:
    """Regions (count,), each the union of the pieces (n,) at its place (n,)."""
    order = np.argsort(places, kind="stable")
    found = np.full(count, shapely.Polygon(), dtype=object)
    if len(order):
        some = np.unique(places)
        bundles = shapely.geometrycollections(pieces[order], indices=np.searchsorted(some, places[order]))
        found[some] = union(bundles[:, None], axis=1)
    return found


def _in_front(faces: Faces, rows: Whole, place: Whole, *, by_own: bool) -> tuple[_Pairs, Whole]:
    """Pairs of some faces, of groups at `place`, and others that hide a part of them; and the faces that another hides
    whole."""
    own, other = faces.tree.query(diagonals(faces.box[rows, :2], faces.box[rows, 2:]))
    group, own = place[own], rows[own]
    maker = faces.surface if by_own else faces.owner
    strange = maker[other] != maker[own]
    own, other, group = own[strange], other[strange], group[strange]
    lowest, highest = _nearest(faces, other, own)
    key = group * len(faces.owner) + other
    pairs = _Pairs(own, other, group, ~np.isin(key, key[lowest <= 0]))
    meet = highest > 0
    meet[meet] = shapely.intersects(faces.outline(other[meet]), faces.outline(own[meet]))
    whole = meet & (lowest > 0)
    whole[whole] = shapely.covers(faces.outline(other[whole]), faces.outline(own[whole]))
    covered = np.unique(own[whole])
    return pairs.only(meet & ~np.isin(own, covered)), covered


def _nearness(faces: Faces, other: Whole, own: Whole) -> Floats:
    """(k, 3): how much nearer than a touch the planes of some faces are than those of others, a x + b y + c."""
    return np.asarray(faces.plane[other] - faces.plane[own] - (0, 0, _SKIN))


def _nearest(faces: Faces, other: Whole, own: Whole) -> tuple[Floats, Floats]:
    """Bounds for the least and the most of it where two faces overlap: in the boxes that both take, and, where these do
    not tell, at the corners of either."""
    low = np.maximum(faces.box[other, :2], faces.box[own, :2])
    high = np.minimum(faces.box[other, 2:], faces.box[own, 2:])
    plane = _nearness(faces, other, own)
    ends = plane[:, :2] * low, plane[:, :2] * high
    lowest, highest = np.minimum(*ends).sum(axis=1) + plane[:, 2], np.maximum(*ends).sum(axis=1) + plane[:, 2]
    for face in (other, own):
        unsure = np.flatnonzero((lowest <= 0) & (highest > 0) & (np.diff(faces.first)[face] <= _FEW))
        least, most = _reach(faces, face[unsure], plane[unsure])
        lowest[unsure], highest[unsure] = np.maximum(lowest[unsure], least), np.minimum(highest[unsure], most)
    return lowest, highest


def _reach(faces: Faces, rows: Whole, planes: Floats) -> tuple[Floats, Floats]:
    """The least and the most of a x + b y + c at the corners of some faces (k,)."""
    if not len(rows):
        return np.zeros(0), np.zeros(0)
    pair, number = faces.triangles_of(rows)
    values = np.einsum("tci,ti->tc", faces.triangles[number], planes[pair, :2]) + planes[pair, 2:]
    first = np.flatnonzero(np.diff(pair, prepend=-1))
    return np.minimum.reduceat(values.min(axis=1), first), np.maximum.reduceat(values.max(axis=1), first)


def _where_positive(regions: np.ndarray, planes: Floats) -> np.ndarray:
    """The part of each region in which its a x + b y + c > 0; None for nothing."""
    points, place = shapely.get_coordinates(regions, return_index=True)
    over = np.sum(points * planes[place, :2], axis=1) + planes[place, 2]
    first = np.flatnonzero(np.diff(place, prepend=-1))
    least, most = np.minimum.reduceat(over, first), np.maximum.reduceat(over, first)
    cut = np.flatnonzero((least < 0) & (most > 0))
    found = regions.copy()
    found[most <= 0] = None
    found[cut] = shapely.intersection(regions[cut], _half_planes(planes[cut]))
    return found


def _half_planes(planes: Floats) -> np.ndarray:
    """Squares of which one side lies on the line a x + b y + c = 0, and the rest where it is positive."""
    slope = np.hypot(planes[:, 0], planes[:, 1])[:, None]
    foot, up = -planes[:, :2] * planes[:, 2:] / slope**2, planes[:, :2] / slope
    along = np.stack([-up[:, 1], up[:, 0]], axis=1) * _FAR
    corners = [foot - along, foot + along, foot + along + up * _FAR, foot - along + up * _FAR]
    return np.asarray(shapely.polygons(np.stack(corners, axis=1)))
