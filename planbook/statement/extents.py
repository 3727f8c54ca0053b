"""Sizes, outlines and cuts in words, in the unit of an edition, for where no drawing can stand."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import fields, is_dataclass

from planbook.measure import Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.statement.model import CutStated, FeatureStated, PartStated, SegmentStated

_SEEN = 250_000.0
"""Nanometres: half of what is printed at the finest in woodwork, a quarter of a millimetre."""


def read_size(size: Iterable[float], units: Units) -> str:
    """Nanometres as printed: `18 × 1 3/4 × 3/4 in`."""
    return _row(" × ", size, units)


def read_outline(part: PartStated, units: Units) -> str:
    """`6 sides, 18 × 1 3/4 in overall`."""
    (x0, x1), (y0, y1) = _spans((part.outline,))
    return f"{len(part.outline)} sides, {_row(' × ', (x1 - x0, y1 - y0), units)} overall"


def read_cuts(feature: FeatureStated, units: Units) -> str:
    """`mortise in the face, 1/2 × 1 1/8 × 23/32 in, at 4 1/2, 9 5/16 in`; without the place where nothing is cut.

    A tenon is told by what stands, not by the wood that is cut away round it.
    """
    kind = f"{feature.kind} in the {feature.face.replace('_', ' ')}"
    if not feature.cuts:
        return kind
    count = f"{len(feature.cuts)} cuts, " if len(feature.cuts) > 1 else ""
    if feature.cuts[0].lift:
        return f"{kind}, {count}{_read_tilted(feature.cuts[0], units)}"
    (x0, x1), (y0, y1) = _spans(loop for cut in feature.cuts for loop in _told(cut))
    climbs = feature.cuts[0].climbs
    if climbs is not None:
        first, last = (read_size((depth,), units) for depth in climbs)
        return f"{kind}, {count}{first} deep at its start and {last} at its end, at {_row(', ', (x0, y0), units)}"
    size = read_size((x1 - x0, y1 - y0, max(cut.depth for cut in feature.cuts)), units)
    return f"{kind}, {count}{size}, at {_row(', ', (x0, y0), units)}"


def as_it_looked(old: object, new: object) -> bool:
    """Whether two shapes, or groups of their measures, have one build and nowhere differ by what a builder sees."""
    if isinstance(old, float) and isinstance(new, float):
        return abs(new - old) < _SEEN
    if is_dataclass(old) and is_dataclass(new):
        return all(as_it_looked(getattr(old, each.name), getattr(new, each.name)) for each in fields(old))
    if isinstance(old, tuple | list) and isinstance(new, tuple | list):
        return len(old) == len(new) and all(map(as_it_looked, old, new))
    return old == new


def _told(cut: CutStated) -> tuple[tuple[SegmentStated, ...], ...]:
    """The loops that a cut is told by: what it leaves standing where it cuts round something, as round a tenon."""
    return cut.islands or (cut.loop,)


def _read_tilted(cut: CutStated, units: Units) -> str:
    """`14.5° off square`; of a hole also its size, and where its axis enters: `1 1/8 × 1 1/4 in, at 3 3/8, 3 in`."""
    normal = cut.frame.normal
    main = max(range(3), key=lambda axis: abs(normal[axis]))
    u, v = (axis for axis in range(3) if axis != main)
    degrees = math.degrees(math.atan2(math.hypot(normal[u], normal[v]), abs(normal[main])))
    off = f"{print_quantity(Quantity(degrees, ANGLE), units, Precision.WOODWORK).full} off square"
    ring = cut.loop[0] if len(cut.loop) == 1 else None
    if ring is None or ring.centre is None:
        return off
    entry = [o - n * cut.lift for o, n in zip(cut.frame.origin, normal, strict=True)]
    size = read_size((2 * math.dist(ring.centre, ring.start), cut.depth - cut.lift), units)
    return f"{size}, {off}, at {_row(', ', (entry[u], entry[v]), units)}"


def _row(sign: str, lengths: Iterable[float], units: Units) -> str:
    printed = [print_quantity(Quantity(each, LENGTH), units, Precision.WOODWORK) for each in lengths]
    return f"{sign.join(each.text for each in printed)} {printed[0].unit}"


def _spans(loops: Iterable[tuple[SegmentStated, ...]]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Least and greatest x and y of the corners and of whole circles; zeros without any."""
    points = [point for loop in loops for segment in loop for point in _reached(segment)] or [(0.0, 0.0)]
    x, y = zip(*points, strict=True)
    return (min(x), max(x)), (min(y), max(y))


def _reached(segment: SegmentStated) -> tuple[tuple[float, float], ...]:
    if segment.centre is None or segment.start != segment.end:
        return segment.start, segment.end
    (x, y), radius = segment.centre, math.dist(segment.centre, segment.start)
    return (x - radius, y - radius), (x + radius, y + radius)
