"""A dimension: a measure over features with an identity that never depends on its value, order, sheet or edition."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planbook.design.values import Value
from planbook.measure.printed import Printed
from planbook.shape.geometry import Vec
from planbook.source.models.part import FaceName


class DimensionKind(StrEnum):
    """How it is drawn."""

    LINEAR = "linear"
    """Between two points along one axis of the part."""
    DIAMETER = "diameter"
    RADIUS = "radius"
    ANGLE = "angle"
    """At a corner, between two legs: an arc with arrowheads (ISO 129-1)."""
    NOTE = "note"
    """Stated only in the callout of its feature: a depth, a counterbore, an angle of a countersink."""


@dataclass(frozen=True, slots=True)
class PrintedTolerance:
    """As printed in the edition's unit: "±1/32", "+0.5/0". `upper` (>= 0) and `lower` (<= 0) are what it states."""

    text: str
    upper: float
    lower: float


@dataclass(frozen=True, slots=True)
class Equal:
    """An equal measure of another feature that is not printed itself, and the places that it lies between."""

    id: str
    feature: str
    points: tuple[Vec, ...]


@dataclass(frozen=True, slots=True)
class PartDimension:
    """A dimension of a part, valued from the geometry and printed for one edition.

    id = part "/" feature "/" characteristic ["/" second feature]; the blank's feature name is "blank", an outline
    vertex is "outline.<vertex>". Characteristics: length, width, thickness, x, y, z, diameter, depth, radius,
    pitch, counterbore_diameter, counterbore_depth, countersink_diameter, countersink_angle, start, end, end_x,
    end_y, end_z, through_x, through_y, arc_radius, shoulder, start_angle, end_angle, step_angle, slope_angle,
    pitch_circle, inner_radius, outer_radius, inner_slope, outer_slope, start_size, end_size, start_depth,
    end_depth, chamfer; of a pocket those of its corners,
    <corner>_x and so on.
    """

    id: str
    part: str
    feature: str
    characteristic: str
    kind: DimensionKind
    view: FaceName
    """The view in which it is drawn: where the two points are seen in true length."""
    axis: str
    """LINEAR: "x", "y" or "z" of the part. Else empty."""
    points: tuple[Vec, ...]
    """ANGLE: the corner and a place on each leg, the second counter-clockwise from the first in the
    face's axes.
    LINEAR: the two points it lies between, the one nearer the datum first. DIAMETER, RADIUS, NOTE: the centre and
    a point on the curve (for a NOTE the feature's anchor, once or twice)."""
    nominal: float
    """From the geometry, in base units."""
    printed: Printed
    tolerance: PrintedTolerance | None
    count: int = 1
    """How many equal ones it speaks for, printed `4x`: of its row, and of the features in `also`."""
    callout: str = ""
    """Dimensions with the same callout stand together at one leader (a hole's diameter and depth)."""
    prefix: str = ""
    """Fixed words or signs of the callout before the text: "Ø", "counterbore Ø", "R"."""
    suffix: str = ""
    """Fixed words after the text: "through", "deep"."""
    caliper: bool = False
    reference: bool = False
    """Printed in ( ): follows from others."""
    method: str = ""
    """Method in words when it is not to number: "drilled with part 9"."""
    value: Value | None = None
    """Provenance: the formula that the author wrote for it; None where it follows from the geometry alone."""
    also: tuple[Equal, ...] = ()
    """The same measure of other features of the same kind in the same view, which it is printed for too."""
    side: str = ""
    """LINEAR: on which side of the view its line stands, if content says so: "above", "below", "left", "right"."""
    row: int = 0
    """LINEAR: in which row its line stands, 1 nearest to the view, if content says so."""
