"""Centre lines: crosses over what is round, lines down its middle, and circles on which things stand (ISO 128-2)."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from planbook.drawing.curves import XY, Arc, Curve, Line, arc_between
from planbook.drawing.facing import Facing
from planbook.drawing.merge import Piece, merge
from planbook.drawing.solid import XYZ, Plane, Prism, Solid
from planbook.statement.model import FeatureStated

MM: Final = 1e-6
ROUND: Final = frozenset({"hole", "slot", "round_tenon", "turned"})
"""Kinds of features that get a cross at each of their arcs."""
BANDS: Final = frozenset({"arc_slot", "ring_sector", "arc_ramp"})
"""Kinds that turn about a centre of their own."""
_ARM: Final = 0.5
"""Half of a cross at a place where nothing is, before it is drawn longer."""
_FACED: Final = 1 - 1e-9


def centre_lines(solid: Solid, features: Mapping[str, FeatureStated], facing: Facing) -> tuple[Curve, ...]:
    """All centre lines of a view, each once, without their overshoot."""
    found = [curve for cut in solid.cuts for curve in _of_cut(cut, features.get(cut.feature), facing)]
    found += [curve for name, feature in features.items() for curve in _of_pattern(solid, name, feature, facing)]
    return tuple(piece.curve for piece in merge(Piece(curve, 1) for curve in found if curve.length > 1e-6))


def _of_cut(cut: Prism, feature: FeatureStated | None, facing: Facing) -> Iterator[Curve]:
    kind = "" if feature is None else feature.kind
    if kind in ROUND:
        yield from _axes(cut, facing)
    elif kind in BANDS and _is_faced(cut.plane, facing):
        yield from _of_band(cut, facing, kind == "arc_slot")


def _axes(cut: Prism, facing: Facing) -> Iterator[Line]:
    """A cross over what is round seen from above; a line down its middle seen from the side."""
    plane = cut.plane
    rounds = [arc for loop in cut.loops for arc in loop if isinstance(arc, Arc)]
    if _is_faced(plane, facing):
        yield from _crosses(cut, rounds, facing)
        return
    for arc in rounds:
        ends = (facing.flat(plane.place(*arc.centre, depth)) for depth in (cut.lift, cut.depth))
        yield Line(*ends)


def _crosses(cut: Prism, rounds: Iterable[Arc], facing: Facing) -> Iterator[Line]:
    for arc in rounds:
        yield from _cross(cut.plane.place(*arc.centre), arc.radius, facing)
    centres = [cut.plane.place(*arc.centre) for arc in rounds]
    if len(centres) == 2 and not _same(*centres):
        yield Line(facing.flat(centres[0]), facing.flat(centres[1]))


def _cross(middle: XYZ, arm: float, facing: Facing) -> Iterator[Line]:
    for way in (facing.right, facing.up):
        yield Line(facing.flat(middle.along(way, -arm)), facing.flat(middle.along(way, arm)))


def _of_band(cut: Prism, facing: Facing, slot: bool) -> Iterator[Curve]:
    """A cross at its centre; of an arc slot its middle line, and a line across each round end."""
    outer, inner = cut.loop[0], cut.loop[2]
    assert isinstance(outer, Arc)
    assert isinstance(inner, Arc)
    yield from _cross(cut.plane.place(*outer.centre), _ARM, facing)
    if not slot:
        return
    middle = (outer.radius + inner.radius) / 2
    yield _seen_arc(cut.plane, Arc(outer.centre, middle, outer.begin, outer.sweep), facing)
    for start, end in ((outer.start, inner.end), (outer.end, inner.start)):
        yield Line(*(facing.flat(cut.plane.place(*point)) for point in (start, end)))


def _of_pattern(solid: Solid, name: str, feature: FeatureStated, facing: Facing) -> Iterator[Curve]:
    """A cross at the centre of a pattern, and the circle on which its holes stand."""
    cuts = [cut for cut in solid.cuts if cut.feature == name]
    if feature.around is None or not _is_faced(cuts[0].plane, facing):
        return
    plane, centre = cuts[0].plane, XY(*(c * MM for c in feature.around))
    yield from _cross(plane.place(*centre), _ARM, facing)
    each = len(cuts) // feature.count
    rounds = [cut.loop[0] for cut in cuts[::each] if len(cut.loop) == 1]
    first = rounds[0] if rounds else None
    if not isinstance(first, Arc):
        return
    reach, begin = math.dist(first.centre, centre), math.atan2(first.centre.y - centre.y, first.centre.x - centre.x)
    yield _seen_arc(plane, Arc(centre, reach, begin, math.tau), facing)


def _seen_arc(plane: Plane, arc: Arc, facing: Facing) -> Arc:
    """An arc of a plane that the view looks at squarely."""
    start, end, centre = (facing.flat(plane.place(*point)) for point in (arc.start, arc.end, arc.centre))
    u, v = (XY(way.dot(facing.right), way.dot(facing.up)) for way in (plane.u, plane.v))
    kept = u.x * v.y - u.y * v.x > 0
    return arc_between(start, end, centre, (arc.sweep > 0) == kept)


def _is_faced(plane: Plane, facing: Facing) -> bool:
    return abs(plane.normal.dot(facing.eye)) > _FACED


def _same(a: XYZ, b: XYZ) -> bool:
    return max(abs(p - q) for p, q in zip(a, b, strict=True)) < 1e-6
