"""Where views stand on a sheet: round the face view by the projection method, or in rows under it when too wide.

Every view carries its name in words, so that the second arrangement can be read without knowing the method
(ISO 5456-2, views placed freely).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from planbook.drawing.block import Block
from planbook.drawing.ink import Box

GAP: Final = 6.0
"""Least room between blocks in millimetres."""
_MOST: Final = 34.0
"""Room between blocks that looks lost is not used up: views are rather kept together."""

# Column and row of each view round the face view, for third angle; first angle is turned about.
_CELLS: Final = {
    "face": (0, 0),
    "right_end": (1, 0),
    "left_end": (-1, 0),
    "front_edge": (0, 1),
    "rear_edge": (0, -1),
    "back": (2, 0),
}


@dataclass(frozen=True, slots=True)
class Placed:
    """A block and where its zero stands on the sheet."""

    block: Block
    x: float
    y: float

    @property
    def box(self) -> Box:
        """On the sheet."""
        return self.block.box.moved(self.x, self.y)

    @property
    def view_box(self) -> Box:
        """The view itself on the sheet."""
        return self.block.view_box.moved(self.x, self.y)


def arrange(blocks: Sequence[Block], field: Box, projection: str, keep_out: Box | None) -> Iterator[tuple[Placed, ...]]:
    """Arrangements that fit the field, best first: by the projection method, then in rows.

    `keep_out` is a corner of the field that is not free. An arrangement that would touch it is tried again above it.
    """
    fields = [field] if keep_out is None else [field, Box(field.left, field.top, field.right, keep_out.top)]
    for found in (found for place in _tries(blocks, projection) for found in (place(f) for f in fields)):
        if found and not (keep_out and any(placed.box.meets(keep_out) for placed in found)):
            yield found


def _tries(blocks: Sequence[Block], projection: str) -> Iterator[Callable[[Box], tuple[Placed, ...] | None]]:
    by_name = {block.name: block for block in blocks}
    for cells in (_by_method(projection), _stacked(projection)):
        yield partial(_grid, by_name, cells)
    for rows in _rows(by_name):
        yield partial(_shelves, rows)
    for columns in _columns(by_name):
        yield partial(_side_by_side, columns)
    yield partial(_flow, blocks)


def _by_method(projection: str) -> Mapping[str, tuple[int, int]]:
    if projection == "third_angle":
        return _CELLS
    return {name: (-c if name != "back" else c, -r) for name, (c, r) in _CELLS.items()}


def _stacked(projection: str) -> Mapping[str, tuple[int, int]]:
    """By the method, but the back under all the others."""
    return {**_by_method(projection), "back": (0, 2)}


def _grid(blocks: Mapping[str, Block], cells: Mapping[str, tuple[int, int]], field: Box) -> tuple[Placed, ...] | None:
    """Blocks in aligned columns and rows: zeros of one column stand over each other, of one row beside each other."""
    columns = _tracks(blocks, lambda name: cells[name][0], lambda box: (box.left, box.right))
    rows = _tracks(blocks, lambda name: cells[name][1], lambda box: (box.top, box.bottom))
    xs = _spread(columns, field.left, field.right)
    ys = _spread(rows, field.top, field.bottom)
    if xs is None or ys is None:
        return None
    return tuple(Placed(block, xs[cells[name][0]], ys[cells[name][1]]) for name, block in blocks.items())


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


def _rows(blocks: Mapping[str, Block]) -> Iterator[list[list[Block]]]:
    """The face over its edges; ends and back in a row under them, or beside the last of them."""
    column = [blocks[name] for name in ("rear_edge", "face", "front_edge") if name in blocks]
    others = [blocks[name] for name in ("left_end", "right_end", "back") if name in blocks]
    if others:
        yield [*([block] for block in column), others]
        yield [*([block] for block in column[:-1]), [column[-1], *others]]


def _columns(blocks: Mapping[str, Block]) -> Iterator[list[list[Block]]]:
    """The face with its edges beside the ends and the back; the face beside all others."""
    others = [name for name in blocks if name != "face"]
    for under in (("rear_edge", "front_edge"), ()):
        first = [blocks["face"], *(blocks[name] for name in others if name in under)]
        second = [blocks[name] for name in others if name not in under]
        if second:
            yield [first, second]


def _flow(blocks: Sequence[Block], field: Box) -> tuple[Placed, ...] | None:
    """One after the other in lines, as words are set."""
    rows: list[list[Block]] = [[]]
    used = 0.0
    for block in blocks:
        width = block.box.right - block.box.left
        if rows[-1] and used + GAP + width > field.right - field.left:
            rows.append([])
            used = 0.0
        used += width + (GAP if rows[-1] else 0.0)
        rows[-1].append(block)
    return _shelves(rows, field)


def _shelves(rows: Sequence[Sequence[Block]], field: Box) -> tuple[Placed, ...] | None:
    """Rows from top to bottom, each shared out over the width by itself."""
    found = _lines(rows, _down, _across, field)
    return None if found is None else tuple(Placed(block, x, y) for block, y, x in found)


def _side_by_side(columns: Sequence[Sequence[Block]], field: Box) -> tuple[Placed, ...] | None:
    """Columns from left to right, each shared out over the height by itself."""
    found = _lines(columns, _across, _down, field)
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
    for k, line in enumerate(lines):
        zeros = _spread({i: along(block.box) for i, block in enumerate(line)}, *along(field))
        if zeros is None:
            return None
        found += [(block, starts[k], zeros[i]) for i, block in enumerate(line)]
    return found
