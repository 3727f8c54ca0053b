"""Holes whose axis leans: two angles, the resultant of them, and the frame that the hole is cut in.

A hole that leans by a along u and by b along v runs along (tan a, tan b, 1). It is off square by the resultant R with
tan^2 R = tan^2 a + tan^2 b, and seen from over the face it runs along the sight line, whose direction is atan2(tan b,
tan a): the compound angle of chairmakers' handbooks, and plain trigonometry.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board
from planbook.shape.faces import FACES, frame_of, stock_depth
from planbook.shape.geometry import Frame, Line, Loop, Point, Vec
from planbook.shape.kinds import HoleShape, Lean
from planbook.shape.loops import circle
from planbook.shape.made import Fit, Made
from planbook.shape.model import Cut
from planbook.shape.wording import like, said
from planbook.source.models.part import FaceName
from planbook.source.models.slanted import LeanModel
from planbook.source.text import Formula, Text


def make_leaning_hole(bench: Bench, board: Board, name: Text, face: FaceName, shape: HoleShape) -> Made | None:
    """A hole whose axis leans; its depth is measured along its axis, from where that enters the face."""
    at, radius, tilt = Point(shape.at[0].number, shape.at[1].number), shape.diameter.number / 2, tilt_of(shape.lean)
    stock = stock_depth(face, board.blank)
    frame, lift = leaning_frame(face, board.blank, at, tilt, radius)
    if shape.depth is None:
        depth, end = beyond(tilt, radius, stock), print_of(at, tilt, radius, stock / tilt.cosine)
    else:
        if not _stays_in(bench, board, name, shape.depth, stock, tilt, radius):
            return None
        depth, end = shape.depth.number, print_of(at, tilt, radius, shape.depth.number, square=True)
    cut = Cut(frame, circle(Point(0.0, 0.0), radius), lift + depth, lift=lift)
    return Made(face, shape, (cut,), Fit.INSIDE, shape.at, (print_of(at, tilt, radius, 0.0), end))


def _stays_in(bench: Bench, board: Board, name: Text, depth: Value, stock: float, tilt: Tilt, radius: float) -> bool:
    """Whether the lowest point of the bottom's rim still lies in the wood."""
    most = (stock - radius * tilt.sine) / tilt.cosine
    if depth.number < most - FINE:
        return True
    bench.stop(
        "feature-too-deep",
        depth.place,
        f"The leaning hole `{name}` is {said(depth)} deep along its axis, and the rim of its bottom comes out of "
        f"{board.title}.",
        f"Make it less than {like(depth, most)} deep, or leave `depth` out if it should go through.",
    )
    return False


STEEPEST_HOLE = 44.0
STEEPEST_CUT = 75.0
"""Degrees: from there on a hole is rather one of another face, and an end cut runs along the part."""
_CLEAR = 1e6
"""Nanometres by which a tilted cut starts over the wood."""
_CORNERS = 96
"""Of the polygon that stands for the print of a leaning hole in checks."""


@dataclass(frozen=True, slots=True)
class Tilt:
    """How a leaning axis runs: the tangents of its two angles along the face's axes."""

    u: float
    v: float

    @property
    def off(self) -> float:
        """The tangent of the resultant."""
        return math.hypot(self.u, self.v)

    @property
    def cosine(self) -> float:
        """Of the resultant."""
        return 1 / math.hypot(1.0, self.off)

    @property
    def sine(self) -> float:
        """Of the resultant."""
        return self.off * self.cosine


def tilt_of(lean: Lean) -> Tilt:
    """The tangents of the two angles."""
    u, v = (0.0 if angle is None else math.tan(math.radians(angle.number)) for angle in lean)
    return Tilt(u, v)


