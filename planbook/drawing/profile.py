"""The true outline of a flat part: where wood ends, seen from the face, once all that goes through is cut out.

Every curve is parted where it meets another; a piece belongs to the outline if wood lies on one side of it only. Arcs
stay arcs.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Final

from shapely import STRtree, box

from planbook.drawing.curves import XY, Arc, Curve, Line, Ring, box_of, holds, meetings, ring_of

Chain = tuple[Curve, ...]
"""Curves end to end; closed."""

_SIDE: Final = 1e-4
"""How far beside a piece (mm) is looked for wood: less than anything is made, more than numbers are off."""
_JOIN: Final = 1e-5
"""Ends nearer than this (mm) are one."""


def profile(outline: Chain, openings: Sequence[Chain]) -> tuple[Chain, ...]:
    """Closed chains with the wood on their left: counter-clockwise round the wood, clockwise round what is open.

    `openings` are closed chains, in the same plane, that go through the part. Millimetres.
    """
    wood = _Wood(outline, openings)
    pieces: dict[tuple[int, ...], Curve] = {}
    for piece in wood.pieces():
        turned = wood.facing(piece)
        if turned is not None:
            pieces.setdefault(_key(turned), turned)
    return tuple(_chains(list(pieces.values())))


def signed_area(chain: Chain) -> float:
    """Square millimetres that a closed chain encloses; positive when it runs counter-clockwise."""
    total = 0.0
    for curve in chain:
        (x0, y0), (x1, y1) = curve.start, curve.end
        total += (x0 * y1 - x1 * y0) / 2
        if isinstance(curve, Arc):
            total += curve.radius**2 * (curve.sweep - math.sin(curve.sweep)) / 2
    return total


@dataclass(frozen=True)
class _Wood:
    outline: Chain
    openings: Sequence[Chain]

    @cached_property
    def _loops(self) -> tuple[Chain, ...]:
        return (self.outline, *self.openings)

    @cached_property
    def _rings(self) -> tuple[Ring, ...]:
        return tuple(ring_of(loop) for loop in self._loops)

    @cached_property
    def _curves(self) -> tuple[Curve, ...]:
        return tuple(curve for loop in self._loops for curve in loop)

    @cached_property
    def _curve_boxes(self) -> STRtree:
        return STRtree([box(*_grown(curve.box)) for curve in self._curves])

    @cached_property
    def _loop_boxes(self) -> STRtree:
        return STRtree([box(*_grown(box_of(loop))) for loop in self._loops])

    def pieces(self) -> Iterator[Curve]:
        """All curves, parted wherever they meet others or others end on them."""
        for place, curve in enumerate(self._curves):
            near = self._curve_boxes.query(box(*_grown(curve.box)))
            cuts = {0.0, 1.0}
            for other in (self._curves[n] for n in sorted(near) if n != place):
                cuts.update(meetings(curve, other))
                cuts.update(t for t in (_place_on(curve, p) for p in (other.start, other.end)) if t is not None)
            inside = sorted(min(max(t, 0.0), 1.0) for t in cuts)
            yield from (curve.part(a, b) for a, b in pairwise(inside) if (b - a) * curve.length > _JOIN)

    def facing(self, piece: Curve) -> Curve | None:
        """The piece, turned to have the wood on its left; None when it has wood on both sides or on none."""
        middle, (ux, uy) = piece.point(0.5), _tangent(piece)
        left = self._is_wood(middle.x - uy * _SIDE, middle.y + ux * _SIDE)
        right = self._is_wood(middle.x + uy * _SIDE, middle.y - ux * _SIDE)
        if left == right:
            return None
        return piece if left else _reversed(piece)

    def _is_wood(self, x: float, y: float) -> bool:
        near = {int(n) for n in self._loop_boxes.query(box(x, y, x, y))}
        return holds(self._rings[0], x, y) and not any(holds(self._rings[n], x, y) for n in near if n)


def _grown(sides: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
    x0, y0, x1, y1 = sides
    return x0 - _SIDE, y0 - _SIDE, x1 + _SIDE, y1 + _SIDE


def _place_on(curve: Curve, p: XY) -> float | None:
    """The parameter of a point that lies on a curve."""
    if isinstance(curve, Arc):
        off = abs(math.dist(curve.centre, p) - curve.radius)
        return curve.parameter(math.atan2(p.y - curve.centre.y, p.x - curve.centre.x)) if off < _JOIN else None
    ux, uy = _tangent(curve)
    dx, dy = p.x - curve.start.x, p.y - curve.start.y
    t = (dx * ux + dy * uy) / curve.length
    return t if abs(dy * ux - dx * uy) < _JOIN and 0 < t < 1 else None


def _tangent(curve: Curve) -> tuple[float, float]:
    """The direction half way along."""
    if isinstance(curve, Arc):
        angle = curve.begin + curve.sweep / 2
        turn = math.copysign(1.0, curve.sweep)
        return -math.sin(angle) * turn, math.cos(angle) * turn
    return (curve.end.x - curve.start.x) / curve.length, (curve.end.y - curve.start.y) / curve.length


def _reversed(curve: Curve) -> Curve:
    if isinstance(curve, Line):
        return Line(curve.end, curve.start)
    return Arc(curve.centre, curve.radius, curve.begin + curve.sweep, -curve.sweep)


def _key(piece: Curve) -> tuple[int, ...]:
    """Alike for pieces that lie upon one another."""
    spots = (piece.start, piece.point(0.5), piece.end)
    return tuple(round(value / _SIDE + 0.37) for spot in spots for value in spot)


def _chains(pieces: list[Curve]) -> Iterable[Chain]:
    """Pieces joined end to start; full circles are chains by themselves."""
    left = list(pieces)
    while left:
        chain = [left.pop(0)]
        while math.dist(chain[-1].end, chain[0].start) > 10 * _JOIN:
            following = min(left, key=lambda piece: math.dist(piece.start, chain[-1].end), default=None)
            if following is None:
                break
            left.remove(following)
            chain.append(following)
        yield tuple(chain)
