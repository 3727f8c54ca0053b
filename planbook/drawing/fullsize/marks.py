"""What stands round the window of a template's page: check bars both ways, crop marks, borders, crosses on seams."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planbook.drawing.curves import XY, Curve, Line, circle
from planbook.drawing.fullsize.clipping import clip
from planbook.drawing.fullsize.tiling import OVERLAP, Tile, Tiling
from planbook.drawing.ink import Box
from planbook.drawing.lines import stroke
from planbook.drawing.recording import Anchor, Label, Pen, Primitive, Pt
from planbook.drawing.tracing import trace

LETTER: Final = 2.5
_BARS: Final = ((100.0, 10, "100 mm", 4.5), (4 * 25.4, 8, "4 in", 10.0))
"""Length, divisions, name, and how far out of the window."""
_START: Final = 12.0
"""From the window's corner to the bars' beginning, past the crop marks."""
_CROP_GAP, _CROP = 1.5, 5.0
_ARM, _RING = 4.0, 2.0
_BESIDE: Final = 2.5
_SEAM_PLACES: Final = (0.2, 0.8)


def check_bars(window: Box) -> Iterator[Primitive]:
    """Bars of 100 mm and of 4 in along the lower border and up the left one."""
    for length, divisions, name, out in _BARS:
        for level in (True, False):
            yield from _bar(window, length, divisions, name, out, level=level)


def _bar(window: Box, length: float, divisions: int, name: str, out: float, *, level: bool) -> Iterator[Primitive]:
    def at(along: float, beside: float) -> Pt:
        if level:
            return Pt(window.left + _START + along, window.bottom + out + beside)
        return Pt(window.left - out - beside, window.bottom - _START - along)

    yield stroke(at(0, 0), at(length, 0), pen=Pen.EDGE)
    for tick in range(divisions + 1):
        reach = 2.4 if tick in (0, divisions) else 1.2
        along = length * tick / divisions
        yield stroke(at(along, 0), at(along, reach))
    yield Label(name, at(length + 2.0, LETTER if level else 0.0), LETTER, angle=0.0 if level else 90.0)


def borders(tiling: Tiling, tile: Tile) -> Iterator[Primitive]:
    """The window's border with crop marks at its corners; where the next pages come to lie, a dashed line."""
    w = tiling.window
    corners = Pt(w.left, w.top), Pt(w.right, w.top), Pt(w.right, w.bottom), Pt(w.left, w.bottom)
    yield stroke(*corners, corners[0], pen=Pen.FAINT)
    for corner, (right, down) in zip(corners, ((-1, -1), (1, -1), (1, 1), (-1, 1)), strict=True):
        near, far = _CROP_GAP, _CROP_GAP + _CROP
        yield stroke(Pt(corner.x + right * near, corner.y), Pt(corner.x + right * far, corner.y))
        yield stroke(Pt(corner.x, corner.y + down * near), Pt(corner.x, corner.y + down * far))
    if tile.column < tiling.columns - 1:
        x = w.right - OVERLAP
        yield stroke(Pt(x, w.top), Pt(x, w.bottom), pen=Pen.HIDDEN)
    if tile.row < tiling.rows - 1:
        y = w.bottom - OVERLAP
        yield stroke(Pt(w.left, y), Pt(w.right, y), pen=Pen.HIDDEN)


def crosses(tiling: Tiling, tile: Tile) -> Iterator[Primitive]:
    """Ringed crosses on every seam, half of each on either page: they close up when the pages lie right."""
    setting = tiling.setting(tile)
    for at in _seam_places(tiling, tile):
        for piece in clip(_cross(at), tile.shown):
            yield trace(piece, setting, Pen.DIMENSION)


def _seam_places(tiling: Tiling, tile: Tile) -> Iterator[XY]:
    """In the part's own millimetres."""
    left, _, _, top = tile.shown
    across, down = tiling.step
    for x in _seams(left, across, tile.column, tiling.columns):
        yield from (XY(x, top - share * down) for share in _SEAM_PLACES)
    for y in _seams(top, -down, tile.row, tiling.rows):
        yield from (XY(left + share * across, y) for share in _SEAM_PLACES)


def _seams(start: float, step: float, place: int, count: int) -> Iterator[float]:
    """Where a page meets the one before it, and the one after it."""
    if place > 0:
        yield start
    if place < count - 1:
        yield start + step


def _cross(at: XY) -> tuple[Curve, ...]:
    x, y = at
    return (
        Line(XY(x - _ARM, y), XY(x + _ARM, y)),
        Line(XY(x, y - _ARM), XY(x, y + _ARM)),
        circle(at, _RING),
    )


def neighbours(tiling: Tiling, tile: Tile) -> Iterator[Primitive]:
    """The names of the pages that come to lie on this one, in the margins beside their dashed lines."""
    w = tiling.window
    names = {(other.row, other.column): other.name for other in tiling.tiles()}
    right, below = names.get((tile.row, tile.column + 1)), names.get((tile.row + 1, tile.column))
    if right:
        at = Pt(w.right + _BESIDE + LETTER, (w.top + w.bottom) / 2)
        yield Label(f"{right} lies on the dashed line", at, LETTER, Anchor.MIDDLE, 90.0)
    if below:
        at = Pt(w.right - _CROP, w.bottom + _BESIDE + LETTER)
        yield Label(f"{below} lies on the dashed line", at, LETTER, Anchor.END)
