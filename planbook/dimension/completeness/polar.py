"""What turns about a centre, as a drawing office sees it: bands of a ring, and equal features round a centre.

Their angles are unknowns of their own, kept as the length of arc on the largest circle that they belong to, so that
they are told apart, and go off, in the same measure as everything else.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planbook.dimension.completeness.corners import radius_of
from planbook.dimension.completeness.record import Made, Pair, Segment

BANDS = ("arc_slot", "ring_sector", "arc_ramp")
"""Kinds of features whose loop is a piece of a ring."""


@dataclass(frozen=True, slots=True)
class Band:
    """A piece of a ring: its centre, inner and outer radius, and the lengths of arc at which it starts and ends."""

    centre: Pair
    radii: tuple[float, float]
    ends: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Pattern:
    """Equal features round a centre: the circle on which the first is found, where on it, and from one to the next."""

    centre: Pair
    radius: float
    start: float
    step: float
    whole: bool
    """Whether equal steps make a whole turn."""


def band_of(loop: tuple[Segment, ...]) -> Band:
    """The band that a loop of `BANDS` encloses: its outer arc comes first, its inner one third."""
    outer, inner = loop[0], loop[2]
    assert outer.centre is not None
    reach = radius_of(outer)
    ends = (arc_length(outer.centre, end, reach) for end in (outer.start, outer.end))
    first, last = ends
    return Band(outer.centre, (radius_of(inner), reach), (first, last))


def pattern_of(feature: Made) -> Pattern | None:
    """How a feature is repeated round a centre; None for one that is not."""
    if feature.around is None:
        return None
    first, second = (_place(feature, repeat) for repeat in (0, 1))
    radius = math.dist(feature.around, first)
    start, following = (arc_length(feature.around, place, radius) for place in (first, second))
    turn = math.tau * radius
    step = (following - start) % turn
    return Pattern(feature.around, radius, start, step, abs(step * feature.count - turn) < 1e-6 * turn)


def _place(feature: Made, repeat: int) -> Pair:
    """The centre of a hole, the corner at which a band starts: of the first of its cuts."""
    loop = feature.cuts[repeat * (len(feature.cuts) // feature.count)].loop
    hole = loop[0].centre
    return hole if len(loop) == 1 and hole is not None else loop[0].start


def arc_length(centre: Pair, point: Pair, radius: float) -> float:
    """From the first axis on, counter-clockwise."""
    turn = math.atan2(point[1] - centre[1], point[0] - centre[0])
    return (turn if turn > -1e-12 else turn + math.tau) * radius
