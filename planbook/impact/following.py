"""What of a smaller part comes by itself when its blank is trimmed, and what is still to be cut into the old wood."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planbook.dimension.completeness.record import Made, Shape
from planbook.impact.model import Triple

_NM: Final = 1e6
_LEAST: Final = 0.05
"""Millimetres: what is no deeper is not cut."""
_STILL: Final[Triple] = (0.0, 0.0, 0.0)


def is_trimmed(old: Shape, new: Shape) -> bool:
    """Whether the blank is smaller along an axis."""
    return any(after < before - _LEAST * _NM for before, after in zip(old.size, new.size, strict=True))


def further(name: str, old: Shape, new: Shape, shift: Triple = _STILL) -> Triple:
    """How much further a feature that both have reaches into the old wood, along each axis, in millimetres.

    The old piece is shifted first, and what is beyond the new blank is trimmed off. Boxes are compared, cut by cut.
    """
    before, after = list(boxes(old.features[name])), list(boxes(new.features[name]))
    if len(before) != len(after):
        return (float("inf"),) * 3
    reached = [_beyond(*each, new, shift) for each in zip(before, after, strict=True)]
    x, y, z = (max((each[axis] for each in reached), default=0.0) for axis in range(3))
    return (x, y, z)


def _beyond(before: list[tuple[float, float]], after: list[tuple[float, float]], new: Shape, shift: Triple) -> Triple:
    found = []
    for was, now, size, way in zip(before, after, new.size, shift, strict=True):
        old_low, old_high = (min(max(end + way * _NM, 0.0), size) for end in was)
        low, high = (min(max(end, 0.0), size) for end in now)
        most = max(old_low - low, high - old_high) / _NM
        found.append(most if most > _LEAST else 0.0)
    x, y, z = found
    return (x, y, z)


def moved_corners(old: Shape, new: Shape, shift: Triple = _STILL) -> int:
    """How many corners of the new outline are not where trimming the shifted old piece leaves one."""
    left = [tuple(_trimmed(side.start[i], old.size[i], new.size[i], shift[i]) for i in (0, 1)) for side in old.outline]
    return sum(
        all(max(abs(a - b) for a, b in zip(side.start, each, strict=True)) > _LEAST * _NM for each in left)
        for side in new.outline
    )


def _trimmed(at: float, before: float, after: float, way: float) -> float:
    """Where a station comes to lie: one on the far border stays on it."""
    return after if abs(at - before) < _LEAST * _NM else min(max(at + way * _NM, 0.0), after)


def boxes(feature: Made) -> Iterator[list[tuple[float, float]]]:
    """Of each of its cuts the box, low and high along each axis, in nanometres."""
    for cut in feature.cuts:
        points = [
            cut.frame.place(point, depth)
            for side in cut.loop
            for point in _reached(side.start, side.end, side.centre)
            for depth in (0.0, cut.depth)
        ]
        yield [(min(values), max(values)) for values in zip(*points, strict=True)]


def _reached(
    start: tuple[float, float], end: tuple[float, float], centre: tuple[float, float] | None
) -> tuple[tuple[float, float], ...]:
    """The ends of a side; of an arc the square about its whole circle, which is never too small."""
    if centre is None:
        return start, end
    radius = ((start[0] - centre[0]) ** 2 + (start[1] - centre[1]) ** 2) ** 0.5
    return (centre[0] - radius, centre[1] - radius), (centre[0] + radius, centre[1] + radius)
