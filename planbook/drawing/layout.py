"""Where views stand on a sheet: round the face view by the projection method, or in rows under it when too wide.

Every view carries its name in words, so that the second arrangement can be read without knowing the method
(ISO 5456-2, views placed freely).
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from functools import partial
from typing import Final

from planbook.drawing.block import Block
from planbook.drawing.ink import Box
from planbook.drawing.projecting import ENDS, Placed, cells_by_method, misleads, moved_views, stands_freely

GAP: Final = 6.0
"""Least room between blocks in millimetres."""
_MOST: Final = 34.0
"""Room between blocks that looks lost is not used up: views are rather kept together."""

_BEYOND: Final = 10
"""A column and a row that the method does not use."""

Blocks = Callable[[Container[str]], Sequence[Block]]
"""Those to be placed, with the names of moved ones saying so."""
Place = Callable[[Sequence[Block], Box], "tuple[Placed, ...] | None"]
Stand = Callable[[Blocks], "tuple[Placed, ...] | None"]
"""A way to place blocks on a field; None where they do not fit."""


def ways_to_stand(field: Box, projection: str, keep_out: Box | None) -> Iterator[Stand]:
    """Best first: by the projection method, then in rows and columns.

    `keep_out` is a corner of the field that is not free. An arrangement that would touch it is tried again above it.
    """
    fields = [field] if keep_out is None else [field, Box(field.left, field.top, field.right, keep_out.top)]
    for place in _tries(projection):
        for part_of_field in fields:
            yield partial(_stood, place, part_of_field, projection, keep_out)


def _stood(
    place: Place, field: Box, projection: str, keep_out: Box | None, blocks: Blocks
) -> tuple[Placed, ...] | None:
    found = _with_moved(place, blocks, field, projection)
    if not found or misleads(found, projection):
        return None
    return None if keep_out and any(each.box.meets(keep_out) for each in found) else found


def _with_moved(place: Place, blocks: Blocks, field: Box, projection: str) -> tuple[Placed, ...] | None:
    """Placed, then placed anew with the names of those that have left their projected places saying so."""
    found = place(blocks(()), field)
    moved = moved_views(found, projection) if found else frozenset()
    return place(blocks(moved), field) if moved else found


def _tries(projection: str) -> Iterator[Place]:
    yield partial(_grid, cells_by_method(projection))
    yield partial(_grid, _stacked(projection))
    for rows in _rows(projection):
        yield partial(_shelves, rows)
    for columns in _columns(projection):
        yield partial(_side_by_side, columns)
    yield partial(_flow, projection)


def _stacked(projection: str) -> Mapping[str, tuple[int, int]]:
    """By the method, but the back under all the others."""
    return {**cells_by_method(projection), "back": (0, 2)}


def _grid(cells: Mapping[str, tuple[int, int]], placed: Sequence[Block], field: Box) -> tuple[Placed, ...] | None:
    """Blocks in aligned columns and rows: zeros of one column stand over each other, of one row beside each other."""
    blocks = {block.name: block for block in placed}
    cells = {**cells, **_free_cells(placed)}
    columns = _tracks(blocks, lambda name: cells[name][0], lambda box: (box.left, box.right))
    rows = _tracks(blocks, lambda name: cells[name][1], lambda box: (box.top, box.bottom))
    xs = _spread(columns, field.left, field.right)
    ys = _spread(rows, field.top, field.bottom)
    if xs is None or ys is None:
        return None
    return tuple(Placed(block, xs[cells[name][0]], ys[cells[name][1]]) for name, block in blocks.items())


def _free_cells(placed: Sequence[Block]) -> Mapping[str, tuple[int, int]]:
    """Beyond all that the method places: those that look along the part at the right, others under the face."""
    free = [block for block in placed if stands_freely(block.name)]
    return {block.name: (_BEYOND + k, 0) if block.view.is_end else (0, _BEYOND + k) for k, block in enumerate(free)}


Track = tuple[float, float]


def _tracks(
    blocks: Mapping[str, Block], index: Callable[[str], int], reach: Callable[[Box], Track]
) -> dict[int, Track]:
    tracks: dict[int, Track] = {}
    for name, block in blocks.items():
        low, high = reach(block.box)
        old = tracks.get(index(name), (low, high))
        tracks[index(name)] = min(low, old[0]), max(high, old[1])
    return dict(sorted(tracks.items()))


def _spread(tracks: Mapping[int, Track], low: float, high: float) -> dict[int, float] | None:
    """Zeros of the tracks along a field, the room that is left shared out; None when they do not fit."""
    used = sum(b - a for a, b in tracks.values()) + GAP * (len(tracks) - 1)
    room = high - low - used
    if room < 0:
        return None
    gap = GAP + min(room / (len(tracks) + 1), _MOST)
    total = used + (gap - GAP) * (len(tracks) - 1)
    at = low + (high - low - total) / 2
    zeros = {}
    for index, (a, b) in tracks.items():
        zeros[index] = at - a
        at += b - a + gap
    return zeros


Names = tuple[str, ...]


def _rows(projection: str) -> Iterator[tuple[Names, ...]]:
    """The ends beside the face, its edges and the back over and under them; or the ends beside the back."""
    ends = ("left_end", "right_end") if projection == "third_angle" else ("right_end", "left_end")
    over, under = _edges(projection)
    yield (over,), (ends[0], "face", ends[1]), (under,), ("back",)
    yield (over,), ("face",), (under,), (ends[1], "back", ends[0])
    yield (over,), ("face", ends[1]), (under,), ("back", ends[0])
    yield (over,), ("face",), (under, ends[1], "back", ends[0])
    yield ("face",), (over,), (under,), (ends[1], "back", ends[0])


def _columns(projection: str) -> Iterator[tuple[Names, ...]]:
    """The face with its edges beside the ends and the back; the face beside all others."""
    over, under = _edges(projection)
    yield (over, "face", under), (*ENDS, "back")
    yield ("face",), (over, under, *ENDS, "back")


def _edges(projection: str) -> Names:
    """The edge over the face, and the one under it."""
    return ("rear_edge", "front_edge") if projection == "third_angle" else ("front_edge", "rear_edge")


def _named(blocks: Sequence[Block], lines: Sequence[Names]) -> list[list[Block]]:
    """The blocks of each line, lines without any left out; then those that stand freely, ends in one line."""
    by_name = {block.name: block for block in blocks}
    found = [[by_name[name] for name in line if name in by_name] for line in lines]
    free = [block for block in blocks if stands_freely(block.name)]
    found += [[block] for block in free if not block.view.is_end]
    found.append([block for block in free if block.view.is_end])
    return [line for line in found if line]


def _flow(projection: str, blocks: Sequence[Block], field: Box) -> tuple[Placed, ...] | None:
    """One after the other in lines, as words are set."""
    over, under = _edges(projection)
    order = (over, "face", under, *ENDS, "back")
    rows: list[list[Block]] = [[]]
    used = 0.0
    for block in sorted(blocks, key=lambda block: order.index(block.name) if block.name in order else len(order)):
        width = block.box.right - block.box.left
        if rows[-1] and used + GAP + width > field.right - field.left:
            rows.append([])
            used = 0.0
        used += width + (GAP if rows[-1] else 0.0)
        rows[-1].append(block)
    return _shelved(rows, field)


def in_a_row(blocks: Sequence[Block], field: Box) -> tuple[Placed, ...] | None:
    """Blocks beside one another."""
    return _shelved([blocks], field)


def _shelves(names: Sequence[Names], blocks: Sequence[Block], field: Box) -> tuple[Placed, ...] | None:
    """Rows from top to bottom, each shared out over the width by itself."""
    return _shelved(_named(blocks, names), field)


def _shelved(rows: Sequence[Sequence[Block]], field: Box) -> tuple[Placed, ...] | None:
    found = _lines(rows, _down, _across, field)
    return None if found is None else tuple(Placed(block, x, y) for block, y, x in found)


def _side_by_side(names: Sequence[Names], blocks: Sequence[Block], field: Box) -> tuple[Placed, ...] | None:
    """Columns from left to right, each shared out over the height by itself."""
    found = _lines(_named(blocks, names), _across, _down, field)
    return None if found is None else tuple(Placed(block, x, y) for block, x, y in found)


def _across(box: Box) -> Track:
    return box.left, box.right


def _down(box: Box) -> Track:
    return box.top, box.bottom


def _lines(
    lines: Sequence[Sequence[Block]], between: Callable[[Box], Track], along: Callable[[Box], Track], field: Box
) -> list[tuple[Block, float, float]] | None:
    """Blocks with the zero of their line (measured by `between`) and their own in it; None when they do not fit."""
    reach = [[between(block.box) for block in line] for line in lines]
    tracks = {k: (min(low for low, _ in each), max(high for _, high in each)) for k, each in enumerate(reach)}
    starts = _spread(tracks, *between(field))
    if starts is None:
        return None
    found: list[tuple[Block, float, float]] = []
    common = _common(lines, along, field)
    for k, line in enumerate(lines):
        if common is not None and _is_of_face(line):
            zeros: dict[int, float] | None = {0: common}
        else:
            zeros = _spread({i: along(block.box) for i, block in enumerate(line)}, *along(field))
        if zeros is None:
            return None
        found += [(block, starts[k], zeros[i]) for i, block in enumerate(line)]
    return found


def _common(lines: Sequence[Sequence[Block]], along: Callable[[Box], Track], field: Box) -> float | None:
    """One zero for the face and those edges that have a line of their own, so that they stand under one another."""
    reach = [along(line[0].box) for line in lines if _is_of_face(line)]
    beside = [line for line in lines if len(line) > 1 and "face" in [block.name for block in line]]
    if not reach or len(reach) + len(beside) < 2:
        return None
    low, high = min(low for low, _ in reach), max(high for _, high in reach)
    if not beside:
        zeros = _spread({0: (low, high)}, *along(field))
        return None if zeros is None else zeros[0]
    zeros = _spread({k: along(block.box) for k, block in enumerate(beside[0])}, *along(field))
    if zeros is None:
        return None
    zero = zeros[[block.name for block in beside[0]].index("face")]
    first, last = along(field)
    return zero if first <= zero + low and zero + high <= last else None


def _is_of_face(line: Sequence[Block]) -> bool:
    return len(line) == 1 and line[0].name in ("face", "front_edge", "rear_edge")
