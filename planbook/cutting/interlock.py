"""Two of one outline laid into each other, the second turned half round, so that both keep their grain.

The second slides along one axis until the cutter just passes between the two, for several offsets along the other; the
pair that needs the least rectangle counts. Pairs are then nested as rectangles.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import Polygon
from shapely.affinity import translate

from planbook.cutting.model import Piece, Point

Outline = tuple[Point, ...]

_OFFSETS = 12
"""Offsets tried to either side."""
_GAIN = 50
"""One part in so many of the two rectangles has to be won, else the pair is not worth its rigidity."""


@dataclass(frozen=True)
class Pair:
    """The rectangle of a pair, and the two outlines in it."""

    length: int
    width: int
    outlines: tuple[Outline, Outline]


def interlocked(piece: Piece, gap: int) -> Pair | None:
    """The closest pair of a piece with an outline, `gap` apart; None where two rectangles are as good."""
    if piece.outline is None or not Polygon(piece.outline).is_valid:
        return None
    found = [_pair(piece.outline, half_round(piece.outline, piece), offset) for offset in _offsets(piece, gap)]
    best = min(found, key=lambda pair: ((pair.length + gap) * (pair.width + gap), pair.length), default=None)
    apart = 2 * (piece.length + gap) * (piece.width + gap)
    if best is None or (best.length + gap) * (best.width + gap) * _GAIN > apart * (_GAIN - 1):
        return None
    return best


def half_round(outline: Sequence[Point], piece: Piece) -> Outline:
    """An outline turned by 180 degrees within the rectangle of its piece."""
    return tuple((piece.length - x, piece.width - y) for x, y in outline)


def quarter_round(outline: Sequence[Point], width: int) -> Outline:
    """An outline in a rectangle of this width turned by 90 degrees, into one of this length."""
    return tuple((width - y, x) for x, y in outline)


def moved(outline: Sequence[Point], x: int, y: int) -> Outline:
    """Shifted by so much."""
    return tuple((each_x + x, each_y + y) for each_x, each_y in outline)


def _offsets(piece: Piece, gap: int) -> Iterator[Point]:
    """Where the second may lie: as near as it may come along x, and along y, for each offset along the other."""
    assert piece.outline is not None
    one, other = Polygon(piece.outline), Polygon(half_round(piece.outline, piece))
    for step in range(-_OFFSETS, _OFFSETS + 1):
        across, along = step * piece.width // _OFFSETS, step * piece.length // _OFFSETS
        near = _slid(one, translate(other, 0, across), (1, 0), piece.length + gap, gap)
        yield near, across
        near = _slid(one, translate(other, along, 0), (0, 1), piece.width + gap, gap)
        yield along, near


def _slid(one: Polygon, other: Polygon, way: Point, clear: int, gap: int) -> int:
    """The shortest way found for the other to stand `gap` away; at `clear` it surely does."""
    blocked, free = 0, clear
    if are_apart(one, other, gap):
        return 0
    while free - blocked > 1:
        middle = (blocked + free) // 2
        if are_apart(one, translate(other, way[0] * middle, way[1] * middle), gap):
            free = middle
        else:
            blocked = middle
    return free


def are_apart(one: Polygon, other: Polygon, gap: float) -> bool:
    """At least `gap` between them; without one they may touch, but not lie in one another."""
    return one.distance(other) >= gap and (gap > 0 or not one.relate_pattern(other, "T********"))


def _pair(first: Outline, second: Outline, offset: Point) -> Pair:
    second = moved(second, *offset)
    low_x, low_y = (min(point[axis] for point in (*first, *second)) for axis in (0, 1))
    first, second = moved(first, -low_x, -low_y), moved(second, -low_x, -low_y)
    length, width = (max(point[axis] for point in (*first, *second)) for axis in (0, 1))
    return Pair(length, width, (first, second))
