"""Where enlarged details stand: beside the view of their circle, or on a page of their own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from planbook.drawing.arrangement import Arrangement, arrange_views
from planbook.drawing.chosen_views import views_needed
from planbook.drawing.detail import Detail
from planbook.drawing.detailing import details_for
from planbook.drawing.frame import Page
from planbook.drawing.layout import in_a_row
from planbook.drawing.views import View, detail_of
from planbook.drawing.wanted import Wanted

_WIDEST: Final = 100.0
"""On a page of their own details are no wider (mm) than this."""


def with_details(
    wanted: Wanted, found: tuple[Arrangement, ...], first: Page, later: Page
) -> tuple[Arrangement, ...] | None:
    """The pages of a sheet with enlarged details, if nothing is lost by that: all of them, or so many as can be.

    Those that are asked for and find no room beside their views stand on a page of their own.
    """
    details = details_for(wanted, [each.block for page in found for each in page.views])
    pages = [later if place else first for place in range(len(found))]
    whole = _with(wanted, details, found, pages) if details else None
    if whole or not details:
        return whole
    kept: tuple[Detail, ...] = ()
    for detail in details:
        asked = detail.letter in wanted.part.details
        for each in (detail, *((replace(detail, apart=True),) if asked else ())):
            more = _with(wanted, (*kept, each), found, pages)
            if more:
                kept, whole = (*kept, each), more
                break
    apart = [detail for detail in kept if detail.apart]
    if not apart or whole is None:
        return whole
    page = _page_of(wanted.detailed(kept), apart, whole, later)
    return (*whole, page) if page else None


def _with(
    wanted: Wanted, details: tuple[Detail, ...], found: Sequence[Arrangement], pages: Sequence[Page]
) -> tuple[Arrangement, ...] | None:
    """The same pages with some details; None if a dimension loses its place, or a detail finds none."""
    larger = wanted.detailed(details)
    views = views_needed(larger)
    new = tuple(_again(larger, views, old, page) for old, page in zip(found, pages, strict=True))
    shown = {each.block.name for page in new for each in page.views}
    lost = any(len(a.missing) > len(b.missing) for a, b in zip(new, found, strict=True))
    return None if lost or not {detail.name for detail in details if not detail.apart} <= shown else new


def _again(wanted: Wanted, views: Sequence[View], found: Arrangement, page: Page) -> Arrangement:
    """A page's views once more, at the same scale, with what is now wanted; as it was if no detail belongs to them."""
    names = {each.block.name for each in found.views}
    if names.isdisjoint(detail.view for detail in wanted.details):
        return found
    group = [view for view in views if view.name in names]
    return arrange_views(replace(wanted, tried=(found.scale,)), group, page) or found


def _page_of(wanted: Wanted, details: Sequence[Detail], pages: Sequence[Arrangement], page: Page) -> Arrangement | None:
    """A page with nothing but details, each as large as it may be and all find room; None where that cannot be."""
    drawn = {each.block.name: each.block.view for found in pages for each in found.views}
    views = [detail_of(drawn[detail.view], detail) for detail in details]
    for widest in (_WIDEST, 0.8 * _WIDEST, 0.6 * _WIDEST, 0.4 * _WIDEST):
        scales = [detail.scales_apart(wanted.scales, widest) for detail in details]
        if not all(scales):
            return None
        laid = [wanted.laid_out(view, each[0], narrow=True) for view, each in zip(views, scales, strict=True)]
        placed = in_a_row([each.named(moved=False) for each in laid], page.field)
        if placed and not any(each.unplaced for each in laid):
            return Arrangement(scales[0][0], placed, ())
    return None
