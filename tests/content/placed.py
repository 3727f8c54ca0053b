"""Where features of placed parts are in the world, in millimetres."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planbook.shape.geometry import Arc, Vec
from planbook.shape.kinds import HoleShape
from planbook.shape.model import Component, Cut

from .sets import MILLIMETRE, Piece


def bounds(component: Component) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    """(least, greatest) along x, y and z of a part's blank or of a rod."""
    points = list(_corners(component))
    x, y, z = (tuple(axis) for axis in zip(*points, strict=True))
    return (min(x), max(x)), (min(y), max(y)), (min(z), max(z))


def centres(piece: Piece, name: str, feature: str) -> list[tuple[float, float, float]]:
    """The centres of a feature's holes in their faces, in order from the datum corner."""
    component = piece.components[name]
    assert component.part is not None
    made = component.part.features[feature]
    assert isinstance(made.shape, HoleShape)
    radius = made.shape.diameter.number / 2
    bores = [cut for cut in made.cuts if abs(_first_arc(cut).radius - radius) < 1]
    return [_world(component, cut.frame.place(_first_arc(cut).centre)) for cut in bores]


def vertex(piece: Piece, name: str, corner: str) -> tuple[float, float, float]:
    """A named corner of an outline, on the part's back."""
    component = piece.components[name]
    assert component.part is not None
    point = next(each.point for each in component.part.vertices if each.name == corner)
    return _world(component, Vec(point.x, point.y, 0))


def axis_gap(one: tuple[float, float, float], other: tuple[float, float, float], along: str) -> float:
    """How far apart two axes that run along a world axis are."""
    across = [index for index in range(3) if "xyz"[index] != along]
    return math.hypot(*(one[index] - other[index] for index in across))


def rod_axis(piece: Piece, name: str) -> tuple[float, float, float]:
    """A point on a rod's axis: the centre of its near end."""
    origin = piece.components[name].placement.origin
    return origin.x / MILLIMETRE, origin.y / MILLIMETRE, origin.z / MILLIMETRE


def _first_arc(cut: Cut) -> Arc:
    return next(segment for segment in cut.loop.segments if isinstance(segment, Arc))


def _world(component: Component, point: Vec) -> tuple[float, float, float]:
    assert component.part is not None
    placed = component.placement(point, component.part.blank.y)
    return placed.x / MILLIMETRE, placed.y / MILLIMETRE, placed.z / MILLIMETRE


def _corners(component: Component) -> Iterator[tuple[float, float, float]]:
    if component.part is None:
        yield from _rod_corners(component)
        return
    length, width, thickness = component.part.blank
    for x in (0.0, length):
        for y in (0.0, width):
            for z in (0.0, thickness):
                yield _world(component, Vec(x, y, z))


def _rod_corners(component: Component) -> Iterator[tuple[float, float, float]]:
    placement, r = component.placement, component.rod_radius
    for x in (0.0, component.rod_length):
        for y in (-r, r):
            for z in (-r, r):
                point = placement(Vec(x, y, z))
                yield point.x / MILLIMETRE, point.y / MILLIMETRE, point.z / MILLIMETRE
