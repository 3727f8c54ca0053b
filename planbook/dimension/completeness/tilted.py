"""Cuts in tilted planes: a leaning hole and an end cut. Their angles are unknowns of their own.

Angles are in degrees, as tangents along the axes show them: "lean x" is how far an axis, or the normal of a cut, is
tilted along x. What stands square along an axis is drawn square there, and needs no word.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from planbook.dimension.completeness.record import Removed, Triple

_SQUARE = 1e-6
"""Degrees."""
LEANS = {
    "lean_x": "lean x",
    "lean_y": "lean y",
    "lean_z": "lean z",
    "mitre": "lean y",
    "bevel": "lean z",
}
"""The unknown that each characteristic of a tilted cut tells."""


def is_tilted(cut: Removed) -> bool:
    """Whether its plane is square to no axis."""
    return bool(cut.lift)


def is_bored(cut: Removed) -> bool:
    """Whether it is a hole; else it is a plane that cuts an end."""
    return len(cut.loop) == 1 and cut.loop[0].centre is not None


def leans(cut: Removed) -> Iterator[tuple[str, float]]:
    """The angles that are not square: (kind of the unknown, degrees without sign)."""
    normal = cut.frame.normal
    # An end cut is measured from square to the part's length, however steep it is.
    main = max(range(3), key=lambda axis: abs(normal[axis])) if is_bored(cut) else 0
    for axis in range(3):
        angle = math.degrees(math.atan2(abs(normal[axis]), abs(normal[main])))
        if axis != main and angle > _SQUARE:
            yield f"lean {'xyz'[axis]}", angle


def mouth(cut: Removed) -> tuple[Triple, int]:
    """Where the axis of a leaning hole enters its face, and the axis that the face is square to."""
    centre = cut.loop[0].centre
    assert centre is not None
    normal = cut.frame.normal
    return cut.frame.place(centre, cut.lift), max(range(3), key=lambda axis: abs(normal[axis]))


def is_blind(cut: Removed, size: Triple) -> bool:
    """Whether the middle of a leaning hole's bottom still lies in the wood."""
    centre = cut.loop[0].centre
    assert centre is not None
    _, axis = mouth(cut)
    return 0.0 < cut.frame.place(centre, cut.depth)[axis] < size[axis]