def solve_lean(bench: Bench, name: Text, face: FaceName, model: LeanModel) -> Lean | None:
    """The two angles along the face's axes; None after a finding."""
    names, lean = FACES[face].names, model.named
    strange = next((axis for axis in lean if axis not in names), None)
    if strange is not None:
        bench.stop(
            "axis-not-on-face",
            lean[strange].place,
            f"`{name}` leans along {strange}, which does not lie in the {face.value.replace('_', ' ')}.",
            f"Let it lean along {names[0]} or {names[1]}, or bore it in another face.",
        )
        return None
    solved = [(axis, slanted_angle(bench, name, lean[axis], STEEPEST_HOLE)) for axis in lean]
    angles = {axis: angle for axis, angle in solved if angle is not None}
    if len(angles) < len(lean):
        return None
    return angles.get(names[0]), angles.get(names[1])


def slanted_angle(bench: Bench, name: Text, formula: Formula, most: float) -> Value | None:
    """An angle from square that is not too steep; None after a finding."""
    angle = bench.angle(formula)
    if angle is None or abs(angle.number) <= most:
        return angle
    bench.stop(
        "too-steep",
        angle.place,
        f"`{name}` is {angle.number:g} deg from square.",
        f"Keep the angle between -{most:g} and {most:g} deg, or make the cut from another face.",
    )
    return None


def leaning_frame(face: FaceName, blank: Vec, at: Point, tilt: Tilt, radius: float) -> tuple[Frame, float]:
    """The frame of a hole of this radius that enters at a point of a face, its origin on the axis; and by how much it
    stands over the face, along the axis, so that the whole mouth is cut."""
    base = frame_of(face, blank)
    into = Vec(
        *(c * tilt.cosine for c in _sum(_times(base.u, tilt.u), _times(base.v, tilt.v), _times(base.normal, -1)))
    )
    normal = _times(into, -1)
    u = unit(_sum(base.u, _times(normal, -dot(base.u, normal))))
    v = cross(normal, u)
    if dot(cross(base.u, base.v), base.normal) < 0:
        v = _times(v, -1)
    lift = radius * tilt.off + _CLEAR
    return Frame(_sum(base.place(at), _times(normal, lift)), u, v, normal), lift


def beyond(tilt: Tilt, radius: float, stock: float) -> float:
    """How deep along its axis a leaning hole must go to leave the stock wholly."""
    return stock / tilt.cosine + radius * tilt.off + _CLEAR


def print_of(at: Point, tilt: Tilt, radius: float, along: float, *, square: bool = False) -> Loop:
    """What a leaning hole takes at a depth `along` its axis, seen from over its face.

    It is an ellipse: longer along the sight line where a level plane cuts it, shorter where its own flat bottom
    (`square`) is seen aslant.
    """
    way = math.atan2(tilt.v, tilt.u)
    longer = radius * tilt.cosine if square else radius / tilt.cosine
    centre = Point(at.x + tilt.u * tilt.cosine * along, at.y + tilt.v * tilt.cosine * along)
    corners = []
    for k in range(_CORNERS):
        a, b = longer * math.cos(k * math.tau / _CORNERS), radius * math.sin(k * math.tau / _CORNERS)
        x, y = a * math.cos(way) - b * math.sin(way), a * math.sin(way) + b * math.cos(way)
        corners.append(Point(centre.x + x, centre.y + y))
    return Loop(tuple(Line(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)))


def dot(a: Vec, b: Vec) -> float:
    """Scalar product."""
    return a.x * b.x + a.y * b.y + a.z * b.z


def cross(a: Vec, b: Vec) -> Vec:
    """Square to both, by the right hand."""
    return Vec(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x)


def unit(a: Vec) -> Vec:
    """The direction of a vector that is not nothing."""
    return _times(a, 1 / math.sqrt(dot(a, a)))


def _times(a: Vec, factor: float) -> Vec:
    return Vec(a.x * factor, a.y * factor, a.z * factor)


def _sum(*several: Vec) -> Vec:
    return Vec(*(sum(each) for each in zip(*several, strict=True)))
