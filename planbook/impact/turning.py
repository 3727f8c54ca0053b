"""An old piece turned in its own box: end for end, over, or a quarter, so that it may lie in the new shape.

Proper rotations only: no turn makes a piece its own mirror image. The grain stays along x, so a quarter turn is one
about the length, of a square section.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import Final

from planbook.impact.model import Triple, Turn
from planbook.impact.sheets import Sheet, told_part
from planbook.shape.walls import BORDERS
from planbook.statement.model import CutStated, FeatureStated, FrameStated, PartStated, SegmentStated

_SQUARE: Final = 0.05e6
"""Nanometres: a section is square whose sides differ by less."""
_STRAIGHT: Final = (0, 1, 2)
_ROLLED: Final = (0, 2, 1)
_CORNERS: Final = 4
_SIZES: Final = frozenset({"length", "width", "thickness", "diameter", "radius", "depth"})
"""Numbers that are as they were however a piece lies; all others say where something is."""
_ROUND: Final = frozenset({"diameter", "radius", "depth"})
_BORDERS: Final = {name.replace(" ", "_"): (axis, end) for axis in range(3) for end, name in enumerate(BORDERS[axis])}
_UP: Final = {(2, 1): "up", (2, -1): "down", (1, 1): "to the rear", (1, -1): "to the front"}


def turns_of(part: PartStated) -> Iterator[Turn]:
    """All turns but none that bring its box upon itself; quarter turns only of a piece with a plain outline."""
    _, width, thickness = part.size
    rolls = abs(width - thickness) < _SQUARE and _is_plain(part)
    for axes in (_STRAIGHT, _ROLLED) if rolls else (_STRAIGHT,):
        for x, y in product((1, -1), (1, -1)):
            turn = Turn(axes, (x, y, x * y if axes == _STRAIGHT else -x * y))
            if turn != Turn(_STRAIGHT, (1, 1, 1)):
                yield turn


def _is_plain(part: PartStated) -> bool:
    corners = {(x, y) for x in (0.0, part.size[0]) for y in (0.0, part.size[1])}
    return {side.start for side in part.outline} == corners and all(side.centre is None for side in part.outline)


def say_turn(turn: Turn) -> str:
    """`turned end for end, its old face up`."""
    face = turn.axes.index(2)
    rolled = "turned over about its length" if turn.axes == _STRAIGHT else "turned a quarter about its length"
    return f"{'turned end for end' if turn.signs[0] < 0 else rolled}, its old face {_UP[face, turn.signs[face]]}"


def laid(sheet: Sheet, turn: Turn) -> Sheet:
    """The piece that a sheet's numbers describe, so turned, with those of its numbers that hold however it lies."""
    sizes = _SIZES if turn.axes == _STRAIGHT else _ROUND
    dimensions = {
        name: replace(each, nominal=each.printed.value)
        for name, each in sheet.dimensions.items()
        if each.characteristic in (_SIZES if each.feature == "blank" else sizes)
    }
    return Sheet(_turned(told_part(sheet), turn), dimensions, sheet.general)


def _turned(part: PartStated, turn: Turn) -> PartStated:
    size = turn.vector(part.size, signed=False)
    features = {name: _feature(each, part.size, turn) for name, each in part.features.items()}
    return replace(part, size=size, outline=_outline(part, size, turn), features=features)


def _feature(feature: FeatureStated, size: Triple, turn: Turn) -> FeatureStated:
    cuts = tuple(_cut(each, size, turn) for each in feature.cuts)
    return replace(feature, face=_face(feature.face, turn), cuts=cuts)


def _cut(cut: CutStated, size: Triple, turn: Turn) -> CutStated:
    frame = cut.frame
    axes = (turn.vector(each) for each in (frame.u, frame.v, frame.normal))
    return replace(cut, frame=FrameStated(_point(frame.origin, size, turn), *axes))


def _face(name: str, turn: Turn) -> str:
    axis, end = _BORDERS[name]
    there = turn.axes.index(axis)
    return BORDERS[there][end if turn.signs[there] > 0 else 1 - end].replace(" ", "_")


def _outline(part: PartStated, size: Triple, turn: Turn) -> tuple[SegmentStated, ...]:
    """Still counter-clockwise seen from the face: that of a piece whose old back is up is seen from behind."""
    if turn.axes != _STRAIGHT:
        x, y, _ = size
        corners = [(0.0, 0.0), (x, 0.0), (x, y), (0.0, y)]
        return tuple(SegmentStated(corners[at], corners[(at + 1) % _CORNERS]) for at in range(_CORNERS))
    sides = tuple(_side(each, part.size, turn) for each in part.outline)
    if turn.signs[2] > 0:
        return sides
    return tuple(replace(each, start=each.end, end=each.start) for each in reversed(sides))


def _side(side: SegmentStated, size: Triple, turn: Turn) -> SegmentStated:
    def flat(point: tuple[float, float]) -> tuple[float, float]:
        x, y, _ = _point((*point, 0.0), size, turn)
        return x, y

    centre = None if side.centre is None else flat(side.centre)
    return replace(side, start=flat(side.start), end=flat(side.end), centre=centre)


def _point(point: Triple, size: Triple, turn: Turn) -> Triple:
    x, y, z = (
        point[axis] if sign > 0 else size[axis] - point[axis] for axis, sign in zip(turn.axes, turn.signs, strict=True)
    )
    return x, y, z
