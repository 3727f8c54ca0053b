"""Nesting by true shape: each piece goes to a corner of the room that the pieces before it leave on the sheet.

That room is the sheet less all places that a lying piece bars, each a Minkowski sum, the "no-fit polygon" of the
literature (Bennell and Oliveira, "The geometry of nesting problems: a tutorial", 2008). Where a piece is put is
measured with the true outlines as well.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum

import numpy as np
import shapely
from shapely import Geometry, MultiPoint, Polygon
from shapely.affinity import translate

from planbook.cutting.free_filling import Box, without
from planbook.cutting.interlock import are_apart, moved
from planbook.cutting.offcuts import crowd
from planbook.cutting.opening import Filler
from planbook.cutting.plan import Bound, Layout, Placed, Rectangle
from planbook.cutting.problem import Bin, Problem
from planbook.cutting.search import Filled, Order, Search
from planbook.cutting.shrinking import smaller_stock
from planbook.cutting.spots import rectangles_left
from planbook.cutting.stances import Stance, Stances, Way, covered_area

Score = tuple[int, ...]


class Towards(Enum):
    """Where a piece goes: the place in which this is least."""

    END = "how far it reaches along"
    EDGE = "how far it reaches across"
    ROUND = "the rectangle round all pieces"


@dataclass(frozen=True)
class Lain:
    """A piece in its place, the corner of its rectangle at (x, y) within the trim."""

    way: Way
    x: int
    y: int
    stance: Stance
    shape: Polygon


class NestedSheet:
    """A bin that has been opened."""

    def __init__(self, bin_: Bin, stances: Stances) -> None:
        self.bin = bin_
        self.stances = stances
        self.lain: list[Lain] = []
        self.free: list[Box] = [(0, 0, bin_.length, bin_.width)]
        self._barred: dict[Way, tuple[int, Geometry]] = {}
        self._refused: set[int] = set()

    def kinds(self) -> list[int]:
        """The kinds of its pieces."""
        return [each.way[0] for each in self.lain]

    def largest_left(self) -> int:
        """Area of its largest free rectangle."""
        return max(((far_x - x) * (far_y - y) for x, y, far_x, far_y in self.free), default=0)

    def reach(self) -> tuple[int, int]:
        """How far its pieces reach along and across, kerf included."""
        along, across = self._far()
        return along + self.stances.kerf, across + self.stances.kerf

    def renumber(self, numbers: Sequence[int]) -> None:
        """Its pieces were of these kinds, told by their place in a shorter list."""
        self.lain = [replace(each, way=(numbers[each.way[0]], each.way[1])) for each in self.lain]

    def widened(self, whole: Bin) -> NestedSheet:
        """The same pieces in the corner of a larger sheet."""
        sheet = NestedSheet(whole, self.stances)
        for each in self.lain:
            sheet.put(each)
        return sheet

    def lay(self, kind: int, towards: Towards) -> bool:
        """Put a piece down; whether there is room. Where there was none, none will come."""
        found = None if kind in self._refused else self._best(kind, towards)
        if found is None:
            self._refused.add(kind)
            return False
        self.put(found)
        return True

    def put(self, lain: Lain) -> None:
        """Put a piece where it is known to fit."""
        kerf, stance = self.stances.kerf, lain.stance
        self.lain.append(lain)
        self.free = without(self.free, (lain.x, lain.y, lain.x + stance.length + kerf, lain.y + stance.width + kerf))

    def _best(self, kind: int, towards: Towards) -> Lain | None:
        far = self._far()
        best: tuple[Score, Lain] | None = None
        for number, stance in enumerate(self.stances.of_kind[kind]):
            for score, x, y in self._spots((kind, number), stance, towards, far):
                if best is not None and score >= best[0]:
                    break
                lain = Lain((kind, number), x, y, stance, translate(stance.shape, x, y))
                if self._is_clear(lain):
                    best = score, lain
                    break
        return None if best is None else best[1]

    def _far(self) -> tuple[int, int]:
        along = max((each.x + each.stance.length for each in self.lain), default=0)
        return along, max((each.y + each.stance.width for each in self.lain), default=0)

    def _spots(
        self, way: Way, stance: Stance, towards: Towards, far: tuple[int, int]
    ) -> Iterator[tuple[Score, int, int]]:
        """Corners of the room that there is, the best first."""
        kerf = self.stances.kerf
        spare = self.bin.length - kerf - stance.length, self.bin.width - kerf - stance.width
        if min(spare) < 0:
            return
        room = MultiPoint([(0, 0), spare]).envelope.difference(self._all_barred(way))
        corners = np.unique(np.rint(shapely.get_coordinates(room)), axis=0)
        self.stances.looks += _CORNER * len(corners) + _ROOM
        yield from sorted((_score(towards, int(x), int(y), stance, far), int(x), int(y)) for x, y in corners)

    def _all_barred(self, way: Way) -> Geometry:
        """Where this one may not lie, for all those that lie already."""
        count, barred = self._barred.get(way, (0, Polygon()))
        if count < len(self.lain):
            fresh = (translate(self.stances.barred(each.way, way), each.x, each.y) for each in self.lain[count:])
            barred = shapely.union_all([barred, *fresh])
            self.stances.looks += _CORNER * int(shapely.get_num_coordinates(barred)) + _ROOM
            self._barred[way] = len(self.lain), barred
        return barred

    def _is_clear(self, lain: Lain) -> bool:
        """Measured: sums of floating-point shapes may leave slivers of room that is none."""
        kerf = self.stances.kerf
        return all(are_apart(lain.shape, each.shape, kerf) for each in self.lain if _near(lain, each, kerf))


_CORNER, _ROOM = 10, 200
"""Looks for a corner, and for a piece of room."""


def _near(one: Lain, other: Lain, kerf: int) -> bool:
    """Whether their rectangles are."""
    return (
        one.x < other.x + other.stance.length + kerf
        and other.x < one.x + one.stance.length + kerf
        and one.y < other.y + other.stance.width + kerf
        and other.y < one.y + one.stance.width + kerf
    )


def _score(towards: Towards, x: int, y: int, stance: Stance, far: tuple[int, int]) -> Score:
    along, across = x + stance.length, y + stance.width
    if towards is Towards.END:
        return along, across, x
    if towards is Towards.EDGE:
        return across, along, y
    return max(along, far[0]) * max(across, far[1]), along + across, x


class _Filler(Filler[NestedSheet]):
    """What the effort does not reach any more is left."""

    def __init__(self, problem: Problem, towards: Towards, bins: Sequence[Bin], stances: Stances, most: int) -> None:
        super().__init__(problem, bins, turn_first=False)
        self.towards, self.stances, self.most = towards, stances, most

    def new(self, bin_: Bin) -> NestedSheet:
        return NestedSheet(bin_, self.stances)

    def together(self, unit: tuple[int, ...], sheet: NestedSheet) -> bool:
        trial = sheet.widened(sheet.bin)
        if not all(self.place(kind, (trial,)) for kind in unit):
            return False
        for each in trial.lain[len(sheet.lain) :]:
            sheet.put(each)
        return True

    def place(self, kind: int, sheets: Sequence[NestedSheet]) -> bool:
        before = self.stances.looks
        placed = before < self.most and any(sheet.lay(kind, self.towards) for sheet in sheets)
        self.looks += self.stances.looks - before
        return placed


def nest(problem: Problem, bound: Bound, effort: int) -> Filled[NestedSheet]:
    """All sorted orders towards all sides and variations of the best, the best of them on the smallest stock."""
    stances = Stances([kind.piece for kind in problem.kinds], problem.kerf)
    kinds = tuple(replace(kind, covers=covered_area(kind.piece, problem.kerf)) for kind in problem.kinds)

    def fill(problem: Problem, order: Order, towards: Towards, bins: Sequence[Bin]) -> Filled[NestedSheet]:
        return _Filler(problem, towards, bins, stances, 2 * effort).fill(order)

    search: Search[Towards, NestedSheet] = Search(replace(problem, kinds=kinds), fill, tuple(Towards), bound, effort)
    search.run(effort)
    sheets = crowd(search, smaller_stock(search, search.best.sheets), "xy")
    return Filled(sheets, search.best.left, search.looks)


def nested_layout_of(problem: Problem, sheet: NestedSheet) -> Layout:
    """Once over."""
    stock = sheet.bin.stock
    placed = tuple(_told(problem, each, stock.end_trim, stock.edge_trim) for each in sheet.lain)
    return Layout(stock.key, 1, placed, rectangles_left(sheet.free, stock, problem.kerf))


def _told(problem: Problem, lain: Lain, ends: int, edges: int) -> Placed:
    """On the stock as bought."""
    x, y, stance = lain.x + ends, lain.y + edges, lain.stance
    outline = None if stance.outline is None else moved(stance.outline, x, y)
    holes = tuple(moved(hole, x, y) for hole in stance.holes)
    place = Rectangle(x, y, stance.length, stance.width)
    return Placed(problem.kinds[lain.way[0]].piece.key, place, stance.turned, outline, holes)
