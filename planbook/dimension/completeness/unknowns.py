"""The free coordinates of a part: where its planes, corners and centres lie along x, y and z, and its radii.

What lies level on the drawing is level: equal stations of one axis are one unknown. What lies on a border of the blank
lies on that border. Only the bottom of a recess is its own: it is told by a depth, not by what happens to be as deep.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from planbook.dimension.completeness.corners import Bend, corners_of, radius_of
from planbook.dimension.completeness.polar import BANDS, band_of, pattern_of
from planbook.dimension.completeness.record import Made, Pair, Plane, Removed, Segment, Shape, Triple
from planbook.dimension.completeness.tilted import is_blind, is_bored, is_tilted, leans, mouth

LEVEL = 2048.0
"""Nanometres within which two stations are one; nothing that is printed is as fine."""
_SAME_LEAN = 0.01
"""Degrees within which two leans are one: these unknowns alone are no lengths."""
AXES = "xyz"
Loop = tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class Unknown:
    """A station along an axis, or a radius of one feature. `value` is where it is drawn, in nanometres."""

    kind: str
    """"x", "y", "z", "radius"; "lean x" and so on for an angle, "depth" along a leaning axis;
    "centre x" and so on for the centre of a bend, "on x" for a point on its curve."""
    value: float
    owner: str = ""
    """Whose radius, bend or bottom it is: those of unlike features are never one. Empty for a shared station."""


@dataclass(frozen=True, slots=True)
class PlacedBend:
    """A free arc of a feature, in the plane that it is drawn in."""

    owner: str
    plane: Plane
    bend: Bend


@dataclass(frozen=True, slots=True)
class PlacedLoop:
    """A loop of a feature, in the plane that it is drawn in."""

    owner: str
    plane: Plane
    loop: Loop


@dataclass(slots=True)
class Unknowns:
    """All of a part, with the features that each belongs to."""

    size: Triple
    owners: dict[Unknown, set[str]] = field(default_factory=dict)
    bends: list[PlacedBend] = field(default_factory=list)
    loops: list[PlacedLoop] = field(default_factory=list)
    _by_kind: dict[tuple[str, str], list[Unknown]] = field(default_factory=dict)

    def station(self, axis: int, value: float, feature: str) -> Unknown:
        """The unknown at this place of an axis, a new one if there is none yet."""
        whole = self.size[axis]
        inside = min(max(value, 0.0), whole)
        return self._take(AXES[axis], inside, feature, "")

    def bottom(self, axis: int, value: float, feature: str) -> Unknown:
        """The unknown at the bottom of a recess of a feature."""
        return self._take(AXES[axis], value, feature, feature)

    def end(self, axis: int, value: float, feature: str) -> Unknown | None:
        """What a dimension of a feature ends at: its own bottom, or a place that all share."""
        return self.find(AXES[axis], value, feature) or self.find(AXES[axis], value)

    def own(self, kind: str, value: float, feature: str) -> Unknown:
        """The unknown of this kind that a feature has for itself: an angle, the depth along a leaning axis."""
        return self._take(kind, value, feature, feature)

    def radius(self, value: float, feature: str) -> Unknown:
        """The unknown for a radius of a feature."""
        return self._take("radius", value, feature, feature)

    def helper(self, kind: str, value: float, owner: str) -> Unknown:
        """An unknown that is no part of the shape but helps to fix it: the centre of a bend, a point on its curve."""
        return self.find(kind, value, owner) or self._new(kind, value, owner)

    def shared(self, kind: str, value: float, feature: str, owner: str) -> Unknown:
        """A second unknown of a kind that a feature has: the circle of a pattern beside the radius of its holes."""
        return self._take(kind, value, feature, owner)

    def find(self, kind: str, value: float, owner: str = "") -> Unknown | None:
        """The unknown nearest to a value, if there is one as near as that."""
        same = _SAME_LEAN if kind.startswith("lean") else LEVEL
        near = [each for each in self._by_kind.get((kind, owner), ()) if abs(each.value - value) < same]
        return min(near, key=lambda each: abs(each.value - value), default=None)

    def _take(self, kind: str, value: float, feature: str, owner: str) -> Unknown:
        found = self.find(kind, value, owner)
        if found is None:
            found = self._new(kind, value, owner)
        self.owners.setdefault(found, set()).add(feature)
        return found

    def _new(self, kind: str, value: float, owner: str) -> Unknown:
        found = Unknown(kind, value, owner)
        self._by_kind.setdefault((kind, owner), []).append(found)
        return found


DEPTH = "depth"
RADIUS = "radius"
ANGLE = "angle"
"""Of what turns about a centre, as the length of its arc."""
BLANK = "blank"
OUTLINE = "outline"
FACE_PLANE = Plane((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0))


def unknowns_of(part: Shape) -> Unknowns:
    """Everything about a part that a builder has to be told."""
    unknowns = Unknowns(part.size)
    for axis, length in enumerate(part.size):
        unknowns.station(axis, 0.0, BLANK)
        unknowns.station(axis, length, BLANK)
    _take_loop(unknowns, OUTLINE, FACE_PLANE, part.outline)
    for feature in part.features.values():
        for cut in feature.cuts if feature.around is None else feature.cuts[: len(feature.cuts) // feature.count]:
            _take_cut(unknowns, feature, cut)
        _take_pattern(unknowns, feature)
    return unknowns


def _take_cut(unknowns: Unknowns, feature: Made, cut: Removed) -> None:
    name = feature.name
    if is_tilted(cut):
        _take_tilted(unknowns, name, cut)
        return
    if feature.kind in BANDS:
        _take_band(unknowns, name, cut)
    elif feature.around is not None:
        unknowns.radius(radius_of(cut.loop[0]), name)
    else:
        for loop in (cut.loop, *cut.islands, *((cut.bottom,) if cut.bottom is not None else ())):
            _take_loop(unknowns, name, cut.frame, loop)
    unknowns.station(*level(cut.frame, 0.0), name)
    for depth in (cut.depth,) if cut.climbs is None else cut.climbs:
        bottom_at(unknowns, name, cut, depth)


def _take_band(unknowns: Unknowns, name: str, cut: Removed) -> None:
    band = band_of(cut.loop)
    for axis, value in placed(cut.frame, band.centre):
        unknowns.station(axis, value, name)
    for radius in band.radii:
        unknowns.radius(radius, name)
    for end in band.ends:
        unknowns.own(ANGLE, end, name)


def _take_pattern(unknowns: Unknowns, feature: Made) -> None:
    """Its centre, the step from one to the next, and of holes the circle on which they stand and where it starts."""
    pattern = pattern_of(feature)
    if pattern is None:
        return
    for axis, value in placed(feature.cuts[0].frame, pattern.centre):
        unknowns.station(axis, value, feature.name)
    unknowns.shared(ANGLE, pattern.step, feature.name, step_owner(feature.name))
    if feature.kind not in BANDS:
        unknowns.shared(RADIUS, pattern.radius, feature.name, pattern_owner(feature.name))
        unknowns.own(ANGLE, pattern.start, feature.name)


def step_owner(feature: str) -> str:
    """Under which owner the step of a pattern stands."""
    return f"{feature} step"


def pattern_owner(feature: str) -> str:
    """Under which owner the circle of a pattern stands."""
    return f"{feature} circle"


def _take_tilted(unknowns: Unknowns, name: str, cut: Removed) -> None:
    for kind, angle in leans(cut):
        unknowns.own(kind, angle, name)
    if not is_bored(cut):
        return
    entry, face = mouth(cut)
    for axis in range(3):
        if axis != face:
            unknowns.station(axis, entry[axis], name)
    unknowns.radius(radius_of(cut.loop[0]), name)
    if is_blind(cut, unknowns.size):
        unknowns.own(DEPTH, cut.depth - cut.lift, name)


def _take_loop(unknowns: Unknowns, name: str, plane: Plane, loop: Loop) -> None:
    found = corners_of(loop)
    for point in found.points:
        for axis, value in placed(plane, point):
            unknowns.station(axis, value, name)
    for radius in (*found.radii, *(bend.radius for bend in found.bends)):
        unknowns.radius(radius, name)
    unknowns.bends.extend(PlacedBend(name, plane, bend) for bend in found.bends)
    unknowns.loops.append(PlacedLoop(name, plane, loop))


def bottom_of(unknowns: Unknowns, name: str, cut: Removed) -> Unknown:
    """Where a cut ends: on the far border if it goes through, else at a bottom of its own."""
    return bottom_at(unknowns, name, cut, cut.depth)


def bottom_at(unknowns: Unknowns, name: str, cut: Removed, depth: float) -> Unknown:
    """Where the floor of a cut is so deep."""
    axis, value = level(cut.frame, depth)
    through = not LEVEL < value < unknowns.size[axis] - LEVEL
    return unknowns.station(axis, value, name) if through else unknowns.bottom(axis, value, name)


def corner_stations(cut: Removed, kind: str) -> Iterator[tuple[int, float]]:
    """(axis, value) of the corners and centres of a cut's loops."""
    if kind in BANDS:
        yield from placed(cut.frame, band_of(cut.loop).centre)
        return
    for loop in (cut.loop, *cut.islands):
        for point in corners_of(loop).points:
            yield from placed(cut.frame, point)


def placed(plane: Plane, point: Pair) -> Iterator[tuple[int, float]]:
    """The two coordinates of a point in a plane that is square to an axis: (axis, value)."""
    normal = axis_of(plane.normal)
    at = plane.place(point)
    return ((axis, at[axis]) for axis in range(3) if axis != normal)


def level(plane: Plane, depth: float) -> tuple[int, float]:
    """The axis that a plane is square to, and the station so deep under it."""
    axis = axis_of(plane.normal)
    return axis, plane.place((0.0, 0.0), depth)[axis]


def axis_of(direction: Triple) -> int:
    """The axis that a direction runs along."""
    return max(range(3), key=lambda axis: abs(direction[axis]))


def anchor(feature: Made, repeat: int) -> Triple:
    """The place that tells the features of a row apart: the first point of the first loop of each."""
    cut = feature.cuts[repeat * (len(feature.cuts) // feature.count)]
    return cut.frame.place(cut.loop[0].start)
