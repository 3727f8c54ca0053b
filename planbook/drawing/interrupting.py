"""Which stretches of a long part its views leave out, so that it can be drawn at a scale that is of use (ISO 128-3).

A stretch can go where nothing happens along it: every edge there runs along the part. So can what lies between the
first two and the last of a long row, where nothing else is: its callout says how many there are, and how far apart.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

from planbook.drawing.curves import TINY, Arc, Curve, Line
from planbook.drawing.facing import Gap
from planbook.drawing.solid import XYZ, Prism, Solid
from planbook.statement.model import DimensionStated, FeatureStated

MM: Final = 1e-6
SLENDER: Final = 4.0
"""So many times as long as wide and thick is a part that may be interrupted."""
_MOST_GAPS: Final = 2
_KEPT: Final = 8.0
"""Millimetres on paper that stay between an interruption and whatever else is drawn."""
_SHOWN: Final = 3.0
"""Between the two break lines, on paper."""
_WORTH: Final = 12.0
"""An interruption that saves less paper than this is none."""

_LONG_ROW: Final = 5
"""So many in a row or more, and some of those between may go."""

Stretch = tuple[float, float]
Run = tuple[float, ...]
"""Places along a row, each between two of it, at which an interruption may begin or end; from the second on."""


def is_slender(solid: Solid) -> bool:
    """Whether its length is many times its width and its thickness."""
    length, width, thickness = solid.size
    return length >= SLENDER * max(width, thickness)


def plain_stretches(solid: Solid, dimensions: Iterable[DimensionStated]) -> tuple[Stretch, ...]:
    """Where along the part nothing begins, ends or leads across, sorted."""
    busy = [(0.0, 0.0), (solid.size.x, solid.size.x)]
    busy += [stretch for prism in (solid.blank, *solid.cuts) for stretch in _busy(prism)]
    busy += [(point[0] * MM, point[0] * MM) for each in dimensions for point in each.points]
    found: list[Stretch] = []
    reached = 0.0
    for low, high in sorted(busy):
        if low > reached + TINY:
            found.append((reached, low))
        reached = max(reached, high)
    return tuple(found)


def rows_between(
    solid: Solid, features: Mapping[str, FeatureStated], dimensions: Iterable[DimensionStated]
) -> tuple[Run, ...]:
    """Where long rows along the part may be interrupted: nothing else begins, ends or is dimensioned there."""
    rows = {name: row for name, feature in features.items() if len(row := _row(solid, feature)) >= _LONG_ROW}
    between = [reach for row in rows.values() for reach in row[2:-1]]
    ends = [reach for row in rows.values() for reach in (*row[:2], row[-1])]
    kept = [*ends, *(_reach_of(cut) for cut in solid.cuts if cut.feature not in rows)]
    kept += [(point[0] * MM, point[0] * MM) for each in dimensions for point in each.points]
    found = []
    for row in rows.values():
        places = [(a[1] + b[0]) / 2 for a, b in pairwise(row[1:])]
        clear = not any(low < places[-1] and places[0] < high for low, high in kept)
        if clear and not any(low < place < high for place in places for low, high in between):
            found.append(tuple(places))
    return tuple(dict.fromkeys(found))


def _row(solid: Solid, feature: FeatureStated) -> tuple[Stretch, ...]:
    """The reaches of the members of a row along the part, in order; nothing for what is no such row."""
    if feature.around or feature.count < _LONG_ROW:
        return ()
    found = sorted({_reach_of(cut) for cut in solid.cuts if cut.feature == feature.name})
    merged: list[Stretch] = []
    for low, high in found:
        if merged and low < merged[-1][1]:
            merged[-1] = merged[-1][0], max(high, merged[-1][1])
        else:
            merged.append((low, high))
    return tuple(merged) if len(merged) == feature.count else ()


def _reach_of(cut: Prism) -> Stretch:
    """From where to where along the part a cut lies."""
    (x0, y0, x1, y1), plane = cut.box, cut.plane
    places = [plane.place(x, y, depth).x for x in (x0, x1) for y in (y0, y1) for depth in (0.0, cut.depth)]
    return min(places), max(places)


def gaps_for(
    stretches: Sequence[Stretch], rows: Sequence[Run], length: float, scale: float, room: float
) -> tuple[Gap, ...]:
    """What to leave out so that the part takes no more than `room` on paper at a scale; nothing where it cannot be.

    Members of a row go only where plain stretches are not enough.
    """
    excess = length - room / scale
    plain = _plain_gaps(stretches, scale, excess, _MOST_GAPS)
    if plain:
        return plain
    shown = _SHOWN / scale
    for row in rows:
        low = row[0]
        high = next((place for place in row[1:] if place - low - shown >= excess), row[-1])
        rest = [stretch for stretch in stretches if stretch[1] <= low or stretch[0] >= high]
        left = excess - (high - low - shown)
        more = _plain_gaps(rest, scale, left, _MOST_GAPS - 1)
        if left <= TINY or more:
            return tuple(sorted((Gap(low, high, shown), *more), key=lambda gap: gap.low))
    return ()


def _plain_gaps(stretches: Sequence[Stretch], scale: float, excess: float, most_gaps: int) -> tuple[Gap, ...]:
    """The longest stretches first, no more of them than it takes; nothing if they are not enough, or are not needed."""
    gaps = list[Gap]()
    for low, high in sorted(stretches, key=lambda s: (s[0] - s[1], s[0]))[:most_gaps]:
        shown = _SHOWN / scale
        most = high - low - 2 * _KEPT / scale
        saved = min(most - shown, max(excess, _WORTH / scale))
        if saved >= _WORTH / scale and excess > 0:
            middle, half = (low + high) / 2, (saved + shown) / 2
            gaps.append(Gap(middle - half, middle + half, shown))
            excess -= saved
    return tuple(sorted(gaps, key=lambda gap: gap.low)) if excess <= TINY else ()


def _busy(prism: Prism) -> Iterator[Stretch]:
    """The stretches, of no length where an edge stands square to the part, in which a cut is not the same all along."""
    plane = prism.plane
    for loop in prism.loops:
        for curve in loop:
            ends = [plane.place(*p, depth).x for p in _reach(curve) for depth in (0.0, prism.depth)]
            if _runs_along(curve, prism):
                yield from ((end, end) for end in ends)
            else:
                yield min(ends), max(ends)


def _reach(curve: Curve) -> Iterable[tuple[float, float]]:
    if isinstance(curve, Line):
        return curve.start, curve.end
    x0, y0, x1, y1 = curve.box
    return (x0, y0), (x1, y0), (x0, y1), (x1, y1)


def _runs_along(curve: Curve, prism: Prism) -> bool:
    """Whether the wall under a curve is flat and the same all along the part."""
    normal = prism.plane.normal.x
    if abs(normal) > 1 - TINY:
        return prism.cone is None
    if abs(normal) > TINY or isinstance(curve, Arc) or prism.cone is not None:
        return False
    start, end = prism.plane.place(*curve.start), prism.plane.place(*curve.end)
    way = XYZ(end.x - start.x, end.y - start.y, end.z - start.z)
    return math.hypot(way.y, way.z) < TINY
