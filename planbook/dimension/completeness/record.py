"""A sheet as it stands in its file: the part's loops and cuts, and the dimensions that are printed. Nanometres."""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import TypeAdapter
from pydantic.dataclasses import dataclass

Pair = tuple[float, float]
Triple = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Segment:
    """A line, or an arc when it has a centre."""

    start: Pair
    end: Pair
    centre: Pair | None = None
    ccw: bool = True


@dataclass(frozen=True, slots=True)
class Plane:
    """Where a cut starts: its axes in the part's space, and the normal that points out of the wood."""

    origin: Triple
    u: Triple
    v: Triple
    normal: Triple

    def place(self, point: Pair, depth: float = 0.0) -> Triple:
        """The point in the part's space, so deep under the plane."""
        x, y, z = (
            o + u * point[0] + v * point[1] - n * depth
            for o, u, v, n in zip(self.origin, self.u, self.v, self.normal, strict=True)
        )
        return x, y, z


@dataclass(frozen=True, slots=True)
class Removed:
    """Wood removed: a loop, so deep; islands in it stay. A tapered one narrows to its bottom."""

    frame: Plane
    loop: tuple[Segment, ...]
    depth: float
    islands: tuple[tuple[Segment, ...], ...] = ()
    bottom: tuple[Segment, ...] | None = None
    lift: float = 0.0
    """How far a tilted cut's plane stands over what it is measured from; 0 for all others."""
    climbs: Pair | None = None
    """Of a floor along an arc: how deep it is where its first arc starts and ends."""


@dataclass(frozen=True, slots=True)
class Made:
    """A feature: what it removes; `count` of a row, or round a centre, hold one after the other.

    `kind` is its key in the content; `around` the centre of a pattern, in the plane of its cuts.
    """

    name: str
    cuts: tuple[Removed, ...]
    count: int = 1
    kind: str = ""
    around: Pair | None = None


@dataclass(frozen=True, slots=True)
class Shape:
    """The part that the sheet shows."""

    key: str
    title: str
    size: Triple
    outline: tuple[Segment, ...]
    features: Mapping[str, Made]


@dataclass(frozen=True, slots=True)
class Alike:
    """A place of another feature that a printed dimension counts too: `2x 12.2`."""

    feature: str
    points: tuple[Triple, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """A printed dimension."""

    id: str
    feature: str
    characteristic: str
    kind: str
    axis: str
    points: tuple[Triple, ...]
    nominal: float
    count: int = 1
    suffix: str = ""
    reference: bool = False
    also: tuple[Alike, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetRecord:
    """One sheet: its part and what is printed of it."""

    part: Shape
    dimensions: tuple[Told, ...]


_RECORD = TypeAdapter(SheetRecord)


def read_sheet_record(content: bytes) -> SheetRecord:
    """Read a sheet's file: JSON of the fields above; others are not looked at. Raises ValueError when it is damaged."""
    return _RECORD.validate_json(content)
