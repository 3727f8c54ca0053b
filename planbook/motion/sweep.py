"""How near components come to one another along a travel, found without looking at every pair at every place.

Components that keep their place to one another are passed over; of the others only pairs whose boxes come within
`REACH` are looked at. A gap changes between two places by no more than the one component moves as seen from the other:
so a gap that is known bounds its neighbours, and places that cannot be the least are never measured.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np

from planbook.motion.contact import LEAST_OVERLAP, Solid, overlap_of
from planbook.motion.paths import Path, path_of
from planbook.motion.travel import Place
from planbook.shape.solids import mesh_of_component
from planbook.shape.solids.surfaces import Floats, Whole

REACH: Final = 25.0
"""Millimetres: what stays further apart is no concern."""
_FINE: Final = 0.01
"""Millimetres to which a least gap is found."""


@dataclass(frozen=True, slots=True)
class Nearest:
    """Where two components come nearest: the least gap in millimetres, or below zero how deep they lie in one another.

    `place` counts the places of the travel.
    """

    one: str
    other: str
    gap: float
    place: int


class Sweep:
    """The components of a travel as bodies with their paths."""

    def __init__(self, places: Sequence[Place]) -> None:
        first = places[0].components
        solids = {each.name: Solid(mesh_of_component(each)) for each in first}
        self.solids = {name: solid for name, solid in solids.items() if len(solid.mesh.triangles)}
        by_name = [{each.name: each for each in place.components} for place in places]
        self.paths = {name: path_of([there[name] for there in by_name]) for name in self.solids}
        self._boxes = {name: _boxes(self.solids[name], path) for name, path in self.paths.items()}

    def nearest(self, reach: float = REACH) -> Iterator[Nearest]:
        """Each pair that moves against each other and comes within `reach` (mm), in the order of the assembly."""
        for one, other in combinations(self.solids, 2):
            found = self.nearest_of(one, other, reach)
            if found is not None:
                yield found

    def nearest_of(self, one: str, other: str, reach: float = REACH) -> Nearest | None:
        """Of one pair; None when the two keep their place to each other, or stay further apart than `reach` (mm)."""
        moving = self.paths[one].seen_from(self.paths[other])
        if moving.rests:
            return None
        least = _apart(self._boxes[one], self._boxes[other])
        if least.min() > reach:
            return None
        gap, place = self._least_gap(one, other, moving, least, reach)
        if gap > 0:
            return Nearest(one, other, gap, place) if gap < reach else None
        depth, place = self._deepest(one, other, moving, place)
        return Nearest(one, other, -depth, place)

    def gaps(self, one: str, other: str) -> tuple[float, ...]:
        """The gap of a pair at every place, up to `REACH`; 0 where they touch or lie in one another."""
        moving = self.paths[one].seen_from(self.paths[other])
        return tuple(self._gap(one, other, moving, place, REACH) for place in range(len(moving.turn)))

    def _least_gap(self, one: str, other: str, moving: Path, least: Floats, reach: float) -> tuple[float, int]:
        """The least gap and its place. `least` bounds the gap at each place from below, and rises as gaps are known."""
        run = np.concatenate([[0.0], np.cumsum(greatest_steps(moving, self.solids[one]))])
        least = least.copy()
        best, where = reach, 0
        open_places = least < best
        while open_places.any():
            place = int(np.argmin(np.where(open_places, least, np.inf)))
            gap = self._gap(one, other, moving, place, reach)
            if gap < best:
                best, where = gap, place
            least = np.maximum(least, gap - np.abs(run - run[place]))
            least[place] = np.inf
            open_places = least < best - _FINE
        return best, where

    def _gap(self, one: str, other: str, moving: Path, place: int, reach: float) -> float:
        body = self.solids[one].body.transform(moving.matrix(place))
        return float(body.min_gap(self.solids[other].body, reach))

    def _deepest(self, one: str, other: str, moving: Path, touching: int) -> tuple[float, int]:
        """How deep they lie in one another, and where; 0 where they only touch."""
        deep = [(self._depth(one, other, moving, int(place)), int(place)) for place in self._meeting(one, other)]
        return max(deep, default=(0.0, touching), key=lambda each: each[0])

    def _meeting(self, one: str, other: str) -> Whole:
        """The places at which the boxes lie in one another."""
        low = np.maximum(self._boxes[one][:, 0], self._boxes[other][:, 0])
        high = np.minimum(self._boxes[one][:, 1], self._boxes[other][:, 1])
        return np.flatnonzero(np.all(high - low > LEAST_OVERLAP, axis=1))

    def _depth(self, one: str, other: str, moving: Path, place: int) -> float:
        mesh = self.solids[one].mesh
        turned = Solid(mesh.turned(moving.turn[place], moving.shift[place]))
        overlap = overlap_of(turned, self.solids[other])
        return 0.0 if overlap is None else overlap.depth


def groups_of(paths: Mapping[str, Path]) -> tuple[tuple[str, ...], ...]:
    """The components that move as one, in the order of the assembly."""
    groups: list[list[str]] = []
    for name, path in paths.items():
        home = next((group for group in groups if path.seen_from(paths[group[0]]).rests), None)
        if home is None:
            groups.append([name])
        else:
            home.append(name)
    return tuple(map(tuple, groups))


def _boxes(solid: Solid, path: Path) -> Floats:
    """(n, 2, 3): least and greatest corner at each place."""
    where = path.moved(np.unique(solid.mesh.points, axis=0))
    return np.stack([where.min(axis=1), where.max(axis=1)], axis=1)


def _apart(a: Floats, b: Floats) -> Floats:
    """(n,): the distance between two boxes at each place."""
    between = np.maximum(np.maximum(a[:, 0] - b[:, 1], b[:, 0] - a[:, 1]), 0.0)
    return np.asarray(np.linalg.norm(between, axis=1))


def greatest_steps(moving: Path, solid: Solid) -> Floats:
    """(n - 1,): how far any point of a solid can move from one place to the next, by the corners of its box."""
    low, high = solid.low, solid.high
    corners = np.array([[x, y, z] for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])])
    where = moving.moved(corners)
    return np.asarray(np.linalg.norm(np.diff(where, axis=0), axis=2).max(axis=1))
