"""The ways in which a piece may lie on a sheet for a router, and where each may not lie for another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor

from shapely import Geometry, Polygon, box

from planbook.cutting.interlock import Outline, half_round, quarter_round
from planbook.cutting.minkowski import blocked_by, cost_of, half_turned
from planbook.cutting.model import Piece

_FINE = 24
"""Corners above which a shape is taken a little larger with fewer of them."""
_COARSE = 800
"""It grows by one part in so many of its size."""
_MITRE = 2.0
"""Sharper corners than 60 degrees are cut off, further out than half a kerf."""


@dataclass(frozen=True)
class Stance:
    """A piece as it may lie, its corner at the origin. `grown`: with half a cutter's width round it, or more."""

    turned: bool
    length: int
    """Along the stock."""
    width: int
    outline: Outline | None
    shape: Polygon
    grown: Polygon


def stances_of(piece: Piece, kerf: int) -> tuple[Stance, ...]:
    """Those that its grain allows, without those that look like another: as given, half round, and turned."""
    told: list[tuple[bool, Outline | None]]
    if piece.outline is None:
        told = [(False, None), (True, None)]
    else:
        ways = piece.outline, half_round(piece)
        told = [
            (turned, quarter_round(way, piece.width) if turned else way) for turned in (False, True) for way in ways
        ]
    found: list[Stance] = []
    for turned, outline in told:
        if turned and not piece.turnable:
            continue
        length, width = (piece.width, piece.length) if turned else (piece.length, piece.width)
        shape = box(0, 0, length, width) if outline is None else Polygon(outline)
        if not any(_alike(shape, each.shape) for each in found):
            found.append(Stance(turned, length, width, outline, shape, _grown(shape, kerf)))
    return tuple(found)


def shape_of(piece: Piece) -> Polygon:
    """Its true outline."""
    return box(0, 0, piece.length, piece.width) if piece.outline is None else Polygon(piece.outline)


def covered_area(piece: Piece, kerf: int) -> int:
    """What one takes up at least on a sheet that has half a kerf more all round, half a kerf round it included."""
    # Less what floating point may have added.
    return floor(float(shape_of(piece).buffer(kerf / 2).area) * (1 - 1e-9))


def _alike(one: Polygon, other: Polygon) -> bool:
    return bool(one.symmetric_difference(other).area <= one.area * 1e-4)


def _grown(shape: Polygon, kerf: int) -> Polygon:
    """Half a kerf round it at least; a unit more, so that a place on the grid is far enough too."""
    west, south, east, north = shape.bounds
    coarse = max(east - west, north - south) / _COARSE if len(shape.exterior.coords) > _FINE else 0.0
    grown = shape.buffer(kerf / 2 + coarse + 1, join_style="mitre", mitre_limit=_MITRE)
    return Polygon(grown.simplify(coarse).exterior)


Way = tuple[int, int]
"""A kind and one of its stances, by number."""


class Stances:
    """Those of all kinds; where one bars another is worked out once. `looks` counts the work."""

    def __init__(self, pieces: Sequence[Piece], kerf: int) -> None:
        self.of_kind = [stances_of(piece, kerf) for piece in pieces]
        self.kerf = kerf
        self.looks = 0
        self._barred: dict[tuple[Way, Way], Geometry] = {}

    def __getitem__(self, way: Way) -> Stance:
        kind, number = way
        return self.of_kind[kind][number]

    def barred(self, still: Way, moving: Way) -> Geometry:
        """The shifts at which the moving one is too near the one that lies still."""
        known = self._barred.get((still, moving))
        if known is None:
            one, other = self[still].grown, self[moving].grown
            self.looks += cost_of(one, other)
            known = self._barred[still, moving] = blocked_by(one, other)
            self._barred[moving, still] = half_turned(known)
        return known
