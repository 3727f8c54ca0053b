"""A loop as a drawing office sees it: sharp corners, rounded corners, round ends, full circles and free arcs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum, auto

from planbook.dimension.completeness.record import Pair, Segment

TANGENT = 1e-6
"""Sine of the angle under which a line and an arc count as running on without a corner."""
HALF_TURN = math.pi - 1e-6
_ONE = 2048.0
"""Nanometres within which two centres or two radii are one."""


@dataclass(frozen=True, slots=True)
class Bend:
    """An arc that is no rounded corner: a round end, or a free arc. Its ends are corners."""

    start: Pair
    end: Pair
    centre: Pair
    radius: float
    round_end: bool
    """Whether straight sides run smoothly into both of its ends: then people measure to its centre."""
    ccw: bool

    def covers(self, point: Pair) -> bool:
        """Whether a point of the whole circle lies on the arc."""
        whole = Segment(self.start, self.end, self.centre, self.ccw)
        return sweep(Segment(self.start, point, self.centre, self.ccw)) <= sweep(whole)


class Sort(Enum):
    """What a segment of a loop is."""

    SIDE = auto()
    """Straight."""
    CIRCLE = auto()
    """A whole turn."""
    ROUNDED = auto()
    """A corner that was rounded."""
    ROUND_END = auto()
    """Half a turn or more between two sides that run smoothly into it."""
    FREE = auto()
    """Any other arc."""


@dataclass(frozen=True, slots=True)
class Corners:
    """What is free in a loop: points that need a place, and radii."""

    points: tuple[Pair, ...]
    """Sharp corners, corners before they were rounded, ends of bends, centres of circles and of round ends."""
    radii: tuple[float, ...]
    """Of circles and rounded corners."""
    bends: tuple[Bend, ...]


def corners_of(parts: Sequence[Segment]) -> Corners:
    """Take a loop apart. Lines and arcs are as in the file; a full circle starts and ends at one point."""
    loop = joined(parts)
    points: list[Pair] = []
    radii: list[float] = []
    bends: list[Bend] = []
    hidden: set[Pair] = set()
    for index, arc in enumerate(loop):
        if arc.centre is None:
            continue
        sort = sort_of(loop, index)
        if sort is Sort.CIRCLE:
            points.append(arc.centre)
            hidden.add(arc.start)
            radii.append(radius_of(arc))
        elif sort is Sort.ROUNDED:
            points.append(sharp_corner(loop, index))
            hidden |= {arc.start, arc.end}
            radii.append(radius_of(arc))
        else:
            smooth = sort is Sort.ROUND_END
            points += [arc.centre] if smooth else []
            bends.append(Bend(arc.start, arc.end, arc.centre, radius_of(arc), smooth, arc.ccw))
    sharp = [segment.start for segment in loop if segment.start not in hidden]
    return Corners((*sharp, *points), tuple(radii), tuple(bends))


def joined(loop: Sequence[Segment]) -> tuple[Segment, ...]:
    """The loop with arcs of one circle that run on into one another taken as one: a disc has no corners."""
    found: list[Segment] = []
    for segment in loop:
        if found and _same_circle(found[-1], segment):
            found[-1] = replace(found[-1], end=segment.end)
        else:
            found.append(segment)
    if len(found) > 1 and _same_circle(found[-1], found[0]):
        found[0] = replace(found[0], start=found.pop().start)
    return tuple(found)


def _same_circle(one: Segment, other: Segment) -> bool:
    if one.centre is None or other.centre is None or one.ccw != other.ccw or one.start == one.end:
        return False
    return math.dist(one.centre, other.centre) < _ONE and abs(radius_of(one) - radius_of(other)) < _ONE


def sort_of(loop: Sequence[Segment], index: int) -> Sort:
    """What a segment is, by itself and by its neighbours."""
    arc = loop[index]
    if arc.centre is None:
        return Sort.SIDE
    if arc.start == arc.end:
        return Sort.CIRCLE
    before, after = loop[index - 1], loop[(index + 1) % len(loop)]
    smooth = len(loop) > 2 and _runs_on(before, arc.start, arc) and _runs_on(after, arc.end, arc)
    if not smooth:
        return Sort.FREE
    return Sort.ROUNDED if sweep(arc) < HALF_TURN else Sort.ROUND_END


def sharp_corner(loop: Sequence[Segment], index: int) -> Pair:
    """Where a corner was before it was rounded; `index` is that of the arc."""
    return _crossing(loop[index - 1], loop[(index + 1) % len(loop)])


def radius_of(arc: Segment) -> float:
    """In the unit of the loop."""
    assert arc.centre is not None
    return math.dist(arc.centre, arc.start)


def sweep(arc: Segment) -> float:
    """How far it turns, in radians, between 0 and 2 pi."""
    assert arc.centre is not None
    first, last = (math.atan2(y - arc.centre[1], x - arc.centre[0]) for x, y in (arc.start, arc.end))
    return (last - first if arc.ccw else first - last) % math.tau


def _runs_on(line: Segment, touch: Pair, arc: Segment) -> bool:
    """Whether a straight side meets the arc square to its radius."""
    if line.centre is not None or arc.centre is None:
        return False
    along = (line.end[0] - line.start[0], line.end[1] - line.start[1])
    out = (touch[0] - arc.centre[0], touch[1] - arc.centre[1])
    return abs(along[0] * out[0] + along[1] * out[1]) <= TANGENT * math.hypot(*along) * math.hypot(*out)


def _crossing(first: Segment, second: Segment) -> Pair:
    """Where two straight sides would meet; they are not parallel."""
    (x1, y1), (x2, y2) = first.start, first.end
    (x3, y3), (x4, y4) = second.start, second.end
    d1, d2 = (x2 - x1, y2 - y1), (x4 - x3, y4 - y3)
    share = ((x3 - x1) * d2[1] - (y3 - y1) * d2[0]) / (d1[0] * d2[1] - d1[1] * d2[0])
    return x1 + share * d1[0], y1 + share * d1[1]
