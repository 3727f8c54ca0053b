"""Equations of what turns about a centre: bands of a ring, and equal features round a centre."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from planbook.dimension.completeness.corners import radius_of
from planbook.dimension.completeness.granted import Equation, Row, row_of
from planbook.dimension.completeness.polar import BANDS, Pattern, band_of, pattern_of
from planbook.dimension.completeness.record import Made, Pair, Shape, Told, Triple
from planbook.dimension.completeness.unknowns import (
    ANGLE,
    FACE_PLANE,
    LEVEL,
    OUTLINE,
    RADIUS,
    Unknown,
    Unknowns,
    pattern_owner,
    placed,
    step_owner,
)

_BANDS = {
    "radius": (0.5, 0.5),
    "width": (-1.0, 1.0),
    "inner_radius": (1.0, 0.0),
    "outer_radius": (0.0, 1.0),
}
"""What each characteristic of a band makes of its inner and its outer radius."""


def granted_turns(
    part: Shape, unknowns: Unknowns, told: Sequence[Told], bracketed: Sequence[Told]
) -> Iterator[Equation]:
    """What starts or ends on the first axis is drawn level with its centre; what is counted is equally spaced.

    The latter where equal spaces make a whole turn and no dimension tells the step. A reference counts them as well.
    """
    every = (*told, *bracketed)
    counted = {each.feature for each in every if each.count > 1}
    counted |= {other.feature for each in every if each.count > 1 for other in each.also}
    stepped = {each.feature for each in told if each.characteristic == "step_angle"}
    for unknown, owners in unknowns.owners.items():
        if unknown.kind == ANGLE and abs(unknown.value) < LEVEL and owners:
            yield Equation("along the axis", {unknown: 1.0})
    yield from _in_one_line(part, unknowns)
    yield from _on_a_border(part, unknowns)
    yield from _side_by_side(part, unknowns)
    for feature in part.features.values():
        pattern = pattern_of(feature)
        step = None if pattern is None else unknowns.find(ANGLE, pattern.step, step_owner(feature.name))
        if pattern and step and pattern.whole and feature.name in counted - stepped:
            yield Equation("equally spaced", {step: 1.0})


def _side_by_side(part: Shape, unknowns: Unknowns) -> Iterator[Equation]:
    """Patterns about one centre, as many and with the first of each in one line, have the same step."""
    known: list[tuple[Made, Pattern]] = []
    for feature in part.features.values():
        pattern = pattern_of(feature)
        if pattern is None:
            continue
        step = unknowns.find(ANGLE, pattern.step, step_owner(feature.name))
        for other, told in known:
            same = unknowns.find(ANGLE, told.step, step_owner(other.name))
            if step and same and _alike((feature, pattern), (other, told)):
                yield Equation("side by side", {step: told.radius / pattern.radius, same: -1.0})
        known.append((feature, pattern))


def _alike(one: tuple[Made, Pattern], two: tuple[Made, Pattern]) -> bool:
    """Whether both have the same centre, count, first direction and step."""
    places = [feature.cuts[0].frame.place(pattern.centre) for feature, pattern in (one, two)]
    (first, here), (second, there) = one, two
    ratio = there.radius / here.radius
    turns = ((here.start, there.start), (here.step, there.step))
    near = all(abs(a * ratio - b) < LEVEL for a, b in turns)
    return near and first.count == second.count and math.dist(*places) < LEVEL


def _on_a_border(part: Shape, unknowns: Unknowns) -> Iterator[Equation]:
    """A band that is drawn to the round border of its part, or of a hole, ends at that border."""
    borders = [(OUTLINE, FACE_PLANE, arc) for arc in part.outline]
    borders += [(other.name, cut.frame, cut.loop[0]) for other in part.features.values() for cut in other.cuts]
    for feature in part.features.values():
        if feature.kind not in BANDS:
            continue
        plane, band = feature.cuts[0].frame, band_of(feature.cuts[0].loop)
        centre = dict(placed(plane, band.centre))
        for radius in band.radii:
            for owner, its, arc in borders:
                whole = owner == OUTLINE or arc.start == arc.end
                if arc.centre is None or not whole or abs(radius_of(arc) - radius) > LEVEL:
                    continue
                there = dict(placed(its, arc.centre))
                if there.keys() == centre.keys() and all(abs(there[axis] - centre[axis]) < LEVEL for axis in centre):
                    own, other = (unknowns.find(RADIUS, radius, name) for name in (feature.name, owner))
                    if own and other:
                        yield Equation("on the border", {own: 1.0, other: -1.0})
                        break


def _in_one_line(part: Shape, unknowns: Unknowns) -> Iterator[Equation]:
    """Angles about one centre that are drawn in one line with it are the same."""
    known: list[tuple[Triple, Triple, Unknown, float]] = []
    for feature in part.features.values():
        for turn in _turns_of(feature):
            angle = unknowns.find(ANGLE, turn[0], feature.name)
            plane, (length, centre, radius) = feature.cuts[0].frame, turn
            if angle is None:
                continue
            at, way = plane.place(centre), plane.place((math.cos(length / radius), math.sin(length / radius)))
            out = (way[0] - plane.origin[0], way[1] - plane.origin[1], way[2] - plane.origin[2])
            for other_at, other_out, other, reach in known:
                alike = math.dist(at, other_at) < LEVEL and math.dist(out, other_out) * max(reach, radius) < LEVEL
                if alike and other is not angle:
                    yield Equation("in one line", {angle: reach / radius, other: -1.0})
                    break
            else:
                known.append((at, out, angle, radius))


def said_of_turns(part: Shape, unknowns: Unknowns, told: Told) -> tuple[Equation, ...] | None:
    """What a dimension says of something that turns; None when it speaks of something else, or of nothing there is."""
    feature = part.features.get(told.feature)
    if feature is None:
        return None
    row = _row(unknowns, feature, told)
    return None if row is None else (Equation(told.id, row),)


def _row(unknowns: Unknowns, feature: Made, told: Told) -> Row | None:
    pattern = pattern_of(feature)
    if told.characteristic == "pitch_circle" and pattern is not None:
        circle = unknowns.find(RADIUS, pattern.radius, pattern_owner(feature.name))
        return None if circle is None else {circle: 2.0}
    if told.kind == ANGLE:
        return _angle(unknowns, feature, told)
    if feature.kind not in BANDS or told.characteristic not in _BANDS:
        return None
    radii = [unknowns.find(RADIUS, radius, feature.name) for radius in band_of(feature.cuts[0].loop).radii]
    inner, outer = radii
    if inner is None or outer is None:
        return None
    return row_of((inner, _BANDS[told.characteristic][0]), (outer, _BANDS[told.characteristic][1]))


def _angle(unknowns: Unknowns, feature: Made, told: Told) -> Row | None:
    """A step; or an angle from the first axis, which grows the other way round where the axis is its second leg."""
    pattern = pattern_of(feature)
    if told.characteristic == "step_angle":
        step = None if pattern is None else unknowns.find(ANGLE, pattern.step, step_owner(feature.name))
        return None if step is None else {step: 1.0}
    for value in _turns_of(feature):
        found = unknowns.find(ANGLE, value[0], feature.name)
        if found is not None and value[0] > LEVEL and _meets(feature, told, value):
            return {found: -1.0 if _is_backward(feature, told, value) else 1.0}
    return None


Turn = tuple[float, Pair, float]
"""A length of arc, the centre of its circle and the radius."""


def _turns_of(feature: Made) -> Iterator[Turn]:
    each = len(feature.cuts) // feature.count
    if feature.kind in BANDS:
        for cut in feature.cuts[:each] if feature.around else feature.cuts:
            band = band_of(cut.loop)
            yield from ((end, band.centre, band.radii[1]) for end in band.ends)
        return
    pattern = pattern_of(feature)
    if pattern is not None:
        yield pattern.start, pattern.centre, pattern.radius


def _meets(feature: Made, told: Told, turn: Turn) -> bool:
    return any(math.dist(point, _leg(feature, turn)) < LEVEL for point in told.points[1:])


def _is_backward(feature: Made, told: Told, turn: Turn) -> bool:
    return math.dist(told.points[1], _leg(feature, turn)) < LEVEL


def _leg(feature: Made, turn: Turn) -> tuple[float, float, float]:
    length, (x, y), radius = turn
    angle = length / radius
    return feature.cuts[0].frame.place((x + radius * math.cos(angle), y + radius * math.sin(angle)))


def weight_of_angle(told: Told) -> float:
    """How much longer the arc on its circle gets for one degree."""
    return math.dist(told.points[0], told.points[1]) * math.radians(1.0)
