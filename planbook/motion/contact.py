"""Which solids lie in one another, and which hang together. Millimetres; solids are closed meshes of the shape room."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import combinations
from typing import Final

import numpy as np
from manifold3d import Manifold, Mesh64

from planbook.motion.distance import Skin, distances
from planbook.shape.model import Component
from planbook.shape.solids import Mesh, mesh_as_made, stand_of
from planbook.shape.solids.surfaces import Floats

LEAST_OVERLAP: Final = 0.25
"""Half the finest step of woodwork: what rounded measures may leave, and more than the facets of two rounds differ."""
TOUCH: Final = 1.0
"""What is no further apart hangs together: a bolt in its clearance hole, with the play all on one side."""
_DUST: Final = 0.02
"""Mean thickness, twice the volume over the area, under which a shared space is what two touching faces share by
rounding."""


@dataclass(frozen=True, slots=True)
class Overlap:
    """A space that two solids share: its box, and how deep the one lies in the other."""

    one: str
    other: str
    low: tuple[float, float, float]
    high: tuple[float, float, float]
    depth: float


@dataclass(frozen=True, slots=True)
class Space:
    """A shared space: its box, and how deep the one lies in the other."""

    low: tuple[float, float, float]
    high: tuple[float, float, float]
    depth: float


@dataclass(frozen=True)
class Solid:
    """A placed mesh, its box, and the kernel's own form of it, which is made when it is wanted and not `given`."""

    mesh: Mesh
    given: Manifold | None = None

    @cached_property
    def low(self) -> Floats:
        """(3,)"""
        return np.asarray(self.mesh.points.min(axis=0))

    @cached_property
    def high(self) -> Floats:
        """(3,)"""
        return np.asarray(self.mesh.points.max(axis=0))

    @cached_property
    def body(self) -> Manifold:
        """For boolean operations and distances."""
        if self.given is not None:
            return self.given
        return Manifold(Mesh64(self.mesh.points, self.mesh.triangles.astype(np.uint64)))

    @cached_property
    def skin(self) -> Skin:
        """For distances from points."""
        return Skin(self.mesh.corners)

    def may_meet(self, other: Solid, apart: float) -> bool:
        """Whether the boxes come within this distance of one another; below zero, whether they overlap so far."""
        return bool(np.all(self.low - apart < other.high) and np.all(other.low - apart < self.high))


def solid_of(component: Component) -> Solid:
    """A component where it stands; the kernel makes its form of a part once, and only moves it afterwards."""
    made, (turn, shift) = mesh_as_made(component), stand_of(component)
    return Solid(made.turned(turn, shift), _kernel(made).transform(np.column_stack([turn, shift])))


@lru_cache(maxsize=512)
def _kernel(mesh: Mesh) -> Manifold:
    """The kernel's form of a mesh, which is known by its identity."""
    return Manifold(Mesh64(mesh.points, mesh.triangles.astype(np.uint64)))


class Contacts:
    """What solids do to one another. Two are looked at once, however many positions they stand in as they are."""

    def __init__(self) -> None:
        self._spaces: dict[tuple[Solid, Solid], Space | None] = {}
        self._touching: dict[tuple[Solid, Solid], bool] = {}

    def overlaps(self, solids: Mapping[str, Solid]) -> Iterator[Overlap]:
        """Each two that lie in one another by more than `LEAST_OVERLAP`. Faces that touch are no overlap."""
        for (one, a), (other, b) in combinations(solids.items(), 2):
            if not a.may_meet(b, -LEAST_OVERLAP):
                continue
            if (a, b) not in self._spaces:
                self._spaces[a, b] = overlap_of(a, b)
            space = self._spaces[a, b]
            if space is not None and space.depth > LEAST_OVERLAP:
                yield Overlap(one, other, space.low, space.high, space.depth)

    def islands(self, solids: Mapping[str, Solid]) -> tuple[tuple[str, ...], ...]:
        """The solids in groups that hang together: from one to the next it is never further than `TOUCH`."""
        group = {name: {name} for name in solids}
        for (one, a), (other, b) in combinations(solids.items(), 2):
            if group[one] is not group[other] and a.may_meet(b, TOUCH) and self._touch(a, b):
                group[one] |= group[other]
                for name in group[other]:
                    group[name] = group[one]
        distinct = {id(each): each for each in group.values()}
        return tuple(tuple(name for name in solids if name in each) for each in distinct.values())

    def _touch(self, a: Solid, b: Solid) -> bool:
        if (a, b) not in self._touching:
            self._touching[a, b] = a.body.min_gap(b.body, TOUCH * 1.001) <= TOUCH
        return self._touching[a, b]


def overlap_of(a: Solid, b: Solid) -> Space | None:
    """The space that two solids share; None where it is but the dust of faces that touch."""
    shared = a.body ^ b.body
    thickness = 0.0 if shared.is_empty() else 2 * shared.volume() / shared.surface_area()
    if thickness < _DUST:
        return None
    raw = shared.to_mesh64()
    corners = np.asarray(raw.vert_properties)[:, :3][np.asarray(raw.tri_verts, dtype=np.int64).reshape(-1, 3)]
    # Where the two are one and the same, no skin lies in the other: then it is the thickness that counts.
    depth = max(thickness, _depth(corners.mean(axis=1), a.mesh, b.mesh))
    low, high = corners.min(axis=(0, 1)), corners.max(axis=(0, 1))
    return Space((low[0], low[1], low[2]), (high[0], high[1], high[2]), depth)


def _depth(points: Floats, a: Mesh, b: Mesh) -> float:
    """The greatest distance from the skin of one to points of the other's skin that lie in it.

    `points` stand on the skin of the space that they share: each on the skin of one of the two.
    """
    return float(max(distances(points, _near(points, each)).max() for each in (a, b)))


def _near(points: Floats, mesh: Mesh) -> Floats:
    """The triangles about the points: none that may be the nearest is left out."""
    low, high = points.min(axis=0), points.max(axis=0)
    margin = float(np.linalg.norm(high - low)) + LEAST_OVERLAP
    corners = mesh.corners
    near = np.all((corners.min(axis=1) <= high + margin) & (corners.max(axis=1) >= low - margin), axis=1)
    return corners[near] if near.any() else corners
