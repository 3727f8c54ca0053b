"""Loops built anew from moved corners, centres and radii; rounded corners stay rounded, round ends stay round."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from planbook.dimension.completeness.corners import Sort, joined, radius_of, sharp_corner, sort_of
from planbook.dimension.completeness.record import Pair, Segment

Loop = tuple[Segment, ...]


def moved_loop(loop: Loop, place: Callable[[Pair], Pair], radius: Callable[[float], float]) -> Loop:
    """The loop with its corners and centres put by `place`, and its radii by `radius`."""
    loop = joined(loop)
    sorts = [sort_of(loop, index) for index in range(len(loop))]
    if sorts == [Sort.CIRCLE]:
        return (moved_circle(loop[0], place, radius),)
    nodes = _nodes(loop, sorts, place)
    ends = _ends(loop, sorts, nodes, radius)
    return tuple(_segment(loop[i], sorts[i], ends[i], place, radius) for i in range(len(loop)))


def moved_circle(ring: Segment, place: Callable[[Pair], Pair], radius: Callable[[float], float]) -> Segment:
    """A whole circle about its moved centre; it starts in the direction in which it started."""
    assert ring.centre is not None
    reach = radius_of(ring)
    grown = radius(reach) / reach
    x, y = place(ring.centre)
    start = (x + (ring.start[0] - ring.centre[0]) * grown, y + (ring.start[1] - ring.centre[1]) * grown)
    return replace(ring, start=start, end=start, centre=(x, y))


def _nodes(loop: Loop, sorts: list[Sort], place: Callable[[Pair], Pair]) -> list[tuple[Pair, Pair]]:
    """Of each segment the moved places where it starts and ends; of a rounded corner twice where it was sharp."""
    sharp = {i: place(sharp_corner(loop, i)) for i, sort in enumerate(sorts) if sort is Sort.ROUNDED}
    following = {i: (i + 1) % len(loop) for i in range(len(loop))}
    found = []
    for i, segment in enumerate(loop):
        if i in sharp:
            found.append((sharp[i], sharp[i]))
            continue
        start, end = sharp.get(i - 1 if i else len(loop) - 1), sharp.get(following[i])
        found.append((start or place(segment.start), end or place(segment.end)))
    return found


def _ends(
    loop: Loop, sorts: list[Sort], nodes: list[tuple[Pair, Pair]], radius: Callable[[float], float]
) -> list[tuple[Pair, Pair]]:
    """The same with sides cut back to where rounded corners begin and end."""
    ends = list(nodes)
    for i, sort in enumerate(sorts):
        if sort is not Sort.ROUNDED:
            continue
        before, after = i - 1 if i else len(loop) - 1, (i + 1) % len(loop)
        corner, old = nodes[i][0], sharp_corner(loop, i)
        back = _way(corner, nodes[before][0]) or _way(old, loop[i].start) or _STAY
        on = _way(corner, nodes[after][1]) or _way(old, loop[i].end) or _STAY
        first, last = _tangents(corner, back, on, radius(radius_of(loop[i])))
        ends[i] = (first, last)
        ends[before], ends[after] = (ends[before][0], first), (last, ends[after][1])
    return ends


def _tangents(corner: Pair, back: Pair, on: Pair, radius: float) -> tuple[Pair, Pair]:
    """Where a circle in a corner touches its two sides, which run `back` and `on` from there."""
    between = math.acos(max(-1.0, min(1.0, back[0] * on[0] + back[1] * on[1])))
    reach = radius / math.tan(between / 2) if between else 0.0
    return (
        (corner[0] + back[0] * reach, corner[1] + back[1] * reach),
        (corner[0] + on[0] * reach, corner[1] + on[1] * reach),
    )


_STAY: Pair = (0.0, 0.0)


def _way(start: Pair, end: Pair) -> Pair | None:
    """The direction from one point to another; None where they are one: a round-over ends in its own corner."""
    length = math.dist(start, end)
    return None if length < 1.0 else ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


def _segment(
    old: Segment, sort: Sort, ends: tuple[Pair, Pair], place: Callable[[Pair], Pair], radius: Callable[[float], float]
) -> Segment:
    start, end = ends
    if old.centre is None:
        return replace(old, start=start, end=end)
    if sort is Sort.ROUND_END:
        return replace(old, start=start, end=end, centre=place(old.centre))
    return replace(old, start=start, end=end, centre=_centre(old, start, end, radius(radius_of(old))))


def _centre(old: Segment, start: Pair, end: Pair, radius: float) -> Pair:
    """The centre of an arc through two points, on the side of its chord on which it was."""
    assert old.centre is not None
    side = _cross(old.start, old.end, old.centre)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    along, half = _way(start, end) or _STAY, math.dist(start, end) / 2
    height = math.copysign(math.sqrt(max(radius * radius - half * half, 0.0)), side)
    return middle[0] - along[1] * height, middle[1] + along[0] * height


def _cross(a: Pair, b: Pair, c: Pair) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
