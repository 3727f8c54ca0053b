"""What a feature of each kind measures, with all numbers resolved. Positions are from the datum corner."""

from __future__ import annotations

from dataclasses import dataclass

from planbook.design.values import Value
from planbook.shape.geometry import Point
from planbook.source.models.part import Edge
from planbook.source.models.slopes import Side

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
class ArcRampShape:
    """A floor that climbs along an arc about `at`; `depths` are those at its two `angles`, `radii` (inner, outer)."""

    radii: tuple[Value, Value]
    at: tuple[Value, Value]
    angles: tuple[Value, Value]
    depths: tuple[Value, Value]


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
    | ArcRampShape
    | PocketShape
    | TaperShape
    | RampShape
    | EdgeShape
)
