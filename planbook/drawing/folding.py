"""Curves of a view as an interrupted one shows them: what lies in a gap is left out, what lies beyond moves nearer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import shapely
from shapely import affinity
from shapely.geometry.base import BaseGeometry

from planbook.drawing.curves import TINY, XY, Arc, Curve, Line
from planbook.drawing.facing import Facing, shortened
from planbook.drawing.lines import stroke
from planbook.drawing.merge import Piece
from planbook.drawing.recording import Pen, Pt, Stroke
from planbook.drawing.tracing import Setting

_BEYOND: Final = 2.0
"""How far a break line runs past the part, in millimetres on paper."""
_ZIGZAG: Final = 1.3
"""How far its zigzag leads to either side, and half its height."""
_FREE: Final = 0.6


@dataclass(frozen=True, slots=True)
class BreakLine:
    """A break line in a view: where it stands, how far up and down, and the heights at which lines end at it."""

    x: float
    reach: tuple[float, float]
    met: tuple[float, ...]

    def draw(self, setting: Setting) -> Stroke:
        """Straight, with one zigzag where no line ends at it, as near to the middle as can be."""
        low, high = self.reach
        size = min(_ZIGZAG, (high - low) * setting.scale / 3)
        middle = setting(XY(self.x, self._calm((size + _FREE) / setting.scale)))
        top, bottom = setting(XY(self.x, high)), setting(XY(self.x, low))
        x, y = middle
        return stroke(
            Pt(x, top.y - _BEYOND), Pt(x, y - size), Pt(x - size, y - size / 3), Pt(x + size, y + size / 3),
            Pt(x, y + size), Pt(x, bottom.y + _BEYOND), pen=Pen.BREAK,
        )  # fmt: skip

    def _calm(self, room: float) -> float:
        """The height nearest to the middle of the part with room on both sides; the middle where there is none."""
        low, high = self.reach
        middle = (low + high) / 2
        places = [middle, *(met + way * (room + TINY) for met in self.met for way in (-1, 1))]
        free = (y for y in places if all(abs(y - met) >= room for met in (*self.met, low, high)))
        return min(free, key=lambda y: abs(y - middle), default=middle)


def folded(curve: Curve, facing: Facing) -> Iterator[Curve]:
    """What an interrupted view shows of a curve; all of it in a view that looks along the part."""
    way = facing.right.x
    if not facing.gaps or not way:
        yield curve
        return
    if isinstance(curve, Arc):
        x = curve.point(0.5).x * way
        if not any(gap.low < x < gap.high for gap in facing.gaps):
            moved = (shortened(x, facing.gaps) - x) * way
            yield replace(curve, centre=XY(curve.centre.x + moved, curve.centre.y))
        return
    low, high = sorted((curve.start.x * way, curve.end.x * way))
    for a, b in _kept(low, high, facing):
        if abs(high - low) < TINY:
            ends = (curve.start, curve.end)
        else:
            first, last = ((curve.start, curve.end), (curve.end, curve.start))[curve.start.x * way > low + TINY]
            ends = _between(first, last, (a - low) / (high - low)), _between(first, last, (b - low) / (high - low))
        yield Line(*(XY(shortened(p.x * way, facing.gaps) * way, p.y) for p in ends))


def _between(a: XY, b: XY, share: float) -> XY:
    return XY(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)


def _kept(low: float, high: float, facing: Facing) -> Iterator[tuple[float, float]]:
    if low == high:
        if not any(gap.low < low < gap.high for gap in facing.gaps):
            yield low, high
        return
    start = low
    for gap in facing.gaps:
        if gap.low < high and gap.high > start:
            if gap.low > start:
                yield start, min(gap.low, high)
            start = gap.high
    if start < high:
        yield start, high


def fold_pieces(pieces: Iterable[Piece], facing: Facing) -> tuple[Piece, ...]:
    """The pieces of a view as an interrupted one shows them."""
    return tuple(Piece(curve, piece.rank) for piece in pieces for curve in folded(piece.curve, facing))


def fold_area(area: BaseGeometry, facing: Facing) -> BaseGeometry:
    """An area of a view as an interrupted one shows it."""
    way = facing.right.x
    if not facing.gaps or not way:
        return area
    low, _, high, _ = area.bounds if way > 0 else affinity.scale(area, -1, 1, origin=(0, 0)).bounds
    bottom, top = area.bounds[1], area.bounds[3]
    bands = []
    for a, b in _kept(low, high, facing):
        band = shapely.box(min(a * way, b * way), bottom, max(a * way, b * way), top)
        bands.append(
            affinity.translate(area.intersection(band), (shortened((a + b) / 2, facing.gaps) - (a + b) / 2) * way)
        )
    return shapely.union_all(bands)


def break_lines(pieces: Sequence[Piece], facing: Facing) -> tuple[BreakLine, ...]:
    """Both lines at every gap that lines cross; `pieces` are those of the view before anything is left out."""
    way = facing.right.x
    if not way:
        return ()
    found = []
    for gap in facing.gaps:
        middle = (gap.low + gap.high) / 2 * way
        lines = [piece.curve for piece in pieces if piece.curve.box[0] < middle < piece.curve.box[2]]
        met = tuple(sorted({round(line.start.y, 6) for line in lines}))
        if not met:
            continue
        found += [BreakLine(shortened(x, facing.gaps) * way, (met[0], met[-1]), met) for x in (gap.low, gap.high)]
    return tuple(found)
