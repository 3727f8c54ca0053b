"""Where a sheet, board or rod lies on paper. A long one is interrupted where it is all offcut (ISO 128-3)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from planbook.drawing.lines import stroke
from planbook.drawing.recording import LineTo, Pen, Primitive, Pt, Stroke
from planbook.statement.model import Box, LayoutStated

_NM: Final = 1e-6
"""Millimetres in a nanometre."""
_SHOWN: Final = 36.0
"""Millimetres of paper that stay of a stretch of which the rest is left out: room for its size, then the break."""
_BREAK: Final = 1.6
"""Between the two break lines."""
_ALONG: Final = 0.8
"""How far along what is shown of the stretch they stand, so that its size stands before them."""
_GAIN: Final = 1.25
"""So much larger at least is an interrupted one drawn."""
_HIGH: Final = 40.0
"""Millimetres of paper up to which one grows by that."""
_BEYOND, _ZIGZAG = 1.5, 1.1


@dataclass(frozen=True, slots=True)
class StockOnPaper:
    """Its lower left corner is at (left, bottom). Between `low` and `high` (mm of the stock) it is left out."""

    scale: float
    left: float
    top: float
    bottom: float
    low: float = 0.0
    high: float = 0.0

    def at(self, x: float, y: float) -> Pt:
        """A place on the stock, in nanometres."""
        along = x * _NM
        if along > self.low:
            along = max(along, self.high) - self._out
        return Pt(self.left + along * self.scale, self.bottom - y * _NM * self.scale)

    def box(self, box: Box) -> tuple[Pt, float, float]:
        """The middle, length and width on paper of a rectangle; of one that is interrupted that of the longer piece."""
        x, y, length, width = box
        ends = x, x + length
        if self._out and ends[0] * _NM < self.low and self.high < ends[1] * _NM:
            before, after = self.low / _NM - ends[0], ends[1] - self.high / _NM
            ends = (ends[0], self.low / _NM) if before > after else (self.high / _NM, ends[1])
        a, b = self.at(ends[0], y), self.at(ends[1], y + width)
        return Pt((a.x + b.x) / 2, (a.y + b.y) / 2), b.x - a.x, a.y - b.y

    @property
    def _out(self) -> float:
        """Millimetres of the stock by which what lies beyond the break is nearer."""
        return self.high - self.low - _BREAK / self.scale if self.high else 0.0

    def break_lines(self) -> Iterator[Primitive]:
        """Two lines with a zigzag each, nothing between them; none where nothing is left out."""
        if not self.high:
            return
        left = self.left + self.low * self.scale
        top, bottom = self.top - _BEYOND, self.bottom + _BEYOND
        right = left + _BREAK
        rest = tuple(map(LineTo, (Pt(right, top), Pt(right, bottom), Pt(left, bottom))))
        yield Stroke(Pt(left, top), rest, None, closed=True, fill="white")
        middle = (top + bottom) / 2
        for x in (left, right):
            yield stroke(
                Pt(x, top), Pt(x, middle - _ZIGZAG), Pt(x - _ZIGZAG, middle - _ZIGZAG / 3),
                Pt(x + _ZIGZAG, middle + _ZIGZAG / 3), Pt(x, middle + _ZIGZAG), Pt(x, bottom), pen=Pen.BREAK,
            )  # fmt: skip


def lay(layout: LayoutStated, room: tuple[float, float], margin: float) -> StockOnPaper:
    """As large as a room (width, height; mm of paper) takes, in its middle, its top at `margin`."""
    length, width = (each * _NM for each in layout.size)
    scale = min(room[0] / length, room[1] / width)
    start, end = _plain(layout)
    shorter = length - (end - start)
    larger = min((room[0] - _SHOWN) / shorter, room[1] / width, max(_HIGH / width, scale)) if shorter else scale
    if larger < _GAIN * scale or (end - start) * larger <= _SHOWN:
        return StockOnPaper(scale, margin + (room[0] - length * scale) / 2, margin, margin + width * scale)
    low = start + (_SHOWN * _ALONG - _BREAK / 2) / larger
    high = end - (_SHOWN * (1 - _ALONG) - _BREAK / 2) / larger
    left = margin + (room[0] - shorter * larger - _SHOWN) / 2
    return StockOnPaper(larger, left, margin, margin + width * larger, low, high)


def _plain(layout: LayoutStated) -> tuple[float, float]:
    """The longest stretch (mm along a board or rod) where nothing but offcuts lies and nothing changes."""
    if layout.kind == "sheet":
        return 0.0, 0.0
    boxes = [*(piece.box for piece in layout.pieces), *(offcut.box for offcut in layout.offcuts)]
    ends = {0.0, layout.size[0]} | {x for box in boxes for x in (box[0], box[0] + box[2])}
    ends |= {x for cut in layout.cuts for x in (cut.line[0], cut.line[2])}
    free = (
        (a * _NM, b * _NM)
        for a, b in pairwise(sorted(ends))
        if not any(piece.box[0] < b and a < piece.box[0] + piece.box[2] for piece in layout.pieces)
    )
    return max(free, key=lambda each: each[1] - each[0], default=(0.0, 0.0))
