"""A part built from numbers: its blank, its outline and its features, each cut where its coordinates went."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from planbook.dimension.audit.rebuild import Coordinate
from planbook.dimension.completeness.polar import BANDS
from planbook.dimension.completeness.record import Made, Pair, Plane, Removed, Shape
from planbook.dimension.completeness.tilted import is_tilted
from planbook.dimension.completeness.unknowns import FACE_PLANE, OUTLINE, level
from planbook.dimension.told.loops import Loop, moved_loop
from planbook.dimension.told.moves import Moves, moves_of
from planbook.dimension.told.tilting import moved_tilted
from planbook.dimension.told.turning import moved_band, moved_pattern


def told_shape(part: Shape, coordinates: Iterable[Coordinate], off: Mapping[str, float]) -> Shape:
    """The part that numbers describe.

    `coordinates` are those that audit.rebuild found for it; `off` is, by dimension, how far its number lies from the
    nominal (nanometres or degrees). Exact for stations; where a free arc or a cone lies between, to the first order.
    """
    moves = moves_of(part.size, coordinates, off)
    if not moves.any:
        return part
    x, y, z = (moves.station(axis, length) for axis, length in enumerate(part.size))
    return replace(
        part,
        size=(x, y, z),
        outline=_loop(part.outline, OUTLINE, FACE_PLANE, moves),
        features={name: _feature(each, moves) for name, each in part.features.items()},
    )


def _feature(feature: Made, moves: Moves) -> Made:
    if feature.around is None:
        return replace(feature, cuts=tuple(_cut(cut, feature, moves) for cut in feature.cuts))
    first = feature.cuts[: len(feature.cuts) // feature.count]
    cuts = tuple(_cut(cut, feature, moves, placed=feature.kind in BANDS) for cut in first)
    around = moves.point(first[0].frame, feature.around)
    return replace(feature, cuts=moved_pattern(feature, cuts, moves), around=around)


def _cut(cut: Removed, feature: Made, moves: Moves, *, placed: bool = True) -> Removed:
    """A cut with its top and bottom where they go; with `placed` its loops as well."""
    name = feature.name
    if is_tilted(cut):
        return moved_tilted(cut, name, moves)
    axis, top = level(cut.frame, 0.0)
    _, bottom = level(cut.frame, cut.depth)
    here, there = moves.station(axis, top), moves.station(axis, bottom, name)
    frame = _raised(cut.frame, axis, here)
    moved = replace(cut, frame=frame, depth=abs(there - here))
    if not placed:
        return moved
    if feature.kind in BANDS:
        return replace(moved, loop=moved_band(cut, name, moves), climbs=_climbs(cut, name, moves, here))
    return replace(
        moved,
        loop=_loop(cut.loop, name, cut.frame, moves),
        islands=tuple(_loop(island, name, cut.frame, moves) for island in cut.islands),
        bottom=None if cut.bottom is None else _loop(cut.bottom, name, cut.frame, moves),
    )


def _climbs(cut: Removed, name: str, moves: Moves, top: float) -> Pair | None:
    """How deep a floor along an arc is where it starts and ends; `top` is where its face went."""
    if cut.climbs is None:
        return None
    first, last = (abs(moves.station(*level(cut.frame, depth), name) - top) for depth in cut.climbs)
    return first, last


def _loop(loop: Loop, name: str, plane: Plane, moves: Moves) -> Loop:
    return moved_loop(loop, lambda at: moves.point(plane, at), lambda radius: moves.radius(radius, name))


def _raised(plane: Plane, axis: int, value: float) -> Plane:
    """The plane with its origin at another place along the axis that it is square to."""
    x, y, z = (value if each == axis else at for each, at in enumerate(plane.origin))
    return replace(plane, origin=(x, y, z))
