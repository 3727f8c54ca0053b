"""Sizes, outlines and cuts in words, in the unit of an edition, for where no drawing can stand."""

from __future__ import annotations

from collections.abc import Iterable

from planbook.measure import Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.statement.model import FeatureStated, PartStated, SegmentStated


def read_size(size: Iterable[float], units: Units) -> str:
    """Nanometres as printed: `18 × 1 3/4 × 3/4 in`."""
    return _row(" × ", size, units)


def read_outline(part: PartStated, units: Units) -> str:
    """`6 sides, 18 × 1 3/4 in overall`."""
    (x0, x1), (y0, y1) = _spans((part.outline,))
    return f"{len(part.outline)} sides, {_row(' × ', (x1 - x0, y1 - y0), units)} overall"


def read_cuts(feature: FeatureStated, units: Units) -> str:
    """`mortise in the face, 1/2 × 1 1/8 × 23/32 in, at 4 1/2, 9 5/16 in`; without the place where nothing is cut."""
    kind = f"{feature.kind} in the {feature.face.replace('_', ' ')}"
    if not feature.cuts:
        return kind
    count = f"{len(feature.cuts)} cuts, " if len(feature.cuts) > 1 else ""
    (x0, x1), (y0, y1) = _spans(cut.loop for cut in feature.cuts)
    size = read_size((x1 - x0, y1 - y0, max(cut.depth for cut in feature.cuts)), units)
    return f"{kind}, {count}{size}, at {_row(', ', (x0, y0), units)}"


def _row(sign: str, lengths: Iterable[float], units: Units) -> str:
    printed = [print_quantity(Quantity(each, LENGTH), units, Precision.WOODWORK) for each in lengths]
    return f"{sign.join(each.text for each in printed)} {printed[0].unit}"


def _spans(loops: Iterable[tuple[SegmentStated, ...]]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Least and greatest x and y of the corners; zeros without any."""
    points = [point for loop in loops for segment in loop for point in (segment.start, segment.end)] or [(0.0, 0.0)]
    x, y = zip(*points, strict=True)
    return (min(x), max(x)), (min(y), max(y))
