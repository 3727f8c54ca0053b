"""How near components come to one another along a travel, found without looking at every pair at every place.

Components that keep their place to one another are passed over; of the others only pairs whose boxes come within
`REACH` are looked at.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np

from planbook.motion.contact import Solid, solid_of
from planbook.motion.facing import FINE, Facing, least_gaps
from planbook.motion.paths import Path, path_of
from planbook.motion.travel import Place
from planbook.shape.solids.surfaces import Floats

REACH: Final = 25.0
"""Millimetres: what stays further apart is no concern."""


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
        solids = {each.name: solid_of(each) for each in places[0].components}
        self.solids = {name: solid for name, solid in solids.items() if len(solid.mesh.triangles)}
        by_name = [{each.name: each for each in place.components} for place in places]
        self.paths = {name: path_of([there[name] for there in by_name]) for name in self.solids}
        self._boxes = {name: _boxes(self.solids[name], path) for name, path in self.paths.items()}
        self._facing: dict[tuple[str, str], Facing | None] = {}

    def facing(self, one: str, other: str) -> Facing | None:
        """Two components, `one` as it moves past the other; None when they keep their place to each other. What is
        measured of them once is known to all who ask.
        """
        if (one, other) not in self._facing:
            moving = self.paths[one].seen_from(self.paths[other])
            bodies, boxes = (self.solids[one], self.solids[other]), (self._boxes[one], self._boxes[other])
            self._facing[one, other] = None if moving.rests else Facing(*bodies, moving, *boxes)
        return self._facing[one, other]

    def near(self, reach: float = REACH) -> Iterator[tuple[str, str]]:
        """Each pair that moves against each other and may come within `reach` (mm), in the order of the assembly."""
        for one, other in combinations(self.solids, 2):
            facing = self.facing(one, other)
            if facing is not None and facing.apart.min() <= reach:
                yield one, other

    def nearest(self, reach: float = REACH) -> Iterator[Nearest]:
        """Of each pair that comes within `reach` (mm)."""
        for pair in self.near(reach):
            found = self.nearest_of(*pair, reach)
            if found is not None:
                yield found

    def nearest_of(self, one: str, other: str, reach: float = REACH) -> Nearest | None:
        """Of one pair; None when the two keep their place to each other, or stay further apart than `reach` (mm)."""
        facing = self.facing(one, other)
        if facing is None:
            return None
        gap, place = facing.least_gap(reach)
        if gap > FINE:
            return Nearest(one, other, gap, place) if gap < reach else None
        depth, deepest = facing.deepest(place)
        return Nearest(one, other, -depth, deepest) if depth else Nearest(one, other, gap, place)

    def gaps(self, one: str, other: str) -> tuple[float, ...]:
        """The gap of a pair at every place, up to `REACH`; 0 where they touch or lie in one another."""
        return self.least_gaps([(one, other)])

    def least_gaps(self, pairs: Sequence[tuple[str, str]]) -> tuple[float, ...]:
        """The least gap of several pairs at every place, up to `REACH`; 0 where two touch or lie in one another. Pairs
        that keep their place to each other do not count.
        """
        facing = [each for pair in pairs if (each := self.facing(*pair)) is not None]
        return least_gaps(facing, REACH, len(next(iter(self.paths.values())).turn))


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
