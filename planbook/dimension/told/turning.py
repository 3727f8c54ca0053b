"""What turns about a centre, built anew: bands of a ring, and equal features round a centre."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from planbook.dimension.completeness.polar import BANDS, Pattern, band_of, pattern_of
from planbook.dimension.completeness.record import Made, Pair, Removed, Segment
from planbook.dimension.completeness.unknowns import ANGLE, RADIUS, pattern_owner, step_owner
from planbook.dimension.told.loops import Loop, moved_circle
from planbook.dimension.told.moves import Moves


def moved_band(cut: Removed, name: str, moves: Moves) -> Loop:
    """A band between its moved radii and ends, about its moved centre."""
    band = band_of(cut.loop)
    centre = moves.point(cut.frame, band.centre)
    inner, outer = band.radii
    narrow, wide = (moves.radius(radius, name) for radius in band.radii)
    starts, stops = band.ends
    first, last = (moves.own(ANGLE, end, name) / outer for end in band.ends)
    turn = ((stops - starts) / outer) % math.tau or math.tau
    turned = turn + (last - stops / outer) - (first - starts / outer)

    def place(point: Pair) -> Pair:
        reach = math.dist(point, band.centre)
        angle = (math.atan2(point[1] - band.centre[1], point[0] - band.centre[0]) - starts / outer) % math.tau
        # What starts a hair before the band is the band's start and not a whole turn on.
        angle = 0.0 if angle > (turn + math.tau) / 2 else angle
        reach = narrow + (reach - inner) * (wide - narrow) / (outer - inner)
        angle = first + angle * turned / turn
        return centre[0] + reach * math.cos(angle), centre[1] + reach * math.sin(angle)

    return tuple(_placed(segment, place, centre, band.centre) for segment in cut.loop)


def _placed(segment: Segment, place: Callable[[Pair], Pair], centre: Pair, old: Pair) -> Segment:
    """A segment with its ends where they go; `centre` is where `old`, the centre of the band, goes."""
    middle = None
    if segment.centre is not None:
        middle = centre if math.dist(segment.centre, old) < 1.0 else place(segment.centre)
    return replace(segment, start=place(segment.start), end=place(segment.end), centre=middle)


def moved_pattern(feature: Made, cuts: tuple[Removed, ...], moves: Moves) -> tuple[Removed, ...]:
    """All of the features round a centre: `cuts` are those of the first, moved but for its place on the circle."""
    pattern = pattern_of(feature)
    assert pattern is not None
    centre = moves.point(cuts[0].frame, pattern.centre)
    step = moves.own(ANGLE, pattern.step, step_owner(feature.name)) / pattern.radius
    if feature.kind not in BANDS:
        cuts = tuple(_on_circle(cut, feature.name, pattern, centre, moves) for cut in cuts)
    return tuple(_turned(cut, centre, repeat * step) for repeat in range(feature.count) for cut in cuts)


def _on_circle(cut: Removed, name: str, pattern: Pattern, centre: Pair, moves: Moves) -> Removed:
    """A hole where its circle and its angle put it."""
    reach = moves.own(RADIUS, pattern.radius, pattern_owner(name))
    angle = moves.own(ANGLE, pattern.start, name) / pattern.radius
    there = (centre[0] + reach * math.cos(angle), centre[1] + reach * math.sin(angle))

    def ring(loop: Loop) -> Loop:
        return (moved_circle(loop[0], lambda _: there, lambda radius: moves.radius(radius, name)),)

    return replace(cut, loop=ring(cut.loop), bottom=None if cut.bottom is None else ring(cut.bottom))


def _turned(cut: Removed, centre: Pair, angle: float) -> Removed:
    """A cut turned in its plane."""
    cos, sin = math.cos(angle), math.sin(angle)

    def turn(point: Pair) -> Pair:
        x, y = point[0] - centre[0], point[1] - centre[1]
        return centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos

    def loop(old: Loop) -> Loop:
        ends = ((each, turn(each.start), turn(each.end)) for each in old)
        return tuple(
            replace(each, start=start, end=end, centre=None if each.centre is None else turn(each.centre))
            for each, start, end in ends
        )

    return replace(cut, loop=loop(cut.loop), bottom=None if cut.bottom is None else loop(cut.bottom))
