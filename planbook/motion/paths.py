"""How components move along a travel, as turns and shifts from where they stand first, and which move as one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.shape.model import Component
from planbook.shape.solids.bodies import MM
from planbook.shape.solids.surfaces import Floats

_SAME_TURN: Final = 1e-9
_SAME_PLACE: Final = 1e-4
"""Millimetres under which two components keep their place to one another."""


@dataclass(frozen=True, eq=False)
class Path:
    """A component at each of `n` places: a point p of it as it stands first is at `turn[k] @ p + shift[k]`."""

    turn: Floats
    """(n, 3, 3)"""
    shift: Floats
    """(n, 3), millimetres"""

    def seen_from(self, other: Path) -> Path:
        """The same, to somebody who moves along with another component."""
        back = np.transpose(other.turn, (0, 2, 1))
        return Path(back @ self.turn, np.einsum("nij,nj->ni", back, self.shift - other.shift))

    def matrix(self, place: int) -> Floats:
        """(3, 4), as the kernel takes it."""
        return np.concatenate([self.turn[place], self.shift[place][:, None]], axis=1)

    def at(self, places: Sequence[int]) -> Path:
        """Some of its places."""
        return Path(self.turn[places], self.shift[places])

    def moved(self, points: Floats) -> Floats:
        """(n, m, 3): where points (m, 3) are at each place."""
        return np.asarray(points @ np.transpose(self.turn, (0, 2, 1)) + self.shift[:, None, :])

    def seen_back(self, low: Floats, high: Floats) -> tuple[Floats, Floats]:
        """The box of all the places that a box which stands still takes, as seen by the one that moves."""
        corners = corners_of(low, high)
        seen = np.einsum("nji,nmj->nmi", self.turn, corners[None] - self.shift[:, None])
        return seen.min(axis=(0, 1)), seen.max(axis=(0, 1))

    def greatest_steps(self, low: Floats, high: Floats) -> Floats:
        """(n - 1,): how far any point of a box that moves so can get from one place to the next."""
        where = self.moved(corners_of(low, high))
        return np.asarray(np.linalg.norm(np.diff(where, axis=0), axis=2).max(axis=1))

    @property
    def rests(self) -> bool:
        """Whether it does not move at all."""
        return bool(np.abs(self.turn - np.eye(3)).max() < _SAME_TURN and np.abs(self.shift).max() < _SAME_PLACE)


def corners_of(low: Floats, high: Floats) -> Floats:
    """(8, 3): of a box."""
    return np.array(np.meshgrid(*zip(low, high, strict=True))).reshape(3, -1).T


def path_of(components: Sequence[Component]) -> Path:
    """One component at all places, the first being where it stands first."""
    frames = [_frame(each) for each in components]
    turns = np.array([turn for turn, _ in frames])
    origins = np.array([origin for _, origin in frames])
    turn = turns @ turns[0].T
    return Path(turn, origins - np.einsum("nij,j->ni", turn, origins[0]))


def _frame(component: Component) -> tuple[Floats, Floats]:
    """Axes as columns, and the origin of a mirrored part's own mirror image."""
    placement = component.placement
    turn = np.array([placement.x, placement.y, placement.z]).T
    origin = np.array(placement.origin) * MM
    if placement.mirrored and component.part is not None:
        origin = origin + turn[:, 1] * component.part.blank.y * MM
    return turn, origin
