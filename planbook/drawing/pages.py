"""Which views stand on which page of a sheet: all on one, or the face on the first and others on the next.

A sheet goes over several pages when one page leaves no room for a dimension, or shows the part at a scale that is of no
use though the paper would take a larger one. Every view stands on one page, and so does every dimension.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import Final

from planbook.drawing.arrangement import Arrangement, arrange_views
from planbook.drawing.chosen_views import EDGES, ORDER, views_needed
from planbook.drawing.detail_places import with_details
from planbook.drawing.frame import Page
from planbook.drawing.ink import Box
from planbook.drawing.interrupting import gaps_for, is_slender, plain_stretches, rows_between
from planbook.drawing.placings import could_fit
from planbook.drawing.projecting import ENDS
from planbook.drawing.scales import Scale
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.views import View
from planbook.drawing.wanted import Wanted

_USEFUL: Final = 0.5
"""Part of the field's width or height that the largest view takes at least, if the paper would take a larger scale."""

_LEGIBLE: Final = 18.0
_AMPLE: Final = 38.0
"""A part that is drawn wider than the first (mm) is not interrupted; none is drawn wider than the second by that."""
_SHARE: Final = 0.78
"""Of the field's width, what an interrupted part takes: its dimensions need the rest."""
FULL: Final = 0.2
"""Share of the field that views with their dimensions take at least, if there is a choice."""
_WORTH: Final = 3
"""Fewer dimensions than this are not worth later pages, if one page has room for all."""

Arrange = Callable[[tuple[str, ...], Page], Arrangement | None]
"""Views by their names on a page."""


def arrange_pages(wanted: Wanted, first: Page, later: Page) -> tuple[Arrangement, ...]:
    """The pages of a sheet, its `first` and any `later` ones; none if not even the bare views find room.

    A long part is drawn interrupted where that shows it at a larger scale on no more pages.
    """
    plain = _arranged(wanted, first, later)
    wanted, found = _interrupted(wanted, plain, first, later) or (wanted, plain)
    return with_details(wanted, found, first, later) or found


def _interrupted(
    wanted: Wanted, plain: Sequence[Arrangement], first: Page, later: Page
) -> tuple[Wanted, tuple[Arrangement, ...]] | None:
    """The same with gaps, and pages with views interrupted by them that show the part larger and miss no more.

    The fewest pages, then those at the largest scale.
    One page more is worth it only if the scale is at least doubled.
    """
    solid = solid_of_stated(wanted.part)
    least = plain[0].scale.factor if plain else 0.0
    if not is_slender(solid) or solid.size.y * least > _LEGIBLE:
        return None
    stretches = plain_stretches(solid, wanted.dimensions)
    rows = rows_between(solid, wanted.part.features, wanted.dimensions)
    room = _SHARE * (first.field.right - first.field.left)
    best: tuple[Wanted, tuple[Arrangement, ...]] | None = None
    for scale in (s for s in wanted.scales if s.factor > least and s.factor * solid.size.y <= _AMPLE):
        gaps = gaps_for(stretches, rows, solid.size.x, scale.factor, room)
        if gaps:
            shorter = replace(wanted, gaps=gaps, _laid_out={})
            found = _arranged(replace(shorter, tried=(scale,)), first, later)
            if _is_better(found, plain) and (best is None or len(found) < len(best[1])):
                best = shorter, found
    return best


def _is_better(found: Sequence[Arrangement], plain: Sequence[Arrangement]) -> bool:
    if not found or not plain:
        return bool(found)
    more = int(found[0].scale.factor >= 2 * plain[0].scale.factor)
    return _rank(found)[0] <= _rank(plain)[0] and len(found) <= len(plain) + more


