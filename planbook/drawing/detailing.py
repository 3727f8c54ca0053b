"""What gets an enlarged detail: what the part's file asks for; what has dimensions shorter than their arrowheads."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from planbook.drawing.block import Block, is_level
from planbook.drawing.callouts import is_linear
from planbook.drawing.curves import XY, Curve
from planbook.drawing.detail import WORTH, Detail
from planbook.drawing.detail_ends import drawn_in, foot_of
from planbook.drawing.scales import Scale
from planbook.drawing.solid import XYZ
from planbook.drawing.views import View
from planbook.drawing.wanted import Wanted
from planbook.source.names import LETTERS
from planbook.statement.model import DetailStated, DimensionStated

MM: Final = 1e-6
SMALL: Final = 1.6
"""Millimetres on paper under which two places are not told apart by eye."""
_RING: Final = 4.0
"""The least radius of a circle on paper."""
_WIDE: Final = 46.0
"""The widest detail."""
_MOST: Final = 2
"""So many details of one part besides those that are asked for."""
_AROUND: Final = 1.35
_WELL_IN: Final = 0.95
"""Of a circle's radius, within which lies what a dimension in it needs."""

Views = Mapping[str, Block]


def details_for(wanted: Wanted, drawn: Sequence[Block]) -> tuple[Detail, ...]:
    """Details of the views that are drawn: those that the part's file asks for, then of the smallest dimensions."""
    views = {block.name: block for block in drawn}
    sections = {block.view.section.letter: block.name for block in drawn if block.view.section}
    linear = [each for each in wanted.dimensions if is_linear(each) and each.view in views and each.feature != "blank"]
    stated = wanted.part.details
    asked = (
        _asked(letter, each, sections.get(each.view, each.view), views, wanted.scales)
        for letter, each in sorted(stated.items())
    )
    found = [_holding(each, linear, views) for each in asked if each]
    letters = (letter for letter in LETTERS if letter not in {*sections, *stated})
    small = sorted((_on_paper(each, views), each.id) for each in linear if _on_paper(each, views) < SMALL)
    by_id = {each.id: each for each in linear}
    most = len(found) + _MOST
    for _, name in small:
        if len(found) == most or any(name in detail.ids for detail in found):
            continue
        detail = _around(by_id[name], views, wanted.scales)
        detail = detail and _holding(detail, linear, views)
        if detail and name in detail.ids and not any(_overlap(detail, other) for other in found):
            found.append(replace(detail, letter=next(letters)))
    return tuple(found)


def _on_paper(each: DimensionStated, views: Views) -> float:
    return each.nominal * MM * views[each.view].scale.factor


def _asked(letter: str, each: DetailStated, view: str, views: Views, scales: Sequence[Scale]) -> Detail | None:
    """A detail that is asked for, at the scale that is; None if that would not enlarge it."""
    if view not in views:
        return None
    scale = views[view].scale
    centre = views[view].view.facing.flat(XYZ(*(c * MM for c in each.centre)))
    radius = max(each.radius * MM, _RING / scale.factor)
    suited = _suited(radius, scale, scales)
    if each.scale:
        paper, part = map(int, each.scale.split(":"))
        suited = tuple(s for s in (Scale(paper, part),) if s.factor > scale.factor)
    return Detail(letter, view, centre, radius, suited, frozenset(), bool(each.scale)) if suited else None


def _suited(radius: float, scale: Scale, scales: Sequence[Scale]) -> tuple[Scale, ...]:
    """The scales at which a detail suits a sheet, the largest first: not too wide, and well larger than its view's."""
    least = WORTH * scale.factor
    return tuple(s for s in scales if s.factor >= least and 2 * radius * s.factor <= _WIDE)


def _around(each: DimensionStated, views: Views, scales: Sequence[Scale]) -> Detail | None:
    """A detail round a dimension and what it goes between."""
    block = views[each.view]
    ends = _ends(each, block)
    feet = _feet(each, block.view, drawn_in(block.view), ends, XY(*(sum(both) / 2 for both in zip(*ends, strict=True))))
    if None in feet:
        return None
    xs, ys = zip(*ends, *(foot for foot in feet if foot), strict=True)
    centre = XY((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    radius = max(math.dist((min(xs), min(ys)), centre) * _AROUND, _RING / block.scale.factor)
    suited = _suited(radius, block.scale, scales)
    return Detail("", each.view, centre, radius, suited, frozenset()) if suited else None


def _holding(detail: Detail, linear: Iterable[DimensionStated], views: Views) -> Detail:
    """A detail with the dimensions that move to it: those with both ends in it, and what they stand at."""
    block = views[detail.view]
    drawn = drawn_in(block.view)
    near = ((each, _ends(each, block)) for each in linear if each.view == detail.view)
    held = (
        each.id
        for each, ends in near
        if _all_in(detail, ends) and _all_in(detail, _feet(each, block.view, drawn, ends, detail.centre))
    )
    return replace(detail, ids=frozenset(held))


def _all_in(detail: Detail, places: Iterable[XY | None]) -> bool:
    return all(p is not None and math.dist(p, detail.centre) < _WELL_IN * detail.radius for p in places)


def _feet(
    each: DimensionStated, view: View, drawn: Sequence[Curve], ends: Iterable[XY], near: XY
) -> tuple[XY | None, ...]:
    """Where something drawn in a view shows what a dimension goes between, nearest to a place."""
    level = is_level(each, view)
    return tuple(foot_of(end, level, drawn, near) for end in ends)


def _ends(each: DimensionStated, block: Block) -> tuple[XY, XY]:
    first, second = (block.view.facing.flat(XYZ(*(c * MM for c in point))) for point in each.points[:2])
    return first, second


def _overlap(a: Detail, b: Detail) -> bool:
    return a.view == b.view and math.dist(a.centre, b.centre) < a.radius + b.radius
