"""The most valuable pieces for one sheet: by exact patterns, by a beam search, or by trying orders."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planbook.cutting.beam import Taste, pack
from planbook.cutting.filling import Sheet
from planbook.cutting.free_filling import FreeSheet, Lying
from planbook.cutting.guillotine_search import Picked, best_blocks, node_of
from planbook.cutting.guillotine_table import Table, sums_of
from planbook.cutting.problem import Bin, Kind

Counts = tuple[int, ...]

_RASTER = 240
"""Most sizes of panel, each way, for which patterns are worked out exactly."""
_BLOCKS = 400_000
"""Looks for the blocks of one pattern."""


def table_of(size: tuple[int, int], kinds: Sequence[Kind], values: Sequence[int], most: int = _RASTER) -> Table | None:
    """The guillotine table of a sheet; None where sums of the pieces have more than `most` values either way."""
    xs = sums_of(sorted({way[0] for kind in kinds for way in kind.ways}), size[0], most)
    ys = sums_of(sorted({way[1] for kind in kinds for way in kind.ways}), size[1], most)
    return None if xs is None or ys is None else Table(kinds, values, xs, ys)


def picked(size: tuple[int, int], kinds: Sequence[Kind], values: Sequence[int]) -> Picked | None:
    """The best guillotine pattern with at most so many of each kind; None where it is too much to work out."""
    table = table_of(size, kinds, values)
    return None if table is None else best_blocks(table, size, table.work + _BLOCKS)


def sawn_exactly(whole: Bin, kinds: Sequence[Kind], values: Sequence[int]) -> tuple[Sheet, Counts, int]:
    """An empty sheet where it is too much to work out."""
    size = (whole.length, whole.width)
    found = picked(size, kinds, values)
    if found is None or not found.block.value:
        return Sheet(whole), (0,) * len(kinds), 1
    return Sheet(whole, node_of(found.block, size)), found.block.counts, found.work


def packed(
    whole: Bin, kinds: Sequence[Kind], values: Sequence[int], beam: int, taste: Taste, spare: int | None = None
) -> tuple[FreeSheet, Counts, int]:
    """Laid freely, from one short side of the sheet to the other: the steps along the shorter side are fewer."""
    size, turned = (whole.length, whole.width), whole.length > whole.width
    if turned:
        size = size[::-1]
        kinds = [replace(kind, ways=tuple((width, length, way) for length, width, way in kind.ways)) for kind in kinds]
    found = pack(size, kinds, values, beam, taste, spare)
    sheet = FreeSheet(whole)
    counts = [0] * len(kinds)
    for each in found.lying:
        counts[each.kind] += 1
        sheet.lay(Lying(each.kind, each.y, each.x, each.width, each.length, each.turned) if turned else each)
    return sheet, tuple(counts), found.work
