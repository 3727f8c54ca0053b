"""The six faces of a blank: their frames and which axes of the part they show.

Positions on a face always follow the part's own axes from the datum corner, so a face's (u, v, normal) need not be
right-handed. The table is in docs/shapes.md.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbook.shape.geometry import Frame, Point, Vec
from planbook.source.models.part import FaceName

AXIS_NAMES = ("x", "y", "z")
SIZE_NAMES = ("length", "width", "thickness")
"""What the blank's size along each axis is called."""
UNITS = (Vec(1.0, 0.0, 0.0), Vec(0.0, 1.0, 0.0), Vec(0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True)
class FaceAxes:
    """The part's axes (0, 1, 2 for x, y, z) along a face and square to it; `far` when it lies away from the datum."""

    u: int
    v: int
    normal: int
    far: bool

    @property
    def names(self) -> tuple[str, str]:
        """The letters of the face's own two axes."""
        return AXIS_NAMES[self.u], AXIS_NAMES[self.v]


FACES: dict[FaceName, FaceAxes] = {
    FaceName.FACE: FaceAxes(0, 1, 2, far=True),
    FaceName.BACK: FaceAxes(0, 1, 2, far=False),
    FaceName.LEFT_END: FaceAxes(1, 2, 0, far=False),
    FaceName.RIGHT_END: FaceAxes(1, 2, 0, far=True),
    FaceName.FRONT_EDGE: FaceAxes(0, 2, 1, far=False),
    FaceName.REAR_EDGE: FaceAxes(0, 2, 1, far=True),
}
FLAT = (FaceName.FACE, FaceName.BACK)
"""The two faces that show the outline."""


def frame_of(face: FaceName, blank: Vec) -> Frame:
    """The plane of a face; depth goes from it into the wood."""
    axes = FACES[face]
    normal = UNITS[axes.normal]
    if axes.far:
        origin = Vec(*(n * size for n, size in zip(normal, blank, strict=True)))
        return Frame(origin, UNITS[axes.u], UNITS[axes.v], normal)
    return Frame(Vec(0.0, 0.0, 0.0), UNITS[axes.u], UNITS[axes.v], Vec(-normal.x, -normal.y, -normal.z))


def extent(face: FaceName, blank: Vec) -> Point:
    """The size of the blank along the face's two axes."""
    axes = FACES[face]
    return Point(blank[axes.u], blank[axes.v])


def stock_depth(face: FaceName, blank: Vec) -> float:
    """How much wood lies behind a face: the blank's extent along its normal."""
    return blank[FACES[face].normal]
