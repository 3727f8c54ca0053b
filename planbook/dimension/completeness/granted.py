"""What a drawing takes for granted, as equations in small changes of the part's unknowns. The closed list:

- measuring starts at the datum corner;
- corners are square and level places are level (they share an unknown, see `unknowns`);
- what has no depth goes through (its bottom lies on a border);
- the features of a row are alike where the sheet counts them (`4x`);
- what is turned stands in the middle of the section, and a rod is as thick as its blank;
- a disc touches all four borders of its blank;
- an arc ends where it is drawn to end, and touches a line that it runs into and a border that it reaches.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planbook.dimension.completeness.corners import joined, radius_of
from planbook.dimension.completeness.record import Made, Pair, Removed, Shape, Told
from planbook.dimension.completeness.unknowns import (
    BLANK,
    LEVEL,
    OUTLINE,
    PlacedBend,
    PlacedLoop,
    Unknown,
    Unknowns,
    anchor,
    axis_of,
    corner_stations,
)

Row = dict[Unknown, float]


@dataclass(frozen=True, slots=True)
class Equation:
    """`name` is a dimension's id, or a few words for what is taken for granted."""

    name: str
    row: Row


def row_of(*terms: tuple[Unknown, float]) -> Row:
    """The sum of terms; an unknown may come twice."""
    row: Row = {}
    for unknown, factor in terms:
        row[unknown] = row.get(unknown, 0.0) + factor
    return {unknown: factor for unknown, factor in row.items() if factor}


def granted(part: Shape, unknowns: Unknowns, told: Sequence[Told]) -> Iterator[Equation]:
    """All that this part's sheet may leave unsaid."""
    for axis in range(3):
        yield Equation("datum", row_of((unknowns.station(axis, 0.0, BLANK), 1.0)))
    counted = {each.feature for each in told if each.count > 1 or each.characteristic == "pitch"}
    for feature in part.features.values():
        if feature.count > 1 and feature.around is None and feature.name in counted:
            yield from _alike(unknowns, feature)
    for feature in part.features.values():
        for cut in feature.cuts:
            yield from _turned(unknowns, feature.name, cut)
    yield from _disc(part, unknowns)
    for bend in unknowns.bends:
        yield from _ends(unknowns, bend)
        yield from _reaches(unknowns, bend)
    for loop in unknowns.loops:
        yield from _touching(unknowns, loop)


