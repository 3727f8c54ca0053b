"""A measure of a part before it is printed: which points of the geometry it lies between, and how it is to be shown."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

from planbook.design.values import Value
from planbook.dimension.model import DimensionKind, Equal
from planbook.measure.systems import Precision
from planbook.shape import AXIS_NAMES, FACES, FLAT
from planbook.shape.geometry import Point, Vec
from planbook.shape.model import Part
from planbook.source.models.part import FaceName

FINE = 1024.0
"""Nanometres: what the geometry and the author's formula may differ by, and the least that is worth a dimension."""


FINEST_ANGLE = 1e-6
"""Degrees that the geometry and the formula of an angle may differ by, and the least that is worth a dimension."""
ON_DATUM = "0 mm"
ON_AXIS = "0 deg"


class Mirrored(NamedTuple):
    """What a measure with a direction has in common with those of features that mirror its own.

    `key` is the same for all of them, by the author's formulas; `words` stand for the suffix when one speaks for all.
    """

    key: tuple[str, str]
    words: str


@dataclass(frozen=True, slots=True)
class Measure:
    """See model.PartDimension. `nominal` is from the geometry; `value` is what the author wrote for the same one."""

    feature: str
    characteristic: str
    kind: DimensionKind
    view: FaceName
    points: tuple[Vec, ...]
    nominal: float
    value: Value | None
    axis: str = ""
    second: str = ""
    count: int = 1
    callout: str = ""
    prefix: str = ""
    suffix: str = ""
    reference: bool = False
    drilled: bool = False
    """Whether a drill or bit of exactly this diameter makes it."""
    angle: bool = False
    method: str = ""
    precision: Precision | None = None
    stations: tuple[str, str] | None = None
    """The formulas of its two ends as measured from the datum, "0 mm" on the datum border, where the author's formulas
    give them."""
    about: str = ""
    """Of an angle about a centre: which centre, by the author's formulas, and on which face."""
    position: bool = False
    """Whether it says where something is, not how large."""
    also: tuple[Equal, ...] = ()
    mirrored: Mirrored | None = None
    side: str = ""
    row: int = 0

    @property
    def name(self) -> str:
        """Feature, characteristic and perhaps second feature: the id within the part."""
        return "/".join(filter(None, (self.feature, self.characteristic, self.second)))


def precision_of(part: Part, measure: Measure) -> Precision:
    """As the author wants it for the feature or the part, else as fine as its formula."""
    wanted = measure.precision or part.model.precision
    return wanted or (measure.value.precision if measure.value else Precision.WOODWORK)


class Sight(NamedTuple):
    """The view in which a measure is seen, and the axis (0, 1, 2 for x, y, z) along which it is taken."""

    view: FaceName
    axis: int


def on_view(part: Part, view: FaceName, point: Vec) -> Vec:
    """The point moved square onto the plane of a view."""
    axes = FACES[view]
    return with_axis(point, axes.normal, part.blank[axes.normal] if axes.far else 0.0)


def with_axis(point: Vec, axis: int, coordinate: float) -> Vec:
    """The point with one coordinate replaced."""
    return Vec(*(coordinate if i == axis else c for i, c in enumerate(point)))


def linear(
    part: Part,
    sight: Sight,
    ends: tuple[Vec, Vec],
    name: tuple[str, str],
    value: Value | None,
) -> Measure:
    """A distance along an axis of the part; `name` is feature and characteristic."""
    view, axis = sight
    near, far = sorted((on_view(part, view, end) for end in ends), key=lambda point: point[axis])
    nominal = far[axis] - near[axis]
    return Measure(*name, DimensionKind.LINEAR, view, (near, far), nominal, value, AXIS_NAMES[axis])


def from_datum(part: Part, sight: Sight, target: Vec, name: tuple[str, str], value: Value | None) -> Measure:
    """A position: how far a point lies from the datum border along an axis."""
    measure = linear(part, sight, (_on_datum(part, sight, target), target), name, value)
    return replace(measure, position=True, stations=None if value is None else (ON_DATUM, value.formula))


def _on_datum(part: Part, sight: Sight, target: Vec) -> Vec:
    """A place on the datum border, level with the target where the outline reaches that border there."""
    view, axis = sight
    start = with_axis(target, axis, 0.0)
    other = 1 - axis
    if view not in FLAT or not part.vertices or axis > 1:
        return start
    corners = [corner for segment in part.outline.segments for corner in (segment.start, segment.end)]
    touching = [corner[other] for corner in corners if abs(corner[axis]) < FINE]
    if not touching:
        return start
    return with_axis(start, other, min(max(target[other], min(touching)), max(touching)))


def across(measure: Measure, start: Value, size: Value) -> Measure:
    """The same size of something that starts where `start` says."""
    return replace(measure, stations=(start.formula, f"{start.formula} + ({size.formula})"))


def note(
    view: FaceName, points: tuple[Vec, ...], nominal: float, name: tuple[str, str], value: Value | None
) -> Measure:
    """A measure that is only written at its feature."""
    return Measure(*name, DimensionKind.NOTE, view, points, nominal, value)


def middle(a: Point, b: Point) -> Point:
    """Half way."""
    return Point((a.x + b.x) / 2, (a.y + b.y) / 2)


def toward(centre: Point, radius: float, degrees: float) -> Point:
    """The point of a circle in this direction."""
    turned = math.radians(degrees)
    return Point(centre.x + radius * math.cos(turned), centre.y + radius * math.sin(turned))
