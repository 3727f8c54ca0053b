"""Pieces of curves drawn once each: those that run together are joined, and the lower rank gives way."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from planbook.drawing.curves import XY, Arc, Curve, Line

_GRAIN: Final = 1e-4
"""Curves nearer than a tenth of a micrometre run together."""
_PHASE: Final = 0.37
"""Keeps round measures away from the borders of the grains."""
_TURN: Final = 2 * math.pi

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Piece:
    """A curve of a view with its rank: 0 emphasised, 1 visible, 2 hidden."""

    curve: Curve
    rank: int


def merge(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """The same picture, with every place of it drawn once; sorted so that the order is sure."""
    carriers: dict[tuple[int, ...], list[Piece]] = defaultdict(list)
    for piece in pieces:
        key = _line_key(piece.curve) if isinstance(piece.curve, Line) else _arc_key(piece.curve)
        carriers[key].append(piece)
    merged: list[Piece] = []
    for key in sorted(carriers):
        merged += _merge_carrier(carriers[key])
    return tuple(merged)


def _grain(value: float) -> int:
    return math.floor(value / _GRAIN + _PHASE)


def _line_key(line: Line) -> tuple[int, ...]:
    ux, uy = _along(line)
    return 0, _grain(math.atan2(uy, ux)), _grain(line.start.y * ux - line.start.x * uy)


def _along(line: Line) -> XY:
    """Unit direction, the same for both ways along a line."""
    ux, uy = (line.end.x - line.start.x) / line.length, (line.end.y - line.start.y) / line.length
    if ux < -1e-9 or (abs(ux) <= 1e-9 and uy < 0):
        ux, uy = -ux, -uy
    return XY(ux, uy)


def _arc_key(arc: Arc) -> tuple[int, ...]:
    return 1, _grain(arc.centre.x), _grain(arc.centre.y), _grain(arc.radius)


def _merge_carrier(pieces: list[Piece]) -> list[Piece]:
    first = pieces[0].curve
    taken: list[Span] = []
    merged: list[Piece] = []
    for rank in sorted({piece.rank for piece in pieces}):
        spans = [span for piece in pieces if piece.rank == rank for span in _spans(piece.curve, first)]
        least = 1e-3 if isinstance(first, Line) else 1e-3 / first.radius
        free = [s for s in _minus(_union(spans, least), taken) if s[1] - s[0] > least]
        merged += [Piece(curve, rank) for curve in _curves(free, first)]
        taken = _union([*taken, *free], least)
    return merged


def _spans(curve: Curve, first: Curve) -> list[Span]:
    """Extents along the carrier: millimetres along a line, angles in 0..2 pi on a circle."""
    if isinstance(curve, Line):
        assert isinstance(first, Line)
        ux, uy = _along(first)
        ends = sorted(p.x * ux + p.y * uy for p in (curve.start, curve.end))
        return [(ends[0], ends[1])]
    low = curve.begin if curve.sweep > 0 else curve.begin + curve.sweep
    low %= _TURN
    high = low + min(abs(curve.sweep), _TURN)
    return [(low, high)] if high <= _TURN + 1e-12 else [(low, _TURN), (0.0, high - _TURN)]


def _union(spans: list[Span], least: float) -> list[Span]:
    joined: list[Span] = []
    for low, high in sorted(spans):
        if joined and low <= joined[-1][1] + least / 10:
            joined[-1] = joined[-1][0], max(joined[-1][1], high)
        else:
            joined.append((low, high))
    return joined


def _minus(spans: list[Span], taken: list[Span]) -> list[Span]:
    left = spans
    for a, b in taken:
        left = [
            piece for low, high in left for piece in ((low, min(high, a)), (max(low, b), high)) if piece[0] < piece[1]
        ]
    return left


def _curves(spans: list[Span], first: Curve) -> list[Curve]:
    if isinstance(first, Line):
        ux, uy = _along(first)
        off = first.start.y * ux - first.start.x * uy
        return [
            Line(XY(a * ux - off * uy, a * uy + off * ux), XY(b * ux - off * uy, b * uy + off * ux)) for a, b in spans
        ]
    if len(spans) > 1 and spans[0][0] < 1e-9 and spans[-1][1] > _TURN - 1e-9:
        spans = [*spans[1:-1], (spans[-1][0], spans[0][1] + _TURN)]
    return [Arc(first.centre, first.radius, a, b - a) for a, b in spans]
