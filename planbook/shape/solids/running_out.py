"""Bands of a ring that run out at a round border, taken a little past it, where there is no wood.

An arc that ends between two corners of the border's own facets leaves their chords: a sliver of wood as thin as a facet
is deep would stand between the two.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

from planbook.shape.bench import FINE
from planbook.shape.geometry import Arc, Line, Loop, Point, Segment
from planbook.shape.model import Cut

PAST: Final = 200_000.0
"""Nanometres past the border: several times the depth of a facet."""


def run_out(outline: Loop, cuts: Sequence[Cut]) -> tuple[Cut, ...]:
    """The cuts, with those bands widened whose outer arc lies on the outline or whose inner one on a hole as deep."""
    return tuple(_widened(outline, cuts, cut) if _is_band(cut.loop) else cut for cut in cuts)


def _is_band(loop: Loop) -> bool:
    kinds = [type(segment) for segment in loop.segments]
    return kinds == [Arc, Line, Arc, Line]


def _widened(outline: Loop, cuts: Sequence[Cut], cut: Cut) -> Cut:
    outer, _, inner, _ = cut.loop.segments
    assert isinstance(outer, Arc)
    assert isinstance(inner, Arc)
    rims = outline.segments if abs(cut.frame.normal.z) == 1 else ()
    bores = [
        each.loop.segments[0] for each in cuts if each.frame == cut.frame and each.depth > cut.depth - FINE
    ]  # fmt: skip
    out = PAST if _lies_on(outer, rims) else 0.0
    back = PAST if _lies_on(inner, (each for each in bores if each.start == each.end)) else 0.0
    if not out and not back:
        return cut
    (a, b), (c, d) = _ends(outer, outer.radius + out), _ends(inner, inner.radius - back)
    centre = outer.centre
    loop = Loop((Arc(a, b, centre, ccw=True), Line(b, c), Arc(c, d, centre, ccw=False), Line(d, a)))
    return replace(cut, loop=loop)


def _lies_on(arc: Arc, borders: Iterable[Segment]) -> bool:
    return any(
        isinstance(border, Arc)
        and math.dist(border.centre, arc.centre) < FINE
        and abs(border.radius - arc.radius) < FINE
        for border in borders
    )


def _ends(arc: Arc, radius: float) -> tuple[Point, Point]:
    """Its two ends at another distance from its centre."""
    share, centre = radius / arc.radius, arc.centre
    start, end = (
        Point(centre.x + (p.x - centre.x) * share, centre.y + (p.y - centre.y) * share) for p in (arc.start, arc.end)
    )
    return start, end
