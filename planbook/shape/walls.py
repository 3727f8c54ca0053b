"""How much wood stands between a cut and what is next to it: another cut, a border of its part, the face behind it.

Between cuts whose planes are parallel, and between a cut and the borders of its own face, the distance is that of their
loops, exact to `SAGITTA`; else it is that of the solids, to the depth of a facet.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from planbook.shape.bench import FINE
from planbook.shape.faces import FACES, FLAT, extent, stock_depth
from planbook.shape.geometry import Frame, Loop, Point, Vec
from planbook.shape.loops import chords, flatten
from planbook.shape.model import Cut, Feature, Part
from planbook.shape.solids.building import gap_between
from planbook.source.models.part import FaceName

SHAPING: Final = frozenset({"chamfer", "round_over", "taper", "ramp", "tenon", "round_tenon", "turned", "end_cut"})
"""Features that make a border anew, in place of lying within the old ones."""
_PARALLEL: Final = 1 - 1e-12


@dataclass(frozen=True, slots=True)
class Wall:
    """The wood (nm) between a feature and something else, a feature by its name or a border in words."""

    feature: str
    other: str
    thickness: float
    between_features: bool = False


@dataclass(frozen=True)
class _Space:
    """One cut of a feature; `repeat` is which of a row or ring."""

    feature: Feature
    repeat: int
    cut: Cut

    @cached_property
    def polygon(self) -> shapely.Polygon:
        """Its loop in its own plane, islands left out."""
        return shapely.Polygon(flatten(self.cut.loop), [flatten(island) for island in self.cut.islands])

    @cached_property
    def corners(self) -> NDArray[np.float64]:
        """(n, 3): the loop at its plane and at its depth."""
        frame, depth = self.cut.frame, self.cut.depth
        return np.array([frame.place(point, at) for point in flatten(self.cut.loop) for at in (0.0, depth)])


def thin_walls(part: Part, least: float) -> tuple[Wall, ...]:
    """The walls thinner than `least` nm, the thinnest of each feature and what it is next to, in feature order.

    Cuts that meet have no wall between them, and a cut that opens on a border none towards that border.
    """
    spaces = [
        _Space(feature, index // len(feature.first), cut)
        for feature in part.features.values()
        for index, cut in enumerate(feature.cuts)
    ]
    found = [*_between(part, spaces, least)]
    for space in spaces:
        if space.feature.kind not in SHAPING and not space.cut.lift:
            found += (*_to_borders(part, space), *_behind(part, space))
    thinnest: dict[tuple[str, str], Wall] = {}
    for wall in found:
        if FINE < wall.thickness < least - FINE:
            key = (wall.feature, wall.other)
            thinnest[key] = min(thinnest.get(key, wall), wall, key=lambda each: each.thickness)
    return tuple(thinnest.values())


def _between(part: Part, spaces: list[_Space], least: float) -> Iterator[Wall]:
    for first, second in _near(spaces, least):
        a, b = spaces[first], spaces[second]
        if a.feature.name == b.feature.name and a.repeat == b.repeat:
            continue
        apart = _apart(part, a, b)
        if apart is None:
            apart = gap_between(part, a.cut, b.cut, least)
        other = b.feature.name if a.feature.name != b.feature.name else "the next one"
        yield Wall(a.feature.name, other, apart, between_features=a.feature.name != b.feature.name)


def _near(spaces: list[_Space], least: float) -> Iterator[tuple[int, int]]:
    """Pairs of cuts whose boxes are nearer than `least`."""
    if not spaces:
        return
    low = np.array([space.corners.min(axis=0) for space in spaces]) - least
    high = np.array([space.corners.max(axis=0) for space in spaces])
    for first in range(len(spaces)):
        meets = np.all((low[first + 1 :] < high[first]) & (low[first] < high[first + 1 :]), axis=1)
        yield from ((first, int(second)) for second in np.flatnonzero(meets) + first + 1)


def _apart(part: Part, a: _Space, b: _Space) -> float | None:
    """The distance of two straight cuts in parallel planes; None for others."""
    frame, other = a.cut.frame, b.cut.frame
    if a.cut.bottom or b.cut.bottom or a.cut.lift or b.cut.lift or abs(_dot(frame.normal, other.normal)) < _PARALLEL:
        return None
    flat = shapely.Polygon(
        [_seen(frame, other, point) for point in flatten(b.cut.loop)],
        [[_seen(frame, other, point) for point in flatten(island)] for island in b.cut.islands],
    )
    start = -_dot(_less(other.origin, frame.origin), frame.normal)
    end = start + b.cut.depth * _dot(other.normal, frame.normal)
    across = max(min(start, end) - a.cut.depth, -max(start, end), 0.0)
    beside = float(shapely.distance(a.polygon, flat))
    if beside > FINE and a.feature.face in FLAT and not _in_wood(part, a.polygon, flat):
        return math.inf
    return math.hypot(beside, across)


def _in_wood(part: Part, one: shapely.Polygon, other: shapely.Polygon) -> bool:
    """Whether what lies between two loops in the face is wood of the outline."""
    between = shapely.shortest_line(one, other)
    return bool(shapely.contains(_outline(part.outline), shapely.line_interpolate_point(between, 0.5, normalized=True)))


def _outline(loop: Loop) -> shapely.Polygon:
    return shapely.Polygon(flatten(loop))


def _to_borders(part: Part, space: _Space) -> Iterator[Wall]:
    """To each border of the cut's face that it does not open on."""
    for name, side in _borders(part, space.feature.face):
        yield Wall(space.feature.name, name, float(shapely.distance(space.polygon, side)))


def _borders(part: Part, face: FaceName) -> Iterator[tuple[str, shapely.LineString]]:
    if face in FLAT and part.vertices:
        for segment, corner in zip(part.outline.segments, part.outline.names, strict=True):
            name = f"the outline after `{corner}`" if corner else "the rounding of the outline"
            yield name, shapely.LineString(chords(segment))
        return
    size, axes = extent(face, part.blank), FACES[face]
    lines = (
        (axes.u, 0, (0.0, 0.0), (0.0, size.y)),
        (axes.u, 1, (size.x, 0.0), (size.x, size.y)),
        (axes.v, 0, (0.0, 0.0), (size.x, 0.0)),
        (axes.v, 1, (0.0, size.y), (size.x, size.y)),
    )
    for axis, far, start, end in lines:
        if axis == 2 or not part.vertices:  # an outline moves the ends and edges, not the face and the back
            yield f"the {BORDERS[axis][far]}", shapely.LineString([start, end])


BORDERS: Final = (("left end", "right end"), ("front edge", "rear edge"), ("back", "face"))
"""Of a blank along x, y and z: the one at 0 and the far one."""


def _behind(part: Part, space: _Space) -> Iterator[Wall]:
    """The wood that a blind cut leaves under it."""
    face = space.feature.face
    axes = FACES[face]
    if axes.normal == 2 or not part.vertices:
        name = f"the {BORDERS[axes.normal][0 if axes.far else 1]}"
        yield Wall(space.feature.name, name, stock_depth(face, part.blank) - space.cut.depth)


def _seen(frame: Frame, other: Frame, point: Point) -> Point:
    """A point of another plane along the axes of this one."""
    arm = _less(other.place(point), frame.origin)
    return Point(_dot(arm, frame.u), _dot(arm, frame.v))


def _dot(a: Vec, b: Vec) -> float:
    return a.x * b.x + a.y * b.y + a.z * b.z


def _less(a: Vec, b: Vec) -> Vec:
    return Vec(a.x - b.x, a.y - b.y, a.z - b.z)
