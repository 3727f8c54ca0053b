"""Loops as polygons: arcs cut at the same angles everywhere, so that a pin and its hole have the same facets."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from planbook.shape.geometry import Arc, Loop, Point, Segment
from planbook.shape.loops import sweep

DEEPEST: Final = 50_000.0
"""Greatest distance (nm) of an arc from its chords: under a tenth of a narrow line at full size."""
_FEWEST: Final = 24
_SHORTEST: Final = 0.05
"""A chord shorter than this share of a whole one is joined to its neighbour."""


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of the polygon; `side` is the number of the loop's segment that the edge from here on stands for."""

    at: Point
    side: int


def facets_to_the_turn(radius: float) -> int:
    """24, doubled until the chord is near enough: counts of unlike radii then share their angles."""
    count = _FEWEST
    while radius * (1 - math.cos(math.pi / count)) > DEEPEST:
        count *= 2
    return count


def corners(loop: Loop, like: Loop | None = None) -> list[Corner]:
    """The polygon of a loop; with `like`, of as many corners as that loop's."""
    found: list[Corner] = []
    for side, segment in enumerate(loop.segments):
        model = segment if like is None else like.segments[side]
        found += (Corner(point, side) for point in _starts(segment, model))
    return found


def _starts(segment: Segment, model: Segment) -> list[Point]:
    """Where the chords of a segment start; the angles are those of `model`."""
    if not isinstance(segment, Arc) or not isinstance(model, Arc):
        return [segment.start]
    centre, radius = segment.centre, segment.radius
    turns = _angles(model)
    return [
        segment.start,
        *(Point(centre.x + radius * math.cos(turn), centre.y + radius * math.sin(turn)) for turn in turns),
    ]


def _angles(arc: Arc) -> list[float]:
    """The angles strictly inside an arc at which it is cut, in its own direction."""
    step = math.tau / facets_to_the_turn(arc.radius)
    total = sweep(arc)
    first = math.atan2(arc.start.y - arc.centre.y, arc.start.x - arc.centre.x)
    low, high = sorted((first / step, (first + total) / step))
    inside = [n * step for n in range(math.ceil(low + _SHORTEST), math.floor(high - _SHORTEST) + 1)]
    return inside if total > 0 else inside[::-1]
