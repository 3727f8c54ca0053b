"""Which stretches of a long part its views leave out, so that it can be drawn at a scale that is of use (ISO 128-3).

A stretch can go where nothing happens along it: every edge there runs along the part.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from planbook.drawing.curves import TINY, Arc, Curve, Line
from planbook.drawing.facing import Gap
from planbook.drawing.solid import XYZ, Prism, Solid
from planbook.statement.model import DimensionStated

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

Stretch = tuple[float, float]


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


def gaps_for(stretches: Sequence[Stretch], length: float, scale: float, room: float) -> tuple[Gap, ...]:
    """What to leave out so that the part takes no more than `room` on paper at a scale; nothing where it cannot be."""
    excess, gaps = length - room / scale, list[Gap]()
    for low, high in sorted(stretches, key=lambda s: (s[0] - s[1], s[0]))[:_MOST_GAPS]:
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
