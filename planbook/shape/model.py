"""A part is a blank plus named features, each of them cuts: a loop in a frame with a depth. Lengths in nanometres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planbook.design.values import Value
from planbook.measure.systems import Precision
from planbook.shape.geometry import Frame, Loop, Point, Vec
from planbook.shape.kinds import FeatureShape, Vertex
from planbook.source.models.part import FaceName, MethodModel, PartKind, PartModel


@dataclass(frozen=True, slots=True)
class Cut:
    """Wood removed: `loop` in `frame`, `depth` deep against the frame's normal; `islands` inside the loop stay.

    A tapered cut (countersink) narrows to `bottom` at its depth; without it the walls are square to the plane. The
    floor of one that `climbs` is as deep as that where its first arc, about whose centre it climbs evenly, starts and
    ends.
    """

    frame: Frame
    loop: Loop
    depth: float
    islands: tuple[Loop, ...] = ()
    bottom: Loop | None = None
    lift: float = 0.0
    """Of a tilted cut: how far its plane stands over what it is measured from. A leaning hole's centre at this depth is
    where its axis enters the face, and its own depth counts from there; an end cut ends at it."""
    climbs: tuple[float, float] | None = None
    """Of a band of a ring; `depth` is the greater of the two."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of `count` equal features. `shape` describes the first (nearest the datum)."""

    count: int
    pitch: Value
    along: str


@dataclass(frozen=True, slots=True)
class Ring:
    """`count` equal features about a centre in their face, `turn` degrees from one to the next.

    `step` is what the author wrote for that; None where they are equally spaced over a whole turn.
    """

    count: int
    centre: Point
    turn: float
    step: Value | None


@dataclass(frozen=True, slots=True)
class Origin:
    """What a position was measured from, and how far along the part's axis: below zero towards the datum."""

    feature: str
    value: Value


@dataclass(frozen=True, slots=True)
class Feature:
    """One named feature. `kind` is the content key (hole, slot, ...). `cuts` holds all of a row's or a ring's.

    `origins`: for a position by its content key (at, start, end), what it was measured from along the face's two axes;
    None for the datum. The shape's own positions are all from the datum.
    """

    name: str
    kind: str
    face: FaceName
    shape: FeatureShape
    cuts: tuple[Cut, ...]
    row: Row | None = None
    precision: Precision | None = None
    method: MethodModel | None = None
    note: str = ""
    origins: Mapping[str, tuple[Origin | None, Origin | None]] = field(default_factory=dict)
    ring: Ring | None = None

    @property
    def count(self) -> int:
        """How many there are, in a row or round a centre."""
        pattern = self.row or self.ring
        return pattern.count if pattern else 1

    @property
    def first(self) -> tuple[Cut, ...]:
        """The cuts of the first of them."""
        return self.cuts[: len(self.cuts) // self.count]


@dataclass(frozen=True, slots=True)
class CutPlane:
    """A plane that a section asked for lies in: `at` along the part's axis square to the view that it is seen from."""

    view: FaceName
    at: float


@dataclass(frozen=True, slots=True)
class Surround:
    """What a detail asked for shows: a circle about a place in the part, in a view or the section with that letter.

    `scale` as typed, paper to part; "" where it is left to the sheet.
    """

    view: str
    centre: Vec
    radius: float
    scale: str


@dataclass(frozen=True, slots=True)
class Part:
    """A part with all numbers resolved for one edition."""

    key: str
    number: int
    title: str
    kind: PartKind
    sheet: str
    stock: str
    as_drawn: int
    mirrored: int
    size: tuple[Value, Value, Value]
    outline: Loop
    """In the face plane (x, y); the blank's rectangle when the content names none."""
    vertices: tuple[Vertex, ...]
    """Empty for a plain rectangle."""
    features: Mapping[str, Feature]
    model: PartModel
    sections: Mapping[str, CutPlane] = field(default_factory=dict)
    """Those that are asked for, by letter."""
    details: Mapping[str, Surround] = field(default_factory=dict)
    """Those that are asked for, by letter."""

    @property
    def blank(self) -> Vec:
        """Length, width, thickness in nanometres."""
        return Vec(*(value.number for value in self.size))

    @property
    def quantity(self) -> int:
        """How many to make in all."""
        return self.as_drawn + self.mirrored


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a component stands: world = origin + x*px + y*py + z*pz for a part point (px, py, pz), in nanometres.

    For a mirrored component the part point's y is first replaced by width - y.
    """

    origin: Vec
    x: Vec
    y: Vec
    z: Vec
    mirrored: bool = False

    def __call__(self, point: Vec, width: float = 0.0) -> Vec:
        """A part's point in the world; `width` is the part's width, needed when mirrored."""
        py = width - point.y if self.mirrored else point.y
        o, x, y, z = self.origin, self.x, self.y, self.z
        return Vec(
            o.x + x.x * point.x + y.x * py + z.x * point.z,
            o.y + x.y * point.x + y.y * py + z.y * point.z,
            o.z + x.z * point.x + y.z * py + z.z * point.z,
        )


@dataclass(frozen=True, slots=True)
class Component:
    """A part, or a bought rod, placed. A rod is a cylinder about the part x axis: radius and length; its placement's
    origin is the centre of its near end and its x axis is the cylinder's axis."""

    name: str
    placement: Placement
    part: Part | None = None
    rod_title: str = ""
    rod_radius: float = 0.0
    rod_length: float = 0.0
    rod_bore: float = 0.0
    """Radius of the hole through a rod, 0.0 without one."""
