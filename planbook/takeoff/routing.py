"""What a router cuts: a part's true outline with its openings, and the inside corners that its cutter leaves round."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import shapely
from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from planbook.cutting import Point, minkowski_sum
from planbook.measure import MILLIMETRE
from planbook.shape import inner_corners
from planbook.shape.geometry import Arc, Line
from planbook.shape.kinds import RecessShape
from planbook.shape.loops import flatten
from planbook.shape.model import Cut, Feature, Part

Outline = tuple[Point, ...]
Bounds = tuple[float, float, float, float]

_CHORD: Final = 0.1 * MILLIMETRE
"""How far outside an arc the sides may lie that stand for it on a plan."""
_LEAST_OPENING: Final = 50 * MILLIMETRE
"""Across an opening: a smaller one holds hardly anything that is worth the trouble. Common practice, no source."""
_FINE: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Corners:
    """Inside corners that the part wants sharper than the cutter leaves them. `feature` is "" for the outline's own."""

    part: Part
    feature: str
    kind: str
    count: int


def routed_rings(part: Part, size: tuple[int, int], *, mirrored: bool) -> tuple[Outline, ...]:
    """Its outline in the rectangle of the rough piece, which it fills, then its openings; nothing for a plain one."""
    wood = Polygon(flatten(part.outline)).difference(_taken(part, _is_notch))
    if wood.geom_type != "Polygon":
        return ()
    wood = Polygon(wood.exterior)
    more = size[0] - part.blank.x, size[1] - part.blank.y
    oversize = max(more) > MILLIMETRE / 100
    # Where the finished part will lie in a larger piece is not known, so neither are its openings.
    openings = [] if oversize else _openings(part, wood)
    if not openings and wood.area >= box(*wood.bounds).area * (1 - _FINE):
        return ()
    if any(isinstance(segment, Arc) for segment in part.outline.segments):
        wood = wood.buffer(_CHORD).simplify(_CHORD).intersection(box(0.0, 0.0, part.blank.x, part.blank.y))
    if oversize:
        grown = minkowski_sum(wood, box(0.0, 0.0, *(max(each, 1.0) for each in more)))
        wood = Polygon(grown.exterior)
    return tuple(_whole(each, wood.bounds, size, mirrored=mirrored) for each in (wood, *openings))


def _whole(ring: Polygon, bounds: Bounds, size: tuple[int, int], *, mirrored: bool) -> Outline:
    """On the grid of whole nanometres, from border to border of the rectangle."""
    west, south, east, north = bounds
    points = [
        (round((x - west) * size[0] / (east - west)), round((y - south) * size[1] / (north - south)))
        for x, y in list(ring.exterior.coords)[:-1]
    ]
    return tuple((x, size[1] - y) for x, y in points[::-1]) if mirrored else tuple(points)


def _openings(part: Part, wood: Polygon) -> list[Polygon]:
    """Those that go right through, well within the outline, and are large enough that another piece may lie there."""

    def goes_through(_: Feature, cut: Cut) -> bool:
        square = abs(cut.frame.normal.z) > 1 - _FINE
        return square and cut.bottom is None and not cut.islands and cut.depth >= part.blank.z * (1 - _FINE)

    left = wood.difference(_taken(part, goes_through))
    holes = [Polygon(ring).buffer(-_CHORD).simplify(_CHORD) for each in _polygons(left) for ring in each.interiors]
    return [hole for each in holes for hole in _polygons(each) if _least(hole) >= _LEAST_OPENING]


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    return [each for each in shapely.get_parts(shape) if not each.is_empty]


def _least(shape: Polygon) -> float:
    """The shorter side of the rectangle round it."""
    west, south, east, north = shape.bounds
    return float(min(east - west, north - south))


def _is_notch(feature: Feature, _: Cut) -> bool:
    return feature.kind == "notch"


def _taken(part: Part, chosen: Callable[[Feature, Cut], bool]) -> BaseGeometry:
    """What some of its cuts take from it, seen from its face."""
    return shapely.union_all([
        Polygon([cut.frame.place(point)[:2] for point in flatten(cut.loop)])
        for feature in part.features.values()
        for cut in feature.cuts
        if chosen(feature, cut)
    ])  # fmt: skip


def corners_left(part: Part, radius: float) -> Iterator[Corners]:
    """The outline's own inside corners, then those of notches and openings, that are sharper than a cutter's radius."""
    own = sum(1 for turn, corner in _inside_corners(part) if turn and corner < radius - _FINE * radius)
    if own:
        yield Corners(part, "", "outline", own)
    for name, feature in part.features.items():
        shape = feature.shape
        if not isinstance(shape, RecessShape) or (shape.round and shape.round.number >= radius * (1 - _FINE)):
            continue
        if feature.kind == "notch" or shape.depth is None:
            yield Corners(part, name, feature.kind, sum(inner_corners(shape.open)) * feature.count)


def _inside_corners(part: Part) -> Iterator[tuple[bool, float]]:
    """Of each corner and each arc of the outline, whether wood lies on more than half of it, and its radius."""
    segments = part.outline.segments
    for segment in segments:
        if isinstance(segment, Arc):
            yield not segment.ccw, segment.radius
    for one, other in pairwise((*segments, segments[0])):
        if isinstance(one, Line) and isinstance(other, Line):
            yield _turn(one, other) < -1e-6, 0.0


def _turn(one: Line, other: Line) -> float:
    """To the left above zero, in radians."""
    first, second = (math.atan2(each.end.y - each.start.y, each.end.x - each.start.x) for each in (one, other))
    return math.remainder(second - first, math.tau)
