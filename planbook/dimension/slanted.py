"""The measures of what leans, is cut at an angle, or is turned."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from planbook.design.sameness import plain_form
from planbook.design.values import Value
from planbook.dimension.bored import callout, hole_measures
from planbook.dimension.measure import ON_DATUM, Measure, Mirrored, Sight, from_datum, linear, note
from planbook.dimension.positions import start_of
from planbook.shape import AXIS_NAMES, FACES, frame_of
from planbook.shape.end_cuts import blade_tilt
from planbook.shape.geometry import Arc, Point, Vec
from planbook.shape.kinds import EndCutShape, HoleShape, RoundTenonShape, TurnedShape
from planbook.shape.model import Cut, Feature, Part
from planbook.source.models.part import Edge, FaceName

_ASIDE = 0.15
"""Where across a part the angle of its end is pointed at: in its middle a groove may run out."""
_LENGTHWAYS: Mapping[str, str] = {"x": "length", "y": "width", "z": "thickness"}
_WAYS: Mapping[str, tuple[str, str]] = {
    "x": ("left end", "right end"),
    "y": ("front edge", "rear edge"),
    "z": ("back", "face"),
}
"""What lies at the datum and at the far end of each axis."""


def bored_measures(part: Part, feature: Feature, shape: HoleShape) -> Iterator[Measure]:
    """A hole; and where it leans both angles, and for reference its resultant and sight line, all at its callout."""
    yield from hole_measures(part, feature, shape)
    if any(shape.lean):
        yield from _lean_measures(part, feature, shape)


def _lean_measures(part: Part, feature: Feature, shape: HoleShape) -> Iterator[Measure]:
    cut = feature.cuts[0]
    axes, base = FACES[feature.face], frame_of(feature.face, part.blank)
    into = [-sum(a * b for a, b in zip(cut.frame.normal, way, strict=True)) for way in (base.u, base.v, base.normal)]
    slopes = [into[0] / -into[2], into[1] / -into[2]]
    anchor = (cut.frame.place(Point(0.0, 0.0), cut.lift),)
    for letter, slope, angle in zip(axes.names, slopes, shape.lean, strict=True):
        if angle is None:
            continue
        said = (feature.name, f"lean_{letter}")
        towards = f"towards {_WAYS[letter][slope > 0]}"
        lean = note(feature.face, anchor, math.degrees(math.atan(abs(slope))), said, _unsigned(angle))
        mirrored = _mirrored(part, feature, letter, slope, angle)
        yield replace(
            lean, prefix="runs in", suffix=towards, angle=True, callout=callout(part, feature), mirrored=mirrored
        )
    if None in shape.lean:
        return
    u, v = slopes
    resultant = note(
        feature.face, anchor, math.degrees(math.atan(math.hypot(u, v))), (feature.name, "resultant"), None
    )  # fmt: skip
    sight = note(feature.face, anchor, math.degrees(math.atan2(abs(v), abs(u))), (feature.name, "sight_line"), None)
    at = callout(part, feature)
    yield replace(resultant, suffix="in all", angle=True, reference=True, callout=at)
    yield replace(
        sight,
        prefix="sight line",
        suffix=f"from the {_LENGTHWAYS[axes.names[0]]}",
        angle=True,
        reference=True,
        callout=at,
    )


def _mirrored(part: Part, feature: Feature, letter: str, slope: float, angle: Value) -> Mirrored:
    """How it leans as seen from the middle of the part, which is the same for holes that mirror each other about it."""
    axis = AXIS_NAMES.index(letter)
    start, size = start_of(feature, axis), part.size[axis]
    near, far = plain_form(start.formula), plain_form(f"({size.formula}) - ({start.formula})")
    lean = plain_form(angle.formula if near <= far else f"-({angle.formula})")
    inwards = (slope > 0) == (start.number < size.number / 2)
    way = "towards" if inwards else "away from"
    return Mirrored((min(near, far), lean), f"{way} the middle of the {_LENGTHWAYS[letter]}")


def _unsigned(value: Value) -> Value:
    """The sheet says which way in words, not by a sign."""
    return value if value.number >= 0 else replace(value, quantity=replace(value.quantity, value=-value.number))


def end_cut_measures(part: Part, feature: Feature, shape: EndCutShape) -> Iterator[Measure]:
    """The mitre on the face, the bevel on the front edge, and for reference how far a saw's blade is tilted.

    They are notes: an arc between legs a few degrees apart would have to stand far from a slender part.
    """
    _, width, thickness = part.blank
    slopes = _slopes(feature.cuts[0])
    if shape.mitre is not None:
        place = (width * _ASIDE, thickness)
        yield _bevelled(part, feature, (FaceName.FACE, "mitre"), place, slopes[0], shape.mitre)
    if shape.bevel is None:
        return
    bevel = _bevelled(part, feature, (FaceName.FRONT_EDGE, "bevel"), (0.0, thickness / 2), slopes[1], shape.bevel)
    yield bevel
    if shape.mitre is not None:
        degrees = abs(blade_tilt(shape.mitre, shape.bevel))
        tilt = note(FaceName.FRONT_EDGE, bevel.points, degrees, (feature.name, "blade"), None)
        yield replace(tilt, prefix="saw blade tilted", angle=True, reference=True, callout=bevel.callout)


def _bevelled(
    part: Part,
    feature: Feature,
    name: tuple[FaceName, str],
    place: tuple[float, float],
    slope: float,
    value: Value,
) -> Measure:
    """A note at a place (y, z) of the cut, as a view shows it."""
    view, characteristic = name
    anchor = Vec(_at(feature.cuts[0], *place), *place)
    degrees = math.degrees(math.atan(abs(slope)))
    measure = note(view, (anchor,), degrees, (feature.name, characteristic), _unsigned(value))
    at = f"{callout(part, feature)}/{characteristic}"
    return replace(measure, prefix=characteristic, angle=True, callout=at)


def _slopes(cut: Cut) -> tuple[float, float]:
    """By how much an end moves along x for a step along y, and along z."""
    normal = cut.frame.normal
    return normal.y / normal.x, normal.z / normal.x


def points_of_length(part: Part) -> str:
    """From where to where the length of a part is measured whose ends are cut at an angle; "" when neither is."""
    cut = sum(isinstance(feature.shape, EndCutShape) for feature in part.features.values())
    return ("", "over the long point", "long point to long point")[cut]


def on_end_cuts(part: Part, axis: int, ends: tuple[Vec, Vec]) -> tuple[Vec, Vec]:
    """The ends of the blank's length (axis 0) or width (1), moved to what end cuts leave of the part on its face."""
    cuts = {f.shape.end: f for f in part.features.values() if isinstance(f.shape, EndCutShape)}
    if not cuts:
        return ends
    if axis == 0:
        sides = zip(ends, (cuts.get(Edge.LEFT), cuts.get(Edge.RIGHT)), strict=True)
        near, far = (end if cut is None else _long_point(part, cut, end) for end, cut in sides)
        return near, far
    left = cuts.get(Edge.LEFT)
    if left is None:
        return ends
    plane = left.cuts[0]
    near, far = (Vec(max(end.x, _at(plane, end.y, part.blank.z)), end.y, end.z) for end in ends)
    return near, far


