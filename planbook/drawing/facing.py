"""The six views of a part: which way each looks, and what lies to its right and up (ISO 5456-2)."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from planbook.drawing.curves import XY
from planbook.drawing.solid import XYZ


@dataclass(frozen=True, slots=True)
class Facing:
    """Unit directions in the part's space: `right` and `up` on paper, `eye` towards the viewer."""

    right: XYZ
    up: XYZ
    eye: XYZ
    title: str = field(compare=False)

    def flat(self, p: XYZ) -> XY:
        """A point as the view shows it: x to the right, y upwards."""
        (x, y, z), (rx, ry, rz), (ux, uy, uz) = p, self.right, self.up
        return XY(x * rx + y * ry + z * rz, x * ux + y * uy + z * uz)


_X, _Y, _Z = XYZ(1, 0, 0), XYZ(0, 1, 0), XYZ(0, 0, 1)


def _back(d: XYZ) -> XYZ:
    return XYZ(-d.x, -d.y, -d.z)


FACINGS: Final[dict[str, Facing]] = {
    "face": Facing(_X, _Y, _Z, "FACE"),
    "back": Facing(_back(_X), _Y, _back(_Z), "BACK"),
    "front_edge": Facing(_X, _Z, _back(_Y), "FRONT EDGE"),
    "rear_edge": Facing(_X, _back(_Z), _Y, "REAR EDGE"),
    "right_end": Facing(_back(_Z), _Y, _X, "RIGHT END"),
    "left_end": Facing(_Z, _Y, _back(_X), "LEFT END"),
}
"""By face name. The edge and end views are those that stand round the face view, whatever the projection method."""
