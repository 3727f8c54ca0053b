"""What stands on a sheet: its views with all dimensions, or with tables for the views that have many holes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from planbook.drawing.arrangement import Arrangement
from planbook.drawing.frame import Page
from planbook.drawing.hole_tables import CROWDED, HoleTable, hole_tables, without_tabled
from planbook.drawing.ink import Box
from planbook.drawing.pages import arrange_pages
from planbook.drawing.table_columns import GAP, Column, columns_of, draw_columns, pages_of, width_of
from planbook.drawing.wanted import Wanted

_BESIDE: Final = 0.45
"""Share of the field's width that a table beside the views takes at most."""


def compose_sheet(wanted: Wanted, first: Page, later: Page) -> tuple[Arrangement, ...]:
    """The pages of a sheet. Tables state many holes, and fewer ones where leaders find no room."""
    tables = hole_tables(wanted.part, wanted.dimensions)
    found = _with_tables(wanted, tables, first, later)
    if _lacks(found):
        more = hole_tables(wanted.part, wanted.dimensions, CROWDED)
        other = _with_tables(wanted, more, first, later) if more != tables else found
        return min(found, other, key=_lacks)
    return found


def _lacks(pages: Sequence[Arrangement]) -> int:
    return sum(page.lacks for page in pages)


def _with_tables(wanted: Wanted, tables: Sequence[HoleTable], first: Page, later: Page) -> tuple[Arrangement, ...]:
    """Tables stand at the right of the first page if they leave the views enough of it, else on pages of their own.

    One whose holes lie too close together for tags is left out.
    """
    if not tables:
        return arrange_pages(wanted, first, later)
    rest = replace(wanted, dimensions=without_tabled(wanted.dimensions, tables), tables=tables, _laid_out={})
    field = first.field
    columns = columns_of(tables, field.bottom - field.top)
    if width_of(columns) <= _BESIDE * (field.right - field.left):
        left = field.right - width_of(columns)
        beside = Box(left, field.top, field.right, field.bottom)
        narrower = replace(first, field=Box(field.left, field.top, left - GAP, field.bottom))
        head, *others = arrange_pages(rest, narrower, later) or (None,)
        if head is None:
            return ()
        pages = (head, *(each for each in others if each is not None))
        told = columns_of(_tagged(tables, pages), field.bottom - field.top)
        return _and_columns(head, told, beside), *pages[1:]
    pages = arrange_pages(rest, first, later)
    if not pages:
        return ()
    told = columns_of(_tagged(tables, pages), later.field.bottom - later.field.top)
    apart = pages_of(told, later.field.right - later.field.left)
    empty = Arrangement(pages[0].scale, (), ())
    return *pages, *(_and_columns(empty, each, later.field) for each in apart)


def _tagged(tables: Sequence[HoleTable], pages: Sequence[Arrangement]) -> tuple[HoleTable, ...]:
    return tuple(table for table in tables if not any(table in page.untagged for page in pages))


def _and_columns(page: Arrangement, columns: Sequence[Column], field: Box) -> Arrangement:
    return replace(page, drawn=(*page.drawn, *draw_columns(columns, field)))