def _long_point(part: Part, feature: Feature, end: Vec) -> Vec:
    out = feature.cuts[0].frame.normal.y
    return Vec(end.x, part.blank.y if out < 0 else 0.0, end.z)


def _at(cut: Cut, y: float, z: float) -> float:
    """Where along x the plane of an end cut is."""
    plane, normal = cut.frame.place(Point(0.0, 0.0), cut.lift), cut.frame.normal
    return plane.x - (normal.y * (y - plane.y) + normal.z * (z - plane.z)) / normal.x


def is_round(part: Part, axis: int) -> bool:
    """Whether a diameter says how large the blank is across the grain, by the author's formulas."""
    whole = plain_form(part.size[axis].formula)
    shapes = (feature.shape for feature in part.features.values())
    return any(isinstance(shape, TurnedShape) and plain_form(shape.diameter.formula) == whole for shape in shapes)


def in_the_middle(part: Part, measure: Measure) -> bool:
    """Whether it says that something lies in the middle of a round part, by the author's formulas."""
    if not measure.position or measure.stations is None or measure.axis not in ("y", "z"):
        return False
    axis = "xyz".index(measure.axis)
    start, end = (plain_form(formula) for formula in measure.stations)
    middle = plain_form(f"({part.size[axis].formula}) / 2")
    return is_round(part, axis) and start == plain_form(ON_DATUM) and end == middle


def round_tenon_measures(part: Part, feature: Feature, shape: RoundTenonShape) -> Iterator[Measure]:
    """Diameter and length, on the face."""
    cut = feature.cuts[0]
    low, high = _across(cut, 0.0)
    shoulder = _across(cut, cut.depth)[0]
    yield linear(part, Sight(FaceName.FACE, 0), (low, shoulder), (feature.name, "length"), shape.length)
    yield _diameter(part, feature, (low, high), shape.diameter)


def turned_measures(part: Part, feature: Feature, shape: TurnedShape) -> Iterator[Measure]:
    """Diameter, and where it starts and ends, on the face."""
    cut = feature.cuts[0]
    first, last = _across(cut, 0.0), _across(cut, cut.depth)
    sight = Sight(FaceName.FACE, 0)
    if shape.start is not None:
        yield from_datum(part, sight, first[0], (feature.name, "start"), shape.start)
    if shape.end is not None:
        yield from_datum(part, sight, last[0], (feature.name, "end"), shape.end)
    at = last if shape.end is None else first
    yield _diameter(part, feature, at, shape.diameter)


def _diameter(part: Part, feature: Feature, ends: tuple[Vec, Vec], value: Value) -> Measure:
    measure = linear(part, Sight(FaceName.FACE, 1), ends, (feature.name, "diameter"), value)
    return replace(measure, prefix="Ø")


def _across(cut: Cut, depth: float) -> tuple[Vec, Vec]:
    """The two points at which the face view sees the border of what is round."""
    ring = cut.islands[0].segments[0]
    assert isinstance(ring, Arc)
    x, y = ring.centre
    return cut.frame.place(Point(x - ring.radius, y), depth), cut.frame.place(Point(x + ring.radius, y), depth)
