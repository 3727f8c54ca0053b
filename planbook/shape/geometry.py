"""Plane and space geometry in nanometres: points, segments, loops, frames. Plain values, no tolerance of their own."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple


class Point(NamedTuple):
    """A point in a face's plane."""

    x: float
    y: float


class Vec(NamedTuple):
    """A point or direction in space."""

    x: float
    y: float
    z: float


@dataclass(frozen=True, slots=True)
class Line:
    """A straight segment."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc from start to end round centre; counter-clockwise when `ccw`. Start == end is a full circle."""

    start: Point
    end: Point
    centre: Point
    ccw: bool

    @property
    def radius(self) -> float:
        """The distance from the centre to the start."""
        return math.hypot(self.start.x - self.centre.x, self.start.y - self.centre.y)


Segment = Line | Arc


@dataclass(frozen=True, slots=True)
class Loop:
    """A closed counter-clockwise chain of segments. `names[i]` is the vertex where segment i starts, "" if none."""

    segments: tuple[Segment, ...]
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Frame:
    """A plane in the part's space: (u, v) are the plane's axes; `normal` points out of the wood. Unit vectors."""

    origin: Vec
    u: Vec
    v: Vec
    normal: Vec

    def place(self, point: Point, depth: float = 0.0) -> Vec:
        """The space point under a plane point, so deep into the wood."""
        o, u, v, n = self.origin, self.u, self.v, self.normal
        return Vec(
            o.x + u.x * point.x + v.x * point.y - n.x * depth,
            o.y + u.y * point.x + v.y * point.y - n.y * depth,
            o.z + u.z * point.x + v.z * point.y - n.z * depth,
        )
