"""Where numbers put the coordinates of a part: each station, radius and angle, and all that lies between."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from planbook.dimension.audit.rebuild import Coordinate
from planbook.dimension.completeness.record import Pair, Plane, Triple
from planbook.dimension.completeness.unknowns import AXES, LEVEL, RADIUS, placed

_SAME_LEAN = 0.01
"""Degrees."""


@dataclass(frozen=True)
class Moves:
    """By how much numbers move what they fix. `size` is the blank as drawn."""

    size: Triple
    shifts: Mapping[tuple[str, str], tuple[tuple[float, float], ...]] = field(default_factory=dict)
    """By kind and owner (completeness.unknowns.Unknown): (where it is drawn, how far it moves), in order."""

    @cached_property
    def any(self) -> bool:
        """Whether something moves at all."""
        return any(shift for pairs in self.shifts.values() for _, shift in pairs)

    def station(self, axis: int, value: float, owner: str = "") -> float:
        """A place along an axis. What stands over a border of the blank goes with it; what no number fixes moves
        in step with the nearest that are fixed."""
        inside = min(max(value, 0.0), self.size[axis])
        shift = self._at(AXES[axis], inside, owner) if owner else None
        if shift is None:
            shift = self._between(self.shifts.get((AXES[axis], ""), ()), inside)
        return value + shift

    def own(self, kind: str, value: float, owner: str) -> float:
        """A radius, an angle or a depth that a feature has for itself."""
        return value + (self._at(kind, value, owner) or 0.0)

    def radius(self, value: float, owner: str) -> float:
        """A radius of a feature."""
        return self.own(RADIUS, value, owner)

    def point(self, plane: Plane, point: Pair) -> Pair:
        """A point in a plane that is square to an axis, as the same plane's coordinates."""
        there = list(plane.place(point))
        for axis, value in placed(plane, point):
            there[axis] = self.station(axis, value)
        arm = [a - b for a, b in zip(there, plane.origin, strict=True)]
        return (
            math.fsum(a * b for a, b in zip(arm, plane.u, strict=True)),
            math.fsum(a * b for a, b in zip(arm, plane.v, strict=True)),
        )

    def _at(self, kind: str, value: float, owner: str) -> float | None:
        same = _SAME_LEAN if kind.startswith("lean") else LEVEL
        near = [pair for pair in self.shifts.get((kind, owner), ()) if abs(pair[0] - value) < same]
        return min(near, key=lambda pair: abs(pair[0] - value))[1] if near else None

    def _between(self, known: tuple[tuple[float, float], ...], value: float) -> float:
        """At a known place its own shift; between two in proportion; beyond the last that of the last."""
        if not known:
            return 0.0
        after = bisect_left(known, (value - LEVEL, -math.inf))
        if after == len(known):
            return known[-1][1]
        here, shift = known[after]
        if abs(here - value) < LEVEL or not after:
            return shift
        before, other = known[after - 1]
        return other + (shift - other) * (value - before) / (here - before)


def moves_of(size: Triple, coordinates: Iterable[Coordinate], values: Mapping[str, float]) -> Moves:
    """What `values`, by dimension the difference from what was drawn (nanometres or degrees), do to a part."""
    shifts: dict[tuple[str, str], list[tuple[float, float]]] = {}
    for each in coordinates:
        shift = math.fsum(factor * values.get(name, 0.0) for name, factor in each.chain.items())
        shifts.setdefault((each.direction, each.owner), []).append((each.drawn, shift))
    return Moves(size, {key: tuple(sorted(pairs)) for key, pairs in shifts.items()})
