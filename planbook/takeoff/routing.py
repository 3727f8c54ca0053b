"""What a router cuts: a part's true outline, and the inside corners that its cutter leaves round."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from shapely import Polygon, box

from planbook.cutting import Point, minkowski_sum
from planbook.measure import MILLIMETRE
from planbook.shape import inner_corners
from planbook.shape.geometry import Arc, Line
from planbook.shape.kinds import RecessShape
from planbook.shape.loops import flatten
from planbook.shape.model import Part

Outline = tuple[Point, ...]

_CHORD: Final = 0.1 * MILLIMETRE
"""How far outside an arc the sides may lie that stand for it on a plan."""
_FINE: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Corners:
    """Inside corners that the part wants sharper than the cutter leaves them. `feature` is "" for the outline's own."""

    part: Part
    feature: str
    kind: str
    count: int


def routed_outline(part: Part, size: tuple[int, int], *, mirrored: bool) -> Outline | None:
    """In the rectangle of the rough piece, which it fills; None where it is that rectangle."""
    wood = Polygon(flatten(part.outline)).difference(_notches(part))
    if wood.geom_type != "Polygon" or wood.area >= box(*wood.bounds).area * (1 - _FINE):
        return None
    wood = Polygon(wood.exterior)
    if any(isinstance(segment, Arc) for segment in part.outline.segments):
        wood = wood.buffer(_CHORD).simplify(_CHORD).intersection(box(0.0, 0.0, part.blank.x, part.blank.y))
    more = size[0] - part.blank.x, size[1] - part.blank.y
    if max(more) > MILLIMETRE / 100:
        grown = minkowski_sum(wood, box(0.0, 0.0, *(max(each, 1.0) for each in more)))
        wood = Polygon(grown.exterior)
    return _whole(wood, size, mirrored=mirrored)


def _whole(wood: Polygon, size: tuple[int, int], *, mirrored: bool) -> Outline:
    """On the grid of whole nanometres, from border to border of the rectangle."""
    west, south, east, north = wood.bounds
    points = [
        (round((x - west) * size[0] / (east - west)), round((y - south) * size[1] / (north - south)))
        for x, y in list(wood.exterior.coords)[:-1]
    ]
    return tuple((x, size[1] - y) for x, y in points[::-1]) if mirrored else tuple(points)


def _notches(part: Part) -> Polygon:
    """What the notches take from the outline."""
    loops = [
        Polygon([cut.frame.place(point)[:2] for point in flatten(cut.loop)])
        for feature in part.features.values()
        if feature.kind == "notch"
        for cut in feature.cuts
    ]
    taken = Polygon()
    for each in loops:
        taken = taken.union(each)
    return taken


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
