"""How a part at full size goes over pages: which way the paper lies, how many pages, what each of them shows.

All in millimetres. The part's own x and y run to the right and upwards; rows count from the top, as they are laid.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from string import ascii_uppercase
from typing import Final

from planbook.drawing.curves import XY
from planbook.drawing.frame import PAPERS
from planbook.drawing.ink import Box
from planbook.drawing.tracing import Setting

OVERLAP: Final = 12.0
"""How far neighbouring pages show the same."""
_LEFT, _TOP, _RIGHT, _BOTTOM = 20.0, 17.0, 13.0, 20.0
"""Margins: check bars stand at the left and below, the page's name above; printers leave some 5 mm unprinted."""
_ROUND: Final = 4.0
"""Least white round the part."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One page of a template: its row and column from 0, and the part's own millimetres that its window shows."""

    row: int
    column: int
    shown: tuple[float, float, float, float]
    """Least x, least y, greatest x, greatest y."""

    @property
    def name(self) -> str:
        """A1, A2, ... in the first row, B1, ... in the second."""
        return f"{_letters(self.row)}{self.column + 1}"


@dataclass(frozen=True, slots=True)
class Tiling:
    """Pages of one size and direction. `window` is what a page shows of the part, inside its margins."""

    width: float
    height: float
    columns: int
    rows: int
    corner: XY
    """Upper left corner of what all pages show together."""

    @property
    def window(self) -> Box:
        """On each page."""
        return Box(_LEFT, _TOP, self.width - _RIGHT, self.height - _BOTTOM)

    @property
    def step(self) -> tuple[float, float]:
        """From page to page, across and down."""
        window = self.window
        return window.right - window.left - OVERLAP, window.bottom - window.top - OVERLAP

    def tiles(self) -> Iterator[Tile]:
        """Row by row from the top."""
        window, (across, down) = self.window, self.step
        wide, high = window.right - window.left, window.bottom - window.top
        for row in range(self.rows):
            for column in range(self.columns):
                left, top = self.corner.x + column * across, self.corner.y - row * down
                yield Tile(row, column, (left, top - high, left + wide, top))

    def setting(self, tile: Tile) -> Setting:
        """Where the part's zero lies on a tile's page, at full size."""
        left, _, _, top = tile.shown
        window = self.window
        return Setting(1.0, window.left - left, window.top + top)

    def tile_at(self, p: XY) -> Tile:
        """The tile on which a place of the part stays to be seen: tiles lie upon those to their left and above."""
        across, down = self.step
        column = min(max(math.floor((p.x - self.corner.x) / across), 0), self.columns - 1)
        row = min(max(math.floor((self.corner.y - p.y) / down), 0), self.rows - 1)
        return next(tile for tile in self.tiles() if (tile.row, tile.column) == (row, column))


def plan_tiles(box: tuple[float, float, float, float], paper: str) -> Tiling:
    """The tiling with the fewest pages for a part's box; upright paper where both ways take as many."""
    long, short = PAPERS[paper]
    return min((_tiling(box, short, long), _tiling(box, long, short)), key=lambda t: t.columns * t.rows)


def _tiling(box: tuple[float, float, float, float], width: float, height: float) -> Tiling:
    x0, y0, x1, y1 = box
    bare = Tiling(width, height, 1, 1, XY(0.0, 0.0))
    across, down = bare.step
    columns, rows = (
        max(1, math.ceil((size + 2 * _ROUND - OVERLAP) / step)) for size, step in ((x1 - x0, across), (y1 - y0, down))
    )
    wide, high = columns * across + OVERLAP, rows * down + OVERLAP
    corner = XY((x0 + x1 - wide) / 2, (y0 + y1 + high) / 2)
    return Tiling(width, height, columns, rows, corner)


def _letters(row: int) -> str:
    """A to Z, then AA, AB, ..."""
    letters = ""
    row += 1
    while row:
        row, last = divmod(row - 1, len(ascii_uppercase))
        letters = ascii_uppercase[last] + letters
    return letters
