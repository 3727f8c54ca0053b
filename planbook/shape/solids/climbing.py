"""The body of a floor that climbs evenly along an arc: a helicoid, in facets whose lines to the centre are level."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

import numpy as np

from planbook.shape.geometry import Arc, Frame, Loop, Vec
from planbook.shape.loops import polar, sweep
from planbook.shape.solids.bodies import MM, Body, is_left_handed, skin, snapped, surfaces_under
from planbook.shape.solids.facets import Corner, corners
from planbook.shape.solids.surfaces import Surfaces

_TOGETHER: Final = 1e-9
"""Radians within which two corners stand on one line to the centre."""

Cell = tuple[list[int], list[int], float]
"""Corners of the floor between two lines to the centre: outer and inner ones, both onwards, and the angle half way."""


def climbing(frame: Frame, loop: Loop, depths: tuple[float, float], blank: Vec) -> Body:
    """The space under a band of a ring, `depths` nm deep where its first arc starts and ends, and evenly in between.

    Its walls have the corners of a prism over the same loop and no others, so that they lie in one with those of what
    is next to it. The floor is exact along lines to the centre and in the middle of each cell between two of them; what
    lies between stands off by less than a sixteenth of what the cell climbs. Surfaces as of a prism.
    """
    arc, inward = loop.segments[0], loop.segments[2]
    assert isinstance(arc, Arc)
    assert isinstance(inward, Arc)
    over, lead = corners(loop), (depths[1] - depths[0]) / sweep(arc)
    turns = _turns(arc, over)
    cells = list(_cells(over, turns))
    first, middle = math.degrees(_begin(arc)), (arc.radius + inward.radius) / 2
    tops = [corner.at for corner in over]
    floor = [*zip(tops, turns, strict=True)]
    floor += [(polar(arc.centre, middle, first + math.degrees(turn)), turn) for _, _, turn in cells]
    places = [frame.place(at) for at in tops] + [frame.place(at, depths[0] + lead * turn) for at, turn in floor]
    fans = [triangle for number, cell in enumerate(cells) for triangle in _fan(cell, len(over) + number)]
    triangles, faces = skin(over, len(loop.segments), np.asarray(fans, dtype=np.int64))
    # Where the floor comes up to the plane, its points are those of the plane and walls have no height.
    points, number_of = np.unique(snapped(np.array(places), blank) * MM, axis=0, return_inverse=True)
    triangles = number_of.ravel()[triangles]
    if is_left_handed(frame):
        triangles = triangles[:, ::-1]
    a, b, c = triangles.T
    real = (a != b) & (b != c) & (c != a)
    surfaces = _twisted(frame, surfaces_under(frame, loop, max(depths)), arc, lead)
    return Body(points, np.ascontiguousarray(triangles[real]), faces[real], surfaces)


def _begin(arc: Arc) -> float:
    return math.atan2(arc.start.y - arc.centre.y, arc.start.x - arc.centre.x)


def _turns(arc: Arc, over: Sequence[Corner]) -> list[float]:
    """How far each corner lies round the centre from where the band starts, in radians."""
    first, whole = _begin(arc), sweep(arc)
    turns = [(math.atan2(c.at.y - arc.centre.y, c.at.x - arc.centre.x) - first) % math.tau for c in over]
    # One at the very start may seem to lie a whole turn on.
    return [0.0 if turn > (whole + math.tau) / 2 else min(turn, whole) for turn in turns]


def _cells(over: Sequence[Corner], turns: Sequence[float]) -> Iterator[Cell]:
    """The floor parted by lines to the centre wherever both arcs have a corner."""
    outer = [number for number, corner in enumerate(over) if corner.side <= 1]
    inner = [number for number, corner in enumerate(over) if corner.side > 1][::-1]
    shared = [
        (i, j)
        for i, here in enumerate(outer)
        for j, there in enumerate(inner)
        if abs(turns[here] - turns[there]) < _TOGETHER
    ]
    for (i, j), (k, n) in pairwise(shared):
        yield outer[i : k + 1], inner[j : n + 1], (turns[outer[i]] + turns[outer[k]]) / 2


def _fan(cell: Cell, middle: int) -> Iterator[tuple[int, int, int]]:
    outer, inner, _ = cell
    border = [*outer, *inner[::-1], outer[0]]
    yield from ((one, other, middle) for one, other in pairwise(border))


def _twisted(frame: Frame, straight: Surfaces, arc: Arc, lead: float) -> Surfaces:
    """As of a prism, but for the floor: a helicoid about the axis of its arc."""
    origin, leads, curved = straight.origin.copy(), straight.lead.copy(), straight.curved.copy()
    origin[-1] = np.array(frame.place(arc.centre)) * MM
    leads[-1], curved[-1] = lead * MM * (-1 if is_left_handed(frame) else 1), True
    return replace(straight, origin=origin, lead=leads, curved=curved)
