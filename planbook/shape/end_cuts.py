"""Ends cut by a tilted plane: mitre on the face, bevel on the front edge."""

from __future__ import annotations

import math
from itertools import product

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board
from planbook.shape.geometry import Frame, Point, Vec
from planbook.shape.kinds import EndCutShape
from planbook.shape.leaning import STEEPEST_CUT, cross, dot, slanted_angle, unit
from planbook.shape.loops import rectangle
from planbook.shape.made import Fit, Made
from planbook.shape.model import Cut
from planbook.shape.wording import in_both, said
from planbook.source.models.part import Edge, FaceName
from planbook.source.models.slanted import EndCutModel
from planbook.source.text import Text

_CLEAR = 1e6
"""Nanometres by which the space that is cut away reaches over the wood."""


def make_end_cut(bench: Bench, board: Board, name: Text, model: EndCutModel) -> Made | None:
    """All wood beyond a plane through the long point, which is a corner of the blank's end."""
    mitre = None if model.mitre is None else slanted_angle(bench, name, model.mitre, STEEPEST_CUT)
    bevel = None if model.bevel is None else slanted_angle(bench, name, model.bevel, STEEPEST_CUT)
    if (model.mitre and mitre is None) or (model.bevel and bevel is None):
        return None
    shape = EndCutShape(model.end_cut, mitre, bevel)
    if not _long_enough(bench, board, name, shape):
        return None
    face = FaceName.LEFT_END if model.end_cut is Edge.LEFT else FaceName.RIGHT_END
    return Made(face, shape, (_cut(board.blank, shape),), Fit.SETTLED)


def _slopes(shape: EndCutShape) -> tuple[float, float]:
    """By how much the end moves along x for a step along y, and along z."""
    mitre, bevel = (
        0.0 if angle is None else math.tan(math.radians(angle.number)) for angle in (shape.mitre, shape.bevel)
    )
    return mitre, bevel


def _long_enough(bench: Bench, board: Board, name: Text, shape: EndCutShape) -> bool:
    mitre, bevel = _slopes(shape)
    taken = abs(mitre) * board.blank.y + abs(bevel) * board.blank.z
    if taken < board.blank.x - FINE:
        return True
    bench.stop(
        "feature-outside-part",
        name.place,
        f"The end cut `{name}` would take {in_both(taken)} from its short point, and {board.title} is only "
        f"{said(board.size[0])} long.",
        "Make its angles less.",
    )
    return False


def _cut(blank: Vec, shape: EndCutShape) -> Cut:
    mitre, bevel = _slopes(shape)
    left = shape.end is Edge.LEFT
    normal = unit(Vec(-1.0 if left else 1.0, mitre, bevel))
    long_point = Vec(0.0 if left else blank.x, 0.0 if mitre >= 0 else blank.y, 0.0 if bevel >= 0 else blank.z)
    v = unit(cross(normal, unit(cross(Vec(0.0, 0.0, 1.0), normal))))
    u = cross(v, normal)
    sections = list(product((0.0, blank.y), (0.0, blank.z)))
    # The wood that goes lies between the end of the blank and the plane, along its four edges.
    ends = [Vec(long_point.x, y, z) for y, z in sections]
    on_plane = [
        Vec(long_point.x + (1 if left else -1) * (mitre * (y - long_point.y) + bevel * (z - long_point.z)), y, z)
        for y, z in sections
    ]
    arms = [Vec(*(a - b for a, b in zip(corner, long_point, strict=True))) for corner in (*ends, *on_plane)]
    lift = max(dot(arm, normal) for arm in arms) + _CLEAR
    origin = Vec(*(p + n * lift for p, n in zip(long_point, normal, strict=True)))
    flat = [Point(dot(arm, u), dot(arm, v)) for arm in arms]
    low = Point(min(p.x for p in flat) - _CLEAR, min(p.y for p in flat) - _CLEAR)
    high = Point(max(p.x for p in flat) + _CLEAR, max(p.y for p in flat) + _CLEAR)
    return Cut(Frame(origin, u, v, normal), rectangle(low, high), lift, lift=lift)


def blade_tilt(mitre: Value | None, bevel: Value | None) -> float:
    """Degrees that a saw's blade is tilted for a cut with these angles: tan B = tan b cos m."""
    m, b = (0.0 if angle is None else math.radians(angle.number) for angle in (mitre, bevel))
    return math.degrees(math.atan(math.tan(b) * math.cos(m)))
