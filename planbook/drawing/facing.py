"""The six views of a part: which way each looks, and what lies to its right and up (ISO 5456-2)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from planbook.drawing.curves import XY
from planbook.drawing.solid import XYZ


@dataclass(frozen=True, slots=True)
class Gap:
    """A stretch of the part's length, from `low` to `high`, that views leave out; `shown` long is the gap in them."""

    low: float
    high: float
    shown: float

    @property
    def saved(self) -> float:
        """By so much the views get shorter."""
        return self.high - self.low - self.shown


@dataclass(frozen=True, slots=True)
class Facing:
    """Unit directions in the part's space: `right` and `up` on paper, `eye` towards the viewer.

    `gaps`, sorted, are left out of views in which the part's length lies in the plane.
    """

    right: XYZ
    up: XYZ
    eye: XYZ
    title: str = field(compare=False)
    gaps: tuple[Gap, ...] = ()

    def flat(self, p: XYZ) -> XY:
        """A point as the view shows it: x to the right, y upwards."""
        (x, y, z), (rx, ry, rz), (ux, uy, uz) = p, self.right, self.up
        if self.gaps:
            x = shortened(x, self.gaps)
        return XY(x * rx + y * ry + z * rz, x * ux + y * uy + z * uz)


def shortened(x: float, gaps: Sequence[Gap]) -> float:
    """A place along the part where interrupted views have it."""
    for gap in reversed(gaps):
        if x > gap.low:
            x -= gap.saved if x >= gap.high else (x - gap.low) * gap.saved / (gap.high - gap.low)
    return x


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
