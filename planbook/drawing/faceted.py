"""Views of parts whose surfaces meet in other curves than lines and circles, from the part as a solid.

Where a tilted cut or a round one meets another surface, ellipses and curves in space come about. `sight` answers
everything from lines and arcs; here the solid's mesh does, whose chords stay within 0.05 mm of the true curve.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Final

import shapely

from planbook.drawing.curves import TINY, XY, Arc, Curve, Line
from planbook.drawing.facing import Facing
from planbook.drawing.hidden import Sight, lines_of, scene_of
from planbook.drawing.merge import Piece
from planbook.drawing.solid import Plane, Prism, Solid
from planbook.shape.geometry import Arc as LoopArc
from planbook.shape.geometry import Frame, Loop, Point, Segment, Vec
from planbook.shape.geometry import Line as LoopLine
from planbook.shape.model import Cut
from planbook.shape.solids import Mesh, mesh_of_cuts

_NM: Final = 1e6
"""Nanometres in a millimetre."""
_NAME: Final = "part"
_WITHIN: Final = 0.06
"""Millimetres within which a line was there before."""


def is_faceted(solid: Solid) -> bool:
    """Whether lines and arcs do not draw it: a tilted or climbing cut, round wood with something cut into it."""
    return any(_is_tilted(cut) or cut.climbs or _leaves_round(cut) for cut in solid.cuts)


def _is_tilted(cut: Prism) -> bool:
    return max(abs(component) for component in cut.plane.normal) < 1 - 1e-9


def _leaves_round(cut: Prism) -> bool:
    return any(isinstance(curve, Arc) and curve.full for island in cut.islands for curve in island)


def see_faceted(solid: Solid, facing: Facing, emphasise: frozenset[str]) -> tuple[Piece, ...]:
    """The pieces of a view, ranked as in `sight.see`; pieces of one curve follow one another."""
    lines = list(_lines(solid, facing))
    others = tuple(cut for cut in solid.cuts if cut.feature not in emphasise)
    if len(others) == len(solid.cuts):
        return tuple(Piece(line, 1 if seen else 2) for line, seen in lines)
    # What is seen only because of the features in question is theirs.
    plain = shapely.MultiLineString(
        [(line.start, line.end) for line, seen in _lines(replace(solid, cuts=others), facing) if seen]
    )
    shapely.prepare(plain)
    own = shapely.distance(plain, shapely.points([line.point(0.5) for line, _ in lines])) > _WITHIN
    return tuple(Piece(line, 2 if not seen else 0 if new else 1) for (line, seen), new in zip(lines, own, strict=True))


def _lines(solid: Solid, facing: Facing) -> Iterator[tuple[Line, bool]]:
    """Straight pieces, and whether each is seen."""
    for chain in lines_of(scene_of({_NAME: mesh_of_solid(solid)}, facing), hidden=(_NAME,)):
        ends = pairwise(chain.points)
        yield from ((Line(a, b), chain.sight is Sight.SEEN) for a, b in ends if math.dist(a, b) > TINY)


def mesh_of_solid(solid: Solid) -> Mesh:
    """The part's mesh, in millimetres."""
    blank = Vec(*(_grains(measure) for measure in solid.size))
    return mesh_of_cuts(blank, _loop(solid.blank.loop), tuple(_cut(cut) for cut in solid.cuts))


def _cut(cut: Prism) -> Cut:
    bottom = None
    if cut.cone is not None:
        centre, _ = cut.round
        bottom = _loop((Arc(centre, cut.cone, 0.0, math.tau),))
    islands = tuple(_loop(island) for island in cut.islands)
    climbs = None if cut.climbs is None else (_grains(cut.climbs[0]), _grains(cut.climbs[1]))
    return Cut(_frame(cut.plane), _loop(cut.loop), _grains(cut.depth), islands, bottom, climbs=climbs)


def _frame(plane: Plane) -> Frame:
    return Frame(Vec(*(_grains(c) for c in plane.origin)), Vec(*plane.u), Vec(*plane.v), Vec(*plane.normal))


def _loop(curves: tuple[Curve, ...]) -> Loop:
    return Loop(tuple(_segment(curve) for curve in curves))


def _segment(curve: Curve) -> Segment:
    if isinstance(curve, Line):
        return LoopLine(_point(curve.start), _point(curve.end))
    start = _point(curve.start)
    end = start if curve.full else _point(curve.end)
    return LoopArc(start, end, _point(curve.centre), curve.sweep > 0)


def _point(p: XY) -> Point:
    return Point(_grains(p.x), _grains(p.y))


def _grains(millimetres: float) -> float:
    return millimetres * _NM
