"""A part is a blank plus named features, each of them cuts: a loop in a frame with a depth. Lengths in nanometres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planbook.design.values import Value
from planbook.measure.systems import Precision
from planbook.shape.geometry import Frame, Loop, Point, Vec
from planbook.source.models.part import Edge, FaceName, MethodModel, PartKind, PartModel
from planbook.source.models.slopes import Side


@dataclass(frozen=True, slots=True)
class Cut:
    """Wood removed: `loop` in `frame`, `depth` deep against the frame's normal; `islands` inside the loop stay.

    A tapered cut (countersink) narrows to `bottom` at its depth; without it the walls are square to the plane.
    """

    frame: Frame
    loop: Loop
    depth: float
    islands: tuple[Loop, ...] = ()
    bottom: Loop | None = None
    lift: float = 0.0
    """Of a tilted cut: how far its plane stands over what it is measured from. A leaning hole's centre at this depth is
    where its axis enters the face, and its own depth counts from there; an end cut ends at it."""


Lean = tuple[Value | None, Value | None]
"""The angles by which an axis is off square along a face's two axes, above zero away from the datum on its way in."""


@dataclass(frozen=True, slots=True)
class Vertex:
    """A named corner of the outline as authored (before rounding)."""

    name: str
    at: tuple[Value, Value]
    point: Point
    round: Value | None
    through: tuple[Value, Value] | None


@dataclass(frozen=True, slots=True)
class HoleShape:
    """A round hole; `at` is its centre on the face."""

    diameter: Value
    at: tuple[Value, Value]
    depth: Value | None
    counterbore: tuple[Value, Value] | None
    """(diameter, depth)"""
    countersink: tuple[Value, Value] | None
    """(diameter, angle)"""
    circle: tuple[Value, Value | None] | None = None
    """Of several round a centre, where `at` is: (diameter of the circle, angle of the first from the first axis)."""
    lean: Lean = (None, None)


@dataclass(frozen=True, slots=True)
class SlotShape:
    """A slot; `start` and `end` are the centres of its round ends."""

    width: Value
    start: tuple[Value, Value]
    end: tuple[Value, Value]
    depth: Value | None


@dataclass(frozen=True, slots=True)
class GrooveShape:
    """A groove along an axis of its face; `at` is its near side."""

    width: Value
    along: str
    """"x" or "y" """
    at: Value
    depth: Value
    start: Value | None
    end: Value | None


@dataclass(frozen=True, slots=True)
class RabbetShape:
    """A rabbet along a border; `width` from that border inwards."""

    width: Value
    edge: Edge
    depth: Value


@dataclass(frozen=True, slots=True)
class RecessShape:
    """A rectangle in a face: mortise (with or without depth), opening, notch. `at` is its corner nearest the datum."""

    size: tuple[Value, Value]
    at: tuple[Value, Value]
    """For a notch at a border, the measure of a corner on that border repeats the part's own measure."""
    depth: Value | None
    round: Value | None
    open: tuple[Edge, ...] = ()
    """Borders of the face that the recess opens on (notch)."""


@dataclass(frozen=True, slots=True)
class TenonShape:
    """A tenon at the left or right end; `at` is the near corner [y, z] of its section."""

    length: Value
    width: Value
    thickness: Value
    end: Edge
    at: tuple[Value, Value]
    centred: tuple[bool, bool]
    """Whether it stands centred along y, along z: then the drawing says so instead of dimensioning it."""


@dataclass(frozen=True, slots=True)
class RoundTenonShape:
    """A pin in the middle of the left or right end."""

    diameter: Value
    length: Value
    end: Edge


@dataclass(frozen=True, slots=True)
class TurnedShape:
    """A length turned about the middle of the section; from end to end without `start` and `end`."""

    diameter: Value
    start: Value | None
    end: Value | None


@dataclass(frozen=True, slots=True)
class EndCutShape:
    """An end cut by a plane through its long point: angles from square on the face and on the front edge."""

    end: Edge
    mitre: Value | None
    bevel: Value | None


@dataclass(frozen=True, slots=True)
class ArcSlotShape:
    """A slot along an arc about `at`; `radius` is that of its middle line, `angles` are those of its round ends."""

    width: Value
    at: tuple[Value, Value]
    radius: Value
    angles: tuple[Value, Value]
    depth: Value | None


@dataclass(frozen=True, slots=True)
class RingSectorShape:
    """A piece of a ring about `at`; `radii` are (inner, outer)."""

    radii: tuple[Value, Value]
    at: tuple[Value, Value]
    angles: tuple[Value, Value]
    depth: Value | None


@dataclass(frozen=True, slots=True)
class PocketShape:
    """A recess of any outline."""

    vertices: tuple[Vertex, ...]
    depth: Value


@dataclass(frozen=True, slots=True)
class TaperShape:
    """A taper along x from one of the long sides; `sizes` are what it leaves at its start and its end."""

    sizes: tuple[Value, Value]
    side: Side
    start: Value | None
    end: Value | None


@dataclass(frozen=True, slots=True)
class RampShape:
    """A floor that slopes from one depth to another along an axis of its face; across all of it, or (at, width)."""

    depths: tuple[Value, Value]
    along: str
    start: Value
    end: Value
    across: tuple[Value, Value] | None


@dataclass(frozen=True, slots=True)
class EdgeShape:
    """A chamfer at 45 degrees, or a rounding, of a whole edge; `size` is its reach or its radius."""

    size: Value
    edge: Edge
    round: bool


FeatureShape = (
    HoleShape
    | SlotShape
    | GrooveShape
    | RabbetShape
    | RecessShape
    | TenonShape
    | RoundTenonShape
    | TurnedShape
    | EndCutShape
    | ArcSlotShape
    | RingSectorShape
    | PocketShape
    | TaperShape
    | RampShape
    | EdgeShape
)


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
