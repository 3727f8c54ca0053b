"""What one of two shapes has that the other has not, as pieces of wood. Millimetres."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from typing import Final

import numpy as np
from manifold3d import Manifold

from planbook.dimension.completeness.record import Plane, Removed, Segment, Shape
from planbook.impact.model import Triple
from planbook.motion.distance import distances
from planbook.shape.geometry import Arc, Frame, Line, Loop, Point, Vec
from planbook.shape.model import Cut
from planbook.shape.solids import Mesh, body_of_cuts, mesh_of_cuts, spaces_of
from planbook.shape.solids.surfaces import Floats

NOISE: Final = 0.06
"""What is no thicker may be the facets of two rounds (shape.solids.facets)."""
_WEDGE: Final = 4.0
"""No piece is so many times as thick anywhere as in the mean, unless it is a spike."""
_STAY: Final = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of wood that hangs together: its volume, its box, and how thick it is in the mean."""

    volume: float
    low: Triple
    high: Triple
    thickness: float


def outside(one: Shape, other: Shape, thicker: float = NOISE, moved: Triple = _STAY) -> tuple[Piece, ...]:
    """The wood of one shape that the other has not, in pieces thicker than so; the one is moved first."""
    pieces = (_piece(each) for each in _pieces(one, other, thicker, moved))
    return tuple(sorted(pieces, key=lambda each: (-round(each.volume, 3), each.low)))


def _pieces(one: Shape, other: Shape, thicker: float, moved: Triple) -> list[Manifold]:
    if any(moved):
        rest = body_of_cuts(*_bare(one)).translate(moved) - body_of_cuts(*_bare(other))
    else:
        rest = _difference(one, other)
    if rest.is_empty() or rest.volume() <= 0:
        return []
    return [each for each in rest.decompose() if _is_thicker(each, other, thicker)]


def skins_outside(one: Shape, other: Shape, moved: Triple = _STAY, thicker: float = NOISE) -> Floats:
    """(m, 3, 3): the triangles round that wood."""
    pieces = _pieces(one, other, thicker, moved)
    return np.concatenate([np.zeros((0, 3, 3)), *(_triangles(each) for each in pieces)])


def mesh_of_shape(shape: Shape) -> Mesh:
    """What its cuts leave of its blank."""
    return mesh_of_cuts(*_bare(shape))


def _difference(one: Shape, other: Shape) -> Manifold:
    """The one without the other. What both cut alike is cut last, from what little is left; of the same blank, only
    what the cuts of the other take can be left."""
    alike = frozenset(
        name for name, each in one.features.items() if name in other.features and each.cuts == other.features[name].cuts
    )
    if (one.size, one.outline) == (other.size, other.outline):
        rest = _spaces(other, alike) - _spaces(one, alike)
        rest = rest if rest.is_empty() else rest ^ body_of_cuts(Vec(*one.size), loop_of(one.outline), ())
    else:
        rest = body_of_cuts(*_bare(one, alike)) - body_of_cuts(*_bare(other, alike))
    return rest if rest.is_empty() else rest - _spaces(one, one.features.keys() - alike)


def _spaces(shape: Shape, but: AbstractSet[str]) -> Manifold:
    """What the features of a shape take away, but for some of them."""
    return spaces_of(*_bare(shape, but))


def _bare(shape: Shape, without: AbstractSet[str] = frozenset()) -> tuple[Vec, Loop, tuple[Cut, ...]]:
    """Blank, outline and cuts of a shape, but for some features."""
    cuts = tuple(_cut(cut) for name, each in shape.features.items() if name not in without for cut in each.cuts)
    return Vec(*shape.size), loop_of(shape.outline), cuts


def _thickness(body: Manifold) -> float:
    """In the mean: that of a board, and of the ring by which a hole is larger."""
    return 2 * float(body.volume()) / float(body.surface_area())


def _is_thicker(body: Manifold, other: Shape, least: float) -> bool:
    """In the mean, or a wedge at its thick end: how far its corners lie from the other's skin."""
    thickness = _thickness(body)
    if thickness > least or thickness * _WEDGE < least:
        return thickness > least
    skin = mesh_of_shape(other).corners
    return bool(len(skin)) and float(distances(_corners(body), skin).max()) > least


def _piece(body: Manifold) -> Piece:
    corners = _corners(body)
    (x0, y0, z0), (x1, y1, z1) = corners.min(axis=0).tolist(), corners.max(axis=0).tolist()
    return Piece(float(body.volume()), (x0, y0, z0), (x1, y1, z1), _thickness(body))


def _triangles(body: Manifold) -> Floats:
    raw = body.to_mesh64()
    return _corners(body)[np.asarray(raw.tri_verts, dtype=np.int64).reshape(-1, 3)]


def _corners(body: Manifold) -> Floats:
    return np.asarray(body.to_mesh64().vert_properties, dtype=np.float64)[:, :3]


def _cut(cut: Removed) -> Cut:
    return Cut(
        _frame(cut.frame),
        loop_of(cut.loop),
        cut.depth,
        tuple(loop_of(island) for island in cut.islands),
        None if cut.bottom is None else loop_of(cut.bottom),
        cut.lift,
        cut.climbs,
    )


def _frame(plane: Plane) -> Frame:
    return Frame(Vec(*plane.origin), Vec(*plane.u), Vec(*plane.v), Vec(*plane.normal))


def loop_of(loop: tuple[Segment, ...]) -> Loop:
    """A stated loop as geometry."""
    return Loop(tuple(_segment(each) for each in loop))


def _segment(each: Segment) -> Line | Arc:
    start, end = Point(*each.start), Point(*each.end)
    return Line(start, end) if each.centre is None else Arc(start, end, Point(*each.centre), each.ccw)
