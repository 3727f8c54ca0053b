"""Which dimensions stand together at one leader, and where on the sheet that leader points."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from planbook.drawing.angles import is_angle
from planbook.drawing.leaders import Callout
from planbook.drawing.projecting import Placed
from planbook.drawing.recording import Pt
from planbook.drawing.solid import XYZ
from planbook.drawing.tracing import Setting
from planbook.drawing.wording import callout_lines
from planbook.statement.model import CutStated, DimensionStated, FeatureStated

MM: Final = 1e-6


def is_linear(dimension: DimensionStated) -> bool:
    """Whether it is drawn with a dimension line between two places."""
    return dimension.kind == "linear" and len(dimension.points) > 1


def callout_groups(dimensions: Iterable[DimensionStated]) -> tuple[tuple[DimensionStated, ...], ...]:
    """Dimensions that are not drawn with a dimension line, by callout, in the statement's order."""
    groups: dict[tuple[str, str], list[DimensionStated]] = {}
    for dimension in dimensions:
        if not is_linear(dimension) and not is_angle(dimension):
            groups.setdefault((dimension.view, dimension.callout or dimension.id), []).append(dimension)
    return tuple(tuple(sorted(group, key=_rank)) for group in groups.values())


def _rank(dimension: DimensionStated) -> int:
    """The hole itself first, then what is said about it."""
    return ("diameter", "radius", "note").index(dimension.kind) if dimension.kind != "linear" else 3


def callout_of(group: Sequence[DimensionStated], placed: Placed, features: Mapping[str, FeatureStated]) -> Callout:
    """The callout of a group, with its place on the sheet."""
    first = group[0]
    setting = Setting(placed.block.scale.factor, placed.x, placed.y)

    def spot(place: Sequence[float]) -> Pt:
        return setting(placed.block.view.facing.flat(XYZ(*(c * MM for c in place))))

    feature = features.get(first.feature)
    at, radius = _target(first.kind, [spot(place) for place in first.points])
    words = callout_lines(tuple(group), feature.note if feature else "")
    far = _far_end(first.points[0], feature) if feature and first.kind == "diameter" else None
    return Callout(at, radius, words, first.id, placed.view_box, spot(far) if far else None)


def _far_end(place: Sequence[float], feature: FeatureStated) -> tuple[float, ...] | None:
    """Where the last of a row has a place of the first; None of what stands alone or round a centre."""
    if feature.count < 2 or feature.around:
        return None
    first, last = (_start(cut) for cut in (feature.cuts[0], feature.cuts[-(len(feature.cuts) // feature.count)]))
    return tuple(p + b - a for p, a, b in zip(place, first, last, strict=True))


def _start(cut: CutStated) -> tuple[float, ...]:
    """In the part's space, where the loop of a cut starts."""
    x, y = cut.loop[0].start
    frame = cut.frame
    return tuple(o + u * x + v * y for o, u, v in zip(frame.origin, frame.u, frame.v, strict=True))


def _target(kind: str, spots: Sequence[Pt]) -> tuple[Pt, float]:
    """A circle's centre and radius on paper; a curve's own place (radius < 0); else a plain place (0)."""
    if kind == "diameter" and len(spots) > 1:
        return spots[0], math.dist(spots[0], spots[1])
    if kind == "radius" and len(spots) > 1:
        return spots[1], -1.0
    return spots[0], 0.0
