"""Upright rectangles within an outline and beside its holes, as room for lettering."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

import shapely
from shapely import LineString, Polygon, box

Box = tuple[float, float, float, float]
_STEPS: Final = 16
_MOST: Final = 6


Ring = Sequence[tuple[float, float]]


def rooms_within(outline: Ring, holes: Sequence[Ring] = ()) -> tuple[Box, ...]:
    """Some large ones, the largest first, each about the middle of a cell of a grid: corner, length and width.

    Where the wood is narrower than every cell, a place in it.
    """
    shape = Polygon(outline, holes)
    shapely.prepare(shape)
    found = sorted(_about_cells(shape), key=lambda each: (-each[2] * each[3], each))
    return tuple(found[:_MOST]) or (_place_in(shape),)


def _place_in(shape: Polygon) -> Box:
    """Towards a corner, so that a leader from two sides crosses none of its holes."""
    west, south, east, north = shape.bounds
    ray = shape.intersection(LineString([((west + east) / 2, (south + north) / 2), (west, north)]))
    place = shapely.get_parts(ray)[-1].centroid if not ray.is_empty else shape.representative_point()
    return float(place.x), float(place.y), 0.0, 0.0


def _about_cells(shape: Polygon) -> Iterator[Box]:
    west, south, east, north = shape.bounds
    step = (east - west) / _STEPS, (north - south) / _STEPS
    for column in range(1, _STEPS):
        for row in range(1, _STEPS):
            grown = _grown(shape, column, row, (west, south), step)
            if grown is not None:
                yield grown


def _grown(shape: Polygon, column: int, row: int, corner: tuple[float, float], step: tuple[float, float]) -> Box | None:
    """A cell grown to all sides in turn, as long as it stays within."""

    def covers(a: int, b: int, c: int, d: int) -> bool:
        x, y = corner
        return bool(shape.covers(box(x + a * step[0], y + b * step[1], x + c * step[0], y + d * step[1])))

    sides = [column, row, column + 1, row + 1]
    if not covers(*sides):
        return None
    moving = {0: -1, 1: -1, 2: 1, 3: 1}
    while moving:
        for side, way in tuple(moving.items()):
            tried = [each + way * (number == side) for number, each in enumerate(sides)]
            if covers(*tried):
                sides = tried
            else:
                del moving[side]
    a, b, c, d = sides
    return corner[0] + a * step[0], corner[1] + b * step[1], (c - a) * step[0], (d - b) * step[1]