def _arranged(wanted: Wanted, first: Page, later: Page) -> tuple[Arrangement, ...]:
    """One page where that serves. Else views are parted in the way that misses least, then shows the face largest, then
    takes fewest pages."""
    views = views_needed(wanted)
    by_name = {view.name: view for view in views}

    @cache  # the same views stand on a page in several ways to part them
    def arrange(names: tuple[str, ...], page: Page) -> Arrangement | None:
        return arrange_views(wanted, [by_name[name] for name in names], page)

    whole = arrange(tuple(by_name), first)
    if whole is not None and not whole.lacks and not _is_small(whole, views[0], wanted.scales, first.field):
        return (whole,)
    best: tuple[Arrangement, ...] = (whole,) if whole else ()
    for groups in _groups(views):
        if best and not _rank(best)[0] and sum(_worth(wanted, group) for group in groups[1:]) < _WORTH:
            continue
        found = _on_pages(arrange, groups, first, later, best)
        if found:
            best = found
        if found and not _rank(found)[0] and not _is_small(found[0], views[0], wanted.scales, first.field):
            break
    return (whole,) if whole and _is_fuller(whole, best, first.field) else best


def _worth(wanted: Wanted, views: Sequence[View]) -> int:
    """What a later page with these views is worth: its dimensions, and sections that have none."""
    return len(wanted.of(views)) + _WORTH * sum(view.name not in ORDER for view in views)


def _is_small(found: Arrangement, face: View, scales: Sequence[Scale], field: Box) -> bool:
    """Whether the face is too small to be of use, though by itself it would find room at a larger scale."""
    x0, y0, x1, y1 = face.box
    width, height = (x1 - x0) * found.scale.factor, (y1 - y0) * found.scale.factor
    share = max(width / (field.right - field.left), height / (field.bottom - field.top))
    larger = (scale for scale in scales if scale.factor > found.scale.factor)
    return share < _USEFUL and any(could_fit([face], scale, field) for scale in larger)


def _groups(views: Sequence[View]) -> Iterator[tuple[tuple[View, ...], ...]]:
    """Ways to part views over pages, fewest pages first. Sections beside views stand with the face, or come last."""
    beside = tuple(view.name for view in views if view.name not in ORDER)
    seen = set()
    for names in (
        (("face", *EDGES), (*ENDS, "back")),
        (("face", *ENDS), (*EDGES, "back")),
        (("face",), (*EDGES, *ENDS, "back")),
        (("face",), (*EDGES, *ENDS), ("back",)),
        (("face",), EDGES, (*ENDS, "back")),
        (("face",), EDGES, ENDS, ("back",)),
    ):
        for pages in (((*names[0], *beside), *names[1:]), (*names[:-1], (*names[-1], *beside)), (*names, beside)):
            groups = tuple(group for page in pages if (group := tuple(view for view in views if view.name in page)))
            if len(groups) > 1 and groups not in seen:
                seen.add(groups)
                yield groups


def _on_pages(
    arrange: Arrange, groups: Sequence[Sequence[View]], first: Page, later: Page, best: Sequence[Arrangement]
) -> tuple[Arrangement, ...] | None:
    """Each group on a page of its own; later pages at the first one's scale or a larger one where that goes. None as
    soon as it is known to be no better than the best so far."""
    found: list[Arrangement] = []
    for place, group in enumerate(groups):
        arranged = arrange(tuple(view.name for view in group), later if place else first)
        if arranged is None:
            return None
        found.append(arranged)
        missed, scale, _ = _rank(found)
        if best and (missed, scale, len(groups)) >= _rank(best):
            return None
    return tuple(found)


def _rank(pages: Sequence[Arrangement]) -> tuple[int, float, int]:
    return sum(page.lacks for page in pages), -pages[0].scale.factor, len(pages)


def _is_fuller(whole: Arrangement, parted: Sequence[Arrangement], field: Box) -> bool:
    """Whether one page takes enough of its field, but parted over several one of them would be all but empty."""
    return not whole.lacks and cover(whole, field) >= FULL > min(cover(page, field) for page in parted)


def cover(page: Arrangement, field: Box) -> float:
    """The share of the field that the box round everything drawn takes."""
    box = page.extent
    return (box.right - box.left) * (box.bottom - box.top) / ((field.right - field.left) * (field.bottom - field.top))
