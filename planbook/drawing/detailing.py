"""Which small things get an enlarged detail: those whose dimensions are shorter on paper than their arrowheads."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from planbook.drawing.callouts import is_linear
from planbook.drawing.curves import XY
from planbook.drawing.detail import WORTH, Detail
from planbook.drawing.facing import Facing
from planbook.drawing.scales import Scale
from planbook.drawing.sectioning import LETTERS
from planbook.drawing.solid import XYZ
from planbook.statement.model import DimensionStated

MM: Final = 1e-6
SMALL: Final = 1.6
"""Millimetres on paper under which two places are not told apart by eye."""
_RING: Final = 4.0
"""The least radius of a circle on paper."""
_WIDE: Final = 46.0
"""The widest detail."""
_MOST: Final = 2
"""So many details of one part."""
_AROUND: Final = 1.35

Shown = tuple[Facing, Scale]


def details_for(
    dimensions: Sequence[DimensionStated], views: Mapping[str, Shown], scales: Sequence[Scale], taken: int
) -> tuple[Detail, ...]:
    """Details of the smallest dimensions first; `views` by name as they are drawn; `taken` letters are sections'."""
    linear = [each for each in dimensions if is_linear(each) and each.view in views and each.feature != "blank"]
    small = sorted((_on_paper(each, views), each.id) for each in linear if _on_paper(each, views) < SMALL)
    by_id = {each.id: each for each in linear}
    found: list[Detail] = []
    for _, name in small:
        each = by_id[name]
        if len(found) == _MOST or any(name in detail.ids for detail in found):
            continue
        detail = _detail(each, linear, views[each.view], scales, LETTERS[taken + len(found)])
        if detail and not any(_overlap(detail, other) for other in found):
            found.append(detail)
    return tuple(found)


def _on_paper(each: DimensionStated, views: Mapping[str, Shown]) -> float:
    return each.nominal * MM * views[each.view][1].factor


def _detail(
    each: DimensionStated, linear: Iterable[DimensionStated], shown: Shown, scales: Sequence[Scale], letter: str
) -> Detail | None:
    facing, scale = shown
    ends = _ends(each, facing)
    centre = XY(sum(p.x for p in ends) / 2, sum(p.y for p in ends) / 2)
    radius = max(math.dist(*ends) / 2 * _AROUND, _RING / scale.factor)
    larger = next((s for s in scales if 2 * radius * s.factor <= _WIDE), None)
    if larger is None or larger.factor < WORTH * scale.factor:
        return None
    near = [
        other.id
        for other in linear
        if other.view == each.view and all(math.dist(p, centre) < 0.95 * radius for p in _ends(other, facing))
    ]
    return Detail(letter, each.view, centre, radius, larger, frozenset(near)) if each.id in near else None


def _ends(each: DimensionStated, facing: Facing) -> tuple[XY, XY]:
    first, second = (facing.flat(XYZ(*(c * MM for c in point))) for point in each.points[:2])
    return first, second


def _overlap(a: Detail, b: Detail) -> bool:
    return a.view == b.view and math.dist(a.centre, b.centre) < a.radius + b.radius
