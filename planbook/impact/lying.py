"""Whether an old piece can lie in a new shape at all, by some points of its cuts: quick, where solids are slow."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

import numpy as np
import shapely
from shapely.affinity import translate

from planbook.dimension.completeness.record import Removed, Segment, Shape
from planbook.impact.model import Triple
from planbook.impact.wood import loop_of
from planbook.measure.units import MILLIMETRE
from planbook.shape.loops import flatten
from planbook.shape.solids.surfaces import Floats

_SIDES = 4
_RIM = 0.05 * MILLIMETRE
"""How far within a cut's sides a point lies that is surely in it."""
_MORE = 1.1
"""A crescent is as thick as that where it is thickest, and wood thicker than the tolerance is lacking."""
_SQUARE = 1e-9
_DEEP = 4.0
"""A cut that is smaller than so many times the tolerance may be made good within it."""


def can_lie(old: Shape, new: Shape, shift: Triple, thicker: float) -> bool:
    """Whether the old blank, moved so far, covers the new, and none of its cuts reaches well into wood of the new.

    `shift` and `thicker`, the tolerance, in millimetres. True says only that solids have to tell; False that wood
    thicker than the tolerance is lacking.
    """
    reach, move = _MORE * thicker * MILLIMETRE, np.array(shift) * MILLIMETRE
    if np.any(move > reach) or np.any(move + old.size < np.array(new.size) - reach):
        return False
    blank, x_y = _region(new.outline), (float(move[0]), float(move[1]))
    if not translate(_region(old.outline), *x_y).buffer(reach).covers(blank):
        return False
    points = _points(old, thicker * MILLIMETRE) + move
    within = shapely.contains_xy(blank.buffer(-reach), points[:, 0], points[:, 1])
    within &= (points[:, 2] > reach) & (points[:, 2] < new.size[2] - reach)
    boxes = np.array([_box(cut) for feature in new.features.values() for cut in feature.cuts]).reshape(-1, 2, 3)
    cut = (points[:, None] > boxes[None, :, 0] - reach) & (points[:, None] < boxes[None, :, 1] + reach)
    covered = np.any(np.all(cut, axis=2), axis=1)
    return not bool(np.any(within & ~covered))


def _points(shape: Shape, tolerance: float) -> Floats:
    """(n, 3): of each of its cuts that lies square and is no mere scratch the middle, and near its sides."""
    found = [np.zeros((0, 3))]
    for feature in shape.features.values():
        for cut in feature.cuts:
            low, high = _box(cut)
            low, high = np.maximum(low, 0.0), np.minimum(high, shape.size)
            if _is_square(cut) and (high - low).min() > _DEEP * tolerance:
                middle, half = (low + high) / 2, (high - low) / 2
                spokes = np.diag(half - _RIM)
                found.append(np.concatenate([[middle], middle + spokes, middle - spokes]))
    return np.concatenate(found)


def _is_square(cut: Removed) -> bool:
    """A circle, a rectangle or a slot along the part's axes, with nothing standing in it."""
    square = all(max(map(abs, axis)) >= 1 - _SQUARE for axis in (cut.frame.u, cut.frame.normal))
    if cut.islands or cut.bottom or cut.climbs or not square:
        return False
    if len({side.centre for side in cut.loop}) == 1 and cut.loop[0].centre is not None:
        return True
    straight = [side for side in cut.loop if side.centre is None]
    along = all(any(abs(a - b) < 1 for a, b in zip(side.start, side.end, strict=True)) for side in straight)
    return along and len(cut.loop) == _SIDES and len(straight) in (_SIDES, _SIDES // 2)


def _box(cut: Removed) -> Floats:
    """(2, 3): its least and greatest corner."""
    points = np.array([cut.frame.place(point, depth) for point in _corners(cut.loop) for depth in (0.0, cut.depth)])
    return np.stack([points.min(axis=0), points.max(axis=0)])


def _corners(loop: tuple[Segment, ...]) -> Iterator[tuple[float, float]]:
    """Ends of the sides; round an arc those of the box of its whole circle."""
    for side in loop:
        yield side.start
        if side.centre is not None:
            x, y = side.centre
            radius = math.dist(side.start, side.centre)
            yield from ((x - radius, y - radius), (x + radius, y + radius))


@lru_cache(maxsize=1024)
def _region(outline: tuple[Segment, ...]) -> shapely.Polygon:
    return shapely.Polygon(flatten(loop_of(outline)))
