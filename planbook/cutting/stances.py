"""The ways in which a piece may lie on a sheet for a router, and where each may not lie for another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor

from shapely import Geometry, Polygon, box

from planbook.cutting.interlock import Outline, half_round, quarter_round
from planbook.cutting.minkowski import blocked_by, cost_of, fits_in, half_turned
from planbook.cutting.model import Piece

_FINE = 24
"""Corners above which a shape is taken a little larger with fewer of them."""
_COARSE = 800
"""It grows by one part in so many of its size."""
_MITRE = 2.0
"""Sharper corners than 60 degrees are cut off, further out than half a kerf."""


@dataclass(frozen=True)
class Stance:
    """A piece as it may lie, its corner at the origin. `grown`: with half a cutter's width round it, or more; `rooms`:
    its holes, smaller by as much.
    """

    turned: bool
    length: int
    """Along the stock."""
    width: int
    outline: Outline | None
    holes: tuple[Outline, ...]
    shape: Polygon
    grown: Polygon
    rooms: tuple[Polygon, ...]


def stances_of(piece: Piece, kerf: int) -> tuple[Stance, ...]:
    """Those that its grain allows, without those that look like another: as given, half round, and turned."""
    found: list[Stance] = []
    for turned, rings in ways_of(piece):
        if turned and not piece.turnable:
            continue
        length, width = (piece.width, piece.length) if turned else (piece.length, piece.width)
        outline, *holes = rings or (None,)
        shape = box(0, 0, length, width) if outline is None else Polygon(outline, holes)
        if not any(_alike(shape, each.shape) for each in found):
            rooms = tuple(room for hole in holes for room in _shrunk(Polygon(hole), kerf))
            found.append(Stance(turned, length, width, outline, tuple(holes), shape, _grown(shape, kerf), rooms))
    return tuple(found)


def ways_of(piece: Piece) -> tuple[tuple[bool, tuple[Outline, ...]], ...]:
    """Whether it is turned, with its outline and holes as they lie then; nothing for a rectangle without."""
    if piece.outline is None:
        return (False, ()), (True, ())
    given = piece.outline, *piece.holes
    ways = given, tuple(half_round(ring, piece) for ring in given)
    across = (tuple(quarter_round(ring, piece.width) for ring in way) for way in ways)
    return *((False, way) for way in ways), *((True, way) for way in across)


def shape_of(piece: Piece) -> Polygon:
    """Its true outline, with its holes."""
    return box(0, 0, piece.length, piece.width) if piece.outline is None else Polygon(piece.outline, piece.holes)


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
    grown = Polygon(shape.exterior).buffer(kerf / 2 + coarse + 1, join_style="mitre", mitre_limit=_MITRE)
    return Polygon(grown.simplify(coarse).exterior)


def _shrunk(hole: Polygon, kerf: int) -> Iterator[Polygon]:
    """What a grown piece may fill of a hole."""
    west, south, east, north = hole.bounds
    coarse = max(east - west, north - south) / _COARSE if len(hole.exterior.coords) > _FINE else 0.0
    room = hole.buffer(-(kerf / 2 + coarse + 1), join_style="mitre", mitre_limit=_MITRE).simplify(coarse)
    yield from (each for each in getattr(room, "geoms", [room]) if not each.is_empty)


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
            known = self._barred[still, moving] = self._barred_by(self[still], self[moving])
            self._barred[moving, still] = half_turned(known)
        return known

    def _barred_by(self, still: Stance, moving: Stance) -> Geometry:
        """Wherever their outlines meet, but for where the one lies in a hole of the other."""
        self.looks += cost_of(still.grown, moving.grown)
        barred = blocked_by(still.grown, moving.grown)
        inside = [(hole, moving.grown, False) for hole in still.rooms]
        around = [(hole, still.grown, True) for hole in moving.rooms]
        for hole, other, turned in (*inside, *around):
            if _larger(hole, other):
                self.looks += cost_of(hole, other)
                free = fits_in(hole, other)
                barred = barred.difference(half_turned(free) if turned else free)
        return barred


def _larger(hole: Polygon, other: Polygon) -> bool:
    """Whether the rectangle round the one holds that round the other."""
    one, two = hole.bounds, other.bounds
    return bool(one[2] - one[0] >= two[2] - two[0] and one[3] - one[1] >= two[3] - two[1])
