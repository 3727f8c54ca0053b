"""Two components as the one moves past the other: how near they come, and how deep they lie in one another.

A gap changes between two places by no more than the one moves as seen from the other: so a gap that is known bounds its
neighbours, from below and from above. Places that cannot be the least are never measured, and the kernel never looks
further than the gap can be.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final

import numpy as np
from manifold3d import Manifold

from planbook.motion.contact import LEAST_OVERLAP, Solid, overlap_of
from planbook.motion.paths import Path, corners_of
from planbook.shape.solids.surfaces import Floats, Whole

FINE: Final = 0.01
"""Millimetres to which a least gap is found."""
_CLOSE: Final = 4.0
"""Millimetres within which only what is close to the other's way is looked at: what a step and a clearance come to."""
_FEW: Final = 100
"""Triangles of a solid of which nothing is left out."""
ROUNDING: Final = 1e-6
"""Millimetres that say nothing."""


@dataclass(frozen=True, eq=False)
class Facing:
    """A solid that moves past another; `moving` is its path as seen from that.

    `boxes` and `other_boxes` (n, 2, 3) are their least and greatest corners at each place, in the same space.
    """

    solid: Solid
    other: Solid
    moving: Path
    boxes: Floats
    other_boxes: Floats
    _known: dict[int, float] = field(default_factory=dict)

    @cached_property
    def apart(self) -> Floats:
        """(n,): the distance between the boxes at each place, which is never more than the gap."""
        between = np.maximum(self.boxes[:, 0] - self.other_boxes[:, 1], self.other_boxes[:, 0] - self.boxes[:, 1])
        return np.asarray(np.linalg.norm(np.maximum(between, 0.0), axis=1))

    def least_gap(self, reach: float) -> tuple[float, int]:
        """The least gap of all places, up to `reach`, to `FINE`, and its place; of those where it is the same but for
        rounding the one that was looked at first.
        """
        least, best, where = self.apart.copy(), reach, 0
        open_places = least < best
        while open_places.any():
            place = int(np.argmax(open_places & (least <= least[open_places].min() + ROUNDING)))
            gap = self.gap(place, reach)
            if gap < best - ROUNDING:
                best, where = gap, place
            least = np.maximum(least, gap - self.moved_from(place))
            least[place] = np.inf
            open_places = least < best - FINE
        return best, where

    def gap(self, place: int, reach: float) -> float:
        """At a place, up to `reach`; 0 where they touch or lie in one another."""
        if place not in self._known:
            gap = self._measured(place, min(reach, self._most(place)))
            if gap >= reach:
                return reach
            self._known[place] = gap
        return min(self._known[place], reach)

    def deepest(self, touching: int) -> tuple[float, int]:
        """How deep they lie in one another at most, and where; 0 at `touching` where they only touch."""
        deep = [(self._depth(int(place)), int(place)) for place in self._meeting if not self._known.get(int(place), 0)]
        return max(deep, default=(0.0, touching), key=lambda each: each[0])

    def moved_from(self, place: int) -> Floats:
        """(n,): no point of the solid moves further than this between each place and this one."""
        return np.asarray(np.abs(self._run - self._run[place]))

    @cached_property
    def _run(self) -> Floats:
        return np.concatenate([[0.0], np.cumsum(self.moving.greatest_steps(self.solid.low, self.solid.high))])

    def _most(self, place: int) -> float:
        """What the gap there is less than, as far as the others tell."""
        moved = self.moved_from(place)
        return min((gap + float(moved[at]) + ROUNDING for at, gap in self._known.items()), default=np.inf)

    def _measured(self, place: int, most: float) -> float:
        matrix = self.moving.matrix(place)
        one, other = self._close
        gap = float(one.transform(matrix).min_gap(other, min(most, _CLOSE)))
        if gap < _CLOSE or most <= _CLOSE:
            return gap
        return float(self.solid.body.transform(matrix).min_gap(self.other.body, most))

    @cached_property
    def _close(self) -> tuple[Manifold, Manifold]:
        """Of both what comes within `_CLOSE` of the other somewhere."""
        there = self.moving.moved(corners_of(self.solid.low, self.solid.high))
        return (
            _clipped(self.solid, *self.moving.seen_back(self.other.low, self.other.high)),
            _clipped(self.other, there.min(axis=(0, 1)), there.max(axis=(0, 1))),
        )

    @property
    def _meeting(self) -> Whole:
        """The places at which the boxes lie in one another."""
        low = np.maximum(self.boxes[:, 0], self.other_boxes[:, 0])
        high = np.minimum(self.boxes[:, 1], self.other_boxes[:, 1])
        return np.flatnonzero(np.all(high - low > LEAST_OVERLAP, axis=1))

    def _depth(self, place: int) -> float:
        one, other = self._close
        mesh = self.solid.mesh.turned(self.moving.turn[place], self.moving.shift[place])
        overlap = overlap_of(Solid(mesh, one.transform(self.moving.matrix(place))), Solid(self.other.mesh, other))
        return 0.0 if overlap is None else overlap.depth


def least_gaps(several: Sequence[Facing], reach: float, places: int) -> tuple[float, ...]:
    """The least gap of several at each of so many places, up to `reach`. At each the one is tried first that was least
    at the place before; the others are measured only where their bounds let them be less.
    """
    bounds = [each.apart.copy() for each in several]
    found: list[float] = []
    first = 0
    for place in range(places):
        best = reach
        for number in sorted(range(len(several)), key=lambda number: (number != first, bounds[number][place])):
            if bounds[number][place] >= best:
                continue
            gap = several[number].gap(place, best)
            bounds[number] = np.maximum(bounds[number], gap - several[number].moved_from(place))
            if gap < best:
                best, first = gap, number
        found.append(best)
    return tuple(found)


def _clipped(solid: Solid, low: Floats, high: Floats) -> Manifold:
    """What of a solid lies within `_CLOSE` of a box."""
    low, high = low - _CLOSE, high + _CLOSE
    if len(solid.mesh.triangles) <= _FEW or (np.all(low <= solid.low) and np.all(high >= solid.high)):
        return solid.body
    return Manifold.cube((high - low).tolist()).translate(low.tolist()) ^ solid.body