def _alike(unknowns: Unknowns, feature: Made) -> Iterator[Equation]:
    """Every station along the row stands to its neighbour as in the first of the row."""
    shift = [b - a for a, b in zip(anchor(feature, 0), anchor(feature, 1), strict=True)]
    axis = axis_of((shift[0], shift[1], shift[2]))
    first = feature.cuts[: len(feature.cuts) // feature.count]
    values = sorted({value for cut in first for along, value in corner_stations(cut, feature.kind) if along == axis})
    for repeat in range(1, feature.count):
        for near, far in pairwise(values):
            ends = (far + repeat * shift[axis], near + repeat * shift[axis], far, near)
            signs = (1.0, -1.0, -1.0, 1.0)
            there = [unknowns.station(axis, end, feature.name) for end in ends]
            yield Equation("alike in a row", row_of(*zip(there, signs, strict=True)))


def _turned(unknowns: Unknowns, name: str, cut: Removed) -> Iterator[Equation]:
    """A round island in the section of a part: a round tenon, a rod."""
    for island in cut.islands:
        if len(island) > 1 or island[0].centre is None:
            continue
        centre, reach = cut.frame.place(island[0].centre), radius_of(island[0])
        radius = unknowns.radius(reach, name)
        for axis in (1, 2):
            middle, far = (unknowns.station(axis, value, name) for value in (centre[axis], unknowns.size[axis]))
            yield Equation("turned about the middle", row_of((middle, 2.0), (far, -1.0)))
            if abs(centre[axis] - reach) < LEVEL:
                yield Equation("as thick as its blank", row_of((middle, 1.0), (radius, -1.0)))


def _disc(part: Shape, unknowns: Unknowns) -> Iterator[Equation]:
    """An outline that is one circle reaches from border to border."""
    first, *others = joined(part.outline)
    if others or first.centre is None:
        return
    radius = unknowns.radius(radius_of(first), OUTLINE)
    for axis in range(2):
        centre = unknowns.station(axis, first.centre[axis], OUTLINE)
        for border, way in ((0.0, -1.0), (part.size[axis], 1.0)):
            station = unknowns.station(axis, border, BLANK)
            yield Equation("touches the border", row_of((centre, 1.0), (radius, way), (station, -1.0)))


def centre_of(unknowns: Unknowns, bend: PlacedBend) -> tuple[Unknown, Unknown]:
    """The two unknowns of a bend's centre: places like others for a round end, else only a help."""
    if bend.bend.round_end:
        return corner_at(unknowns, bend, bend.bend.centre)
    x, y = bend.bend.centre
    owner = f"{bend.owner} {bend.bend.start}"
    return unknowns.helper("centre x", x, owner), unknowns.helper("centre y", y, owner)


def on_curve(unknowns: Unknowns, bend: PlacedBend, point: Pair, at: tuple[Unknown, Unknown]) -> Equation:
    """The point keeps its distance from the centre: (p - c) . (dp - dc) = r dr."""
    out = [p - c for p, c in zip(point, bend.bend.centre, strict=True)]
    centre, radius = centre_of(unknowns, bend), unknowns.radius(bend.bend.radius, bend.owner)
    terms = [(at[i], out[i]) for i in range(2)] + [(centre[i], -out[i]) for i in range(2)]
    return Equation("on its arc", row_of(*terms, (radius, -bend.bend.radius)))


def corner_at(unknowns: Unknowns, bend: PlacedBend, point: Pair) -> tuple[Unknown, Unknown]:
    """The unknowns of a place that lies in a bend's plane."""
    u, v = axis_of(bend.plane.u), axis_of(bend.plane.v)
    there = bend.plane.place(point)
    return unknowns.station(u, there[u], bend.owner), unknowns.station(v, there[v], bend.owner)


def _ends(unknowns: Unknowns, bend: PlacedBend) -> Iterator[Equation]:
    for end in (bend.bend.start, bend.bend.end):
        yield on_curve(unknowns, bend, end, corner_at(unknowns, bend, end))


def _reaches(unknowns: Unknowns, bend: PlacedBend) -> Iterator[Equation]:
    """Where its curve just touches a border of the blank, it touches that border: the centre is a radius away."""
    if bend.owner != OUTLINE:
        return
    centre, radius = centre_of(unknowns, bend), unknowns.radius(bend.bend.radius, bend.owner)
    for axis in range(2):
        for border, way in ((0.0, -1.0), (unknowns.size[axis], 1.0)):
            out = tuple(way * bend.bend.radius if i == axis else 0.0 for i in range(2))
            point = tuple(c + o for c, o in zip(bend.bend.centre, out, strict=True))
            if abs(point[axis] - border) < LEVEL and bend.bend.covers((point[0], point[1])):
                station = unknowns.station(axis, border, BLANK)
                yield Equation("touches the border", row_of((centre[axis], 1.0), (radius, way), (station, -1.0)))


def _touching(unknowns: Unknowns, placed: PlacedLoop) -> Iterator[Equation]:
    """A bend that runs smoothly into a straight side stays square to it at that end."""
    bends = [bend for bend in unknowns.bends if bend.owner == placed.owner and bend.plane == placed.plane]
    for line in placed.loop:
        for end, other in ((line.start, line.end), (line.end, line.start)):
            for bend in bends:
                meets = line.centre is None and end in (bend.bend.start, bend.bend.end)
                if meets and _square(bend.bend.centre, end, other):
                    yield _touch(unknowns, bend, end, other)


def _square(centre: Pair, touch: Pair, other: Pair) -> bool:
    out = (centre[0] - touch[0], centre[1] - touch[1])
    along = (other[0] - touch[0], other[1] - touch[1])
    return abs(out[0] * along[0] + out[1] * along[1]) < 1e-6 * math.hypot(*out) * math.hypot(*along)


def _touch(unknowns: Unknowns, bend: PlacedBend, end: Pair, other: Pair) -> Equation:
    """(c - e) . (f - e) stays nothing: d . dc + (c - e) . df - (d + c - e) . de = 0, with d = f - e."""
    centre = centre_of(unknowns, bend)
    near, far = corner_at(unknowns, bend, end), corner_at(unknowns, bend, other)
    terms = []
    for i in range(2):
        along, out = other[i] - end[i], bend.bend.centre[i] - end[i]
        terms += [(centre[i], along), (far[i], out), (near[i], -along - out)]
    return Equation("touches the side", row_of(*terms))
