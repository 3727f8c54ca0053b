"""Where the assembly is looked at from: six sides, and the corners of isometric views.

World axes: x to the right, y to the back, z up.
"""

from __future__ import annotations

import math
from typing import Final

from planbook.drawing.facing import Facing
from planbook.drawing.solid import XYZ
from planbook.source.models.figures import Corner

SIDES: Final[dict[str, Facing]] = {
    "front": Facing(XYZ(1, 0, 0), XYZ(0, 0, 1), XYZ(0, -1, 0), "FRONT"),
    "rear": Facing(XYZ(-1, 0, 0), XYZ(0, 0, 1), XYZ(0, 1, 0), "REAR"),
    "left": Facing(XYZ(0, -1, 0), XYZ(0, 0, 1), XYZ(-1, 0, 0), "LEFT"),
    "right": Facing(XYZ(0, 1, 0), XYZ(0, 0, 1), XYZ(1, 0, 0), "RIGHT"),
    "top": Facing(XYZ(1, 0, 0), XYZ(0, 1, 0), XYZ(0, 0, 1), "TOP"),
    "below": Facing(XYZ(1, 0, 0), XYZ(0, -1, 0), XYZ(0, 0, -1), "BELOW"),
}

NATURAL: Final = math.sqrt(3 / 2)
"""Projected truly, lengths along the three axes are shortened by sqrt(2/3); ISO 5456-3 draws them true to the scale."""


_TOWARDS: Final[dict[Corner, tuple[int, int, int]]] = {
    Corner.FRONT_LEFT: (-1, -1, 1),
    Corner.FRONT_RIGHT: (1, -1, 1),
    Corner.REAR_LEFT: (-1, 1, 1),
    Corner.REAR_RIGHT: (1, 1, 1),
    Corner.FRONT_LEFT_BELOW: (-1, -1, -1),
    Corner.FRONT_RIGHT_BELOW: (1, -1, -1),
    Corner.REAR_LEFT_BELOW: (-1, 1, -1),
    Corner.REAR_RIGHT_BELOW: (1, 1, -1),
}


def isometric(corner: Corner) -> Facing:
    """From a corner along the cube's diagonal: z upright, x and y at 30 degrees (ISO 5456-3)."""
    x, y, z = _TOWARDS[corner]
    eye = XYZ(*(c / math.sqrt(3) for c in (x, y, z)))
    right = XYZ(-y / math.sqrt(2), x / math.sqrt(2), 0.0)
    up = XYZ(*(c / math.sqrt(6) for c in (-x * z, -y * z, 2)))
    return Facing(right, up, eye, "ISOMETRIC")
